#pragma once

#include "progress.h"
#include "raster/dataset.h"
#include "wording.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::raster {

/// What can be offered to a person who wants a raster shown in another way.
struct AppearanceProposal {
    struct Band {
        Wording name;      ///< what it is for: "Red", "Near infrared"; "Band 5" where nothing says it
        bool shown = true; ///< false: it says what is transparent
        /// Of a coarse view, without what stands for nothing.
        double darkest = 0, lightest = 255;
        double low = 0, high = 255; ///< the 2nd and the 98th percentile: a stretch that serves
    };
    std::vector<Band> bands;
    std::array<int, 3> usual{1, 1, 1}; ///< shown as red, green and blue where nothing is chosen; from 1
    std::optional<int> infrared;       ///< the number of the band that is near infrared
    /// It says so itself; else it is the fourth of an aerial picture whose first three are red, green and blue, which
    /// by habit is infrared.
    bool infraredIsNamed = false;
    /// Infrared, red and green as red, green and blue: growing plants are red.
    std::optional<std::array<int, 3>> falseColour;
    bool palette = false; ///< its values are names of colours: no bands to choose, nothing to stretch
};

/// @throws Fault, Cancelled  as Dataset::read.
[[nodiscard]] AppearanceProposal proposeAppearance(const Dataset& dataset, const Progress& progress = {});

} // namespace fencewright::raster
