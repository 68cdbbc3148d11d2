#include "exchange/detail/earth_projection.h"

#include "geodesy/edge_meaning.h"
#include "units/number_notation.h"

#include <bit>
#include <cstdint>
#include <numbers>

namespace fencewright::exchange::detail {

namespace {

constexpr double kPartingMetres = 0.001;
constexpr double kMetresPerDegree = 111'320.0;
constexpr double kGoodAccuracyMetres = 1.0;
constexpr int kMostRounds = 12;
// How an edge bends changes slowly from place to place: it is measured once for each cell of the plane, with a margin.
constexpr double kCellMetres = 10'000.0;
constexpr double kCellDegrees = 0.1;
constexpr int kKnownBits = 16;
constexpr std::size_t kKnownCorners = std::size_t{1} << kKnownBits;
constexpr double kProbeShare = 0.05; ///< length of a probing edge, of the cell's side
constexpr double kBendingMargin = 4.0;
constexpr double kMostPieces = 1000.0;
constexpr std::size_t kMostCornersPerEdge = 20'000;

struct Node {
    geodesy::PlanePoint plane;
    model::Position earth;
    bool edgeDone = false; ///< the edge that starts here is straight enough
};

double partingMetres(model::Position a, model::Position b, double share, model::Position seen) {
    const double endLon = geodesy::longitudeNear(b.lon, a.lon);
    const double lon = a.lon + (endLon - a.lon) * share;
    const double lat = a.lat + (b.lat - a.lat) * share;
    const double east = (geodesy::longitudeNear(seen.lon, lon) - lon) * std::cos(lat * (std::numbers::pi / 180.0));
    return std::hypot(east, seen.lat - lat) * kMetresPerDegree;
}

std::string placeOf(const geodesy::PlanePoint& point) {
    return units::shortest(point.x) + " " + units::shortest(point.y);
}

bool sits(double value, double where) { return std::abs(value - where) < 1e-9; }

} // namespace

/// A line on its way to the earth.
struct EarthProjection::Track {
    std::vector<model::Position> places;
    Wording why; ///< it cannot be followed; empty: it can
    std::size_t addedCorners = 0;
    bool unwrapped = false;
};

EarthProjection::EarthProjection(const std::string& crs, Datum datum)
    : m_transform{crs}, m_name{m_transform.name()},
      m_geographic{m_transform.isGeographic()}, m_isWgs84{m_geographic && datum == Datum::Wgs84},
      m_cellSize{m_geographic ? kCellDegrees : kCellMetres / m_transform.metresPerUnit().value_or(1.0)},
      m_cells{m_transform, m_cellSize} {}

Wording EarthProjection::caution() const {
    if (m_isWgs84)
        return {};
    if (m_transform.datumShiftUnknown())
        return phrase("core", "this machine does not know how the datum of %1 lies to WGS 84, for want of a grid or of "
                              "any published way: all places may be off by some hundred metres.")(m_name);
    const auto accuracy = m_transform.accuracy();
    if (!accuracy || accuracy->inMetres() <= kGoodAccuracyMetres)
        return {};
    return phrase("core", "the way from %1 to WGS 84 that this machine knows may be off by %2 m.")(
        m_name, units::fixed(accuracy->inMetres(), 0));
}

// The parting in the middle of a short edge is a quadratic form of its direction times the square of its length. Probes
// along the axes and the diagonals give the form's coefficients, so that their sum is a bound for every direction.
double EarthProjection::bendingAround(const geodesy::PlanePoint& middle) {
    const double column = std::floor(middle.x / m_cellSize);
    const double row = std::floor(middle.y / m_cellSize);
    if (column == m_lastColumn && row == m_lastRow)
        return m_lastBending;
    m_lastColumn = column;
    m_lastRow = row;
    return m_lastBending = bendingOf(column, row);
}

double EarthProjection::bendingOf(double column, double row) {
    if (!(std::abs(column) < 1e9 && std::abs(row) < 1e9))
        return std::numeric_limits<double>::infinity();
    const auto [known, isNew] =
        m_bending.try_emplace({static_cast<std::int64_t>(column), static_cast<std::int64_t>(row)}, 0.0);
    if (!isNew)
        return known->second;

    const double half = m_cellSize * kProbeShare / 2.0;
    std::vector<geodesy::PlanePoint> asked;
    for (const auto& [right, up] : {std::pair{0.5, 0.5}, {0.0, 0.0}, {1.0, 0.0}, {0.0, 1.0}, {1.0, 1.0}})
        for (const auto& [east, north] : {std::pair{1.0, 0.0},
                                          {0.0, 1.0},
                                          {std::numbers::sqrt2 / 2, std::numbers::sqrt2 / 2},
                                          {std::numbers::sqrt2 / 2, -std::numbers::sqrt2 / 2}})
            for (const double along : {-half, 0.0, half})
                asked.push_back(
                    {(column + right) * m_cellSize + along * east, (row + up) * m_cellSize + along * north});
    const auto seen = m_transform.toWgs84(asked);
    double worst = 0.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < seen.size(); i += 3) {
        if (i % 12 == 0)
            sum = 0.0;
        sum += seen[i] && seen[i + 1] && seen[i + 2] ? partingMetres(*seen[i], *seen[i + 2], 0.5, *seen[i + 1])
                                                     : std::numeric_limits<double>::infinity();
        worst = std::max(worst, sum);
    }
    known->second = kBendingMargin * worst / (4.0 * half * half);
    return known->second;
}

