#include "desktop/tools/running_along.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/new_thing.h"

#include <cmath>
#include <utility>

namespace fencewright::desktop {
namespace {

using geometry::Sense;

/// A leg passes so many boundaries at most before nobody means to run along all of them.
constexpr int kMostBoundaries = 200;

/// A straight leg in the plane around its begin.
class StraightLeg {
public:
    StraightLeg(const model::Position& from, const model::Position& to) : m_plane{from}, m_end{m_plane.toPlane(to)} {}

    double length() const { return std::hypot(m_end.x(), m_end.y()); }
    double along(const model::Position& place) const {
        return QPointF::dotProduct(m_plane.toPlane(place), m_end) / length();
    }
    double off(const model::Position& place) const {
        const QPointF at = m_plane.toPlane(place);
        return std::abs(at.x() * m_end.y() - at.y() * m_end.x()) / length();
    }

private:
    NearPlane m_plane;
    QPointF m_end;
};

/// The corners that come one after another as long as they lie along the leg, beyond what is reached.
model::LineString runOf(const Standing& standing, Sense sense, const StraightLeg& leg, double reached) {
    const model::LineString& corners = *standing.boundary.corners;
    const auto count = std::ptrdiff_t(corners.size());
    const bool closed = standing.boundary.closed;
    model::LineString run;
    std::ptrdiff_t corner = std::ptrdiff_t(standing.at.edge);
    if (sense == Sense::Forward)
        ++corner;
    else if (standing.at.along <= 0.0)
        --corner;
    for (std::ptrdiff_t i = 0; i < count; ++i, corner += sense == Sense::Forward ? 1 : -1) {
        if (!closed && (corner < 0 || corner >= count))
            break;
        const model::Position& place = corners[std::size_t((corner + count) % count)];
        const double along = leg.along(place);
        if (leg.off(place) > kRunsAlong.inMetres() || along <= reached || along >= leg.length())
            break;
        reached = along;
        run.push_back(place);
    }
    return run;
}

/// The rest of the leg along one of these, where both lie on it.
std::optional<model::LineString> restAlong(const model::Position& from, const std::vector<Standing>& standing,
                                           const model::Position& to) {
    for (const Standing& one : standing) {
        const geometry::BoundaryLine line[]{one.boundary.line()};
        const auto end = geometry::nearestOn(line, to);
        if (!end || end->distance > geometry::kStandsOn)
            continue;
        if (auto corners = geometry::conformedTo(line[0], from, one.at, to, end->at, kRunsAlong))
            return corners;
    }
    return std::nullopt;
}

} // namespace

std::vector<Standing> standingAt(const model::Position& place, const BoundariesAt& boundariesAt) {
    std::vector<Standing> standing;
    if (!boundariesAt)
        return standing;
    for (NearBoundary& boundary : boundariesAt(place, geometry::kStandsOn)) {
        const geometry::BoundaryLine line[]{boundary.line()};
        const auto found = geometry::nearestOn(line, place);
        if (found && found->distance <= geometry::kStandsOn)
            standing.push_back({std::move(boundary), found->at});
    }
    return standing;
}

std::optional<model::LineString> cornersAlong(const model::Position& from, const std::vector<Standing>& fromOn,
                                              const model::Position& to, const BoundariesAt& boundariesAt) {
    if (auto corners = restAlong(from, fromOn, to))
        return corners;
    const StraightLeg leg{from, to};
    if (!(leg.length() > 0.0))
        return std::nullopt;
    model::LineString path;
    std::vector<Standing> standing = fromOn;
    double reached = 0.0;
    for (int boundaries = 0; boundaries < kMostBoundaries; ++boundaries) {
        model::LineString farthest;
        for (const Standing& one : standing)
            for (const Sense sense : {Sense::Forward, Sense::Backward})
                if (auto run = runOf(one, sense, leg, reached);
                    !run.empty() && (farthest.empty() || leg.along(run.back()) > leg.along(farthest.back())))
                    farthest = std::move(run);
        if (farthest.empty())
            return std::nullopt;
        reached = leg.along(farthest.back());
        path.insert(path.end(), farthest.begin(), farthest.end());
        standing = standingAt(path.back(), boundariesAt);
        if (const auto rest = restAlong(from, standing, to)) {
            path.insert(path.end(), rest->begin(), rest->end());
            return path;
        }
    }
    return std::nullopt;
}

model::LineString conformedRing(const model::LineString& ring, const BoundariesAt& boundariesAt) {
    model::LineString conformed;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const model::Position &from = ring[i], &to = ring[(i + 1) % ring.size()];
        conformed.push_back(from);
        if (const auto between = cornersAlong(from, standingAt(from, boundariesAt), to, boundariesAt))
            for (const model::Position& corner : *between)
                conformed.push_back(continued(corner, conformed.back()));
    }
    return conformed;
}

} // namespace fencewright::desktop
