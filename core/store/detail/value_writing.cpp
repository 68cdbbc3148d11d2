#include "model/words.h"
#include "store/detail/value_text.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace fencewright::store {

namespace {

using Json = nlohmann::json;

bool isUtf8(const std::string& text) {
    try {
        (void)Json(text).dump();
        return true;
    } catch (const Json::type_error&) {
        return false;
    }
}

/// A text; one that is not UTF-8, as a careless file may have it, as its bytes.
Json written(const std::string& text) {
    if (isUtf8(text))
        return text;
    constexpr std::string_view digits = "0123456789abcdef";
    std::string hex;
    for (const char letter : text) {
        const auto byte = static_cast<unsigned char>(letter);
        hex += digits[byte >> 4];
        hex += digits[byte & 0xF];
    }
    return Json{{"bytes", hex}};
}

/// JSON has no word for what is not finite; the audit finds such numbers, saving must not lose the rest for them.
Json written(double number) {
    if (std::isnan(number))
        return "not a number";
    if (std::isinf(number))
        return number > 0 ? "infinite" : "minus infinite";
    return number;
}

Json written(const StatedLength& length) {
    return Json{{"metres", written(length.length.inMetres())}, {"written", written(length.asWritten)}};
}

Json written(const model::Date& date) {
    return Json::array(
        {static_cast<int>(date.year()), static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day())});
}

Json written(const model::YearDay& day) {
    return Json::array({static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day())});
}

Json written(const model::HeightLimit& limit) {
    return Json{{"value", written(limit.value)}, {"reference", model::word(limit.reference)}};
}

Json written(const model::Season& season) { return Json{{"from", written(season.from)}, {"to", written(season.to)}}; }

Json written(const StatedSpeed& speed) {
    return Json{{"metresPerSecond", written(speed.speed.inMetresPerSecond())}, {"written", written(speed.asWritten)}};
}

Json written(const StatedAcceleration& stated) {
    return Json{{"metresPerSecondSquared", written(stated.acceleration.inMetresPerSecondSquared())},
                {"written", written(stated.asWritten)}};
}

Json written(const model::Margin& margin) {
    return Json{{"positionError", written(margin.positionError)},
                {"speed", written(margin.speed)},
                {"reactionSeconds", written(margin.reaction.count())},
                {"deceleration", written(margin.deceleration)},
                {"allowance", written(margin.allowance)},
                {"basis", written(margin.basis)}};
}

template <class T> Json written(const std::optional<T>& value) { return value ? written(*value) : Json{}; }

template <class T> Json written(const model::Id<T>& id) { return written(id.value); }

/// lon, lat, lon, lat, ...: half the size of pairs.
Json written(const std::vector<model::Position>& places) {
    Json numbers = Json::array();
    for (const model::Position& place : places) {
        numbers.push_back(written(place.lon));
        numbers.push_back(written(place.lat));
    }
    return numbers;
}

Json written(const model::Position& place) { return Json::array({written(place.lon), written(place.lat)}); }

Json written(const model::Ring& ring) {
    return Json{{"corners", written(ring.corners)}, {"closureAssumed", ring.closureAssumed}};
}

Json written(const model::Polygon& polygon) {
    Json holes = Json::array();
    for (const model::Ring& hole : polygon.holes)
        holes.push_back(written(hole));
    return Json{{"shell", written(polygon.shell)}, {"holes", std::move(holes)}};
}

Json written(const model::MultiPolygon& surface) {
    Json parts = Json::array();
    for (const model::Polygon& part : surface.parts)
        parts.push_back(written(part));
    return parts;
}

