#include "store/clipping.h"

#include "airspace/outline.h"
#include "fault.h"
#include "geodesy/edge_meaning.h"
#include "geometry/overlay.h"
#include "model/words.h"
#include "store/detail/value_text.h"
#include "store/document_file.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <unordered_map>
#include <unordered_set>

namespace fencewright::store {
namespace {

using Json = nlohmann::json;

constexpr const char* kMember = "fencewright";
constexpr int kMemberVersion = kDocumentVersion; // a thing is written here as it is in the document
constexpr int kDeepest = 24;                     // our values nest 12 deep within a feature
constexpr std::size_t kLongestName = 200;        // bytes
constexpr std::size_t kFewestCorners = 3;
constexpr double kParsedShare = 0.7; // of the time that pasting takes
constexpr Phrase kReadingText = phrase("core", "Reading the text");

[[noreturn]] void refuse(const Wording& problem, const Wording& place = {},
                         const Wording& remedy = phrase("core", "Copy fences, sites or homes, or GeoJSON text, and "
                                                                "paste again.")) {
    throw Fault{problem, place, remedy};
}

/// As much of a name as is taken; no letter of UTF-8 is cut in two, for what is not UTF-8 cannot be written.
std::string beginningOf(std::string name) {
    std::size_t end = std::min(name.size(), kLongestName);
    const auto goesOn = [&](std::size_t at) { return (static_cast<unsigned char>(name[at]) & 0xC0) == 0x80; };
    while (end > 0 && end < name.size() && goesOn(end))
        --end;
    name.resize(end);
    return name;
}

// ---- out

Json position(const model::Position& place) { return Json::array({place.lon, place.lat}); }

bool isFinite(const model::Position& place) { return std::isfinite(place.lon) && std::isfinite(place.lat); }

double onFirstTurn(double lon) { return lon < -180.0 || lon > 180.0 ? std::remainder(lon, 360.0) : lon; }

/// RFC 7946, 3.1.6: closed, the exterior counter-clockwise, interiors clockwise.
Json ring(const model::LineString& corners, bool counterClockwise) {
    double twiceArea = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const model::Position& from = corners[i];
        const model::Position& to = corners[(i + 1) % corners.size()];
        // About the first corner, for the areas of small fences far from the origin.
        twiceArea += (from.lon - corners[0].lon) * (to.lat - corners[0].lat) -
                     (to.lon - corners[0].lon) * (from.lat - corners[0].lat);
    }
    Json places = Json::array();
    if ((twiceArea > 0.0) == counterClockwise)
        std::for_each(corners.begin(), corners.end(), [&](const auto& corner) { places.push_back(position(corner)); });
    else
        std::for_each(corners.rbegin(), corners.rend(),
                      [&](const auto& corner) { places.push_back(position(corner)); });
    if (!places.empty())
        places.push_back(places.front());
    return places;
}

Json rings(const model::Polygon& polygon) {
    Json all = Json::array({ring(polygon.shell.corners, true)});
    for (const model::Ring& hole : polygon.holes)
        all.push_back(ring(hole.corners, false));
    return all;
}

/// RFC 7946, 3.2: null for a feature that lies nowhere.
Json surfaceGeometry(const model::MultiPolygon& surface) {
    const model::MultiPolygon cut = geometry::cutAtAntimeridian(surface);
    if (cut.parts.empty())
        return {};
    if (cut.parts.size() == 1)
        return {{"type", "Polygon"}, {"coordinates", rings(cut.parts.front())}};
    Json parts = Json::array();
    for (const model::Polygon& part : cut.parts)
        parts.push_back(rings(part));
    return {{"type", "MultiPolygon"}, {"coordinates", std::move(parts)}};
}

Json geometryOf(const model::Fence& fence, const model::FenceSet& set) {
    try {
        return surfaceGeometry(airspace::outline(fence, set.sites));
    } catch (const Fault&) {
        return {}; // it can be copied all the same, and the audit says what is wrong with it
    }
}

Json geometryOf(const model::Position& place) {
    if (!isFinite(place))
        return {};
    return {{"type", "Point"}, {"coordinates", position({onFirstTurn(place.lon), place.lat})}};
}

Json geometryOf(const model::Site& site) {
    if (const auto* place = std::get_if<model::Position>(&site.geometry))
        return geometryOf(*place);
    try {
        if (const auto* area = std::get_if<model::Polygon>(&site.geometry))
            return surfaceGeometry({{*area}});
    } catch (const Fault&) {
        return {};
    }
    const auto& line = std::get<model::LineString>(site.geometry);
    if (line.size() < 2 || !std::all_of(line.begin(), line.end(), isFinite))
        return {};
    Json places = Json::array();
    // Cut where it crosses the antimeridian (3.1.9): at the crossing both parts get a place on it.
    Json parts = Json::array();
    const auto turnOf = [](double lon) { return std::floor((lon + 180.0) / 360.0); };
    double turn = turnOf(line.front().lon);
    for (std::size_t i = 0; i < line.size(); ++i) {
        while (i > 0 && turnOf(line[i].lon) != turn) {
            const bool east = turnOf(line[i].lon) > turn;
            const double edge = 360.0 * turn + (east ? 180.0 : -180.0);
            const double along = (edge - line[i - 1].lon) / (line[i].lon - line[i - 1].lon);
            const double lat = std::lerp(line[i - 1].lat, line[i].lat, along);
            places.push_back(position({east ? 180.0 : -180.0, lat}));
            parts.push_back(std::exchange(places, Json::array({position({east ? -180.0 : 180.0, lat})})));
            turn += east ? 1.0 : -1.0;
        }
        places.push_back(position({line[i].lon - 360.0 * turn, line[i].lat}));
    }
    if (parts.empty())
        return {{"type", "LineString"}, {"coordinates", std::move(places)}};
    if (places.size() > 1)
        parts.push_back(std::move(places));
    return {{"type", "MultiLineString"}, {"coordinates", std::move(parts)}};
}

/// What is in a set, by identity: of very many things each is asked for.
class Known {
public:
    explicit Known(const model::FenceSet& set) {
        add(set.fences, m_fences);
        add(set.sites, m_sites);
        add(set.homes, m_homes);
    }
    const model::Fence* operator()(const model::FenceId& id) const { return find(m_fences, id.value); }
    const model::Site* operator()(const model::SiteId& id) const { return find(m_sites, id.value); }
    const model::Home* operator()(const model::HomeId& id) const { return find(m_homes, id.value); }

private:
    template <class T> using ById = std::unordered_map<std::string_view, const T*>;

