#include "raster/detail/wmts_capabilities.h"

#include "fault.h"
#include "gdal/library.h"
#include "geodesy/crs_transform.h"
#include "raster/detail/server_address.h"
#include "units/number_notation.h"

#include <cpl_error.h>
#include <cpl_minixml.h>
#include <ogr_srs_api.h>

#include <charconv>

namespace fencewright::raster::detail {

namespace {

constexpr int kDeepestElement = 32;
constexpr std::size_t kMostElements = 2'000'000;
constexpr std::size_t kMostLayers = 20'000;
constexpr std::size_t kMostSets = 1'000;
constexpr std::size_t kMostMatrices = 64;
constexpr std::size_t kLongestWord = 2'000;
constexpr double kScaleTolerance = 1e-3; // of a ratio that should be a power of two: denominators come rounded

struct FreeXml {
    void operator()(CPLXMLNode* node) const { CPLDestroyXMLNode(node); }
};

struct FreeCrs {
    void operator()(void* crs) const { OSRDestroySpatialReference(crs); }
};

std::string_view localName(const CPLXMLNode& node) {
    const std::string_view name = node.pszValue;
    return name.substr(name.rfind(':') + 1);
}

/// The elements of a document by their names without prefix.
class Element {
public:
    explicit Element(const CPLXMLNode* node) : m_node{node} {}

    explicit operator bool() const { return m_node; }

    [[nodiscard]] std::vector<Element> all(std::string_view name) const {
        std::vector<Element> found;
        for (const CPLXMLNode* child = m_node ? m_node->psChild : nullptr; child; child = child->psNext)
            if (child->eType == CXT_Element && localName(*child) == name)
                found.push_back(Element{child});
        return found;
    }
    [[nodiscard]] Element first(std::string_view name) const {
        for (const CPLXMLNode* child = m_node ? m_node->psChild : nullptr; child; child = child->psNext)
            if (child->eType == CXT_Element && localName(*child) == name)
                return Element{child};
        return Element{nullptr};
    }
    [[nodiscard]] std::string text() const {
        for (const CPLXMLNode* child = m_node ? m_node->psChild : nullptr; child; child = child->psNext)
            if (child->eType == CXT_Text)
                return shortened(child->pszValue);
        return {};
    }
    [[nodiscard]] std::string text(std::string_view child) const { return first(child).text(); }
    [[nodiscard]] std::string attribute(std::string_view name) const {
        for (const CPLXMLNode* child = m_node ? m_node->psChild : nullptr; child; child = child->psNext)
            if (child->eType == CXT_Attribute && localName(*child) == name)
                return child->psChild ? shortened(child->psChild->pszValue) : std::string{};
        return {};
    }

private:
    static std::string shortened(std::string_view text) {
        return std::string{units::trimmed(text).substr(0, kLongestWord)};
    }

