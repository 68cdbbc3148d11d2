#pragma once

#include <QString>

#include "geometry/boundary_path.h"
#include "model/fence.h"
#include "model/position.h"
#include "units/length.h"

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A line that passes a place: of a fence as drawn or its outline, or of a feature of a reference layer at full
/// precision.
struct NearBoundary {
    std::shared_ptr<const model::LineString> corners;
    bool closed = true;
    QString name;              ///< whose: "Parcel 17"
    model::FenceId fence = {}; ///< empty: no fence's

    geometry::BoundaryLine line() const { return {*corners, closed}; }
};
/// The lines within reach of a place. May be kept as long as the map is there.
using BoundariesAt = std::function<std::vector<NearBoundary>(const model::Position&, Length)>;

/// A line on which a place lies, and where.
struct Standing {
    NearBoundary boundary;
    geometry::BoundaryPlace at;
};
/// @param boundariesAt  empty: there are none.
std::vector<Standing> standingAt(const model::Position& place, const BoundariesAt& boundariesAt);

/// A leg whose corners' neighbours stray from it by less is meant to run along them.
inline constexpr Length kRunsAlong = Length::metres(0.01);

// What is drawn between two places on boundaries and runs along them anyway takes over their corners, so that no sliver
// is left between. Side: as geometry::conformedTo().

/// The corners between two places of boundaries that touch one another, where all of them lie within kRunsAlong of the
/// straight leg; of one boundary, too. Nothing: it does not run along them.
/// @param from  with the lines on which it stands.
std::optional<model::LineString> cornersAlong(const model::Position& from, const std::vector<Standing>& fromOn,
                                              const model::Position& to, const BoundariesAt& boundariesAt);
/// The ring with the corners of boundaries along which its edges run.
model::LineString conformedRing(const model::LineString& ring, const BoundariesAt& boundariesAt);

} // namespace fencewright::desktop
