#pragma once

#include <QString>

#include "desktop/tools/running_along.h"
#include "geometry/boundary_net.h"

#include <memory>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// How the next leg of a line being drawn goes along boundaries that are there already: it follows one on request, and
/// from there the others that touch it; and it takes over the corners of those that it runs along anyway.
class BoundaryLeg {
public:
    /// The leg begins there, and goes straight. @param boundariesAt  empty: there are none.
    void beginAt(const model::Position& from, const BoundariesAt& boundariesAt);
    void forget() { *this = {}; }

    /// Whether it begins on a boundary.
    bool stands() const { return !m_lines.empty(); }
    /// That boundary; the uppermost of several.
    QString standsOn() const { return stands() ? m_lines.front().on.boundary.name : QString{}; }

    bool follows() const { return m_way != Way::Straight; }
    /// Straight, the shorter way along, the other way round, and straight again.
    /// @throws Fault  it begins on no boundary.
    void turn();
    void goStraight() { m_way = Way::Straight; }

    /// Boundaries around, and where they touch.
    struct Net {
        std::vector<NearBoundary> boundaries;
        geometry::BoundaryNet lines;
        Length reach; ///< of what is in it
    };
    /// Along what it goes.
    struct Followed {
        QString name; ///< "Parcel 17", "Parcel 17 and Parcel 18"
        Length length;
        std::size_t line = 0; ///< of those on which it begins
        geometry::Sense sense = geometry::Sense::Forward;
        std::shared_ptr<const Net> net; ///< set: along several, by `way`
        geometry::BoundaryNet::Way way;
    };
    struct Course {
        model::LineString between; ///< corners on the way, to be set too
        model::Position end;
        std::optional<Followed> followed;
        std::optional<QString> offer; ///< whose boundary has corners between which a straight leg leaves aside
    };
    /// To the wanted place where it lies on the boundary on which the leg begins, or on one to which the boundaries in
    /// between lead; else to the place nearest to it on the first. Where it does not follow, straight to the wanted
    /// one.
    Course to(const model::Position& wanted);
    /// To the wanted place without following: with the corners of boundaries that it runs along anyway.
    Course straightTo(const model::Position& wanted) const;
    /// That far along the boundaries of the course, and on along the last.
    /// @throws Fault  the boundary is not that long. @pre  the course follows one.
    Course along(const Course& course, Length length);

private:
    enum class Way { Straight, Shorter, Other };
    struct Line {
        Standing on;
        std::shared_ptr<const geometry::MeasuredBoundary> measured; ///< once it was asked for
    };
    const geometry::MeasuredBoundary& measured(Line& line);
    std::shared_ptr<const Net> netUpTo(const model::Position& wanted);
    std::optional<Course> across(const model::Position& wanted);
    Course coursed(std::size_t number, const geometry::BoundaryPlace& at, const model::Position& end,
                   geometry::Sense sense);
    static Course coursed(std::shared_ptr<const Net> net, geometry::BoundaryNet::Way way, const model::Position& end);

    model::Position m_from;
    BoundariesAt m_boundariesAt;
    std::vector<Line> m_lines;
    std::shared_ptr<const Net> m_net; ///< the last that was asked for
    Way m_way = Way::Straight;
};

} // namespace fencewright::desktop
