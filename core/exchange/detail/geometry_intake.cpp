#include "exchange/detail/geometry_intake.h"

#include "fault.h"
#include "gdal/handles.h"

#include <ogr_api.h>
#include <ogr_core.h>

#include <numbers>

namespace fencewright::exchange::detail {

namespace {

constexpr int kDeepestNesting = 32;
// A full circle in chords of a thousandth of a degree is 360,000 corners; finer ones are a mistake in the file.
constexpr double kSmallestStepDegrees = 0.001;
constexpr double kLargestStepDegrees = 4.0;

double radiusThrough(double x0, double y0, double x1, double y1, double x2, double y2) {
    const double a = std::hypot(x1 - x0, y1 - y0);
    const double b = std::hypot(x2 - x1, y2 - y1);
    const double c = std::hypot(x2 - x0, y2 - y0);
    const double cross = std::abs((x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0));
    if (c == 0.0)
        return a / 2.0; // a full circle: the middle point is opposite the ends
    return cross == 0.0 ? 0.0 : a * b * c / (2.0 * cross);
}

/// The largest radius of any arc in the geometry; zero where there is none.
double largestRadius(OGRGeometryH geometry, int depth) {
    if (depth > kDeepestNesting)
        return 0.0;
    double largest = 0.0;
    if (wkbFlatten(OGR_G_GetGeometryType(geometry)) == wkbCircularString) {
        const int count = OGR_G_GetPointCount(geometry);
        for (int i = 0; i + 2 < count; i += 2)
            largest = std::max(largest, radiusThrough(OGR_G_GetX(geometry, i), OGR_G_GetY(geometry, i),
                                                      OGR_G_GetX(geometry, i + 1), OGR_G_GetY(geometry, i + 1),
                                                      OGR_G_GetX(geometry, i + 2), OGR_G_GetY(geometry, i + 2)));
    }
    for (int i = 0; i < OGR_G_GetGeometryCount(geometry); ++i)
        largest = std::max(largest, largestRadius(OGR_G_GetGeometryRef(geometry, i), depth + 1));
    return largest;
}

class Intake {
public:
    explicit Intake(const IntakeRules& rules) : m_rules{rules} {}

    void take(OGRGeometryH geometry, int depth) {
        if (depth > kDeepestNesting) {
            m_result.leftOut.push_back(phrase("core", "collections nested more than %1 deep")(kDeepestNesting));
            return;
        }
        switch (wkbFlatten(OGR_G_GetGeometryType(geometry))) {
        case wkbPoint:
            takePoint(geometry);
            break;
        case wkbLineString:
        case wkbLinearRing:
            takeLine(geometry);
            break;
        case wkbPolygon:
        case wkbTriangle:
            takePolygon(geometry);
            break;
        default:
            for (int i = 0; i < OGR_G_GetGeometryCount(geometry); ++i)
                take(OGR_G_GetGeometryRef(geometry, i), depth + 1);
        }
    }

    SourceGeometry& result() { return m_result; }

private:
    // Nothing where a coordinate is not finite: to drop the corner alone would change the shape.
    std::optional<std::vector<geodesy::PlanePoint>> corners(OGRGeometryH geometry) {
        const auto count = static_cast<std::size_t>(OGR_G_GetPointCount(geometry));
        m_result.corners += count;
        if (m_result.corners > m_rules.cornerLimit)
            throw Fault{phrase("core", "There are more than %1 corners.")(m_rules.cornerLimit), "",
                        phrase("core", "Read a part of the file by a filter, or raise the limit.")};
        std::vector<geodesy::PlanePoint> points(count);
        std::vector<double> heights;
        if (OGR_G_Is3D(geometry))
            heights.resize(count);
        constexpr int kStride = sizeof(geodesy::PlanePoint);
        if (count > 0)
            OGR_G_GetPoints(geometry, &points.front().x, kStride, &points.front().y, kStride,
                            heights.empty() ? nullptr : heights.data(), sizeof(double));
        for (geodesy::PlanePoint& point : points) {
            if (!std::isfinite(point.x) || !std::isfinite(point.y))
                return std::nullopt;
            if (m_rules.swapAxes)
                std::swap(point.x, point.y);
        }
        for (const double z : heights)
            if (std::isfinite(z)) {
                m_result.lowestZ = std::min(m_result.lowestZ.value_or(z), z);
                m_result.highestZ = std::max(m_result.highestZ.value_or(z), z);
            }
        return points;
    }