    template <class T> static void add(const model::Roster<T>& roster, ById<T>& known) {
        known.reserve(roster.size());
        for (const T& one : roster)
            known.emplace(one.id.value, &one);
    }
    template <class T> static const T* find(const ById<T>& known, const std::string& id) {
        const auto at = known.find(id);
        return at == known.end() ? nullptr : at->second;
    }

    ById<model::Fence> m_fences;
    ById<model::Site> m_sites;
    ById<model::Home> m_homes;
};

[[noreturn]] void refuseTooMuch() {
    refuse(phrase("core", "This is more than the clipboard should carry."), {},
           phrase("core", "Save the document, or deliver it as a file."));
}

template <class T> Json feature(const char* kind, const T& thing, std::string_view rule, Json geometry) {
    return {{"type", "Feature"},
            {"geometry", std::move(geometry)},
            {"properties", {{"name", readableText(thing.name)}, {"rule", rule}}},
            {kMember, {{"version", kMemberVersion}, {"kind", kind}, {"value", Json::parse(valueText(thing))}}}};
}

// ---- in

Json parsed(std::string_view text, const Progress& progress) {
    // The parser keeps its own stack, not the program's; what walks the value afterwards does not.
    std::size_t features = 0, events = 0;
    const auto look = [&](int depth, Json::parse_event_t event, Json&) {
        constexpr std::size_t often = 4'096;
        constexpr double charactersAnEvent = 20.0; // of numbers in full, about
        if (++events % often == 0)
            progress.report(std::min(kParsedShare, static_cast<double>(events) * charactersAnEvent /
                                                       static_cast<double>(text.size())),
                            kReadingText);
        if (depth > kDeepest)
            refuse(phrase("core", "The text nests deeper than any GeoJSON does."));
        if (event == Json::parse_event_t::object_start && depth == 2 && ++features > kMostClippedFeatures)
            refuse(phrase("core", "The text holds more than %1 features.")(kMostClippedFeatures), {},
                   phrase("core", "Save it as a file and import that."));
        return true;
    };
    try {
        return Json::parse(text, look);
    } catch (const Json::exception&) {
        refuse(phrase("core", "What is on the clipboard is neither a copy from here nor GeoJSON text."));
    }
}

class Taking {
public:
    Taking(Pasting& into, const NameGiver& named, const Progress& progress)
        : m_into{into}, m_named{named}, m_progress{progress} {}

