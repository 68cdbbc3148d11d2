#include "desktop/tools/boundary_leg.h"

#include "fault.h"
#include "units/measure_notation.h"

namespace fencewright::desktop {
namespace {

/// A leg whose corners' neighbours stray from it by less is meant to run along them.
constexpr Length kRunsAlong = Length::metres(0.01);
/// Nearer, a place is where it was drawn to, to the last bit.
constexpr Length kSame = Length::metres(1e-6);

} // namespace

void BoundaryLeg::beginAt(const model::Position& from, const BoundariesAt& boundariesAt) {
    forget();
    m_from = from;
    if (!boundariesAt)
        return;
    for (NearBoundary& boundary : boundariesAt(from, geometry::kStandsOn)) {
        Line line{std::move(boundary), {}, {}};
        const geometry::BoundaryLine only[]{line.line()};
        const auto found = geometry::nearestOn(only, from);
        if (!found || found->distance > geometry::kStandsOn)
            continue;
        line.from = found->at;
        m_lines.push_back(std::move(line));
    }
}

void BoundaryLeg::turn() {
    if (!stands())
        throw Fault{phrase("core", "The last place lies on no boundary that could be followed."), "",
                    phrase("core", "Set a place on an edge of a fence or parcel, then press W.")};
    m_way = m_way == Way::Straight ? Way::Shorter : m_way == Way::Shorter ? Way::Other : Way::Straight;
}

const geometry::MeasuredBoundary& BoundaryLeg::measured(Line& line) {
    if (!line.measured)
        line.measured = std::make_shared<const geometry::MeasuredBoundary>(line.line());
    return *line.measured;
}

BoundaryLeg::Course BoundaryLeg::coursed(std::size_t number, const geometry::BoundaryPlace& at,
                                         const model::Position& end, geometry::Sense sense) {
    Line& line = m_lines[number];
    Course course{geometry::pathAlong(line.line(), line.from, at, sense), end, {}, {}};
    course.followed = Followed{number, sense, line.boundary.name, measured(line).between(line.from, at, sense)};
    return course;
}

BoundaryLeg::Course BoundaryLeg::to(const model::Position& wanted) {
    if (follows()) {
        std::vector<geometry::BoundaryLine> lines;
        for (const Line& line : m_lines)
            lines.push_back(line.line());
        if (const auto found = geometry::nearestOn(lines, wanted)) {
            Line& line = m_lines[found->at.line];
            geometry::BoundaryPlace at = found->at;
            at.line = 0;
            geometry::Sense sense = measured(line).shorterSense(line.from, at);
            if (m_way == Way::Other && line.boundary.closed)
                sense = geometry::opposite(sense);
            return coursed(found->at.line, at, found->distance <= kSame ? wanted : found->place, sense);
        }
    }
    return straightTo(wanted);
}

BoundaryLeg::Course BoundaryLeg::straightTo(const model::Position& wanted) const {
    Course course{{}, wanted, {}, {}};
    for (const Line& line : m_lines) {
        const geometry::BoundaryLine only[]{line.line()};
        const auto found = geometry::nearestOn(only, wanted);
        if (!found || found->distance > geometry::kStandsOn)
            continue;
        if (auto corners = geometry::conformedTo(line.line(), m_from, line.from, wanted, found->at, kRunsAlong)) {
            course.between = std::move(*corners);
            course.offer.reset();
            return course;
        }
        if (!course.offer)
            course.offer = line.boundary.name;
    }
    return course;
}

BoundaryLeg::Course BoundaryLeg::along(const Course& course, Length length) {
    Line& line = m_lines[course.followed->line];
    const auto at = measured(line).after(line.from, length, course.followed->sense);
    if (!at)
        throw Fault{phrase("core", "The boundary is not that long."), "",
                    phrase("core", "Type a shorter length, or press W for the other way round.")};
    return coursed(course.followed->line, *at, geometry::placeOn(line.line(), *at), course.followed->sense);
}

} // namespace fencewright::desktop
