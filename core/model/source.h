#pragma once

#include "model/date.h"
#include "model/id.h"

#include <optional>
#include <string>

namespace fencewright::model {

enum class SourceKind {
    Imagery,  ///< a raster under the map
    Reference ///< a vector layer over the imagery: parcels, roads
};

/// A file that the set was drawn over. The document keeps where it is and how it is shown, never the file itself.
struct Source {
    SourceId id;
    SourceKind kind = SourceKind::Imagery;
    std::string name;
    std::string path;  ///< file or folder; relative to the document where it lies below the document's folder
    std::string layer; ///< of a vector file with several layers; empty: the first
    std::string crs;   ///< the person's word where the file has none: "EPSG:25829"; empty: the file's own
    bool visible = true;
    double opacity = 1.0; ///< 0 to 1
    std::optional<Date> captured;
    std::string labelField;  ///< the column that is drawn as label; empty: none
    std::string numberField; ///< the column that holds the parcel number; empty: none
    std::string filter;      ///< of a reference layer: an SQL WHERE clause without the word; empty: all features

    bool operator==(const Source&) const = default;
};

} // namespace fencewright::model