    const CPLXMLNode* m_node;
};

std::optional<double> number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

std::optional<std::int64_t> wholeNumber(std::string_view text, std::int64_t least, std::int64_t most) {
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || value < least || value > most)
        return std::nullopt;
    return value;
}

std::optional<std::array<double, 2>> pair(const std::string& text) {
    std::vector<double> values;
    for (std::size_t at = text.find_first_not_of(" \t\r\n,"); at != std::string::npos;) {
        const std::size_t end = std::min(text.find_first_of(" \t\r\n,", at), text.size());
        const auto value = number(std::string_view{text}.substr(at, end - at));
        if (!value)
            return std::nullopt;
        values.push_back(*value);
        at = text.find_first_not_of(" \t\r\n,", end);
    }
    if (values.size() != 2)
        return std::nullopt;
    return std::array{values[0], values[1]};
}

struct NamedCrs {
    std::string code;        ///< "EPSG:3857"; empty: not known
    bool northFirst = false; ///< the corner is given northing or latitude first
};

// OGC 06-121r3, 10.3.3 and OGC 07-057r7: by URN, with the axes as the authority orders them; by "EPSG:n" in easting,
// northing, as servers have it that write it so (common practice).
NamedCrs crsNamed(const std::string& name) {
    const std::string lower = units::lowered(name);
    if (lower.ends_with("crs84"))
        return {"EPSG:4326", false};
    if (lower.ends_with("crs83"))
        return {"EPSG:4269", false};
    if (lower.find("epsg") == std::string::npos)
        return {};
    const std::size_t before = lower.find_last_of(":/");
    const auto code = before == std::string::npos
                          ? std::nullopt
                          : wholeNumber(std::string_view{lower}.substr(before + 1), 1, 2'000'000);
    if (!code)
        return {};
    // The number that stood for Web Mercator before it had one of EPSG.
    const int epsg = *code == 900913 ? 3857 : static_cast<int>(*code);
    NamedCrs named{"EPSG:" + std::to_string(epsg), false};
    if (!lower.starts_with("epsg:")) {
        const std::unique_ptr<void, FreeCrs> crs{OSRNewSpatialReference(nullptr)};
        const gdal::ErrorCapture quiet;
        if (OSRImportFromEPSGA(crs.get(), epsg) == OGRERR_NONE)
            named.northFirst = OSREPSGTreatsAsLatLong(crs.get()) || OSREPSGTreatsAsNorthingEasting(crs.get());
    }
    return named;
}

class Reading {
public:
    explicit Reading(std::string place) : m_place{std::move(place)} {}

    WmtsCapabilities read(const CPLXMLNode* document) {
        checkDepth(document, 0);
        Element root{nullptr};
        for (const CPLXMLNode* node = document; node && !root; node = node->psNext)
            if (node->eType == CXT_Element && localName(*node) == "Capabilities")
                root = Element{node};
            else if (node->eType == CXT_Element && localName(*node) == "ExceptionReport")
                refuse(
                    phrase("core", "The server answers: %1.")(Element{node}.first("Exception").text("ExceptionText")));
            else if (node->eType == CXT_Element && *node->pszValue != '?')
                refuse(phrase("core", "This is no list of what a Web Map Tile Service offers, but '%1'.")(
                    std::string{localName(*node)}));
        if (!root)
            refuse(phrase("core", "This is no list of what a Web Map Tile Service offers."));
        const Element contents = root.first("Contents");
        if (!contents)
            refuse(phrase("core", "The server does not say which layers it has."));
        m_read.title = root.first("ServiceIdentification").text("Title");
        readOperations(root.first("OperationsMetadata"));
        for (const Element& set : contents.all("TileMatrixSet"))
            readSet(set);
        for (const Element& layer : contents.all("Layer"))
            readLayer(layer);
        return std::move(m_read);
    }

private:
    [[noreturn]] void refuse(const Wording& problem) const {
        throw Fault{problem, m_place,
                    phrase("core", "Ask whoever runs the server for the address of its capabilities.")};
    }

    void checkDepth(const CPLXMLNode* node, int depth) {
        if (depth > kDeepestElement)
            refuse(phrase("core", "The server's answer has elements nested more than 32 deep."));
        for (; node; node = node->psNext) {
            if (++m_elements > kMostElements)
                refuse(phrase("core", "The server's answer has more than 2 million parts."));
            if (node->psChild)
                checkDepth(node->psChild, depth + 1);
        }
    }

    void readOperations(const Element& operations) {
        for (const Element& operation : operations.all("Operation")) {
            if (operation.attribute("name") != "GetTile")
                continue;
            for (const Element& get : operation.first("DCP").first("HTTP").all("Get")) {
                bool keyValue = true;
                for (const Element& constraint : get.all("Constraint"))
                    if (constraint.attribute("name") == "GetEncoding") {
                        keyValue = false;
                        for (const Element& value : constraint.first("AllowedValues").all("Value"))
                            keyValue = keyValue || units::lowered(value.text()) == "kvp";
                    }
                if (keyValue && m_read.keyValueAddress.empty())
                    m_read.keyValueAddress = get.attribute("href");
            }
        }
    }

