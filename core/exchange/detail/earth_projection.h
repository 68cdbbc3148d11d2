#pragma once

#include "exchange/detail/geometry_intake.h"
#include "exchange/vector_content.h"
#include "geodesy/cellwise_transform.h"
#include "geodesy/crs_transform.h"
#include "wording.h"

#include <cstdint>
#include <limits>
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
    EarthProjection(const EarthProjection&) = delete;
    EarthProjection& operator=(const EarthProjection&) = delete;

    [[nodiscard]] const std::string& name() const { return m_name; }
    [[nodiscard]] bool isGeographic() const { return m_geographic; }
    [[nodiscard]] std::optional<double> metresPerUnit() const { return m_transform.metresPerUnit(); }
    /// How far the way to WGS 84 of what was brought there last may be off, in words; empty where that is under a
    /// metre.
    [[nodiscard]] Wording caution() const;

    struct Projected {
        std::optional<FeatureGeometry> geometry; ///< nothing: it cannot be brought to WGS 84
        Wording why;                             ///< not, in that case
        std::size_t addedCorners = 0;
        bool unwrapped = false; ///< an edge of the file spanned more than 180 degrees and goes the short way now
    };
    /// @param cornerLimit  how many corners it may come to have.
    [[nodiscard]] Projected toEarth(const SourcePart& part, std::size_t cornerLimit);

    /// The corners alone, whatever lies between them.
    [[nodiscard]] std::vector<std::optional<model::Position>>
    cornersToWgs84(std::span<const geodesy::PlanePoint> corners);
    /// The edge between two corners needs none added and does not cross the antimeridian; false where that is not sure.
    [[nodiscard]] bool isPlainEdge(const geodesy::PlanePoint& from, const geodesy::PlanePoint& to) {
        return (!m_geographic || std::abs(to.x - from.x) <= 180.0) && (m_isWgs84 || isSurelyStraight(from, to));
    }
    /// The same for every edge between two of these corners, in whatever order.
    [[nodiscard]] bool arePlainEdges(std::span<const geodesy::PlanePoint> corners);
    [[nodiscard]] bool isWgs84() const { return m_isWgs84; }

private:
    struct Track;
    [[nodiscard]] Track follow(const SourceLine& line, bool closed, std::size_t cornerLimit);
    [[nodiscard]] bool isSurelyStraight(const geodesy::PlanePoint& from, const geodesy::PlanePoint& to);
    [[nodiscard]] double bendingAround(const geodesy::PlanePoint& middle);
    [[nodiscard]] double bendingOf(double column, double row);

    geodesy::CrsTransform m_transform;
    std::string m_name;
    bool m_geographic;
    bool m_isWgs84;
    double m_cellSize; ///< in units of the coordinates
    geodesy::CellwiseTransform m_cells;
    /// How much an edge bends, by cell of the plane: metres of parting for each square unit of length.
    std::map<std::pair<std::int64_t, std::int64_t>, double> m_bending;
    /// The cell that was asked for last.
    double m_lastColumn = std::numeric_limits<double>::quiet_NaN();
    double m_lastRow = 0.0;
    double m_lastBending = 0.0;
    /// Corners transformed not long ago, by their own number: neighbours share them.
    struct Known {
        bool there = false;
        geodesy::PlanePoint plane;
        std::optional<model::Position> earth;
        std::size_t asked = 0; ///< the number that it is being asked under, plus one
    };
    std::vector<Known> m_known;
};

/// Parts of one feature that were cut apart at the antimeridian, joined on one side of it: longitudes run on.
void joinAtAntimeridian(std::vector<FeatureGeometry>& parts);

} // namespace fencewright::exchange::detail
