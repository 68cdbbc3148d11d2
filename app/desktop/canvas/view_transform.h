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
#include <string>
#include <utility>
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

    /// The CRS that a raster lies in, and where: the plane is one of that CRS while the view is on or near the box and
    /// the CRS serves there (see MapPlane::serves), so that the raster is drawn as it lies. Empty: always local frames.
    /// Takes effect with the next settlePlane(), setOrigin() or showBox().
    void setPreferredCrs(const std::string& crs, const geometry::Box& lonLat);

    /// Brings the place to the middle, in a plane that serves there.
    void setOrigin(const model::Position& origin);
    /// Another plane, once the one in use does not serve any more at the middle of the view: too far from a frame's
    /// origin, away from the preferred raster, or near it again. What is in the middle stays there. The bounds for
    /// leaving lie well beyond those for entering, so that it never goes back and forth.
    /// @return  whether there is one.
    bool settlePlane();

    /// Which direction of the unturned plane is up: 0 while the map is not turned. In [0, 360).
    double upAzimuthDegrees() const { return m_plane.definition().upAzimuthDegrees; }
    /// What lies in the middle stays there.
    void setUpAzimuth(double degrees);
    /// The true azimuth that is up at the middle of the view. In [0, 360).
    double trueUpAzimuth() const;
    void setTrueUpAzimuth(double degrees);

    void setSize(const QSizeF& size) { m_size = size; }
    QSizeF size() const { return m_size; }
    /// Of the plane; on the ground it may differ by a hundredth.
    double metresPerPixel() const { return m_metresPerPixel; }
    /// On the ground, along a line across the middle of the view.
    double groundMetresPerPixel() const;
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
    struct PreferredCrs {
        std::string crs;
        geometry::Box lonLat;
        model::Position origin; ///< stays what it is while the CRS does, so that the plane stays too
    };

    QPointF middle() const { return {m_size.width() / 2.0, m_size.height() / 2.0}; }
    double metresAcross() const;
    /// The plane for a view of that middle and width; the present one, where it will do.
    geodesy::MapPlane::Definition planeFor(const model::Position& place, double metresAcross) const;
    bool isPreferred(const geodesy::MapPlane::Definition& definition) const;
    /// Whether the present plane, one of the preferred CRS, will do.
    bool staysPreferred(const model::Position& place, double metresAcross) const;
    bool becomesPreferred(const model::Position& place, double metresAcross) const;
    /// Takes the plane, and brings the place to the middle.
    void take(const geodesy::MapPlane::Definition& definition, const model::Position& inTheMiddle);

    geodesy::MapPlane m_plane;
    std::uint64_t m_planeNumber = 0;
    std::uint64_t m_nextNumber = 1;
    /// The planes that were used last keep their numbers: what was kept of them is good again.
    std::vector<std::pair<geodesy::MapPlane::Definition, std::uint64_t>> m_numbers;
    PreferredCrs m_preferred;
    mutable std::optional<model::Position> m_refused; ///< where the preferred CRS did not serve when last asked
    QPointF m_centre;
    double m_metresPerPixel = 1.0;
    QSizeF m_size{640, 480};
};

} // namespace fencewright::desktop
