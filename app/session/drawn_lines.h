#pragma once

#include "model/shape.h"

#include <variant>

namespace fencewright::session {

/// Calls `visit(corners, closed)` for each line of a shape that a person has drawn or picked: shell and holes of a
/// polygon, the line of a corridor, the rings of parcels part by part.
template <class Visit> void forEachDrawnLine(const model::Shape& shape, Visit visit) {
    const auto polygon = [&](const model::Polygon& one) {
        visit(one.shell.corners, true);
        for (const model::Ring& hole : one.holes)
            visit(hole.corners, true);
    };
    if (const auto* drawn = std::get_if<model::DrawnPolygon>(&shape))
        polygon(drawn->polygon);
    else if (const auto* corridor = std::get_if<model::Corridor>(&shape))
        visit(corridor->line, false);
    else if (const auto* parcels = std::get_if<model::ParcelUnion>(&shape))
        for (const model::Parcel& parcel : parcels->parcels)
            for (const model::Polygon& part : parcel.surface.parts)
                polygon(part);
}

} // namespace fencewright::session