    void root(const Json& value) {
        if (!value.is_object())
            refuse(phrase("core", "The text is JSON, but not GeoJSON."));
        requireWgs84(value);
        const std::string type = typeOf(value);
        if (type == "FeatureCollection") {
            const auto features = value.find("features");
            if (features == value.end() || !features->is_array())
                refuse(phrase("core", "The FeatureCollection has no list of features."));
            for (std::size_t i = 0; i < features->size(); ++i) {
                m_progress.report(
                    std::lerp(kParsedShare, 1.0, static_cast<double>(i) / static_cast<double>(features->size())),
                    kReadingText);
                m_place = phrase("core", "feature %1")(i + 1);
                feature((*features)[i]);
            }
        } else if (type == "Feature") {
            m_place = phrase("core", "the feature");
            feature(value);
        } else {
            m_place = phrase("core", "the geometry");
            ++m_into.foreign;
            geometry(value, {}, 0);
        }
    }

private:
    [[nodiscard]] std::string typeOf(const Json& value) const {
        const auto type = value.find("type");
        if (type == value.end() || !type->is_string())
            refuse(phrase("core", "A member \"type\" is missing, so it is not GeoJSON."), m_place);
        return type->get<std::string>();
    }

    /// RFC 7946 knows no other; texts from before it may name one, and their numbers would be taken for degrees.
    static void requireWgs84(const Json& value) {
        const auto crs = value.find("crs");
        if (crs == value.end() || crs->is_null())
            return;
        const std::string words = crs->dump();
        if (words.find("CRS84") == std::string::npos)
            refuse(phrase("core", "The text names a coordinate reference system of its own."), {},
                   phrase("core", "Save it as a file and import that: there its coordinates are converted."));
    }

    void feature(const Json& value) {
        if (!value.is_object() || typeOf(value) != "Feature")
            refuse(phrase("core", "It is not a Feature."), m_place);
        if (const auto own = value.find(kMember); own != value.end())
            return ownThing(*own);
        const auto geometryMember = value.find("geometry");
        if (geometryMember == value.end() || geometryMember->is_null()) {
            ++m_into.unreadable;
            return;
        }
        std::string name;
        if (const auto properties = value.find("properties"); properties != value.end() && properties->is_object())
            for (const char* key : {"name", "Name", "NAME", "title"})
                if (const auto given = properties->find(key); name.empty() && given != properties->end())
                    if (given->is_string())
                        name = beginningOf(given->get<std::string>());
        ++m_into.foreign;
        geometry(*geometryMember, name, 0);
    }

    void ownThing(const Json& member) {
        const Json version = member.is_object() ? member.value("version", Json{}) : Json{};
        if (!version.is_number_integer() || version < 1 || version > kMemberVersion)
            refuse(phrase("core", "It was copied by a newer version of the program."), m_place,
                   phrase("core", "Copy it there as a delivered file."));
        const Json kind = member.value("kind", Json{});
        const std::string text = member.value("value", Json{}).dump();
        try {
            if (kind == "fence") {
                model::Fence fence = valueFromText<model::Fence>(text);
                std::visit([this](const auto& shape) { requireOnEarth(shape); }, fence.shape);
                m_into.fences.push_back(std::move(fence));
            } else if (kind == "site") {
                model::Site site = valueFromText<model::Site>(text);
                std::visit([this](const auto& one) { requireOnEarth(one); }, site.geometry);
                requireLength(site.positionError);
                m_into.sites.push_back(std::move(site));
            } else if (kind == "home") {
                model::Home home = valueFromText<model::Home>(text);
                requireOnEarth(home.place);
                requireLength(home.landingRadius);
                m_into.homes.push_back(std::move(home));
            } else {
                refuse(phrase("core", "It is no kind of thing that is known."), m_place);
            }
        } catch (const ValueError& error) {
            refuse(phrase("core", "Its member %1 %2.")(error.member(), error.problem()), m_place);
        }
        ++m_into.own;
    }

