#pragma once

#include "exchange/detail/geopackage_geometry.h"

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace fencewright::exchange::detail {

/// Where the rows of a layer of a GeoPackage are, as its driver says.
struct GeopackageTable {
    std::string path;
    std::string name;
    std::string idColumn;
    std::string geometryColumn;
    /// What a column holds and how AttributeText writes it.
    enum class Content { Text, Whole16, Whole32, Whole64, YesNo, Real, Date, DateTime, Binary };
    struct Column {
        std::string name;
        Content content = Content::Text;
    };
    std::vector<Column> columns;
};

/// Reads the values of rows of a GeoPackage straight out of its tables, which takes a third of the time that a feature
/// of its driver takes. What the rows say is told as the driver tells it, or not at all: see NotPlain. Source of the
/// form: OGC 12-128r18, GeoPackage 1.3, clause 1.1. One object per thread.
class GeopackageRows {
public:
    /// @throws NotPlain  not a table, or one whose rows are not in the order of their identities.
    explicit GeopackageRows(const GeopackageTable& table);
    ~GeopackageRows();
    GeopackageRows(GeopackageRows&&) noexcept;

    /// @throws NotPlain  the table keeps its columns in another order than it names them.
    [[nodiscard]] GeopackageGeometry::Place placeOfGeometry() const;
    /// The values of the rows of these identities, which ascend. @throws NotPlain
    [[nodiscard]] AttributeBatch readAttributes(const std::vector<std::int64_t>& ids);

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

} // namespace fencewright::exchange::detail
