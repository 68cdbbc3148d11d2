#pragma once

#include "model/date.h"
#include "model/id.h"

#include <array>
#include <optional>
#include <string>

namespace fencewright::model {

enum class SourceKind {
    Imagery,  ///< a raster under the map
    Reference ///< a vector layer over the imagery: parcels, roads
};

/// What the set was drawn over: a file, a folder, a server or a table. The document keeps where it is and how it is
/// shown, never the data itself, and never what opens a server's door: no password, no key.
struct Source {
    SourceId id;
    SourceKind kind = SourceKind::Imagery;
    std::string name;
    std::string path;  ///< file or folder, relative to the document where it lies below its folder; or an address with
                       ///< "://", as raster/tile_server.h and exchange/database_address.h describe them
    std::string layer; ///< of a vector file with several layers; empty: the first
    std::string crs;   ///< the person's word where the file has none: "EPSG:25829"; empty: the file's own
    bool visible = true;
    double opacity = 1.0; ///< 0 to 1
    std::optional<Date> captured;
    std::string labelField;  ///< the column that is drawn as label; empty: none
    std::string numberField; ///< the column that holds the parcel number; empty: none
    std::string filter;      ///< of a reference layer: an SQL WHERE clause without the word; empty: all features
    /// Of imagery: the bands shown as red, green and blue, counted from 1; nothing: as the file says.
    std::optional<std::array<int, 3>> bands;
    /// Of imagery: the values that become black and white; nothing: the file's own for eight bits, else found by the
    /// picture.
    std::optional<std::array<double, 2>> stretch;

    bool operator==(const Source&) const = default;
};

} // namespace fencewright::model
