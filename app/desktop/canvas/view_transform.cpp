#include "desktop/canvas/view_transform.h"

#include "desktop/canvas/plane_line.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

// At 20 km the frame's scale is off by five in a million: a hundredth of a pixel across a large screen.
constexpr double kReachMetres = 20'000.0;
// Of a wider view not even the parts near the edge look right in a raster's CRS.
constexpr double kWidestInCrs = 400'000.0;
// How much farther than becoming the plane needs, for it to stay the plane.
constexpr double kHoldOnMetres = 20'000.0;
constexpr double kHoldOnWidth = 2.0;
// MapPlane::serves has a hundredth and five degrees for becoming the plane.
constexpr double kMostScaleErrorToStay = 0.012;
constexpr double kMostConvergenceToStay = 6.0;
// How far the middle moves before a CRS that did not serve is asked again.
constexpr double kAskAgainMetres = 2'000.0;
constexpr std::size_t kNumbersKept = 8;

double turn(double degrees) {
    const double whole = std::fmod(degrees, 360.0);
    const double positive = whole < 0.0 ? whole + 360.0 : whole;
    return positive < 360.0 ? positive : 0.0;
}

double metresBetween(const model::Position& from, const model::Position& to) {
    return geodesy::inverse(from, to).length.inMetres();
}

/// Zero within the box.
double metresFrom(const geometry::Box& box, const model::Position& place) {
    const double middle = (box.minX + box.maxX) / 2.0;
    const double lon = middle + std::remainder(place.lon - middle, 360.0);
    return metresBetween({lon, place.lat},
                         {std::clamp(lon, box.minX, box.maxX), std::clamp(place.lat, box.minY, box.maxY)});
}

} // namespace

ViewTransform::ViewTransform() : m_plane{geodesy::MapPlane::Definition{}} {}

void ViewTransform::setPreferredCrs(const std::string& crs, const geometry::Box& lonLat) {
    m_refused.reset();
    const geometry::Box box{lonLat.minX, std::max(lonLat.minY, -90.0), lonLat.maxX, std::min(lonLat.maxY, 90.0)};
    if (crs.empty() || box.empty() || !std::isfinite(box.minX) || !std::isfinite(box.maxX)) {
        m_preferred = {};
        return;
    }
    if (crs != m_preferred.crs)
        m_preferred.origin = {std::remainder((box.minX + box.maxX) / 2.0, 360.0), (box.minY + box.maxY) / 2.0};
    m_preferred.crs = crs;
    m_preferred.lonLat = box;
}

bool ViewTransform::isPreferred(const geodesy::MapPlane::Definition& definition) const {
    return !definition.crs.empty() && definition.crs == m_preferred.crs && definition.origin == m_preferred.origin;
}

double ViewTransform::metresAcross() const { return m_metresPerPixel * std::hypot(m_size.width(), m_size.height()); }

bool ViewTransform::staysPreferred(const model::Position& place, double metresAcross) const {
    const double reach = metresAcross / 2.0 + kHoldOnMetres;
    if (metresAcross > kWidestInCrs * kHoldOnWidth || metresFrom(m_preferred.lonLat, place) > reach)
        return false;
    try {
        constexpr double step = 100.0;
        const geodesy::PlanePoint at = m_plane.toPlane(place);
        const double up = upAzimuthDegrees();
        for (const geodesy::PlanePoint& way : {geodesy::PlanePoint{0.0, step}, geodesy::PlanePoint{step, 0.0}}) {
            const auto line = geodesy::inverse(place, m_plane.toEarth({at.x + way.x, at.y + way.y}));
            if (!(std::abs(step / line.length.inMetres() - 1.0) <= kMostScaleErrorToStay))
                return false;
            if (way.x == 0.0 &&
                !(std::abs(std::remainder(line.azimuthAtStart.inDegrees() - up, 360.0)) <= kMostConvergenceToStay))
                return false;
        }
        return true;
    } catch (const Fault&) {
        return false;
    }
}

bool ViewTransform::becomesPreferred(const model::Position& place, double metresAcross) const {
    if (m_preferred.crs.empty() || metresAcross > kWidestInCrs ||
        metresFrom(m_preferred.lonLat, place) > metresAcross / 2.0)
        return false;
    if (m_refused && metresBetween(*m_refused, place) < kAskAgainMetres)
        return false;
    m_refused.reset();
    if (!geodesy::MapPlane::serves(m_preferred.crs, place))
        m_refused = place;
    return !m_refused;
}

geodesy::MapPlane::Definition ViewTransform::planeFor(const model::Position& place, double metresAcross) const {
    const geodesy::MapPlane::Definition& now = m_plane.definition();
    const bool held = isPreferred(now);
    if (held ? staysPreferred(place, metresAcross) : becomesPreferred(place, metresAcross))
        return {m_preferred.crs, m_preferred.origin, now.upAzimuthDegrees};
    // Seen from far away the middle may move some screens before a new frame is worth its price.
    if (now.crs.empty())
        if (const auto at = planeOf(place); at && std::hypot(at->x(), at->y()) < std::max(kReachMetres, metresAcross))
            return now;
    return {{}, {std::remainder(place.lon, 360.0), std::clamp(place.lat, -89.9, 89.9)}, now.upAzimuthDegrees};
}

