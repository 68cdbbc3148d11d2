#include "desktop/tools/boundary_leg.h"

#include "desktop/canvas/near_plane.h"
#include "fault.h"

#include <QCoreApplication>

#include <algorithm>
#include <utility>

namespace fencewright::desktop {
namespace {

/// Nearer, a place is where it was drawn to, to the last bit.
constexpr Length kSame = Length::metres(1e-6);
// What lies around is looked at as far as that, and only where it has no more corners: it is done while the pointer
// moves.
constexpr double kLeastReachMetres = 100.0;
constexpr double kMostReachMetres = 3200.0;
constexpr std::size_t kMostCorners = 30'000;
constexpr double kReachBeyond = 1.25; ///< of the distance: for what touches at the far end

QString namesOf(const BoundaryLeg::Net& net, const geometry::BoundaryNet::Way& way) {
    QStringList names;
    for (const auto& stretch : way.stretches)
        if (const QString& name = net.boundaries[stretch.from.line].name; !names.contains(name))
            names << name;
    if (names.size() < 2)
        return names.join(QString{});
    if (names.size() == 2)
        return QCoreApplication::translate("BoundaryLeg", "%1 and %2").arg(names[0], names[1]);
    return QCoreApplication::translate("BoundaryLeg", "%1 and %2 others").arg(names[0]).arg(names.size() - 1);
}

} // namespace

void BoundaryLeg::beginAt(const model::Position& from, const BoundariesAt& boundariesAt) {
    forget();
    m_from = from;
    m_boundariesAt = boundariesAt;
    for (Standing& standing : standingAt(from, boundariesAt))
        m_lines.push_back({std::move(standing), {}});
}

void BoundaryLeg::turn() {
    if (!stands())
        throw Fault{phrase("core", "The last place lies on no boundary that could be followed."), "",
                    phrase("core", "Set a place on an edge of a fence or parcel, then follow it.")};
    m_way = m_way == Way::Straight ? Way::Shorter : m_way == Way::Shorter ? Way::Other : Way::Straight;
}

const geometry::MeasuredBoundary& BoundaryLeg::measured(Line& line) {
    if (!line.measured)
        line.measured = std::make_shared<const geometry::MeasuredBoundary>(line.on.boundary.line());
    return *line.measured;
}

BoundaryLeg::Course BoundaryLeg::coursed(std::size_t number, const geometry::BoundaryPlace& at,
                                         const model::Position& end, geometry::Sense sense) {
    Line& line = m_lines[number];
    Course course{geometry::pathAlong(line.on.boundary.line(), line.on.at, at, sense), end, {}, {}};
    course.followed =
        Followed{line.on.boundary.name, measured(line).between(line.on.at, at, sense), number, sense, {}, {}};
    return course;
}

BoundaryLeg::Course BoundaryLeg::coursed(std::shared_ptr<const Net> net, geometry::BoundaryNet::Way way,
                                         const model::Position& end) {
    Course course{net->lines.cornersOf(way), end, {}, {}};
    const QString names = namesOf(*net, way);
    const Length length = way.length;
    course.followed = Followed{names, length, 0, {}, std::move(net), std::move(way)};
    return course;
}

BoundaryLeg::Course BoundaryLeg::to(const model::Position& wanted) {
    if (follows()) {
        std::vector<geometry::BoundaryLine> lines;
        for (const Line& line : m_lines)
            lines.push_back(line.on.boundary.line());
        if (const auto found = geometry::nearestOn(lines, wanted)) {
            if (found->distance > geometry::kStandsOn)
                if (auto course = across(wanted))
                    return *course;
            Line& line = m_lines[found->at.line];
            geometry::BoundaryPlace at = found->at;
            at.line = 0;
            geometry::Sense sense = measured(line).shorterSense(line.on.at, at);
            if (m_way == Way::Other && line.on.boundary.closed)
                sense = geometry::opposite(sense);
            return coursed(found->at.line, at, found->distance <= kSame ? wanted : found->place, sense);
        }
    }
    return straightTo(wanted);
}

/// All boundaries around the begin, as far as the wanted place and somewhat farther; null: too many.
std::shared_ptr<const BoundaryLeg::Net> BoundaryLeg::netUpTo(const model::Position& wanted) {
    const double needed = distanceBetween(NearPlane{m_from}.toPlane(wanted), {}) * kReachBeyond;
    if (!m_net || m_net->reach < Length::metres(needed)) {
        double reach = kLeastReachMetres;
        while (reach < needed)
            reach *= 2.0;
        if (reach > kMostReachMetres)
            return nullptr;
        std::vector<NearBoundary> boundaries = m_boundariesAt(m_from, Length::metres(reach));
        std::erase_if(boundaries, [](const NearBoundary& one) { return one.line().edges() == 0; });
        std::vector<geometry::BoundaryLine> lines;
        std::size_t corners = 0;
        for (const NearBoundary& boundary : boundaries) {
            lines.push_back(boundary.line());
            corners += boundary.corners->size();
        }
        if (corners > kMostCorners)
            lines.clear(); // kept all the same, so that the next move of the pointer need not look again
        m_net = std::make_shared<const Net>(
            Net{std::move(boundaries), geometry::BoundaryNet{std::move(lines)}, Length::metres(reach)});
    }
    return m_net->lines.lines().empty() ? nullptr : m_net;
}

/// To a place on another boundary, where boundaries that touch lead there.
std::optional<BoundaryLeg::Course> BoundaryLeg::across(const model::Position& wanted) {
    if (!m_boundariesAt || standingAt(wanted, m_boundariesAt).empty())
        return std::nullopt;
    const auto net = netUpTo(wanted);
    if (!net)
        return std::nullopt;
    using Round = geometry::BoundaryNet::Round;
    auto way = net->lines.way(net->lines.standsOn(m_from), net->lines.standsOn(wanted),
                              m_way == Way::Other ? Round::Other : Round::Shortest);
    if (!way || way->stretches.empty())
        return std::nullopt;
    const geometry::BoundaryPlace& last = way->stretches.back().to;
    const model::Position place = geometry::placeOn(net->lines.lines()[last.line], last);
    const bool same = distanceBetween(NearPlane{wanted}.toPlane(place), {}) <= kSame.inMetres();
    return coursed(net, std::move(*way), same ? wanted : place);
}

BoundaryLeg::Course BoundaryLeg::straightTo(const model::Position& wanted) const {
    Course course{{}, wanted, {}, {}};
    std::vector<Standing> standing;
    for (const Line& line : m_lines)
        standing.push_back(line.on);
    if (auto corners = cornersAlong(m_from, standing, wanted, m_boundariesAt)) {
        course.between = std::move(*corners);
        return course;
    }
    for (const Standing& one : standing) {
        const geometry::BoundaryLine line[]{one.boundary.line()};
        const auto found = geometry::nearestOn(line, wanted);
        if (found && found->distance <= geometry::kStandsOn) {
            course.offer = one.boundary.name;
            break;
        }
    }
    return course;
}

BoundaryLeg::Course BoundaryLeg::along(const Course& course, Length length) {
    const Followed& followed = *course.followed;
    const auto refuse = [] {
        return Fault{phrase("core", "The boundary is not that long."), "",
                     phrase("core", "Type a shorter length, or take the other way round.")};
    };
    if (followed.net) {
        auto way = followed.net->lines.cutOrDrawnTo(followed.way, length);
        if (!way)
            throw refuse();
        const geometry::BoundaryPlace& last = way->stretches.back().to;
        const model::Position end = geometry::placeOn(followed.net->lines.lines()[last.line], last);
        return coursed(followed.net, std::move(*way), end);
    }
    Line& line = m_lines[followed.line];
    const auto at = measured(line).after(line.on.at, length, followed.sense);
    if (!at)
        throw refuse();
    return coursed(followed.line, *at, geometry::placeOn(line.on.boundary.line(), *at), followed.sense);
}

} // namespace fencewright::desktop
