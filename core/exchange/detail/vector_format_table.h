#pragma once

#include "wording.h"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::exchange::detail {

/// What the first bytes of a file say it is.
enum class Content { Json, Xml, Zip, Sqlite, Shapefile, FlatGeobuf, Dxf, PlainText, Unknown };

/// Told by signature alone; the name of the file plays no part.
[[nodiscard]] Content contentOf(std::string_view head);
/// "a ZIP archive".
[[nodiscard]] Wording wordsFor(Content content);

/// How a file is brought before its driver.
enum class Loading {
    InPlace,       ///< as it lies on the disk
    Json,          ///< in place, after a check of its structure
    Xml,           ///< into memory after a check: no files beside it are looked for, none are written
    ZippedKml,     ///< the document out of the archive, then as Xml
    ZippedShapes,  ///< the shapefiles out of the archive, into memory
    ShapefileParts ///< in place, after looking for the parts that belong to it
};

/// A format that can be read: one line of the table.
struct FormatRow {
    std::string_view name;
    std::vector<std::string_view> suffixes;
    std::string_view driver; ///< the only driver that may open it
    Content content;
    Loading loading;
    std::size_t byteLimit; ///< larger files are refused before anything is read
    std::vector<std::string_view> openOptions;
};

[[nodiscard]] std::span<const FormatRow> formatRows();
/// By suffix, upper or lower case; null where none has it.
[[nodiscard]] const FormatRow* formatRowFor(const std::string& path);

} // namespace fencewright::exchange::detail
