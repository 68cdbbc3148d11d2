#include "exchange/read_back.h"

#include "fault.h"
#include "gdal/library.h"
#include "units/number_notation.h"

#include <cpl_minixml.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <optional>

namespace fencewright::exchange {

namespace {

using compare::HeldFence;
using model::FenceKind;
using model::HeightLimit;
using model::HeightReference;
using model::Polygon;
using model::Position;
using model::Ring;

[[noreturn]] void refuse(const Wording& problem, const Wording& place) {
    throw Fault{problem, place, phrase("core", "The file is not what it should be; do not use it, and report this.")};
}

Position checkedPosition(double lon, double lat, const std::string& place) {
    if (!std::isfinite(lon) || !std::isfinite(lat) || std::abs(lon) > 180 || std::abs(lat) > 90)
        refuse(phrase("core", "A coordinate is beyond 180 degrees of longitude or 90 of latitude."), place);
    return {lon, lat};
}

/// Takes the repeated last corner off.
Ring checkedRing(std::vector<Position> positions, const std::string& place) {
    if (positions.size() < 4)
        refuse(phrase("core", "A ring has fewer than four positions."), place);
    if (!(positions.front() == positions.back()))
        refuse(phrase("core", "A ring is not closed."), place);
    positions.pop_back();
    return {std::move(positions), false};
}

/// The values of a feature as text, by name; numbers as the file writes them.
using Values = std::map<std::string, std::string>;

const std::string* valueOf(const Values& values, const std::string& name) {
    const auto at = values.find(name);
    return at == values.end() ? nullptr : &at->second;
}

std::optional<HeightLimit> limitOf(const Values& values, const std::string& name, const std::string& place) {
    const std::string* text = valueOf(values, name);
    if (!text)
        return std::nullopt;
    const auto metres = units::parseNumber(*text);
    const std::string* unit = valueOf(values, name + "_unit");
    const std::string* reference = valueOf(values, name + "_reference");
    if (!metres || !unit || *unit != "m" || !reference)
        refuse(phrase("core", "The %1 is not a number of metres with its reference.")(name), place);
    HeightLimit limit;
    limit.value.length = Length::metres(*metres);
    if (*reference == "ground")
        limit.reference = HeightReference::Ground;
    else if (*reference == "mean sea level")
        limit.reference = HeightReference::MeanSeaLevel;
    else if (*reference == "ellipsoid")
        limit.reference = HeightReference::Ellipsoid;
    else
        refuse(phrase("core", "The reference of the %1 is unknown: \"%2\".")(name, *reference), place);
    return limit;
}

/// Nothing for what is no fence.
std::optional<HeldFence> fenceOf(const Values& values, const std::string& place) {
    const std::string* role = valueOf(values, "role");
    if (!role || (*role != "fence" && *role != "site" && *role != "home"))
        refuse(phrase("core", "It does not say whether it is a fence, a site or a home."), place);
    if (*role != "fence")
        return std::nullopt;
    HeldFence fence;
    if (const std::string* id = valueOf(values, "fencewright_id"))
        fence.id = *id;
    if (const std::string* name = valueOf(values, "name"))
        fence.name = *name;
    const std::string* kind = valueOf(values, "kind");
    if (!kind || (*kind != "keep-in" && *kind != "keep-out"))
        refuse(phrase("core", "It does not say whether it is a keep-in or a keep-out."), place);
    fence.kind = *kind == "keep-in" ? FenceKind::KeepIn : FenceKind::KeepOut;
    fence.floor = limitOf(values, "floor", place);
    fence.ceiling = limitOf(values, "ceiling", place);
    return fence;
}

void addFence(ReadBack& result, HeldFence fence, const HeldDrawing& drawing) {
    for (const Polygon& part : fence.surface.parts) {
        result.corners += part.shell.corners.size();
        for (const Ring& hole : part.holes)
            result.corners += hole.corners.size();
    }
    result.fences.push_back(std::move(fence));
    result.drawings.push_back(drawing);
}

// GeoJSON

using nlohmann::json;

const json& member(const json& object, const char* name, const std::string& place) {
    if (!object.is_object() || !object.contains(name))
        refuse(phrase("core", "The member \"%1\" is missing.")(name), place);
    return object.at(name);
}

const json& array(const json& value, const std::string& place) {
    if (!value.is_array())
        refuse(phrase("core", "An array was expected."), place);
    return value;
}

Polygon polygonFromJson(const json& rings, const std::string& place) {
    Polygon polygon;
    bool isShell = true;
    for (const json& ring : array(rings, place)) {
        std::vector<Position> positions;
        for (const json& position : array(ring, place)) {
            if (!position.is_array() || position.size() != 2 || !position[0].is_number() || !position[1].is_number())
                refuse(phrase("core", "A position is not a longitude and a latitude."), place);
            positions.push_back(checkedPosition(position[0].get<double>(), position[1].get<double>(), place));
        }
        Ring read = checkedRing(std::move(positions), place);
        if (isShell)
            polygon.shell = std::move(read);
        else
            polygon.holes.push_back(std::move(read));
        isShell = false;
    }
    if (isShell)
        refuse(phrase("core", "A polygon has no ring."), place);
    return polygon;
}

Values valuesFromJson(const json& properties, const std::string& place) {
    Values values;
    if (!properties.is_object())
        refuse(phrase("core", "The properties are not an object."), place);
    for (const auto& [name, value] : properties.items()) {
        if (value.is_string())
            values[name] = value.get<std::string>();
        else if (value.is_number())
            values[name] = units::shortest(value.get<double>());
        else
            refuse(phrase("core", "The property \"%1\" is neither text nor a number.")(name), place);
    }
    return values;
}

// KML

struct DestroyXml {
    void operator()(CPLXMLNode* node) const { CPLDestroyXMLNode(node); }
};

bool isElement(const CPLXMLNode& node, std::string_view name) {
    return node.eType == CXT_Element && node.pszValue == name;
}

/// The children that are elements of the name.
std::vector<const CPLXMLNode*> elements(const CPLXMLNode& parent, std::string_view name) {
    std::vector<const CPLXMLNode*> found;
    for (const CPLXMLNode* child = parent.psChild; child; child = child->psNext)
        if (isElement(*child, name))
            found.push_back(child);
    return found;
}

const CPLXMLNode& onlyElement(const CPLXMLNode& parent, std::string_view name, const std::string& place) {
    const auto found = elements(parent, name);
    if (found.size() != 1)
        refuse(phrase("core", "There is not exactly one %1 in a %2.")(std::string{name}, parent.pszValue), place);
    return *found.front();
}

std::string textOf(const CPLXMLNode& element) {
    std::string text;
    for (const CPLXMLNode* child = element.psChild; child; child = child->psNext)
        if (child->eType == CXT_Text)
            text += child->pszValue;
    return text;
}

std::string attributeOf(const CPLXMLNode& element, std::string_view name) {
    for (const CPLXMLNode* child = element.psChild; child; child = child->psNext)
        if (child->eType == CXT_Attribute && child->pszValue == name && child->psChild)
            return child->psChild->pszValue;
    return {};
}

/// What the polygons of one placemark have in common; the first sets it.
struct PlacemarkDrawing {
    std::optional<HeldDrawing> drawing;