    void readSet(const Element& element) {
        if (m_read.sets.size() >= kMostSets)
            refuse(phrase("core", "The server has more than 1,000 grids of tiles."));
        TileMatrixSet set;
        set.name = element.text("Identifier");
        set.crsAsNamed = element.text("SupportedCRS");
        const NamedCrs named = crsNamed(set.crsAsNamed);
        set.crs = named.code;
        try {
            if (set.crs.empty())
                set.reason = phrase("core", "its coordinates, %1, are not known")(set.crsAsNamed);
            else
                (void)geodesy::CrsTransform{set.crs};
        } catch (const Fault&) {
            set.reason = phrase("core", "its coordinates, %1, cannot be brought to the earth")(set.crsAsNamed);
        }
        for (const Element& one : element.all("TileMatrix")) {
            if (set.matrices.size() >= kMostMatrices)
                refuse(phrase("core", "The grid %1 has more than 64 resolutions.")(set.name));
            readMatrix(one, named.northFirst, set);
        }
        std::sort(set.matrices.begin(), set.matrices.end(),
                  [](const TileMatrix& a, const TileMatrix& b) { return a.scaleDenominator < b.scaleDenominator; });
        if (set.reason.empty())
            set.reason = reasonAgainst(set);
        m_read.sets.emplace(set.name, set);
    }