bool EarthProjection::isSurelyStraight(const geodesy::PlanePoint& from, const geodesy::PlanePoint& to) {
    const double square = (to.x - from.x) * (to.x - from.x) + (to.y - from.y) * (to.y - from.y);
    const double reach = m_cellSize / 10.0;
    return square <= reach * reach &&
           bendingAround({(from.x + to.x) / 2.0, (from.y + to.y) / 2.0}) * square <= kPartingMetres;
}

bool EarthProjection::arePlainEdges(std::span<const geodesy::PlanePoint> corners) {
    if (corners.empty())
        return true;
    geodesy::PlanePoint low = corners[0], high = corners[0];
    for (const geodesy::PlanePoint& corner : corners) {
        low = {std::min(low.x, corner.x), std::min(low.y, corner.y)};
        high = {std::max(high.x, corner.x), std::max(high.y, corner.y)};
    }
    if (m_isWgs84)
        return isPlainEdge(low, high);
    // The middles of all edges lie in one cell, and none is longer than from one end of the box to the other.
    return std::floor(low.x / m_cellSize) == std::floor(high.x / m_cellSize) &&
           std::floor(low.y / m_cellSize) == std::floor(high.y / m_cellSize) && isPlainEdge(low, high);
}

std::vector<std::optional<model::Position>>
EarthProjection::cornersToWgs84(std::span<const geodesy::PlanePoint> corners) {
    std::vector<std::optional<model::Position>> earth(corners.size());
    bool isWhole = m_transform.isSmooth();
    for (std::size_t i = 0; i < corners.size() && m_transform.isSmooth(); ++i) {
        earth[i] = m_cells.toWgs84(corners[i]);
        isWhole = isWhole && earth[i];
    }
    if (isWhole)
        return earth;
    m_known.resize(kKnownCorners);
    std::vector<geodesy::PlanePoint> asked;
    std::vector<std::pair<std::size_t, std::size_t>> answers; // which corner takes which
    const auto placeOfKnown = [this](const geodesy::PlanePoint& corner) -> Known& {
        const std::uint64_t bits =
            std::bit_cast<std::uint64_t>(corner.x) * 0x9E3779B97F4A7C15U ^ std::bit_cast<std::uint64_t>(corner.y);
        return m_known[(bits * 0x9E3779B97F4A7C15U) >> (64 - kKnownBits)];
    };
    for (std::size_t i = 0; i < corners.size(); ++i) {
        if (earth[i])
            continue;
        Known& known = placeOfKnown(corners[i]);
        const bool same = known.plane == corners[i];
        if (same && known.there) {
            earth[i] = known.earth;
        } else if (same && known.asked > 0) {
            answers.emplace_back(i, known.asked - 1);
        } else {
            asked.push_back(corners[i]);
            answers.emplace_back(i, asked.size() - 1);
            known = {false, corners[i], std::nullopt, asked.size()};
        }
    }
    const auto answered = m_transform.toWgs84(asked);
    for (const auto& [corner, answer] : answers)
        earth[corner] = answered[answer];
    for (std::size_t k = 0; k < asked.size(); ++k)
        placeOfKnown(asked[k]) = {true, asked[k], answered[k], 0};
    return earth;
}

