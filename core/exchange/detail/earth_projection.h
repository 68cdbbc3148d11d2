#pragma once

#include "exchange/detail/geometry_intake.h"
#include "exchange/vector_content.h"
#include "geodesy/crs_transform.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fencewright::exchange::detail {

/// From the coordinates of a file to WGS 84, edges included.
///
/// An edge that is straight in a projected CRS is not straight in longitude and latitude: where the two part by more
/// than 1 mm, corners are added on the source's straight line. Coordinates in WGS 84 pass unchanged, bit for bit.
class EarthProjection {
public:
    /// Whether the coordinates are WGS 84 already.
    enum class Datum { Wgs84, Other };
    /// @param crs  as CrsTransform takes it.
    /// @throws Fault  as CrsTransform.
    EarthProjection(const std::string& crs, Datum datum);

    [[nodiscard]] const std::string& name() const { return m_name; }
    [[nodiscard]] bool isGeographic() const { return m_geographic; }
    [[nodiscard]] std::optional<double> metresPerUnit() const { return m_transform.metresPerUnit(); }
    /// How far the way to WGS 84 of what was brought there last may be off, in words; empty where that is under a
    /// metre.
    [[nodiscard]] std::string caution() const;

    struct Projected {
        std::optional<FeatureGeometry> geometry; ///< nothing: it cannot be brought to WGS 84
        std::string why;                         ///< not, in that case
        std::size_t addedCorners = 0;
        bool unwrapped = false; ///< an edge of the file spanned more than 180 degrees and goes the short way now
    };
    /// @param cornerLimit  how many corners it may come to have.
    [[nodiscard]] Projected toEarth(const SourcePart& part, std::size_t cornerLimit);

private:
    struct Track;
    [[nodiscard]] std::vector<std::optional<model::Position>>
    cornersToWgs84(std::span<const geodesy::PlanePoint> corners);
    [[nodiscard]] Track follow(const SourceLine& line, bool closed, std::size_t cornerLimit);
    [[nodiscard]] bool isSurelyStraight(const geodesy::PlanePoint& from, const geodesy::PlanePoint& to);
    [[nodiscard]] double bendingAround(const geodesy::PlanePoint& middle);

    geodesy::CrsTransform m_transform;
    std::string m_name;
    bool m_geographic;
    bool m_isWgs84;
    double m_cellSize; ///< in units of the coordinates
    /// How much an edge bends, by cell of the plane: metres of parting for each square unit of length.
    std::map<std::pair<std::int64_t, std::int64_t>, double> m_bending;
    /// Corners transformed not long ago, by their own number: neighbours share them.
    struct Known {
        bool there = false;
        geodesy::PlanePoint plane;
        std::optional<model::Position> earth;
    };
    std::vector<Known> m_known;
};

/// Parts of one feature that were cut apart at the antimeridian, joined on one side of it: longitudes run on.
void joinAtAntimeridian(std::vector<FeatureGeometry>& parts);

} // namespace fencewright::exchange::detail
