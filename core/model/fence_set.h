#pragma once

#include "model/fence.h"
#include "model/home.h"
#include "model/margin.h"
#include "model/roster.h"
#include "model/site.h"
#include "model/source.h"

#include <optional>
#include <string>

namespace fencewright::model {

/// All fences of one operation, with sites, homes, and the sources it was drawn over. A document holds one.
struct FenceSet {
    std::string title;
    std::string notes;
    Roster<Fence> fences;
    Roster<Site> sites;
    Roster<Home> homes;
    Roster<Source> sources;       ///< in drawing order, the first at the bottom
    std::optional<Margin> margin; ///< nothing: nobody has stated one

    bool operator==(const FenceSet&) const = default;
};

} // namespace fencewright::model
