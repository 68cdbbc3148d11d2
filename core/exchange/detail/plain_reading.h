#pragma once

#include "exchange/detail/crew.h"
#include "exchange/detail/geopackage_geometry.h"
#include "exchange/detail/geopackage_rows.h"
#include "exchange/detail/plain_intake.h"
#include "wording.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// A layer that may be read the short way.
struct PlainLayer {
    std::string name;
    std::string path;
    std::string encoding;
    std::optional<GeopackageTable> table; ///< of a GeoPackage; else it is a shapefile
    std::int64_t shapes = 0;              ///< of a shapefile
    std::string crs;
    EarthProjection::Datum datum = EarthProjection::Datum::Other;
    std::size_t cornerLimit = 0;
};

/// Reads a layer in stretches, several at the same time: first the geometry of all, then the attributes.
class PlainReading {
public:
    explicit PlainReading(PlainLayer layer) : m_layer{std::move(layer)} {}

    struct Geometry {
        std::vector<FeatureBatch> batches;
        std::size_t seen = 0;
        std::size_t taken = 0;
        std::vector<std::size_t> withoutGeometry; ///< which of those seen
        std::size_t addedCorners = 0;
        std::size_t partsWithAddedCorners = 0;
        std::map<std::string, Wording> cautions; ///< each once, by its English
    };
    /// @throws NotPlain, Cancelled
    [[nodiscard]] Geometry geometry(const Progress& progress);

    /// The attributes of the features of each batch. To be asked when nobody waits for the geometry any more.
    /// @throws NotPlain, Cancelled
    [[nodiscard]] std::vector<AttributeBatch> attributes(const Progress& progress);

private:
    [[nodiscard]] Crew::Job geometryJob();
    [[nodiscard]] Crew::Job attributeJob();
    [[nodiscard]] std::size_t plan();

    PlainLayer m_layer;
    std::optional<GeopackageGeometry> m_pages; ///< of a GeoPackage
    std::vector<PlainStretch> m_stretches;
    std::vector<AttributeBatch> m_attributes;
};

} // namespace fencewright::exchange::detail
