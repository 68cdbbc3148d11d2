#pragma once

#include "compare/permits_more.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::exchange {

// Reading our own files again, to prove them. This shares no code with the writers and believes nothing of theirs: a
// fault in a writer must show here. Foreign files are for vector_reader.h.

/// A surface as a three-dimensional drawing shows it.
struct HeldDrawing {
    enum class Mode { OnGround, AboveGround, AboveMeanSeaLevel };
    Mode mode = Mode::OnGround;
    bool extruded = false;
    double lowestMetres = 0.0; ///< of the corners' altitudes
    double highestMetres = 0.0;
};

struct ReadBack {
    std::vector<compare::HeldFence> fences;
    std::vector<HeldDrawing> drawings; ///< one a fence, in the same order
    std::size_t corners = 0;           ///< of the fences, without repeated last ones
};

/// The fences of a GeoJSON text by RFC 7946; sites and homes are passed over.
/// @throws Fault  it breaks the RFC, or a fence lacks what a reader needs: says which feature.
[[nodiscard]] ReadBack readBackGeoJson(std::string_view text);

/// The fences of a KML 2.2 text likewise.
[[nodiscard]] ReadBack readBackKml(std::string_view text);

} // namespace fencewright::exchange
