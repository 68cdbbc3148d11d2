#pragma once

#include "model/basis.h"
#include "model/fence.h"
#include "model/height_band.h"
#include "model/home.h"
#include "model/source.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace fencewright::model {

/// The words by which files name a choice of the model, in the order of its enumeration.
template <class Choice> struct Words;
template <> struct Words<FenceKind> { static constexpr std::array<std::string_view, 2> all{"keep-in", "keep-out"}; };
template <> struct Words<HomeKind> { static constexpr std::array<std::string_view, 2> all{"home", "alternate"}; };
template <> struct Words<SourceKind> { static constexpr std::array<std::string_view, 2> all{"imagery", "reference"}; };
template <> struct Words<HeightReference> {
    static constexpr std::array<std::string_view, 3> all{"ground", "mean sea level", "ellipsoid"};
};
template <> struct Words<BasisKind> {
    static constexpr std::array<std::string_view, 6> all{"none",      "permit",    "lease",
                                                         "guideline", "agreement", "judgement"};
};

template <class Choice> [[nodiscard]] constexpr std::string_view word(Choice choice) {
    return Words<Choice>::all[static_cast<std::size_t>(choice)];
}

/// Nothing where the word names no such choice.
template <class Choice> [[nodiscard]] constexpr std::optional<Choice> choiceOf(std::string_view word) {
    for (std::size_t i = 0; i < Words<Choice>::all.size(); ++i)
        if (Words<Choice>::all[i] == word)
            return static_cast<Choice>(i);
    return std::nullopt;
}

} // namespace fencewright::model
