#include "support/delivered_file.h"

#include "geometry/overlay.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QXmlStreamReader>

#include <cmath>
#include <stdexcept>

namespace fencewright::support {

namespace {

model::Ring ringWithoutRepeat(std::vector<model::Position> places) {
    if (places.size() < 4 || !(places.front() == places.back()))
        throw std::runtime_error{"ring too short or not closed"};
    places.pop_back();
    return {std::move(places), false};
}

model::Polygon polygonOf(const QJsonArray& rings) {
    model::Polygon polygon;
    for (qsizetype i = 0; i < rings.size(); ++i) {
        std::vector<model::Position> places;
        for (const QJsonValue place : rings[i].toArray())
            places.push_back({place.toArray().at(0).toDouble(NAN), place.toArray().at(1).toDouble(NAN)});
        model::Ring ring = ringWithoutRepeat(std::move(places));
        i == 0 ? void(polygon.shell = std::move(ring)) : polygon.holes.push_back(std::move(ring));
    }
    return polygon;
}

class KmlFences {
public:
    explicit KmlFences(const QByteArray& text) : m_xml{text} {}

    std::vector<DeliveredFence> read() {
        while (!m_xml.atEnd())
            if (m_xml.readNext() == QXmlStreamReader::StartElement && m_xml.name() == u"Placemark")
                placemark();
        if (m_xml.hasError())
            throw std::runtime_error{m_xml.errorString().toStdString()};
        return std::move(m_fences);
    }

private:
    void placemark() {
        DeliveredFence fence;
        QString property;
        bool inner = false;
        while (!(m_xml.readNext() == QXmlStreamReader::EndElement && m_xml.name() == u"Placemark")) {
            if (m_xml.atEnd())
                return;
            if (!m_xml.isStartElement())
                continue;
            const QString element = m_xml.name().toString();
            if (element == u"Data")
                property = m_xml.attributes().value("name").toString();
            else if (element == u"value")
                fence.properties[property.toStdString()] = m_xml.readElementText().toStdString();
            else if (element == u"Polygon")
                fence.surface.parts.emplace_back();
            else if (element == u"altitudeMode")
                fence.altitudeMode = m_xml.readElementText().toStdString();
            else if (element == u"extrude")
                fence.extruded = m_xml.readElementText() == u"1";
            else if (element == u"outerBoundaryIs" || element == u"innerBoundaryIs")
                inner = element == u"innerBoundaryIs";
            else if (element == u"coordinates")
                coordinates(fence, inner);
        }
        if (fence.properties["role"] == "fence")
            m_fences.push_back(std::move(fence));
    }

    void coordinates(DeliveredFence& fence, bool inner) {
        const QString text = m_xml.readElementText();
        if (fence.surface.parts.empty())
            return; // of a point or a line
        std::vector<model::Position> places;
        for (const QString& tuple : text.split(' ', Qt::SkipEmptyParts)) {
            const QStringList numbers = tuple.split(',');
            places.push_back({numbers.at(0).toDouble(), numbers.at(1).toDouble()});
            if (numbers.size() > 2)
                fence.altitudes.push_back(numbers.at(2).toDouble());
        }
        model::Polygon& part = fence.surface.parts.back();
        model::Ring ring = ringWithoutRepeat(std::move(places));
        inner ? part.holes.push_back(std::move(ring)) : void(part.shell = std::move(ring));
    }

    QXmlStreamReader m_xml;
    std::vector<DeliveredFence> m_fences;
};

double middleOf(const model::MultiPolygon& surface) {
    double low = 1e9, high = -1e9;
    for (const model::Polygon& part : surface.parts)
        for (const model::Position corner : part.shell.corners) {
            low = std::min(low, corner.lon);
            high = std::max(high, corner.lon);
        }
    return (low + high) / 2;
}

} // namespace

std::vector<DeliveredFence> fencesOfGeoJson(const QByteArray& text) {
    QJsonParseError error;
    const QJsonDocument document = QJsonDocument::fromJson(text, &error);
    if (error.error != QJsonParseError::NoError)
        throw std::runtime_error{error.errorString().toStdString()};
    std::vector<DeliveredFence> fences;
    for (const QJsonValue value : document["features"].toArray()) {
        const QJsonObject feature = value.toObject();
        const QJsonObject properties = feature["properties"].toObject();
        if (properties["role"] != "fence")
            continue;
        DeliveredFence fence;
        for (auto at = properties.begin(); at != properties.end(); ++at)
            fence.properties[at.key().toStdString()] =
                at.value().isDouble() ? QString::number(at.value().toDouble(), 'g', 17).toStdString()
                                      : at.value().toString().toStdString();
        const QJsonObject geometry = feature["geometry"].toObject();
        const QJsonArray coordinates = geometry["coordinates"].toArray();
        if (geometry["type"] == "Polygon")
            fence.surface.parts.push_back(polygonOf(coordinates));
        else
            for (const QJsonValue part : coordinates)
                fence.surface.parts.push_back(polygonOf(part.toArray()));
        fences.push_back(std::move(fence));
    }
    return fences;
}

std::vector<DeliveredFence> fencesOfKml(const QByteArray& text) { return KmlFences{text}.read(); }

model::MultiPolygon joinedBeside(model::MultiPolygon parts, const model::MultiPolygon& surface) {
    const double middle = middleOf(surface);
    bool moved = false;
    for (model::Polygon& part : parts.parts) {
        const double turns = std::round((middle - middleOf({{part}})) / 360);
        moved |= turns != 0;
        for (model::Position& corner : part.shell.corners)
            corner.lon += turns * 360;
        for (model::Ring& hole : part.holes)
            for (model::Position& corner : hole.corners)
                corner.lon += turns * 360;
    }
    return moved && parts.parts.size() > 1 ? geometry::united(std::span{&parts, 1}) : parts;
}

} // namespace fencewright::support
