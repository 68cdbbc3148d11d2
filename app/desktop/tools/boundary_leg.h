#pragma once

#include <QString>

#include "geometry/boundary_path.h"
#include "model/position.h"
#include "units/length.h"

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A line of a fence as drawn, or of a feature of a reference layer at full precision, that passes a place.
struct NearBoundary {
    std::shared_ptr<const model::LineString> corners;
    bool closed = true;
    QString name; ///< whose: "Parcel 17"
};
using BoundariesAt = std::function<std::vector<NearBoundary>(const model::Position&, Length)>;

/// How the next leg of a line being drawn goes along a boundary that is there already: it follows it on request, and
/// takes over the corners of one that it runs along anyway.
class BoundaryLeg {
public:
    /// The leg begins there, and goes straight. @param boundariesAt  empty: there are none.
    void beginAt(const model::Position& from, const BoundariesAt& boundariesAt);
    void forget() { *this = {}; }

    /// Whether it begins on a boundary.
    bool stands() const { return !m_lines.empty(); }
    /// That boundary; the uppermost of several.
    QString standsOn() const { return stands() ? m_lines.front().boundary.name : QString{}; }

    bool follows() const { return m_way != Way::Straight; }
    /// Straight, the shorter way along, the other way round, and straight again.
    /// @throws Fault  it begins on no boundary.
    void turn();
    void goStraight() { m_way = Way::Straight; }

    /// Along what it goes.
    struct Followed {
        std::size_t line = 0; ///< of those it may follow
        geometry::Sense sense = geometry::Sense::Forward;
        QString name;
        Length length;
    };
    struct Course {
        model::LineString between; ///< corners on the way, to be set too
        model::Position end;
        std::optional<Followed> followed;
        std::optional<QString> offer; ///< whose boundary has corners between which a straight leg leaves aside
    };
    /// To the place on the boundary that is nearest to the wanted one; where it does not follow, to the wanted one.
    Course to(const model::Position& wanted);
    /// To the wanted place without following: with the corners of a boundary that it runs along anyway.
    Course straightTo(const model::Position& wanted) const;
    /// That far along the boundary of the course, in its sense.
    /// @throws Fault  the boundary is not that long. @pre  the course follows one.
    Course along(const Course& course, Length length);

private:
    enum class Way { Straight, Shorter, Other };
    struct Line {
        NearBoundary boundary;
        geometry::BoundaryPlace from;
        std::shared_ptr<const geometry::MeasuredBoundary> measured; ///< once it was asked for

        geometry::BoundaryLine line() const { return {*boundary.corners, boundary.closed}; }
    };
    const geometry::MeasuredBoundary& measured(Line& line);
    Course coursed(std::size_t number, const geometry::BoundaryPlace& at, const model::Position& end,
                   geometry::Sense sense);

    model::Position m_from;
    std::vector<Line> m_lines;
    Way m_way = Way::Straight;
};

} // namespace fencewright::desktop
