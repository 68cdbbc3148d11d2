#include "geometry/sided_overlay.h"

#include "fault.h"
#include "geometry/detail/common_region.h"
#include "geometry/detail/corner_mending.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/made_valid.h"
#include "geometry/detail/orientation.h"
#include "geometry/detail/soundness.h"
#include "geometry/overlay.h"
#include "geometry/simplify.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace fencewright::geometry {
namespace {

using detail::ExactSurface;
using detail::GeosContext;
using model::MultiPolygon;

enum class Operation { Union, Difference, Intersection };

bool isIn(Operation operation, bool inFirst, bool inSecond) {
    switch (operation) {
    case Operation::Union:
        return inFirst || inSecond;
    case Operation::Difference:
        return inFirst && !inSecond;
    case Operation::Intersection:
        break;
    }
    return inFirst && inSecond;
}

Side opposite(Side side) { return side == Side::Grow ? Side::Shrink : Side::Grow; }

/// The boundary moved outward (inward where `degrees` is negative), give or take rounding.
MultiPolygon moved(const MultiPolygon& surface, double degrees) {
    const Box box = boxOf(surface);
    const model::Position origin{(box.minX + box.maxX) / 2.0, (box.minY + box.maxY) / 2.0};
    const auto shifted = [](MultiPolygon given, double lon, double lat) {
        return detail::withCornersMoved(std::move(given), [&](const model::Position& corner) {
            return model::Position{corner.lon + lon, corner.lat + lat};
        });
    };
    GeosContext context;
    const auto plane = detail::toGeos(context, shifted(surface, -origin.lon, -origin.lat));
    const auto result = context.own(
        GEOSBufferWithStyle_r(context.handle(), plane.get(), degrees, 4, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 4.0),
        "moving of a boundary");
    return detail::madeValid(shifted(detail::fromGeos(context, result.get()), origin.lon, origin.lat),
                             degrees > 0.0 ? Side::Grow : Side::Shrink);
}

class SidedOverlay {
public:
    SidedOverlay(Operation operation, MultiPolygon a, MultiPolygon b, Side side)
        : m_operation{operation}, m_side{side}, m_a{std::move(a)}, m_b{std::move(b)}, m_first{m_a}, m_second{m_b} {}

    [[nodiscard]] MultiPolygon result() const {
        const MultiPolygon plain = computed();
        if (isProven(plain))
            return plain;
        const MultiPolygon mended = mendedCorners(plain);
        if (isProven(mended))
            return mended;
        for (const auto* one : {&mended, &plain})
            if (isSound(*one) && isProvenButForSeams(*one))
                return *one;
        // All of the boundary moves, which opens seams where the next surface is to join; so this comes last.
        for (const int decimals : {12, 11, 10})
            if (const auto safe = roundedOf(mended, decimals); safe && isProvenButForSeams(*safe))
                return *safe;
        throw Fault{m_side == Side::Grow
                        ? phrase("core", "The result cannot be rounded so that nothing of it is lost.")
                        : phrase("core", "The result cannot be rounded so that nothing is added to it."),
                    "", phrase("core", "Move a corner where the boundaries run close to one another, and try again.")};
    }

private:
    [[nodiscard]] MultiPolygon computed() const {
        switch (m_operation) {
        case Operation::Union:
            return united(std::array{m_a, m_b});
        case Operation::Difference:
            return difference(m_a, m_b);
        case Operation::Intersection:
            break;
        }
        return intersection(m_a, m_b);
    }

    static bool isSound(const MultiPolygon& surface) { return detail::requireExamined(surface, "rounding"); }

    /// No place is on the wrong side of the result.
    [[nodiscard]] bool holds(const ExactSurface& first, const ExactSurface& second, const ExactSurface& result) const {
        return !detail::anyRegion({&first, &second, &result}, [this](const std::array<bool, 3>& in) {
            const bool exact = isIn(m_operation, in[0], in[1]);
            return m_side == Side::Grow ? exact && !in[2] : in[2] && !exact;
        });
    }
    [[nodiscard]] bool isProven(const MultiPolygon& result) const {
        return isSound(result) && holds(m_first, m_second, ExactSurface{result});
    }
    /// No place is, but within kSeamDegrees of both boundaries.
    [[nodiscard]] bool isProvenButForSeams(const MultiPolygon& result) const {
        const ExactSurface exact{result};
        const double step = m_side == Side::Grow ? -kSeamDegrees : kSeamDegrees;
        const double stepOfSecond = m_operation == Operation::Difference ? -step : step;
        return holds(ExactSurface{moved(m_a, step)}, m_second, exact) &&
               holds(m_first, ExactSurface{moved(m_b, stepOfSecond)}, exact);
    }