    void readMatrix(const Element& element, bool northFirst, TileMatrixSet& set) const {
        TileMatrix matrix;
        matrix.name = element.text("Identifier");
        const auto scale = number(element.text("ScaleDenominator"));
        const auto corner = pair(element.text("TopLeftCorner"));
        const auto tileWidth = wholeNumber(element.text("TileWidth"), 1, 100'000);
        const auto tileHeight = wholeNumber(element.text("TileHeight"), 1, 100'000);
        const auto columns = wholeNumber(element.text("MatrixWidth"), 1, std::int64_t{1} << 40);
        const auto rows = wholeNumber(element.text("MatrixHeight"), 1, std::int64_t{1} << 40);
        if (!scale || *scale <= 0 || !corner || !tileWidth || !tileHeight || !columns || !rows) {
            set.reason = phrase("core", "its resolution '%1' is not described as the standard says")(matrix.name);
            return;
        }
        matrix.scaleDenominator = *scale;
        // Servers that write longitude first under a name that means latitude first give themselves away.
        const bool swap = northFirst && !(set.crs == "EPSG:4326" && (*corner)[0] < -90.0);
        matrix.cornerX = (*corner)[swap ? 1 : 0];
        matrix.cornerY = (*corner)[swap ? 0 : 1];
        matrix.tileWidth = static_cast<int>(*tileWidth);
        matrix.tileHeight = static_cast<int>(*tileHeight);
        matrix.columns = *columns;
        matrix.rows = *rows;
        set.matrices.push_back(std::move(matrix));
    }

    static Wording reasonAgainst(const TileMatrixSet& set) {
        if (set.matrices.empty())
            return phrase("core", "it has no resolutions");
        for (const TileMatrix& matrix : set.matrices) {
            if (matrix.tileWidth != matrix.tileHeight || matrix.tileWidth < 64 || matrix.tileWidth > 1024 ||
                matrix.tileWidth != set.matrices.front().tileWidth)
                return phrase("core", "its tiles are no squares of one size between 64 and 1,024 pixels");
            const double steps = std::log2(matrix.scaleDenominator / set.matrices.front().scaleDenominator);
            if (std::abs(std::exp2(steps - std::round(steps)) - 1) > kScaleTolerance)
                return phrase("core", "its scales do not double from one to the next");
        }
        return {};
    }

    void readLayer(const Element& element) {
        if (m_read.layers.size() >= kMostLayers)
            refuse(phrase("core", "The server has more than 20,000 layers."));
        WmtsLayer layer;
        layer.name = element.text("Identifier");
        layer.title = element.text("Title");
        const Element box = element.first("WGS84BoundingBox");
        const auto lower = pair(box.text("LowerCorner"));
        const auto upper = pair(box.text("UpperCorner"));
        if (lower && upper && (*lower)[0] < (*upper)[0] && (*lower)[1] < (*upper)[1])
            layer.box = std::array{(*lower)[0], (*lower)[1], (*upper)[0], (*upper)[1]};
        for (const Element& style : element.all("Style")) {
            const ServerLayer::Style read{style.text("Identifier"), style.text("Title")};
            const std::string isDefault = style.attribute("isDefault");
            layer.styles.insert(isDefault == "true" || isDefault == "1" ? layer.styles.begin() : layer.styles.end(),
                                read);
        }
        for (const Element& format : element.all("Format")) {
            const std::string type = units::lowered(format.text());
            if (type.starts_with("image/png") || type == "image/jpeg" || type == "image/jpg")
                layer.formats.push_back(format.text());
        }
        for (const Element& dimension : element.all("Dimension")) {
            std::string value = dimension.text("Default");
            if (value.empty())
                value = dimension.text("Value");
            layer.dimensions[dimension.text("Identifier")] = value;
        }
        for (const Element& link : element.all("TileMatrixSetLink")) {
            const std::string set = link.text("TileMatrixSet");
            layer.sets.push_back(set);
            for (const Element& limits : link.first("TileMatrixSetLimits").all("TileMatrixLimits")) {
                constexpr std::int64_t most = std::int64_t{1} << 40;
                const auto minRow = wholeNumber(limits.text("MinTileRow"), 0, most);
                const auto maxRow = wholeNumber(limits.text("MaxTileRow"), 0, most);
                const auto minColumn = wholeNumber(limits.text("MinTileCol"), 0, most);
                const auto maxColumn = wholeNumber(limits.text("MaxTileCol"), 0, most);
                if (minRow && maxRow && minColumn && maxColumn && *minRow <= *maxRow && *minColumn <= *maxColumn)
                    layer.limits[set][limits.text("TileMatrix")] = {*minColumn, *maxColumn, *minRow, *maxRow};
            }
        }
        for (const Element& resource : element.all("ResourceURL"))
            if (resource.attribute("resourceType") == "tile")
                layer.templates.emplace(resource.attribute("format"), resource.attribute("template"));
        m_read.layers.push_back(std::move(layer));
    }

    std::string m_place;
    std::size_t m_elements = 0;
    WmtsCapabilities m_read;
};

} // namespace

WmtsCapabilities parsedCapabilities(const std::string& text, const std::string& place) {
    gdal::prepareLibrary();
    const auto refuse = [&](const Wording& problem) {
        throw Fault{problem, place, phrase("core", "Ask whoever runs the server for the address of its capabilities.")};
    };
    // Nothing a service has to say needs them; they are how a small file becomes a huge one.
    if (text.find("<!DOCTYPE") != std::string::npos || text.find("<!ENTITY") != std::string::npos)
        refuse(text.find("<html") != std::string::npos || text.find("<HTML") != std::string::npos
                   ? phrase("core", "The server answered with a page for people and not with a list of its layers.")
                   : phrase("core", "The server's answer declares a document type or entities, which are not read."));
    if (text.find('\0') != std::string::npos)
        refuse(phrase("core", "The server's answer is no XML."));
    std::unique_ptr<CPLXMLNode, FreeXml> document;
    {
        const gdal::ErrorCapture said;
        document.reset(CPLParseXMLString(text.c_str()));
        if (document && said.firstError("") != "")
            document.reset();
    }
    if (!document)
        refuse(phrase("core", "The server's answer is not well-formed XML."));
    return Reading{place}.read(document.get());
}

} // namespace fencewright::raster::detail