    void requireOnEarth(const model::Position& place) {
        // Of a shape across the antimeridian the numbers run on beyond 180.
        if (!std::isfinite(place.lon) || !std::isfinite(place.lat) || std::abs(place.lon) > 540.0 ||
            std::abs(place.lat) > 90.0)
            refuse(phrase("core", "It has a coordinate that is no place on the earth."), m_place);
        if (++m_corners > kMostClippedCorners)
            refuse(phrase("core", "The text holds more than %1 corners.")(kMostClippedCorners), {},
                   phrase("core", "Save it as a file and import that."));
    }
    void requireOnEarth(const model::LineString& line) {
        std::for_each(line.begin(), line.end(), [this](const auto& place) { requireOnEarth(place); });
    }
    void requireOnEarth(const model::Polygon& polygon) {
        requireOnEarth(polygon.shell.corners);
        for (const model::Ring& hole : polygon.holes)
            requireOnEarth(hole.corners);
    }
    void requireLength(const StatedLength& length) {
        if (!std::isfinite(length.length.inMetres()))
            refuse(phrase("core", "It has a length that is not a number."), m_place);
    }
    void requireOnEarth(const model::DrawnPolygon& shape) { requireOnEarth(shape.polygon); }
    void requireOnEarth(const model::Circle& shape) {
        requireOnEarth(shape.centre);
        requireLength(shape.radius);
    }
    void requireOnEarth(const model::Corridor& shape) {
        requireOnEarth(shape.line);
        requireLength(shape.left);
        requireLength(shape.right);
    }
    void requireOnEarth(const model::Setback& shape) { requireLength(shape.distance); }
    void requireOnEarth(const model::ParcelUnion& shape) {
        for (const model::Parcel& parcel : shape.parcels)
            for (const model::Polygon& part : parcel.surface.parts)
                requireOnEarth(part);
        requireLength(shape.closing);
    }

    // Geometries of other programs.

    const Json& list(const Json& value) const {
        if (!value.is_array())
            refuse(phrase("core", "Its coordinates are not lists of the depth that its type asks for."), m_place);
        return value;
    }
    model::Position place(const Json& value) {
        list(value);
        if (value.size() < 2 || value.size() > 4 || !value[0].is_number() || !value[1].is_number())
            refuse(phrase("core", "It has a position that is not a longitude and a latitude."), m_place);
        const model::Position at{value[0].get<double>(), value[1].get<double>()};
        requireOnEarth(at);
        m_into.heights += value.size() > 2 ? 1 : 0;
        return at;
    }
    model::LineString line(const Json& value) {
        model::LineString places;
        for (const Json& one : list(value))
            places.push_back(place(one));
        return places;
    }
    model::Ring ringFrom(const Json& value) {
        model::Ring made{line(value), false};
        if (made.corners.size() > 1 && made.corners.front() == made.corners.back()) {
            made.corners.pop_back();
        } else {
            made.closureAssumed = true;
            ++m_into.leftOpen;
        }
        if (made.corners.size() < kFewestCorners)
            refuse(phrase("core", "It has a ring of fewer than three corners."), m_place);
        return continuous(std::move(made));
    }
    /// Writers that do not cut at the antimeridian (RFC 7946, 3.1.9) jump there; taken as it stands, such an area would
    /// be the rest of the earth's band and not contain what it closes.
    model::Ring continuous(model::Ring ring) {
        auto [made, changed] = geodesy::unwrapped(std::move(ring));
        m_into.unwrapped += changed ? 1 : 0;
        return std::move(made);
    }
    void area(const Json& value, const std::string& name) {
        if (list(value).empty())
            refuse(phrase("core", "It has a polygon without a ring."), m_place);
        model::Fence fence;
        fence.id = model::freshId<model::Fence>();
        fence.name = name.empty() ? m_named(phrase("core", "Pasted area")) : name;
        fence.kind = model::FenceKind::KeepOut; // what nobody says is permitted, is not
        model::Polygon polygon{ringFrom(value[0]), {}};
        for (std::size_t i = 1; i < value.size(); ++i) {
            model::Ring& hole = polygon.holes.emplace_back(ringFrom(value[i]));
            const double first = hole.corners.front().lon;
            const double turn = geodesy::longitudeNear(first, polygon.shell.corners.front().lon) - first;
            for (model::Position& corner : hole.corners)
                corner.lon += turn;
        }
        fence.shape = model::DrawnPolygon{std::move(polygon)};
        m_into.fences.push_back(std::move(fence));
    }
    void site(model::SiteGeometry where, const std::string& name) {
        model::Site made;
        made.id = model::freshId<model::Site>();
        made.name = name.empty() ? m_named(phrase("core", "Pasted site")) : name;
        made.geometry = std::move(where);
        m_into.sites.push_back(std::move(made));
    }
    void lineSite(const Json& value, const std::string& name) {
        model::LineString places = line(value);
        if (places.size() < 2)
            refuse(phrase("core", "It has a line of fewer than two places."), m_place);
        site(continuous({std::move(places), false}).corners, name);
    }
    void geometry(const Json& value, const std::string& name, int depth) {
        constexpr int deepestCollection = 4;
        if (!value.is_object() || depth > deepestCollection)
            refuse(phrase("core", "Its geometry is not one of GeoJSON."), m_place);
        const std::string type = typeOf(value);
        const auto member = value.find(type == "GeometryCollection" ? "geometries" : "coordinates");
        if (member == value.end())
            refuse(phrase("core", "Its geometry has no coordinates."), m_place);
        if (type == "Polygon") {
            area(*member, name);
        } else if (type == "MultiPolygon") {
            for (const Json& part : list(*member))
                area(part, name);
        } else if (type == "Point") {
            site(place(*member), name);
        } else if (type == "MultiPoint") {
            for (const Json& one : list(*member))
                site(place(one), name);
        } else if (type == "LineString") {
            lineSite(*member, name);
        } else if (type == "MultiLineString") {
            for (const Json& one : list(*member))
                lineSite(one, name);
        } else if (type == "GeometryCollection") {
            for (const Json& one : list(*member))
                geometry(one, name, depth + 1);
        } else {
            refuse(phrase("core", "Its geometry is not one of GeoJSON."), m_place);
        }
        if (m_into.fences.size() + m_into.sites.size() > kMostClippedFeatures)
            refuse(phrase("core", "The text holds more than %1 areas and places.")(kMostClippedFeatures), {},
                   phrase("core", "Save it as a file and import that."));
    }

