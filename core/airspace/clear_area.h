#pragma once

#include "airspace/operating_area.h"
#include "units/length.h"

#include <cstdint>
#include <map>
#include <vector>

namespace fencewright::airspace {

/// What the margin leaves of the operating area: the places from which all within `margin` is in it.
///
/// Keep-ins that touch are one: no margin is taken where they meet. A gap between them, however narrow, is a boundary.
/// Side: `shrinks`. No place of it is nearer than `margin` to one outside the operating area, and every place farther
/// than 1.0025 `margin` + 1 cm from all of those belongs to it. A margin of zero takes off nothing.
/// @throws Fault  as geometry::grown(), eroded(), united() and difference(): the distance cannot be kept there.
[[nodiscard]] geometry::KeptDifference::Result clearArea(const model::FenceSet& set, const Outlines& outlines,
                                                         Length margin, const Moment& moment,
                                                         const geodesy::GroundHeight& ground);

/// The same for a set that changes little from one question to the next. The margin is taken off the keep-ins as a
/// whole, and added to each keep-out by itself: so a keep-out that changes costs its own growing, and what lies around
/// it. To the last bit what clearArea() answers.
class KeptClearArea {
public:
    /// @throws Fault      as clearArea(); what was worked out until then is kept.
    /// @throws Cancelled  likewise.
    [[nodiscard]] geometry::KeptDifference::Result area(const model::FenceSet& set, const Outlines& outlines,
                                                        const KeptOperatingArea::OutlineNumber& number, Length margin,
                                                        const Moment& moment, const geodesy::GroundHeight& ground,
                                                        const Progress& progress = {});

private:
    /// A surface with the margin added or taken off.
    struct Moved {
        model::MultiPolygon surface;
        std::uint64_t number = 0;
    };
    struct Inner {
        model::Polygon whole; ///< a part of the union of keep-ins
        Moved moved;
    };
    struct Outer {
        std::uint64_t outline = 0;
        Moved moved;
        std::uint64_t asked = 0; ///< by which question, last
    };

    void takeOffKeepIns(const model::MultiPolygon& permitted, const Progress& progress);

    Length m_margin;
    geometry::KeptDifference m_union; ///< of the keep-ins
    std::vector<Inner> m_inner;
    std::map<model::FenceId, Outer> m_outer;
    geometry::KeptDifference m_difference;
    std::uint64_t m_lastNumber = 0;
    std::uint64_t m_questions = 0;
};

} // namespace fencewright::airspace