    void leaveOut(const Phrase& what) { m_result.leftOut.emplace_back(what); }

    void takePoint(OGRGeometryH geometry) {
        if (OGR_G_IsEmpty(geometry))
            return;
        if (auto point = corners(geometry))
            m_result.parts.push_back({SourcePart::Kind::Point, {{std::move(*point), false}}});
        else
            leaveOut(phrase("core", "a point with a coordinate that is not a finite number"));
    }

    void takeLine(OGRGeometryH geometry) {
        auto line = corners(geometry);
        if (!line)
            return leaveOut(phrase("core", "a line with a coordinate that is not a finite number"));
        if (line->empty())
            return;
        const bool closed = line->size() > 3 && line->front() == line->back();
        if (closed && m_rules.closedLinesAreSurfaces) {
            line->pop_back();
            m_result.parts.push_back({SourcePart::Kind::Surface, {{std::move(*line), false}}});
            return;
        }
        const bool single =
            std::all_of(line->begin(), line->end(), [&](const geodesy::PlanePoint& p) { return p == line->front(); });
        if (single)
            return leaveOut(phrase("core", "a line of a single place"));
        m_result.parts.push_back({SourcePart::Kind::Line, {{std::move(*line), false}}});
    }

    static std::size_t distinct(std::vector<geodesy::PlanePoint> points) {
        std::sort(points.begin(), points.end(), [](const geodesy::PlanePoint& a, const geodesy::PlanePoint& b) {
            return a.x != b.x ? a.x < b.x : a.y < b.y;
        });
        return static_cast<std::size_t>(std::unique(points.begin(), points.end()) - points.begin());
    }

    void takePolygon(OGRGeometryH geometry) {
        SourcePart part{SourcePart::Kind::Surface, {}};
        for (int i = 0; i < OGR_G_GetGeometryCount(geometry); ++i) {
            auto ring = corners(OGR_G_GetGeometryRef(geometry, i));
            // A surface without one of its holes is another surface.
            if (!ring)
                return leaveOut(phrase("core", "a surface with a coordinate that is not a finite number"));
            if (ring->empty() && i > 0)
                continue;
            const bool closed = ring->size() > 1 && ring->front() == ring->back();
            if (closed)
                ring->pop_back();
            if (ring->size() < 3 || (ring->size() < 32 && distinct(*ring) < 3)) {
                if (i == 0)
                    return OGR_G_IsEmpty(geometry) ? void()
                                                   : leaveOut(phrase("core", "a surface of fewer than three corners"));
                leaveOut(phrase("core", "a hole of fewer than three corners"));
                continue;
            }
            m_result.openRings += closed ? 0 : 1;
            part.lines.push_back({std::move(*ring), !closed});
        }
        if (!part.lines.empty())
            m_result.parts.push_back(std::move(part));
    }

    const IntakeRules& m_rules;
    SourceGeometry m_result;
};

} // namespace

SourceGeometry takeGeometry(void* geometry, const IntakeRules& rules) {
    Intake intake{rules};
    auto source = static_cast<OGRGeometryH>(geometry);
    gdal::GeometryHandle linear;
    if (OGR_G_HasCurveGeometry(source, TRUE)) {
        // The sagitta of a chord over the angle s in a circle of radius r is r (1 - cos(s/2)).
        const double radius = largestRadius(source, 0);
        const double cosine = radius > 0.0 ? 1.0 - rules.chordBound / radius : 0.0;
        const double step = 2.0 * std::acos(std::max(cosine, 0.0)) * (180.0 / std::numbers::pi);
        if (!std::isfinite(radius) || step < kSmallestStepDegrees) {
            intake.result().leftOut.emplace_back(phrase("core", "an arc whose radius is beyond measure"));
            return std::move(intake.result());
        }
        linear.reset(OGR_G_GetLinearGeometry(source, std::min(step, kLargestStepDegrees), nullptr));
        source = static_cast<OGRGeometryH>(linear.get());
        intake.result().curved = true;
        if (!source)
            return std::move(intake.result());
    }
    intake.take(source, 0);
    return std::move(intake.result());
}

} // namespace fencewright::exchange::detail
