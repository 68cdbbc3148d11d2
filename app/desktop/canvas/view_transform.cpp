#include "desktop/canvas/view_transform.h"

#include "fault.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

// At 20 km the frame's scale is off by five in a million: a hundredth of a pixel across a large screen.
constexpr double kReachMetres = 20'000.0;

} // namespace

ViewTransform::ViewTransform() : m_plane{geodesy::MapPlane::Definition{}} {}

void ViewTransform::setOrigin(const model::Position& origin) {
    const model::Position held{std::remainder(origin.lon, 360.0), std::clamp(origin.lat, -89.9, 89.9)};
    m_plane = geodesy::MapPlane{{{}, held, 0.0}};
    ++m_planeNumber;
    m_centre = {};
}

bool ViewTransform::recentreIfFar() {
    // Seen from far away the middle may move some screens before a new frame is worth its price.
    const double reach = std::max(kReachMetres, m_metresPerPixel * std::hypot(m_size.width(), m_size.height()));
    if (std::hypot(m_centre.x(), m_centre.y()) < reach)
        return false;
    setOrigin(earthAt({m_size.width() / 2.0, m_size.height() / 2.0}));
    return true;
}

void ViewTransform::setMetresPerPixel(double metresPerPixel) {
    m_metresPerPixel = std::clamp(metresPerPixel, kFinestMetresPerPixel, kCoarsestMetresPerPixel);
}

void ViewTransform::panBy(const QPointF& pixels) {
    m_centre += QPointF{-pixels.x() * m_metresPerPixel, pixels.y() * m_metresPerPixel};
}

void ViewTransform::zoomAbout(const QPointF& widget, double factor) {
    const QPointF before = toPlane(widget);
    setMetresPerPixel(m_metresPerPixel / factor);
    m_centre += before - toPlane(widget);
}

void ViewTransform::showBox(const geometry::Box& lonLat, double margin) {
    if (lonLat.empty())
        return;
    const double lat = std::clamp((lonLat.minY + lonLat.maxY) / 2.0, -89.0, 89.0);
    setOrigin({(lonLat.minX + lonLat.maxX) / 2.0, lat});
    // The outline of the box, for its edges bulge in the plane.
    QRectF plane;
    constexpr int steps = 8;
    std::vector<model::Position> places;
    for (int i = 0; i <= steps; ++i) {
        const double share = double(i) / steps;
        const double lon = std::lerp(lonLat.minX, lonLat.maxX, share);
        const double y = std::clamp(std::lerp(lonLat.minY, lonLat.maxY, share), -89.0, 89.0);
        places.push_back({lon, std::max(lonLat.minY, -89.0)});
        places.push_back({lon, std::min(lonLat.maxY, 89.0)});
        places.push_back({lonLat.minX, y});
        places.push_back({lonLat.maxX, y});
    }
    const std::vector<QPointF> points = planeOf(places);
    if (points.empty()) {
        setMetresPerPixel(kCoarsestMetresPerPixel);
        return;
    }
    double minX = points.front().x(), maxX = minX, minY = points.front().y(), maxY = minY;
    for (const QPointF& point : points) {
        minX = std::min(minX, point.x());
        maxX = std::max(maxX, point.x());
        minY = std::min(minY, point.y());
        maxY = std::max(maxY, point.y());
    }
    const double width = std::max(m_size.width() - 2.0 * margin, 32.0);
    const double height = std::max(m_size.height() - 2.0 * margin, 32.0);
    constexpr double closestLook = 40.0; // metres across: a lone point is shown with its surroundings
    setMetresPerPixel(std::max({(maxX - minX) / width, (maxY - minY) / height, closestLook / width}));
    m_centre = {(minX + maxX) / 2.0, (minY + maxY) / 2.0};
}

std::optional<QPointF> ViewTransform::planeOf(const model::Position& place) const {
    try {
        const geodesy::PlanePoint point = m_plane.toPlane(place);
        return QPointF{point.x, point.y};
    } catch (const Fault&) {
        return std::nullopt;
    }
}

std::vector<QPointF> ViewTransform::planeOf(std::span<const model::Position> places) const {
    try {
        const std::vector<geodesy::PlanePoint> plane = m_plane.toPlane(places);
        std::vector<QPointF> points;
        points.reserve(plane.size());
        for (const geodesy::PlanePoint& point : plane)
            points.emplace_back(point.x, point.y);
        return points;
    } catch (const Fault&) {
        return {};
    }
}

std::optional<QPointF> ViewTransform::widgetOf(const model::Position& place) const {
    const std::optional<QPointF> plane = planeOf(place);
    return plane ? std::optional{toWidget(*plane)} : std::nullopt;
}

model::Position ViewTransform::earthAt(const QPointF& widget) const {
    const QPointF plane = toPlane(widget);
    try {
        return m_plane.toEarth({plane.x(), plane.y()});
    } catch (const Fault&) {
        return m_plane.origin();
    }
}

QRectF ViewTransform::visiblePlane() const {
    const QSizeF metres = m_size * m_metresPerPixel;
    return {m_centre.x() - metres.width() / 2.0, m_centre.y() - metres.height() / 2.0, metres.width(), metres.height()};
}

geometry::Box ViewTransform::visibleLonLat() const {
    geometry::Box box;
    constexpr int steps = 4;
    const auto add = [&](double x, double y) {
        const model::Position place = earthAt({x, y});
        box.minX = std::min(box.minX, place.lon);
        box.maxX = std::max(box.maxX, place.lon);
        box.minY = std::min(box.minY, place.lat);
        box.maxY = std::max(box.maxY, place.lat);
    };
    for (int i = 0; i <= steps; ++i) {
        const double share = double(i) / steps;
        add(m_size.width() * share, 0.0);
        add(m_size.width() * share, m_size.height());
        add(0.0, m_size.height() * share);
        add(m_size.width(), m_size.height() * share);
    }
    return box;
}

} // namespace fencewright::desktop