void ViewTransform::take(const geodesy::MapPlane::Definition& definition, const model::Position& inTheMiddle) {
    if (definition != m_plane.definition()) {
        try {
            m_plane = geodesy::MapPlane{definition};
        } catch (const Fault&) {
            // A CRS that serves here, and does not reach the raster's own middle: none to draw in.
            m_preferred = {};
            m_plane = geodesy::MapPlane{{{}, inTheMiddle, definition.upAzimuthDegrees}};
        }
        const auto known = std::find_if(m_numbers.begin(), m_numbers.end(),
                                        [&](const auto& one) { return one.first == m_plane.definition(); });
        m_planeNumber = known == m_numbers.end() ? m_nextNumber++ : known->second;
        if (known != m_numbers.end())
            m_numbers.erase(known);
        m_numbers.emplace_back(m_plane.definition(), m_planeNumber);
        if (m_numbers.size() > kNumbersKept)
            m_numbers.erase(m_numbers.begin());
    }
    m_centre = planeOf(inTheMiddle).value_or(QPointF{});
}

void ViewTransform::setOrigin(const model::Position& origin) {
    const model::Position held{std::remainder(origin.lon, 360.0), std::clamp(origin.lat, -89.9, 89.9)};
    geodesy::MapPlane::Definition definition = planeFor(held, metresAcross());
    if (definition.crs.empty())
        definition.origin = held;
    take(definition, held);
}

bool ViewTransform::settlePlane() {
    const model::Position place = earthAt(middle());
    geodesy::MapPlane::Definition definition = planeFor(place, metresAcross());
    if (definition == m_plane.definition())
        return false;
    // Two kinds of plane have two norths: a turned map stays as it lies.
    const double up = trueUpAzimuth();
    const bool turned = upAzimuthDegrees() != 0.0 && definition.crs != m_plane.definition().crs;
    take(definition, place);
    if (turned)
        setTrueUpAzimuth(up);
    return true;
}

void ViewTransform::setUpAzimuth(double degrees) {
    geodesy::MapPlane::Definition definition = m_plane.definition();
    definition.upAzimuthDegrees = turn(degrees);
    take(definition, earthAt(middle()));
}

double ViewTransform::trueUpAzimuth() const {
    const QPointF here = middle();
    const double pixels = std::clamp(100.0 / m_metresPerPixel, 1.0, 100'000.0);
    const model::Position from = earthAt(here), to = earthAt({here.x(), here.y() - pixels});
    return turn(geodesy::inverse(from, to).azimuthAtStart.inDegrees());
}

void ViewTransform::setTrueUpAzimuth(double degrees) {
    const double asked = turn(upAzimuthDegrees() + degrees - trueUpAzimuth());
    // So near to north by the plane, it is north that was meant.
    constexpr double nothing = 0.05;
    setUpAzimuth(std::abs(std::remainder(asked, 360.0)) < nothing ? 0.0 : asked);
}

double ViewTransform::groundMetresPerPixel() const {
    const QPointF here = middle();
    constexpr double half = 50.0; // pixels
    const double metres = metresBetween(earthAt({here.x() - half, here.y()}), earthAt({here.x() + half, here.y()}));
    return metres > 0.0 ? metres / (2.0 * half) : m_metresPerPixel;
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
    const model::Position place{std::remainder((lonLat.minX + lonLat.maxX) / 2.0, 360.0), lat};
    const double south = std::clamp(lonLat.minY, -89.0, 89.0), north = std::clamp(lonLat.maxY, -89.0, 89.0);
    take(planeFor(place, metresBetween({lonLat.minX, south}, {lonLat.maxX, north})), place);
    // The outline of the box, for its edges bulge in the plane.
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
    const QRectF box = boundsOf(points);
    const double width = std::max(m_size.width() - 2.0 * margin, 32.0);
    const double height = std::max(m_size.height() - 2.0 * margin, 32.0);
    constexpr double closestLook = 40.0; // metres across: a lone point is shown with its surroundings
    setMetresPerPixel(std::max({box.width() / width, box.height() / height, closestLook / width}));
    m_centre = box.center();
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
    constexpr int steps = 8;
    std::vector<geodesy::PlanePoint> edge;
    const auto add = [&](double x, double y) {
        const QPointF at = toPlane({m_size.width() * x, m_size.height() * y});
        edge.push_back({at.x(), at.y()});
    };
    for (int i = 0; i <= steps; ++i) {
        const double share = double(i) / steps;
        add(share, 0.0);
        add(share, 1.0);
        add(0.0, share);
        add(1.0, share);
    }
    geometry::Box box;
    try {
        for (const model::Position& place : m_plane.toEarth(edge))
            box.add(place.lon, place.lat);
    } catch (const Fault&) {
        // Some of the edge lies beyond what the plane holds: what there is of it.
        for (const geodesy::PlanePoint& one : edge) {
            const model::Position place = earthAt(toWidget({one.x, one.y}));
            box.add(place.lon, place.lat);
        }
    }
    // Over a pole all longitudes meet, and the edge tells nothing of what lies within.
    for (const double pole : {-90.0, 90.0}) {
        constexpr double near = 60.0;
        if (std::max(std::abs(box.minY), std::abs(box.maxY)) < near)
            continue;
        const auto at = widgetOf({m_plane.origin().lon, pole});
        if (at && QRectF{QPointF{}, m_size}.contains(*at)) {
            box.add(m_plane.origin().lon - 180.0, pole);
            box.add(m_plane.origin().lon + 180.0, pole);
        }
    }
    return box;
}

} // namespace fencewright::desktop