Json written(const model::DrawnPolygon& shape) {
    return Json{{"type", "polygon"}, {"polygon", written(shape.polygon)}};
}
Json written(const model::Circle& shape) {
    return Json{{"type", "circle"}, {"centre", written(shape.centre)}, {"radius", written(shape.radius)}};
}
Json written(const model::Corridor& shape) {
    return Json{{"type", "corridor"},
                {"line", written(shape.line)},
                {"left", written(shape.left)},
                {"right", written(shape.right)}};
}
Json written(const model::Setback& shape) {
    return Json{{"type", "setback"}, {"site", written(shape.site)}, {"distance", written(shape.distance)}};
}
Json written(const model::ParcelUnion& shape) {
    Json parcels = Json::array();
    for (const model::Parcel& parcel : shape.parcels)
        parcels.push_back({{"number", written(parcel.number)}, {"surface", written(parcel.surface)}});
    return Json{{"type", "parcels"}, {"parcels", std::move(parcels)}, {"closing", written(shape.closing)}};
}

} // namespace

std::string valueText(const model::Fence& fence) {
    return Json{{"id", written(fence.id)},
                {"name", written(fence.name)},
                {"kind", model::word(fence.kind)},
                {"shape", std::visit([](const auto& shape) { return written(shape); }, fence.shape)},
                {"band", {{"floor", written(fence.band.floor)}, {"ceiling", written(fence.band.ceiling)}}},
                {"period",
                 {{"from", written(fence.period.from)},
                  {"until", written(fence.period.until)},
                  {"season", written(fence.period.season)}}},
                {"basis",
                 {{"kind", model::word(fence.basis.kind)},
                  {"citation", written(fence.basis.citation)},
                  {"distance", written(fence.basis.distance)},
                  {"date", written(fence.basis.date)},
                  {"who", written(fence.basis.who)}}},
                {"enabled", fence.enabled},
                {"locked", fence.locked},
                {"notes", written(fence.notes)}}
        .dump();
}

std::string valueText(const model::Site& site) {
    Json geometry;
    if (const auto* place = std::get_if<model::Position>(&site.geometry))
        geometry = Json{{"type", "point"}, {"place", written(*place)}};
    else if (const auto* line = std::get_if<model::LineString>(&site.geometry))
        geometry = Json{{"type", "line"}, {"line", written(*line)}};
    else
        geometry = Json{{"type", "area"}, {"polygon", written(std::get<model::Polygon>(site.geometry))}};
    return Json{{"id", written(site.id)},
                {"name", written(site.name)},
                {"category", written(site.category)},
                {"geometry", std::move(geometry)},
                {"positionError", written(site.positionError)},
                {"positionSource", written(site.positionSource)},
                {"confidential", site.confidential},
                {"locked", site.locked},
                {"notes", written(site.notes)}}
        .dump();
}

std::string valueText(const model::Home& home) {
    return Json{{"id", written(home.id)},
                {"name", written(home.name)},
                {"kind", model::word(home.kind)},
                {"place", written(home.place)},
                {"landingRadius", written(home.landingRadius)},
                {"locked", home.locked},
                {"notes", written(home.notes)}}
        .dump();
}

std::string valueText(const model::Source& source) {
    return Json{{"id", written(source.id)},
                {"kind", model::word(source.kind)},
                {"name", written(source.name)},
                {"path", written(source.path)},
                {"layer", written(source.layer)},
                {"crs", written(source.crs)},
                {"visible", source.visible},
                {"opacity", written(source.opacity)},
                {"captured", written(source.captured)},
                {"labelField", written(source.labelField)},
                {"numberField", written(source.numberField)},
                {"filter", written(source.filter)},
                {"bands", source.bands ? Json(*source.bands) : Json(nullptr)},
                {"stretch",
                 source.stretch ? Json{written((*source.stretch)[0]), written((*source.stretch)[1])} : Json(nullptr)}}
        .dump();
}

std::string valueText(const DocumentHead& head) {
    return Json{{"title", written(head.title)},  {"notes", written(head.notes)}, {"fences", head.fences},
                {"sites", head.sites},           {"homes", head.homes},          {"sources", head.sources},
                {"margin", written(head.margin)}}
        .dump();
}

std::string readableText(const std::string& text) {
    const std::string quoted = Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
    std::string readable = Json::parse(quoted).get<std::string>();
    std::erase(readable, '\0');
    return readable;
}

} // namespace fencewright::store