    void setMode(HeldDrawing::Mode mode, bool extruded, const std::string& place) {
        if (!drawing) {
            drawing = HeldDrawing{mode, extruded, 0.0, 0.0};
            drawing->lowestMetres = std::numeric_limits<double>::infinity();
            drawing->highestMetres = -std::numeric_limits<double>::infinity();
        } else if (drawing->mode != mode || drawing->extruded != extruded) {
            refuse(phrase("core", "The parts of one fence are drawn in different ways."), place);
        }
    }
    void addAltitude(double metres) {
        drawing->lowestMetres = std::min(drawing->lowestMetres, metres);
        drawing->highestMetres = std::max(drawing->highestMetres, metres);
    }
};

std::vector<double> numbersOfTuple(std::string_view tuple, const std::string& place) {
    std::vector<double> numbers;
    for (;;) {
        const std::size_t comma = tuple.find(',');
        const auto number = units::parseNumber(tuple.substr(0, comma));
        if (!number)
            refuse(phrase("core", "A coordinate is not a number."), place);
        numbers.push_back(*number);
        if (comma == std::string_view::npos)
            return numbers;
        tuple.remove_prefix(comma + 1);
    }
}

Ring ringFromKml(const CPLXMLNode& boundary, PlacemarkDrawing& drawn, const std::string& place) {
    const CPLXMLNode& ring = onlyElement(boundary, "LinearRing", place);
    const std::string text = textOf(onlyElement(ring, "coordinates", place));
    const bool hasHeights = drawn.drawing->mode != HeldDrawing::Mode::OnGround;
    std::vector<Position> positions;
    constexpr std::string_view kSpaces = " \t\r\n";
    for (std::size_t from = text.find_first_not_of(kSpaces); from != std::string::npos;) {
        const std::size_t end = std::min(text.find_first_of(kSpaces, from), text.size());
        const auto numbers = numbersOfTuple(std::string_view{text}.substr(from, end - from), place);
        if (numbers.size() != (hasHeights ? 3U : 2U))
            refuse(phrase("core", "A tuple has the wrong number of coordinates."), place);
        positions.push_back(checkedPosition(numbers[0], numbers[1], place));
        if (hasHeights)
            drawn.addAltitude(numbers[2]);
        from = text.find_first_not_of(kSpaces, end);
    }
    return checkedRing(std::move(positions), place);
}

bool booleanOf(const CPLXMLNode& polygon, std::string_view name) {
    const auto found = elements(polygon, name);
    const std::string text = found.empty() ? "0" : textOf(*found.front());
    return text == "1" || text == "true";
}

Polygon polygonFromKml(const CPLXMLNode& element, PlacemarkDrawing& drawn, const std::string& place) {
    const auto modes = elements(element, "altitudeMode");
    const std::string mode = modes.empty() ? "clampToGround" : textOf(*modes.front());
    const bool extruded = booleanOf(element, "extrude");
    if (mode == "clampToGround")
        drawn.setMode(HeldDrawing::Mode::OnGround, extruded, place);
    else if (mode == "relativeToGround")
        drawn.setMode(HeldDrawing::Mode::AboveGround, extruded, place);
    else if (mode == "absolute")
        drawn.setMode(HeldDrawing::Mode::AboveMeanSeaLevel, extruded, place);
    else
        refuse(phrase("core", "The altitude mode is unknown: \"%1\".")(mode), place);
    Polygon polygon;
    polygon.shell = ringFromKml(onlyElement(element, "outerBoundaryIs", place), drawn, place);
    for (const CPLXMLNode* inner : elements(element, "innerBoundaryIs"))
        polygon.holes.push_back(ringFromKml(*inner, drawn, place));
    return polygon;
}

Values valuesFromKml(const CPLXMLNode& placemark, const std::string& place) {
    Values values;
    for (const CPLXMLNode* data : elements(onlyElement(placemark, "ExtendedData", place), "Data"))
        values[attributeOf(*data, "name")] = textOf(onlyElement(*data, "value", place));
    return values;
}

} // namespace

ReadBack readBackGeoJson(std::string_view text) {
    json root;
    try {
        root = json::parse(text);
    } catch (const json::parse_error& error) {
        refuse(phrase("core", "It is not JSON."), phrase("core", "byte %1")(error.byte));
    }
    if (member(root, "type", "the file") != "FeatureCollection" || root.contains("crs"))
        refuse(phrase("core", "It is not a feature collection of RFC 7946."), phrase("core", "the file"));
    ReadBack result;
    std::size_t number = 0;
    for (const json& feature : array(member(root, "features", "the file"), "the file")) {
        const std::string place = "feature " + std::to_string(++number);
        if (member(feature, "type", place) != "Feature")
            refuse(phrase("core", "It is not a feature."), place);
        auto fence = fenceOf(valuesFromJson(member(feature, "properties", place), place), place);
        if (!fence)
            continue;
        const json& geometry = member(feature, "geometry", place);
        const json& coordinates = member(geometry, "coordinates", place);
        const json& type = member(geometry, "type", place);
        if (type == "Polygon")
            fence->surface.parts.push_back(polygonFromJson(coordinates, place));
        else if (type == "MultiPolygon")
            for (const json& part : array(coordinates, place))
                fence->surface.parts.push_back(polygonFromJson(part, place));
        else
            refuse(phrase("core", "A fence is neither a Polygon nor a MultiPolygon."), place);
        addFence(result, std::move(*fence), HeldDrawing{});
    }
    return result;
}

ReadBack readBackKml(std::string_view text) {
    const gdal::ErrorCapture errors;
    const std::unique_ptr<CPLXMLNode, DestroyXml> first{CPLParseXMLString(std::string{text}.c_str())};
    if (!first)
        refuse(phrase("core", "It is not XML: %1.")(errors.firstError("no more is known")), phrase("core", "the file"));
    const CPLXMLNode* root = first.get();
    while (root && !isElement(*root, "kml"))
        root = root->psNext;
    if (!root || attributeOf(*root, "xmlns") != "http://www.opengis.net/kml/2.2")
        refuse(phrase("core", "It is not KML 2.2."), phrase("core", "the file"));
    ReadBack result;
    std::size_t number = 0;
    for (const CPLXMLNode* placemark : elements(onlyElement(*root, "Document", "the file"), "Placemark")) {
        const std::string place = "placemark " + std::to_string(++number);
        auto fence = fenceOf(valuesFromKml(*placemark, place), place);
        if (!fence)
            continue;
        PlacemarkDrawing drawn;
        auto polygons = elements(*placemark, "Polygon");
        if (polygons.empty())
            polygons = elements(onlyElement(*placemark, "MultiGeometry", place), "Polygon");
        for (const CPLXMLNode* polygon : polygons)
            fence->surface.parts.push_back(polygonFromKml(*polygon, drawn, place));
        addFence(result, std::move(*fence), drawn.drawing.value_or(HeldDrawing{}));
    }
    return result;
}

} // namespace fencewright::exchange
