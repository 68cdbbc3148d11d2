#pragma once

#include "gdal/handles.h"
#include "wording.h"

#include <optional>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// Which columns of a table hold the places, told by their names.
struct CoordinateColumns {
    enum class Form {
        LonLat, ///< degrees: numbers, or degrees, minutes and seconds
        Plane,  ///< easting and northing
        Wkt     ///< one column of well-known text
    };
    Form form = Form::LonLat;
    std::size_t x = 0; ///< or the column of well-known text
    std::size_t y = 0;
    std::optional<std::size_t> z;
};

/// The names that are known, for a person to rename a column to.
[[nodiscard]] Wording knownColumnNames();
[[nodiscard]] std::optional<CoordinateColumns> findCoordinateColumns(const std::vector<std::string>& fields);

/// A number with decimal point or decimal comma, spaces around it and grouping in it allowed; nothing where it is none.
[[nodiscard]] std::optional<double> parseTableNumber(std::string text);

/// The geometry of a row.
struct RowGeometry {
    gdal::GeometryHandle geometry; ///< null: there is none
    Wording why;                   ///< there is none; empty where the fields are empty
};
/// @param x,y,z  the texts in the columns; z empty where there is none.
[[nodiscard]] RowGeometry geometryOfRow(CoordinateColumns::Form form, const std::string& x, const std::string& y,
                                        const std::string& z);

} // namespace fencewright::exchange::detail
