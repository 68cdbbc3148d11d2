#include "exchange/formats/kml_writer.h"

#include "exchange/formats/winding.h"
#include "units/number_notation.h"

#include <string_view>

namespace fencewright::exchange {

namespace {

using model::Position;
using Role = DeliveredFeature::Role;

// Colours are aabbggrr: keep-in deep blue 0B4F9E, keep-out magenta A8116F, over imagery nearly clear inside.
constexpr std::string_view kStyles = R"(
<Style id="keep-in"><LineStyle><color>ff9e4f0b</color><width>3</width></LineStyle><PolyStyle><color>269e4f0b</color></PolyStyle></Style>
<Style id="keep-out"><LineStyle><color>ff6f11a8</color><width>3</width></LineStyle><PolyStyle><color>4d6f11a8</color></PolyStyle></Style>
<Style id="site"><IconStyle><color>ff30241b</color><scale>0.8</scale></IconStyle><LineStyle><color>ff30241b</color><width>2</width></LineStyle><PolyStyle><fill>0</fill></PolyStyle></Style>
<Style id="home"><IconStyle><color>ff9e4f0b</color><scale>1.1</scale></IconStyle></Style>)";

class KmlText {
public:
    explicit KmlText(const DeliveryContent& content) : m_content{content} {}

    std::string whole() && {
        m_text =
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>\n";
        element("name", m_content.title);
        element("description", m_content.notice);
        m_text += kStyles;
        for (const DeliveredFeature& each : m_content.features)
            placemark(each);
        m_text += "\n</Document>\n</kml>\n";
        return std::move(m_text);
    }

private:
    void escaped(std::string_view text) {
        for (const char c : text) {
            switch (c) {
            case '<':
                m_text += "&lt;";
                break;
            case '>':
                m_text += "&gt;";
                break;
            case '&':
                m_text += "&amp;";
                break;
            case '"':
                m_text += "&quot;";
                break;
            default:
                m_text += c;
            }
        }
    }

    void element(std::string_view name, std::string_view text) {
        if (text.empty())
            return;
        m_text.append("<").append(name).append(">");
        escaped(text);
        m_text.append("</").append(name).append(">\n");
    }

    void placemark(const DeliveredFeature& feature) {
        m_text += "\n<Placemark>\n";
        element("name", feature.name);
        const char* style = "site";
        if (feature.role == Role::Home)
            style = "home";
        else if (feature.role == Role::Fence)
            style = feature.kind == model::FenceKind::KeepIn ? "keep-in" : "keep-out";
        m_text.append("<styleUrl>#").append(style).append("</styleUrl>\n<ExtendedData>\n");
        for (const DeliveredProperty& property : feature.properties) {
            m_text += "<Data name=\"";
            escaped(property.name);
            m_text += "\"><value>";
            if (const auto* words = std::get_if<std::string>(&property.value))
                escaped(*words);
            else
                m_text += units::shortest(std::get<double>(property.value));
            m_text += "</value></Data>\n";
        }
        m_text += "</ExtendedData>\n";
        std::visit([&](const auto& shape) { geometry(shape, feature); }, feature.geometry);
        m_text += "</Placemark>";
    }

    void tuple(Position place, const std::optional<DrawnHeight>& height) {
        m_text += units::fixed(place.lon, m_content.decimals);
        m_text += ',';
        m_text += units::fixed(place.lat, m_content.decimals);
        if (height) {
            m_text += ',';
            m_text += units::shortest(height->metres);
        }
    }

    void tuples(const model::LineString& places, const std::optional<DrawnHeight>& height) {
        m_text += "<coordinates>";
        const char* separator = "";
        for (const Position place : places) {
            m_text += separator;
            tuple(place, height);
            separator = " ";
        }
        m_text += "</coordinates>";
    }

    void ring(std::string_view boundary, model::Ring corners, Winding winding,
              const std::optional<DrawnHeight>& height) {
        model::Ring closed = wound(std::move(corners), winding);
        if (!closed.corners.empty())
            closed.corners.push_back(closed.corners.front());
        m_text.append("<").append(boundary).append("><LinearRing>");
        tuples(closed.corners, height);
        m_text.append("</LinearRing></").append(boundary).append(">");
    }

    void polygon(const model::Polygon& surface, const std::optional<DrawnHeight>& height) {
        m_text += "<Polygon>";
        // Extruding needs an altitude mode other than clampToGround, and following the ground needs that one
        // (OGC 07-134r2, ATC 12 and 13).
        if (!height)
            m_text += "<tessellate>1</tessellate><altitudeMode>clampToGround</altitudeMode>";
        else {
            m_text.append("<extrude>").append(height->extruded ? "1" : "0").append("</extrude><altitudeMode>");
            m_text += height->mode == DrawnHeight::Mode::AboveGround ? "relativeToGround" : "absolute";
            m_text += "</altitudeMode>";
        }
        ring("outerBoundaryIs", surface.shell, Winding::CounterClockwise, height);
        for (const model::Ring& hole : surface.holes)
            ring("innerBoundaryIs", hole, Winding::Clockwise, height);
        m_text += "</Polygon>\n";
    }

    void geometry(Position place, const DeliveredFeature&) {
        m_text += "<Point><coordinates>";
        tuple(place, std::nullopt);
        m_text += "</coordinates></Point>\n";
    }
    void geometry(const Lines& lines, const DeliveredFeature&) {
        several(lines, [this](const model::LineString& each) {
            m_text += "<LineString><tessellate>1</tessellate>";
            tuples(each, std::nullopt);
            m_text += "</LineString>\n";
        });
    }
    void geometry(const model::MultiPolygon& surface, const DeliveredFeature& feature) {
        several(surface.parts, [&](const model::Polygon& part) { polygon(part, feature.drawnHeight); });
    }

    template <class Parts, class Write> void several(const Parts& parts, Write write) {
        if (parts.size() != 1)
            m_text += "<MultiGeometry>\n";
        for (const auto& part : parts)
            write(part);
        if (parts.size() != 1)
            m_text += "</MultiGeometry>\n";
    }

    const DeliveryContent& m_content;
    std::string m_text;
};

} // namespace

std::string writeKml(const DeliveryContent& content) { return KmlText{content}.whole(); }

} // namespace fencewright::exchange