EarthProjection::Track EarthProjection::follow(const SourceLine& line, bool closed, std::size_t cornerLimit) {
    Track track;
    std::vector<geodesy::PlanePoint> points = line.corners;
    if (closed)
        points.push_back(points.front());

    if (m_geographic) {
        // Only whole turns on the edge from one corner to the next are a matter of the map's border: -180 to 180 is
        // either the whole globe or, along a pole, nothing.
        bool wholeTurnsOnly = true;
        for (std::size_t i = 1; i < points.size(); ++i) {
            const double span = std::abs(points[i].x - points[i - 1].x);
            if (span > 180.0) {
                track.unwrapped = true;
                wholeTurnsOnly = wholeTurnsOnly && sits(span, 360.0);
            }
        }
        if (track.unwrapped && wholeTurnsOnly)
            track.unwrapped = false;
        else if (track.unwrapped)
            for (std::size_t i = 1; i < points.size(); ++i)
                points[i].x = geodesy::longitudeNear(points[i].x, points[i - 1].x);
    }

    std::vector<Node> nodes(points.size());
    if (m_isWgs84) {
        for (std::size_t i = 0; i < points.size(); ++i)
            nodes[i] = {points[i], {points[i].x, points[i].y}, true};
    } else {
        const auto earth = cornersToWgs84(points);
        for (std::size_t i = 0; i < points.size(); ++i) {
            if (!earth[i] || !std::isfinite(earth[i]->lon) || !std::isfinite(earth[i]->lat)) {
                track.why =
                    phrase("core", "its corner %1 cannot be brought from %2 to WGS 84")(placeOf(points[i]), m_name);
                return track;
            }
            nodes[i] = {points[i], *earth[i], false};
        }
        for (int round = 0; round < kMostRounds; ++round) {
            std::vector<geodesy::PlanePoint> asked;
            std::vector<std::size_t> edges;
            for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
                nodes[i].edgeDone = nodes[i].edgeDone || isSurelyStraight(nodes[i].plane, nodes[i + 1].plane);
                if (nodes[i].edgeDone)
                    continue;
                edges.push_back(i);
                for (const double share : {0.25, 0.5, 0.75})
                    asked.push_back({nodes[i].plane.x + (nodes[i + 1].plane.x - nodes[i].plane.x) * share,
                                     nodes[i].plane.y + (nodes[i + 1].plane.y - nodes[i].plane.y) * share});
            }
            if (edges.empty())
                break;
            const auto seen = m_transform.toWgs84(asked);
            std::vector<std::size_t> pieces(nodes.size(), 1);
            std::size_t grown = nodes.size();
            for (std::size_t e = 0; e < edges.size(); ++e) {
                Node& from = nodes[edges[e]];
                const Node& to = nodes[edges[e] + 1];
                double parting = 0.0;
                for (std::size_t q = 0; q < 3; ++q) {
                    if (!seen[3 * e + q]) {
                        track.why = phrase("core", "its edge from %1 cannot be brought from %2 to WGS 84")(
                            placeOf(from.plane), m_name);
                        return track;
                    }
                    parting = std::max(parting, partingMetres(from.earth, to.earth, 0.25 * static_cast<double>(q + 1),
                                                              *seen[3 * e + q]));
                }
                if (parting <= kPartingMetres) {
                    from.edgeDone = true;
                    continue;
                }
                // The parting falls with the square of the length.
                const double wanted = std::ceil(std::sqrt(parting / kPartingMetres) * 1.05);
                pieces[edges[e]] = static_cast<std::size_t>(std::clamp(wanted, 2.0, kMostPieces));
                grown += pieces[edges[e]] - 1;
            }
            if (grown > cornerLimit || grown - points.size() > kMostCornersPerEdge * points.size()) {
                track.why = phrase("core", "its edges are so long that they cannot be followed on the earth");
                return track;
            }
            if (grown == nodes.size())
                continue;
            std::vector<geodesy::PlanePoint> added;
            for (std::size_t i = 0; i + 1 < nodes.size(); ++i)
                for (std::size_t k = 1; k < pieces[i]; ++k) {
                    const double share = static_cast<double>(k) / static_cast<double>(pieces[i]);
                    added.push_back({nodes[i].plane.x + (nodes[i + 1].plane.x - nodes[i].plane.x) * share,
                                     nodes[i].plane.y + (nodes[i + 1].plane.y - nodes[i].plane.y) * share});
                }
            const auto addedEarth = m_transform.toWgs84(added);
            std::vector<Node> next;
            next.reserve(grown);
            std::size_t at = 0;
            for (std::size_t i = 0; i < nodes.size(); ++i) {
                next.push_back(nodes[i]);
                for (std::size_t k = 1; i + 1 < nodes.size() && k < pieces[i]; ++k, ++at) {
                    if (!addedEarth[at]) {
                        track.why = phrase("core", "its edge from %1 cannot be brought from %2 to WGS 84")(
                            placeOf(nodes[i].plane), m_name);
                        return track;
                    }
                    next.push_back({added[at], *addedEarth[at], false});
                }
            }
            nodes = std::move(next);
        }
        const bool all = std::all_of(nodes.begin(), nodes.end() - 1, [](const Node& node) { return node.edgeDone; });
        if (nodes.size() > 1 && !all) {
            track.why =
                phrase("core", "an edge of it passes a pole or another place where %1 has no straight way")(m_name);
            return track;
        }
        track.addedCorners = nodes.size() - points.size();
        for (std::size_t i = 1; i < nodes.size(); ++i)
            nodes[i].earth.lon = geodesy::longitudeNear(nodes[i].earth.lon, nodes[i - 1].earth.lon);
    }

    for (const Node& node : nodes) {
        if (std::abs(node.earth.lat) > 90.0 || std::abs(node.earth.lon) > 540.0) {
            track.why = phrase("core", "its coordinates %1 are no longitude and latitude; perhaps they are in another "
                                       "CRS than the file says, or the two are swapped")(placeOf(node.plane));
            return track;
        }
        track.places.push_back(node.earth);
    }
    if (closed) {
        if (std::abs(track.places.back().lon - track.places.front().lon) > 180.0) {
            track.why = phrase("core", "it goes round the globe or a pole");
            return track;
        }
        track.places.pop_back();
    }
    return track;
}