    Pasting& m_into;
    const NameGiver& m_named;
    const Progress& m_progress;
    Wording m_place;
    std::size_t m_corners = 0;
};

/// "Nest", then "Nest copy", then "Nest copy 2".
std::string freeName(const std::string& name, std::set<std::string>& taken, const NameGiver& named) {
    std::string wanted = name;
    for (int i = 1; !taken.insert(wanted).second; ++i)
        wanted = named(i == 1 ? phrase("core", "%1 copy")(name) : phrase("core", "%1 copy %2")(name, i));
    return wanted;
}

} // namespace

Clipping clipped(const model::FenceSet& set, std::span<const ClippedThing> things, const Progress& progress) {
    const Known known{set};
    std::vector<model::SiteId> sites;
    std::unordered_set<std::string> there;
    const auto take = [&](const model::SiteId& id) {
        if (there.insert(id.value).second)
            sites.push_back(id);
    };
    Clipping clipping;
    Json features = Json::array();
    const auto addFence = [&](const model::Fence& fence) {
        features.push_back(feature("fence", fence, model::word(fence.kind), geometryOf(fence, set)));
        ++clipping.fences;
        if (const auto* setback = std::get_if<model::Setback>(&fence.shape))
            take(setback->site);
    };
    for (std::size_t i = 0; i < things.size(); ++i) {
        constexpr double share = 0.8; // then all is written out
        progress.report(share * static_cast<double>(i) / static_cast<double>(things.size()),
                        phrase("core", "Writing the text"));
        if (const auto* id = std::get_if<model::FenceId>(&things[i])) {
            if (const model::Fence* fence = known(*id))
                addFence(*fence);
        } else if (const auto* siteId = std::get_if<model::SiteId>(&things[i])) {
            take(*siteId);
        } else if (const model::Home* home = known(std::get<model::HomeId>(things[i]))) {
            features.push_back(feature("home", *home, model::word(home->kind), geometryOf(home->place)));
            ++clipping.homes;
        }
        if (features.size() > kMostClippedFeatures)
            refuseTooMuch();
    }
    for (const model::SiteId& id : sites)
        if (const model::Site* site = known(id)) {
            features.push_back(feature("site", *site, "site", geometryOf(*site)));
            ++clipping.sites;
            clipping.confidential += site->confidential ? 1 : 0;
        }
    if (features.empty())
        refuse(phrase("core", "Nothing is selected that could be copied."), {},
               phrase("core", "Choose fences, sites or homes first."));
    if (features.size() > kMostClippedFeatures)
        refuseTooMuch();
    clipping.text = Json{{"type", "FeatureCollection"}, {"features", std::move(features)}}.dump(1);
    if (clipping.text.size() > kLongestClipping)
        refuseTooMuch();
    return clipping;
}

