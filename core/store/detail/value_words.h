#pragma once

#include <array>
#include <string_view>

// The words by which a document names the choices of the model. Their order is that of the enumerations.
namespace fencewright::store {

inline constexpr std::array<std::string_view, 2> kFenceKinds{"keep-in", "keep-out"};
inline constexpr std::array<std::string_view, 2> kHomeKinds{"home", "alternate"};
inline constexpr std::array<std::string_view, 2> kSourceKinds{"imagery", "reference"};
inline constexpr std::array<std::string_view, 3> kReferences{"ground", "mean-sea-level", "ellipsoid"};
inline constexpr std::array<std::string_view, 6> kBasisKinds{"none",      "permit",    "lease",
                                                             "guideline", "agreement", "judgement"};

} // namespace fencewright::store