    /// Corners that were given are what they were. Where the result turns from an edge of one surface into one of the
    /// other, its corner comes to lie on the right side of both: of a result that grows outside the first surface.
    [[nodiscard]] MultiPolygon mendedCorners(const MultiPolygon& result) const {
        const detail::NearCorners given{detail::cornersOf(std::array{m_a, m_b})};
        const auto restored = detail::withCornersMoved(
            result, [&](const model::Position& corner) { return given.near(corner).value_or(corner); });
        const auto followed = edgesFollowedBy(restored);
        return detail::withCornersMoved(restored, [&](const model::Position& corner) {
            const auto found = followed.find({corner.lon, corner.lat});
            if (found == followed.end())
                return corner;
            return detail::placeNear(corner,
                                     [&](const model::Position& place) {
                                         return std::all_of(
                                             found->second.begin(), found->second.end(),
                                             [&](const FollowedEdge& edge) { return edge.hasOnItsSide(place); });
                                     })
                .value_or(corner);
        });
    }

    /// An edge of a given surface along which the result's boundary runs, and on which side of it that may lie.
    struct FollowedEdge {
        ExactSurface::Edge edge;
        bool inside;

        [[nodiscard]] bool hasOnItsSide(const model::Position& place) const {
            const int side = detail::orientation(edge.from, edge.to, place);
            return side == 0 || (side > 0) == (edge.insideOnLeft == inside);
        }
    };
    using FollowedEdges = std::map<std::pair<double, double>, std::vector<FollowedEdge>>;

    /// For each corner.
    [[nodiscard]] FollowedEdges edgesFollowedBy(const MultiPolygon& result) const {
        const bool inFirst = m_side == Side::Shrink;
        const bool inSecond = m_operation == Operation::Difference ? !inFirst : inFirst;
        FollowedEdges edges;
        const auto addTowards = [&](const model::Position& corner, const model::Position& next) {
            constexpr double far = 1e-8; // enough to tell the edges that meet in the corner apart
            const double length = std::hypot(next.lon - corner.lon, next.lat - corner.lat);
            const double share = std::min(0.5, far / length);
            const model::Position onEdge{std::lerp(corner.lon, next.lon, share),
                                         std::lerp(corner.lat, next.lat, share)};
            auto& found = edges[{corner.lon, corner.lat}];
            for (const auto& edge : detail::edgesBy(m_first, onEdge))
                found.push_back({edge, inFirst});
            for (const auto& edge : detail::edgesBy(m_second, onEdge))
                found.push_back({edge, inSecond});
        };
        const auto addRing = [&](const model::Ring& ring) {
            const auto& corners = ring.corners;
            for (std::size_t i = 0; i < corners.size(); ++i) {
                addTowards(corners[i], corners[(i + 1) % corners.size()]);
                addTowards(corners[(i + 1) % corners.size()], corners[i]);
            }
        };
        for (const auto& part : result.parts) {
            addRing(part.shell);
            std::for_each(part.holes.begin(), part.holes.end(), addRing);
        }
        return edges;
    }

    [[nodiscard]] std::optional<MultiPolygon> roundedOf(const MultiPolygon& result, int decimals) const {
        try {
            return rounded(result, decimals, m_side).surface;
        } catch (const Fault&) {
            return std::nullopt; // the other ways are left
        }
    }

    Operation m_operation;
    Side m_side;
    MultiPolygon m_a, m_b;
    ExactSurface m_first, m_second;
};

MultiPolygon overlaid(Operation operation, const MultiPolygon& a, const MultiPolygon& b, Side side) {
    const double longitude = detail::middleLongitude(a);
    return SidedOverlay{
        operation, detail::turnedNear(detail::madeValid(a, side), longitude),
        detail::turnedNear(detail::madeValid(b, operation == Operation::Difference ? opposite(side) : side), longitude),
        side}
        .result();
}

} // namespace

MultiPolygon united(std::span<const MultiPolygon> surfaces, Side side) {
    MultiPolygon whole;
    for (const auto& surface : surfaces)
        whole = whole.empty() ? detail::madeValid(surface, side) : overlaid(Operation::Union, whole, surface, side);
    return whole;
}

MultiPolygon difference(const MultiPolygon& surface, const MultiPolygon& removed, Side side) {
    if (surface.empty() || removed.empty())
        return detail::madeValid(surface, side);
    return overlaid(Operation::Difference, surface, removed, side);
}

MultiPolygon intersection(const MultiPolygon& a, const MultiPolygon& b, Side side) {
    return a.empty() || b.empty() ? MultiPolygon{} : overlaid(Operation::Intersection, a, b, side);
}

} // namespace fencewright::geometry
