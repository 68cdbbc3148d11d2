#pragma once

#include "exchange/detail/geojson_check.h"
#include "exchange/detail/memory_folder.h"
#include "exchange/detail/reading_account.h"
#include "exchange/detail/source_layer.h"
#include "exchange/detail/vector_format_table.h"
#include "gdal/handles.h"
#include "gdal/library.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// What a query of a data set has found: an OGRLayerH that goes before its data set does.
struct ReleaseResult {
    void* dataset = nullptr;
    void operator()(void* result) const;
};
using ResultHandle = std::unique_ptr<void, ReleaseResult>;

/// A foreign file that its driver has opened, and what was seen on the way.
struct ForeignFile {
    const FormatRow* format = nullptr;
    std::unique_ptr<MemoryFolder> memory; ///< outlives the data set in it
    gdal::DatasetHandle dataset;
    GeoJsonFaults json; ///< of a GeoJSON text
    // Of a database only:
    ResultHandle result;                 ///< the one layer, filtered already
    CrsHandle crs;                       ///< null: not known
    std::vector<std::string> fields;     ///< how its columns are called on the server
    std::optional<int> idColumn;         ///< which column of the result tells its features apart
    std::optional<std::size_t> expected; ///< about how many features there are

    /// Rows of text, whose geometry is in columns that are told by name.
    [[nodiscard]] bool isTable() const { return format->driver == "CSV"; }
};

/// Checks the file, chooses the driver and opens it, for reading only.
/// @param encoding  the person's word for the encoding of its text; empty: the file's own.
/// @throws Fault  not there, not a file, no rights, empty, too large, of no format or not of the one its name says.
[[nodiscard]] ForeignFile openForeign(const std::string& path, const std::string& encoding, ReadingAccount& account);

/// What GDAL says, without its own paths and without the full stop.
[[nodiscard]] Wording plainWords(std::string text);

} // namespace fencewright::exchange::detail
