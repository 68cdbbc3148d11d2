#pragma once

#include "geodesy/local_frame.h"
#include "model/position.h"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace fencewright::geodesy {

/// From a coordinate reference system to WGS 84 and back. The axis order is that of the data as GIS files hold it
/// (easting, northing or longitude, latitude), whatever the authority's own order is.
///
/// Without network: PROJ may use only the grids installed on this machine. Where a better transformation would need a
/// grid that is missing, `accuracy()` says how far the one in use may be off; importers report that.
/// One object per thread.
class CrsTransform {
public:
    /// @param crs  "EPSG:25829", WKT, PROJJSON or a PROJ string.
    /// @throws Fault  not a CRS, a CRS without a way to WGS 84 (engineering, vertical only): says why.
    explicit CrsTransform(const std::string& crs);
    ~CrsTransform();
    CrsTransform(CrsTransform&&) noexcept;
    CrsTransform& operator=(CrsTransform&&) noexcept;

    /// Longitudes come back in [-180, 180]. Places that do not transform come back as nothing.
    [[nodiscard]] std::vector<std::optional<model::Position>> toWgs84(std::span<const PlanePoint> points) const;
    [[nodiscard]] std::vector<std::optional<PlanePoint>> fromWgs84(std::span<const model::Position> positions) const;

    [[nodiscard]] std::string name() const; ///< "ETRS89 / UTM zone 29N"
    [[nodiscard]] bool isGeographic() const;
    /// Metres per unit of a projected CRS (0.3048... for feet); nothing for a geographic one.
    [[nodiscard]] std::optional<double> metresPerUnit() const;
    /// How far the transformation may be off, where the authority states it: at the places transformed last; before
    /// any, in the middle of the area that the system is made for.
    [[nodiscard]] std::optional<Length> accuracy() const;
    /// No way between the datums is known, or none without a grid that is not installed: coordinates are taken over as
    /// they are, and may be off by hundreds of metres. Of the same places as accuracy().
    [[nodiscard]] bool datumShiftUnknown() const;

    /// It is a transverse Mercator projection and one way between the datums by formulas alone, the same everywhere: no
    /// grid, and no other way beyond some line.
    [[nodiscard]] bool isSmooth() const;

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

} // namespace fencewright::geodesy
