#include "exchange/formats/geojson_writer.h"

#include "exchange/formats/winding.h"
#include "units/number_notation.h"

#include <algorithm>
#include <cstdio>
#include <string_view>

namespace fencewright::exchange {

namespace {

using model::Position;

class GeoJsonText {
public:
    explicit GeoJsonText(const DeliveryContent& content) : m_content{content} {}

    std::string whole() && {
        m_text = "{\"type\":\"FeatureCollection\"";
        if (!m_content.title.empty()) {
            m_text += ",\"title\":";
            string(m_content.title);
        }
        m_text += ",\"notice\":";
        string(m_content.notice);
        box();
        m_text += ",\"features\":[";
        const char* separator = "\n";
        for (const DeliveredFeature& each : m_content.features) {
            m_text += separator;
            feature(each);
            separator = ",\n";
        }
        m_text += "\n]}\n";
        return std::move(m_text);
    }

private:
    void string(std::string_view text) {
        m_text += '"';
        for (const char c : text) {
            if (c == '"' || c == '\\') {
                m_text += '\\';
                m_text += c;
            } else if (static_cast<unsigned char>(c) < 0x20) {
                char escape[8];
                std::snprintf(escape, sizeof escape, "\\u%04x", static_cast<unsigned>(c));
                m_text += escape;
            } else {
                m_text += c;
            }
        }
        m_text += '"';
    }

    void number(double value) { m_text += units::fixed(value, m_content.decimals); }

    void position(Position place) {
        m_text += '[';
        number(place.lon);
        m_text += ',';
        number(place.lat);
        m_text += ']';
    }

    template <class List, class Write> void list(const List& items, Write write) {
        m_text += '[';
        bool first = true;
        for (const auto& item : items) {
            if (!first)
                m_text += ',';
            first = false;
            write(item);
        }
        m_text += ']';
    }

    void line(const model::LineString& places) {
        list(places, [this](Position place) { position(place); });
    }

    void ring(model::Ring corners, Winding winding) {
        model::Ring closed = wound(std::move(corners), winding);
        if (!closed.corners.empty())
            closed.corners.push_back(closed.corners.front());
        line(closed.corners);
    }

    void polygon(const model::Polygon& surface) {
        m_text += '[';
        ring(surface.shell, Winding::CounterClockwise);
        for (const model::Ring& hole : surface.holes) {
            m_text += ',';
            ring(hole, Winding::Clockwise);
        }
        m_text += ']';
    }

    void geometry(Position place) {
        m_text += "{\"type\":\"Point\",\"coordinates\":";
        position(place);
        m_text += '}';
    }
    void geometry(const Lines& lines) {
        m_text += lines.size() == 1 ? R"({"type":"LineString","coordinates":)"
                                    : R"({"type":"MultiLineString","coordinates":)";
        lines.size() == 1 ? line(lines.front()) : list(lines, [this](const auto& each) { line(each); });
        m_text += '}';
    }
    void geometry(const model::MultiPolygon& surface) {
        const auto& parts = surface.parts;
        m_text +=
            parts.size() == 1 ? R"({"type":"Polygon","coordinates":)" : R"({"type":"MultiPolygon","coordinates":)";
        parts.size() == 1 ? polygon(parts.front()) : list(parts, [this](const auto& each) { polygon(each); });
        m_text += '}';
    }

    void feature(const DeliveredFeature& feature) {
        m_text += "{\"type\":\"Feature\",\"id\":";
        string(feature.id);
        m_text += ",\"properties\":{";
        const char* separator = "";
        for (const DeliveredProperty& property : feature.properties) {
            m_text += separator;
            string(property.name);
            m_text += ':';
            if (const auto* words = std::get_if<std::string>(&property.value))
                string(*words);
            else
                m_text += units::shortest(std::get<double>(property.value));
            separator = ",";
        }
        m_text += "},\"geometry\":";
        std::visit([this](const auto& shape) { geometry(shape); }, feature.geometry);
        m_text += '}';
    }

    struct Extent {
        double west, east, south, north;
    };

    static void extend(std::vector<Extent>& extents, std::span<const Position> places) {
        if (places.empty())
            return;
        const auto [west, east] =
            std::minmax_element(places.begin(), places.end(), [](auto a, auto b) { return a.lon < b.lon; });
        const auto [south, north] =
            std::minmax_element(places.begin(), places.end(), [](auto a, auto b) { return a.lat < b.lat; });
        extents.push_back({west->lon, east->lon, south->lat, north->lat});
    }
    static void extend(std::vector<Extent>& extents, Position place) { extend(extents, std::span{&place, 1}); }
    static void extend(std::vector<Extent>& extents, const Lines& lines) {
        for (const model::LineString& each : lines)
            extend(extents, std::span{each});
    }
    static void extend(std::vector<Extent>& extents, const model::MultiPolygon& surface) {
        for (const model::Polygon& part : surface.parts)
            extend(extents, std::span{part.shell.corners});
    }

    /// RFC 7946, 5: the smallest box; where the widest empty stretch of longitudes is not the one across the
    /// antimeridian, the box crosses it, and its west is greater than its east (5.2).
    void box() {
        std::vector<Extent> extents;
        for (const DeliveredFeature& each : m_content.features)
            std::visit([&](const auto& shape) { extend(extents, shape); }, each.geometry);
        if (extents.empty())
            return;
        std::sort(extents.begin(), extents.end(), [](const Extent& a, const Extent& b) { return a.west < b.west; });
        double reached = extents.front().east;
        double south = extents.front().south;
        double north = extents.front().north;
        double widest = 0.0;
        double west = extents.front().west;
        double east = reached;
        bool crosses = false;
        for (const Extent& extent : extents) {
            if (extent.west - reached > widest) {
                widest = extent.west - reached;
                west = extent.west;
                east = reached;
                crosses = true;
            }
            reached = std::max(reached, extent.east);
            south = std::min(south, extent.south);
            north = std::max(north, extent.north);
        }
        if (!crosses || extents.front().west + 360 - reached >= widest) {
            west = extents.front().west;
            east = reached;
        }
        m_text += ",\"bbox\":[";
        number(west);
        m_text += ',';
        number(south);
        m_text += ',';
        number(east);
        m_text += ',';
        number(north);
        m_text += ']';
    }

    const DeliveryContent& m_content;
    std::string m_text;
};

} // namespace

std::string writeGeoJson(const DeliveryContent& content) { return GeoJsonText{content}.whole(); }

} // namespace fencewright::exchange
