#pragma once

#include <QPointF>

#include "desktop/canvas/reference_tile.h"

#include <array>
#include <optional>

namespace fencewright::desktop {

/// From the earth to the pixels of one tile. Near the tile by polynomials of second degree through nine places, which
/// is a hundred times faster than the projection; elsewhere, and where these are not near enough, by the plane.
/// Refers to both that it is made of.
class TileMap {
public:
    static constexpr double kRoom = 6.0; ///< pixels around the tile that can be seen in it

    TileMap(const ReferenceTile& tile, const geodesy::MapPlane& plane);

    /// In longitude and latitude: all that can be seen in the tile.
    [[nodiscard]] const geometry::Box& box() const { return m_box; }
    /// Nothing: the place is none of this map.
    [[nodiscard]] std::optional<QPointF> toPixels(const model::Position& place) const {
        return m_fitted && contains(m_fit, place) ? fitted(place) : exact(place);
    }

    /// The same about one place, with no bend: for what is small.
    struct Straight {
        model::Position about;
        double x, y;                           ///< of that place
        double xOfLon, xOfLat, yOfLon, yOfLat; ///< pixels in a degree

        [[nodiscard]] double xAt(double lon, double lat) const {
            return x + (lon - about.lon) * xOfLon + (lat - about.lat) * xOfLat;
        }
        [[nodiscard]] double yAt(double lon, double lat) const {
            return y + (lon - about.lon) * yOfLon + (lat - about.lat) * yOfLat;
        }
    };
    /// About the middle of a box of so many pixels across; nothing where it is so large that the bend would be seen, or
    /// not near the tile.
    [[nodiscard]] std::optional<Straight> straightIn(const geometry::Box& box, double across) const;

private:
    [[nodiscard]] static bool contains(const geometry::Box& box, const model::Position& place) {
        return place.lon >= box.minX && place.lon <= box.maxX && place.lat >= box.minY && place.lat <= box.maxY;
    }
    [[nodiscard]] std::optional<QPointF> exact(const model::Position& place) const;
    [[nodiscard]] QPointF fitted(const model::Position& place) const;
    void fit();

    using Coefficients = std::array<std::array<double, 3>, 3>; ///< of v to the power of the first, u of the second

    const ReferenceTile& m_tile;
    const geodesy::MapPlane& m_plane;
    geometry::Box m_box, m_fit;
    bool m_fitted = false;
    double m_straightPixels = 0.0; ///< up to how many across there is no bend to be seen
    model::Position m_middle;
    double m_perLon = 1.0, m_perLat = 1.0;
    Coefficients m_x{}, m_y{};
};

inline QPointF TileMap::fitted(const model::Position& place) const {
    const double u = (place.lon - m_middle.lon) * m_perLon, v = (place.lat - m_middle.lat) * m_perLat;
    const auto along = [u](const std::array<double, 3>& c) { return c[0] + u * (c[1] + u * c[2]); };
    const auto value = [&](const Coefficients& c) { return along(c[0]) + v * (along(c[1]) + v * along(c[2])); };
    return {value(m_x), value(m_y)};
}

inline std::optional<TileMap::Straight> TileMap::straightIn(const geometry::Box& box, double across) const {
    if (!m_fitted || !(across <= m_straightPixels) || box.minX < m_fit.minX || box.maxX > m_fit.maxX ||
        box.minY < m_fit.minY || box.maxY > m_fit.maxY)
        return std::nullopt;
    const model::Position about{(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2};
    const double u = (about.lon - m_middle.lon) * m_perLon, v = (about.lat - m_middle.lat) * m_perLat;
    const auto along = [u](const std::array<double, 3>& c) { return c[0] + u * (c[1] + u * c[2]); };
    const auto slope = [u](const std::array<double, 3>& c) { return c[1] + 2.0 * u * c[2]; };
    const auto value = [&](const Coefficients& c) { return along(c[0]) + v * (along(c[1]) + v * along(c[2])); };
    const auto alongU = [&](const Coefficients& c) { return slope(c[0]) + v * (slope(c[1]) + v * slope(c[2])); };
    const auto alongV = [&](const Coefficients& c) { return along(c[1]) + 2.0 * v * along(c[2]); };
    return Straight{about,
                    value(m_x),
                    value(m_y),
                    alongU(m_x) * m_perLon,
                    alongV(m_x) * m_perLat,
                    alongU(m_y) * m_perLon,
                    alongV(m_y) * m_perLat};
}

} // namespace fencewright::desktop
