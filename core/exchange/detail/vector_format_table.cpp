#include "exchange/detail/vector_format_table.h"

#include "units/number_notation.h"

#include <array>
#include <cctype>
#include <filesystem>

namespace fencewright::exchange::detail {

namespace {

constexpr std::size_t operator""_MiB(unsigned long long value) { return std::size_t{value} << 20; }

std::string_view withoutLeadingSpace(std::string_view text) {
    while (!text.empty() && std::isspace(static_cast<unsigned char>(text.front())))
        text.remove_prefix(1);
    return text;
}

// A drawing begins with group code 0 and SECTION, or with comments (group code 999).
bool beginsLikeADrawing(std::string_view text) {
    text = withoutLeadingSpace(text);
    const bool comment = text.starts_with("999");
    if (!comment && !text.starts_with("0"))
        return false;
    text.remove_prefix(comment ? 3 : 1);
    if (text.empty() || (text.front() != '\r' && text.front() != '\n' && text.front() != ' '))
        return false;
    return comment || withoutLeadingSpace(text).starts_with("SECTION");
}

} // namespace

Content contentOf(std::string_view head) {
    using namespace std::string_view_literals;
    if (head.starts_with("PK\3\4"sv) || head.starts_with("PK\5\6"sv))
        return Content::Zip;
    if (head.starts_with("SQLite format 3\0"sv))
        return Content::Sqlite;
    if (head.starts_with("\0\0\x27\x0a"sv))
        return Content::Shapefile;
    if (head.starts_with("fgb\3fgb"sv))
        return Content::FlatGeobuf;
    if (head.starts_with("\xef\xbb\xbf"sv))
        head.remove_prefix(3);
    const bool utf16 = head.starts_with("\xff\xfe<"sv) || head.starts_with("\xfe\xff\0<"sv);
    if (utf16)
        return Content::Xml;
    if (head.find('\0') != std::string_view::npos)
        return Content::Unknown;
    const std::string_view text = withoutLeadingSpace(head);
    if (text.starts_with('{') || text.starts_with('['))
        return Content::Json;
    if (text.starts_with('<'))
        return Content::Xml;
    return beginsLikeADrawing(text) ? Content::Dxf : Content::PlainText;
}

Wording wordsFor(Content content) {
    switch (content) {
    case Content::Json:
        return phrase("core", "JSON text");
    case Content::Xml:
        return phrase("core", "XML text");
    case Content::Zip:
        return phrase("core", "a ZIP archive");
    case Content::Sqlite:
        return phrase("core", "an SQLite database");
    case Content::Shapefile:
        return phrase("core", "a shapefile");
    case Content::FlatGeobuf:
        return phrase("core", "a FlatGeobuf file");
    case Content::Dxf:
        return phrase("core", "a DXF drawing");
    case Content::PlainText:
        return phrase("core", "plain text");
    case Content::Unknown:
        break;
    }
    return phrase("core", "of a kind unknown here");
}

// Drivers that open addresses, servers or other files by name (OGR VRT, WFS, PostgreSQL and so on) are not in the table
// and so are never asked. KML goes through LIBKML, which alone reads ExtendedData; documents with a Track, on which the
// driver of GDAL 3.6.2 dies when the Track lacks its `when` elements, go through the plain KML driver instead.
std::span<const FormatRow> formatRows() {
    static const std::array<FormatRow, 10> rows{{
        {"GeoJSON",
         {".geojson", ".json"},
         "GeoJSON",
         Content::Json,
         Loading::Json,
         2048_MiB,
         {"NATIVE_DATA=NO", "DATE_AS_STRING=YES"}},
        {"GeoPackage",
         {".gpkg"},
         "GPKG",
         Content::Sqlite,
         Loading::InPlace,
         SIZE_MAX,
         {"LIST_ALL_TABLES=NO", "IMMUTABLE=YES"}},
        {"Shapefile", {".shp"}, "ESRI Shapefile", Content::Shapefile, Loading::ShapefileParts, SIZE_MAX, {}},
        {"Shapefile in a ZIP archive",
         {".zip", ".shz"},
         "ESRI Shapefile",
         Content::Zip,
         Loading::ZippedShapes,
         512_MiB,
         {}},
        {"KML", {".kml"}, "LIBKML", Content::Xml, Loading::Xml, 256_MiB, {}},
        {"KMZ", {".kmz"}, "LIBKML", Content::Zip, Loading::ZippedKml, 256_MiB, {}},
        {"GML", {".gml", ".xml"}, "GML", Content::Xml, Loading::Xml, 1024_MiB, {"DOWNLOAD_SCHEMA=NO", "WRITE_GFS=NO"}},
        {"FlatGeobuf", {".fgb"}, "FlatGeobuf", Content::FlatGeobuf, Loading::InPlace, SIZE_MAX, {"VERIFY_BUFFERS=YES"}},
        {"DXF", {".dxf"}, "DXF", Content::Dxf, Loading::InPlace, 512_MiB, {}},
        {"CSV",
         {".csv", ".tsv", ".txt"},
         "CSV",
         Content::PlainText,
         Loading::InPlace,
         2048_MiB,
         {"MAX_LINE_SIZE=20000000"}},
    }};
    return rows;
}

const FormatRow* formatRowFor(const std::string& path) {
    const std::string suffix = units::lowered(std::filesystem::path{path}.extension().string());
    for (const FormatRow& row : formatRows())
        if (std::find(row.suffixes.begin(), row.suffixes.end(), suffix) != row.suffixes.end())
            return &row;
    return nullptr;
}

} // namespace fencewright::exchange::detail
