#include "support/sample_set.h"

#include "model/date.h"

#include <nlohmann/json.hpp>

#include <fstream>
#include <stdexcept>

namespace fencewright::tests {
namespace {

using Json = nlohmann::json;

model::Position place(const Json& json) { return {json.at(0).get<double>(), json.at(1).get<double>()}; }

model::Ring ring(const Json& json) {
    model::Ring result;
    for (const auto& corner : json)
        result.corners.push_back(place(corner));
    if (result.corners.size() > 1 && result.corners.front() == result.corners.back())
        result.corners.pop_back();
    else
        result.closureAssumed = true;
    return result;
}

model::Polygon polygon(const Json& json) {
    model::Polygon result{ring(json.at(0)), {}};
    for (std::size_t i = 1; i < json.size(); ++i)
        result.holes.push_back(ring(json[i]));
    return result;
}

model::LineString line(const Json& json) {
    model::LineString result;
    for (const auto& corner : json)
        result.push_back(place(corner));
    return result;
}

StatedLength metres(const Json& json) { return {Length::metres(json.get<double>()), ""}; }

model::HeightLimit limit(const Json& json) {
    const auto reference = json.at("above").get<std::string>();
    if (reference != "ground" && reference != "sea" && reference != "ellipsoid")
        throw std::runtime_error{"a height above " + reference};
    return {metres(json.at("metres")), reference == "ground" ? model::HeightReference::Ground
                                       : reference == "sea"  ? model::HeightReference::MeanSeaLevel
                                                             : model::HeightReference::Ellipsoid};
}

model::Date date(const Json& json) {
    const auto found = model::parseIsoDate(json.get<std::string>());
    if (!found)
        throw std::runtime_error{"not a date: " + json.dump()};
    return *found;
}

model::Shape shape(const Json& properties, const Json& geometry) {
    if (properties.contains("setbackOf"))
        return model::Setback{{properties.at("setbackOf").get<std::string>()}, metres(properties.at("metres"))};
    const auto type = geometry.at("type").get<std::string>();
    const auto& coordinates = geometry.at("coordinates");
    if (type == "Point")
        return model::Circle{place(coordinates), metres(properties.at("metres"))};
    if (type == "LineString")
        return model::Corridor{line(coordinates), metres(properties.at("metres")), metres(properties.at("metres"))};
    if (type == "Polygon")
        return model::DrawnPolygon{polygon(coordinates)};
    if (type != "MultiPolygon")
        throw std::runtime_error{"a fence drawn as " + type};
    model::Parcel parcel;
    for (const auto& part : coordinates)
        parcel.surface.parts.push_back(polygon(part));
    return model::ParcelUnion{{parcel}, {}};
}

model::Fence fence(const std::string& id, const Json& properties, const Json& geometry) {
    model::Fence result;
    result.id = {id};
    result.name = properties.value("name", "");
    result.kind = properties.at("is") == "keep-in" ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
    result.shape = shape(properties, geometry);
    result.enabled = properties.value("enabled", true);
    if (properties.contains("floor"))
        result.band.floor = limit(properties["floor"]);
    if (properties.contains("ceiling"))
        result.band.ceiling = limit(properties["ceiling"]);
    if (properties.contains("from"))
        result.period.from = date(properties["from"]);
    if (properties.contains("until"))
        result.period.until = date(properties["until"]);
    if (properties.contains("season"))
        result.period.season =
            model::Season{model::parseIsoYearDay(properties["season"].at(0).get<std::string>()).value(),
                          model::parseIsoYearDay(properties["season"].at(1).get<std::string>()).value()};
    if (properties.contains("basis")) {
        result.basis.kind = model::BasisKind::Permit;
        result.basis.citation = properties["basis"].get<std::string>();
    }
    return result;
}

} // namespace

SampleSet sampleSet(const std::string& path) {
    std::ifstream file{path};
    if (!file)
        throw std::runtime_error{"cannot read " + path};
    const auto json = Json::parse(file);
    SampleSet sample;
    sample.moment.date = date(json.value("date", Json("2026-06-01")));
    if (json.contains("margin")) {
        sample.set.margin.emplace();
        sample.set.margin->positionError = metres(json["margin"].at("metres"));
        sample.set.margin->speed = {Speed::metresPerSecond(json["margin"].value("speed", 0.0)), ""};
    }
    for (const auto& feature : json.at("features")) {
        const auto id = feature.at("id").get<std::string>();
        const auto& properties = feature.at("properties");
        const auto& geometry = feature.at("geometry");
        const auto is = properties.at("is").get<std::string>();
        if (is == "keep-in" || is == "keep-out") {
            sample.set.fences.append(fence(id, properties, geometry));
        } else if (is == "site") {
            model::Site site;
            site.id = {id};
            site.name = properties.value("name", "");
            site.geometry = place(geometry.at("coordinates"));
            sample.set.sites.append(site);
        } else if (is == "home" || is == "alternate") {
            model::Home home;
            home.id = {id};
            home.name = properties.value("name", "");
            home.kind = is == "home" ? model::HomeKind::Home : model::HomeKind::Alternate;
            home.place = place(geometry.at("coordinates"));
            home.landingRadius = metres(properties.value("metres", Json(10.0)));
            sample.set.homes.append(home);
        } else {
            throw std::runtime_error{"a feature that is a " + is};
        }
    }
    return sample;
}

} // namespace fencewright::tests