EarthProjection::Projected EarthProjection::toEarth(const SourcePart& part, std::size_t cornerLimit) {
    Projected result;
    if (part.kind != SourcePart::Kind::Surface) {
        Track track = follow(part.lines.front(), false, cornerLimit);
        result.why = std::move(track.why);
        result.addedCorners = track.addedCorners;
        result.unwrapped = track.unwrapped;
        if (!result.why.empty())
            return result;
        if (part.kind == SourcePart::Kind::Line) {
            result.geometry = std::move(track.places);
        } else {
            model::Position place = track.places.front();
            if (std::abs(place.lon) > 180.0)
                place.lon = geodesy::longitudeNear(place.lon, 0.0);
            result.geometry = place;
        }
        return result;
    }

    model::Polygon polygon;
    double middle = 0.0;
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
        Track track = follow(part.lines[i], true, cornerLimit);
        if (!track.why.empty()) {
            result.why = std::move(track.why);
            return result;
        }
        result.addedCorners += track.addedCorners;
        result.unwrapped = result.unwrapped || track.unwrapped;
        model::Ring ring{std::move(track.places), part.lines[i].leftOpen};
        const auto [west, east] =
            std::minmax_element(ring.corners.begin(), ring.corners.end(),
                                [](model::Position a, model::Position b) { return a.lon < b.lon; });
        const double centre = (west->lon + east->lon) / 2.0;
        if (i == 0) {
            middle = centre;
            polygon.shell = std::move(ring);
            continue;
        }
        // A hole written on the other side of the antimeridian than its shell.
        const double turn = geodesy::longitudeNear(centre, middle) - centre;
        if (std::abs(turn) > 180.0)
            for (model::Position& corner : ring.corners)
                corner.lon += turn;
        polygon.holes.push_back(std::move(ring));
    }
    result.geometry = std::move(polygon);
    return result;
}

void joinAtAntimeridian(std::vector<FeatureGeometry>& parts) {
    const auto touches = [](const FeatureGeometry& part, double meridian) {
        const auto* polygon = std::get_if<model::Polygon>(&part);
        const auto* line = std::get_if<model::LineString>(&part);
        const auto on = [&](const model::Position& corner) { return sits(corner.lon, meridian); };
        return polygon ? std::any_of(polygon->shell.corners.begin(), polygon->shell.corners.end(), on)
                       : line && std::any_of(line->begin(), line->end(), on);
    };
    const auto anyTouches = [&](double meridian) {
        return std::any_of(parts.begin(), parts.end(),
                           [&](const FeatureGeometry& part) { return touches(part, meridian); });
    };
    if (!anyTouches(180.0) || !anyTouches(-180.0))
        return;
    const auto turn = [](std::vector<model::Position>& corners) {
        for (model::Position& corner : corners)
            corner.lon += 360.0;
    };
    for (FeatureGeometry& part : parts) {
        if (!touches(part, -180.0) || touches(part, 180.0))
            continue;
        if (auto* polygon = std::get_if<model::Polygon>(&part)) {
            turn(polygon->shell.corners);
            for (model::Ring& hole : polygon->holes)
                turn(hole.corners);
        } else if (auto* line = std::get_if<model::LineString>(&part)) {
            turn(*line);
        }
    }
}

} // namespace fencewright::exchange::detail