std::size_t clippedCorners(const model::FenceSet& set, std::span<const ClippedThing> things) {
    const Known known{set};
    std::size_t corners = 0;
    const auto addPolygon = [&](const model::Polygon& polygon) {
        corners += polygon.shell.corners.size();
        for (const model::Ring& hole : polygon.holes)
            corners += hole.corners.size();
    };
    const auto addSite = [&](const model::Site* site) {
        if (!site)
            return;
        if (const auto* area = std::get_if<model::Polygon>(&site->geometry))
            addPolygon(*area);
        else if (const auto* line = std::get_if<model::LineString>(&site->geometry))
            corners += line->size();
        else
            ++corners;
    };
    for (const ClippedThing& thing : things) {
        const auto* id = std::get_if<model::FenceId>(&thing);
        const model::Fence* fence = id ? known(*id) : nullptr;
        if (const auto* siteId = std::get_if<model::SiteId>(&thing))
            addSite(known(*siteId));
        else if (!fence)
            ++corners;
        else if (const auto* drawn = std::get_if<model::DrawnPolygon>(&fence->shape))
            addPolygon(drawn->polygon);
        else if (const auto* corridor = std::get_if<model::Corridor>(&fence->shape))
            corners += corridor->line.size();
        else if (const auto* setback = std::get_if<model::Setback>(&fence->shape))
            addSite(known(setback->site));
        else if (const auto* parcels = std::get_if<model::ParcelUnion>(&fence->shape))
            for (const model::Parcel& parcel : parcels->parcels)
                for (const model::Polygon& part : parcel.surface.parts)
                    addPolygon(part);
        else
            ++corners;
    }
    return corners;
}

Pasting pasted(std::string_view text, const NameGiver& named, const Progress& progress) {
    if (text.size() > kLongestClipping)
        refuse(phrase("core", "The text on the clipboard is longer than %1 MB.")(kLongestClipping / 1024 / 1024), {},
               phrase("core", "Save it as a file and import that."));
    Pasting pasting;
    Taking{pasting, named, progress}.root(parsed(text, progress));
    if (pasting.fences.empty() && pasting.sites.empty() && pasting.homes.empty())
        refuse(phrase("core", "The text holds no area, line or place."));
    return pasting;
}

PastingEdit pastedInto(const model::FenceSet& set, Pasting pasting, const NameGiver& named) {
    PastingEdit made;
    std::map<std::string, model::SiteId> renamed;
    // Of each kind by itself: a setback is often called what its site is called.
    struct Taken {
        std::unordered_set<std::string> ids;
        std::set<std::string> names;
    };
    const auto collect = [](const auto& roster) {
        Taken taken;
        for (const auto& one : roster) {
            taken.names.insert(one.name);
            taken.ids.insert(one.id.value);
        }
        return taken;
    };
    Taken fences = collect(set.fences), sites = collect(set.sites), homes = collect(set.homes);
    const auto add = [&]<class T>(T thing, const model::Roster<T>& roster, Taken& taken, std::size_t& added) {
        if (thing.id.empty() || !taken.ids.insert(thing.id.value).second) {
            thing.id = model::freshId<T>();
            thing.locked = false; // a copy beside its original is a new thing
            taken.ids.insert(thing.id.value);
        }
        thing.name = freeName(thing.name, taken.names, named);
        made.things.emplace_back(thing.id);
        made.edit.changes.emplace_back(
            model::Replacement<T>{roster.size() + added++, nullptr, std::make_shared<const T>(std::move(thing))});
    };
    std::size_t addedSites = 0, addedFences = 0, addedHomes = 0;
    // Sites first: setbacks follow them, under whatever identity they have come in.
    for (model::Site& site : pasting.sites) {
        const std::string before = site.id.value;
        add(std::move(site), set.sites, sites, addedSites);
        renamed.emplace(before, std::get<model::SiteId>(made.things.back()));
    }
    for (model::Fence& fence : pasting.fences) {
        if (auto* setback = std::get_if<model::Setback>(&fence.shape)) {
            if (const auto found = renamed.find(setback->site.value); found != renamed.end())
                setback->site = found->second;
            else if (!set.sites.find(setback->site))
                refuse(
                    phrase("core", "The site that this setback follows is neither in the text nor in this document."),
                    fence.name, phrase("core", "Copy the site along with it."));
        }
        add(std::move(fence), set.fences, fences, addedFences);
    }
    for (model::Home& home : pasting.homes)
        add(std::move(home), set.homes, homes, addedHomes);
    const std::size_t count = made.things.size();
    made.edit.title =
        count == 1 ? Wording{phrase("core", "Paste one thing")} : phrase("core", "Paste %1 things")(count);
    return made;
}

} // namespace fencewright::store
