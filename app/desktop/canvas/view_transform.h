#pragma once

#include <QPointF>
#include <QRectF>
#include <QSizeF>

#include "geodesy/map_plane.h"
#include "geometry/spatial_index.h"
#include "model/position.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::desktop {

/// What part of the earth the widget shows: a plane, the place in the middle, and the scale.
/// Widget x runs right and y runs down; the plane's y runs up.
class ViewTransform {
public:
    static constexpr double kFinestMetresPerPixel = 0.005;
    static constexpr double kCoarsestMetresPerPixel = 2000.0;

    ViewTransform();

    const geodesy::MapPlane& plane() const { return m_plane; }
    /// Another number, another plane: what was kept in plane coordinates is void.
    std::uint64_t planeNumber() const { return m_planeNumber; }

    /// Takes a new plane around the place, which comes to the middle.
    void setOrigin(const model::Position& origin);
    /// A new plane around the middle once that is farther from the plane's origin than the scale error allows.
    /// @return  whether there is one.
    bool recentreIfFar();

    void setSize(const QSizeF& size) { m_size = size; }
    QSizeF size() const { return m_size; }
    double metresPerPixel() const { return m_metresPerPixel; }
    void setMetresPerPixel(double metresPerPixel);
    QPointF centre() const { return m_centre; }
    void setCentre(const QPointF& plane) { m_centre = plane; }

    void panBy(const QPointF& pixels);
    /// Makes everything `factor` times as large; what lies under `widget` stays there.
    void zoomAbout(const QPointF& widget, double factor);
    /// Shows the whole box with `margin` pixels around it.
    void showBox(const geometry::Box& lonLat, double margin);

    QPointF toWidget(const QPointF& plane) const {
        return {m_size.width() / 2.0 + (plane.x() - m_centre.x()) / m_metresPerPixel,
                m_size.height() / 2.0 - (plane.y() - m_centre.y()) / m_metresPerPixel};
    }
    QPointF toPlane(const QPointF& widget) const {
        return {m_centre.x() + (widget.x() - m_size.width() / 2.0) * m_metresPerPixel,
                m_centre.y() - (widget.y() - m_size.height() / 2.0) * m_metresPerPixel};
    }
    /// Nothing where the place cannot be shown in this plane: beyond the poles, or a quarter of the earth away.
    std::optional<QPointF> planeOf(const model::Position& place) const;
    /// All of them, or none.
    std::vector<QPointF> planeOf(std::span<const model::Position> places) const;
    std::optional<QPointF> widgetOf(const model::Position& place) const;
    model::Position earthAt(const QPointF& widget) const;

    /// The part of the plane that is seen: x to the right, y up (so top is the lowest y).
    QRectF visiblePlane() const;
    /// The box in longitude and latitude that holds all that is seen.
    geometry::Box visibleLonLat() const;

private:
    geodesy::MapPlane m_plane;
    std::uint64_t m_planeNumber = 0;
    QPointF m_centre;
    double m_metresPerPixel = 1.0;
    QSizeF m_size{640, 480};
};

} // namespace fencewright::desktop
