#include "model/words.h"
#include "store/detail/value_text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdint>
#include <limits>
#include <set>

namespace fencewright::store {

namespace {

using Json = nlohmann::json;

/// Deeper than any value of ours: a text that nests further is refused before it is built.
constexpr int kDeepest = 16;

/// A value with the way to it, for saying where something is wrong. The way is put into words only then. A reader is
/// made from its parent and must not outlive it.
class Reader {
public:
    explicit Reader(const Json& value) : m_value{value} {}

    [[noreturn]] void refuse(const Phrase& problem) const { throw ValueError{problem, way()}; }

    [[nodiscard]] Reader at(const char* name) const {
        const auto found = m_value.find(name);
        if (found == m_value.end())
            throw ValueError{phrase("core", "is missing"), wayTo(name)};
        return {*found, this, name, 0};
    }
    [[nodiscard]] bool has(const char* name) const { return m_value.contains(name); }
    [[nodiscard]] Reader at(std::size_t index) const { return {m_value[index], this, nullptr, index}; }

    /// An object with these members and no others: what is not known would be lost when the document is saved.
    void expectMembers(std::initializer_list<std::string_view> names) const {
        if (!m_value.is_object())
            refuse(phrase("core", "is not an object"));
        for (const auto& [name, value] : m_value.items())
            if (std::find(names.begin(), names.end(), name) == names.end())
                throw ValueError{phrase("core", "is not known"), wayTo(readableText(name.substr(0, 60)))};
    }
    [[nodiscard]] std::size_t arraySize() const {
        if (!m_value.is_array())
            refuse(phrase("core", "is not a list"));
        return m_value.size();
    }
    [[nodiscard]] bool isNull() const { return m_value.is_null(); }

    [[nodiscard]] bool yesOrNo() const {
        if (!m_value.is_boolean())
            refuse(phrase("core", "is neither true nor false"));
        return m_value.get<bool>();
    }
    [[nodiscard]] double number() const {
        if (m_value.is_number())
            return m_value.get<double>();
        if (m_value.is_string()) {
            const auto& word = m_value.get_ref<const std::string&>();
            if (word == "not a number")
                return std::numeric_limits<double>::quiet_NaN();
            if (word == "infinite")
                return std::numeric_limits<double>::infinity();
            if (word == "minus infinite")
                return -std::numeric_limits<double>::infinity();
        }
        refuse(phrase("core", "is not a number"));
    }
    [[nodiscard]] std::int64_t integer(std::int64_t least, std::int64_t most) const {
        if (!m_value.is_number_integer() || (m_value.is_number_unsigned() && m_value.get<std::uint64_t>() > INT64_MAX))
            refuse(phrase("core", "is not a whole number"));
        const auto value = m_value.get<std::int64_t>();
        if (value < least || value > most)
            refuse(phrase("core", "is out of range"));
        return value;
    }
    [[nodiscard]] std::string text() const {
        if (m_value.is_string())
            return m_value.get<std::string>();
        if (!m_value.is_object())
            refuse(phrase("core", "is not a text"));
        expectMembers({"bytes"});
        const std::string hex = at("bytes").text();
        std::string bytes;
        if (hex.size() % 2 != 0)
            refuse(phrase("core", "is not a text"));
        for (std::size_t i = 0; i < hex.size(); i += 2)
            bytes += static_cast<char>(nibble(hex[i]) * 16 + nibble(hex[i + 1]));
        return bytes;
    }
    template <class Choice> [[nodiscard]] Choice choice() const {
        const auto found = model::choiceOf<Choice>(word());
        if (!found)
            refuse(phrase("core", "is none of the words that are known"));
        return *found;
    }
    [[nodiscard]] std::string word() const {
        if (!m_value.is_string())
            refuse(phrase("core", "is not a text"));
        return m_value.get<std::string>();
    }

private:
    Reader(const Json& value, const Reader* parent, const char* name, std::size_t index)
        : m_value{value}, m_parent{parent}, m_name{name}, m_index{index} {}

    [[nodiscard]] std::string way() const {
        if (m_parent == nullptr)
            return {};
        return m_name != nullptr ? m_parent->wayTo(m_name) : m_parent->way() + "[" + std::to_string(m_index) + "]";
    }
    [[nodiscard]] std::string wayTo(const std::string& name) const {
        const std::string here = way();
        return here.empty() ? name : here + "." + name;
    }
    [[nodiscard]] int nibble(char digit) const {
        if (digit >= '0' && digit <= '9')
            return digit - '0';
        if (digit >= 'a' && digit <= 'f')
            return digit - 'a' + 10;
        refuse(phrase("core", "is not a text"));
    }

    const Json& m_value;
    const Reader* m_parent = nullptr;
    const char* m_name = nullptr;
    std::size_t m_index = 0;
};

StatedLength readLength(const Reader& reader) {
    reader.expectMembers({"metres", "written"});
    return {Length::metres(reader.at("metres").number()), reader.at("written").text()};
}

model::Date readDate(const Reader& reader) {
    if (reader.arraySize() != 3)
        reader.refuse(phrase("core", "is not a date"));
    return {std::chrono::year{static_cast<int>(reader.at(std::size_t{0}).integer(-32768, 32767))},
            std::chrono::month{static_cast<unsigned>(reader.at(1).integer(0, 255))},
            std::chrono::day{static_cast<unsigned>(reader.at(2).integer(0, 255))}};
}

model::YearDay readYearDay(const Reader& reader) {
    if (reader.arraySize() != 2)
        reader.refuse(phrase("core", "is not a day of the year"));
    return {std::chrono::month{static_cast<unsigned>(reader.at(std::size_t{0}).integer(0, 255))},
            std::chrono::day{static_cast<unsigned>(reader.at(1).integer(0, 255))}};
}

template <class Read> auto readOptional(const Reader& reader, Read read) -> std::optional<decltype(read(reader))> {
    if (reader.isNull())
        return std::nullopt;
    return read(reader);
}

std::vector<model::Position> readPlaces(const Reader& reader) {
    const std::size_t numbers = reader.arraySize();
    if (numbers % 2 != 0)
        reader.refuse(phrase("core", "has a longitude without a latitude"));
    std::vector<model::Position> places;
    places.reserve(numbers / 2);
    for (std::size_t i = 0; i < numbers; i += 2)
        places.push_back({reader.at(i).number(), reader.at(i + 1).number()});
    return places;
}

model::Position readPlace(const Reader& reader) {
    const auto places = readPlaces(reader);
    if (places.size() != 1)
        reader.refuse(phrase("core", "is not one place"));
    return places.front();
}

model::Ring readRing(const Reader& reader) {
    reader.expectMembers({"corners", "closureAssumed"});
    return {readPlaces(reader.at("corners")), reader.at("closureAssumed").yesOrNo()};
}

model::Polygon readPolygon(const Reader& reader) {
    reader.expectMembers({"shell", "holes"});
    model::Polygon polygon{readRing(reader.at("shell")), {}};
    const Reader holes = reader.at("holes");
    for (std::size_t i = 0, count = holes.arraySize(); i < count; ++i)
        polygon.holes.push_back(readRing(holes.at(i)));
    return polygon;
}

model::MultiPolygon readSurface(const Reader& reader) {
    model::MultiPolygon surface;
    for (std::size_t i = 0, count = reader.arraySize(); i < count; ++i)
        surface.parts.push_back(readPolygon(reader.at(i)));
    return surface;
}

model::Parcel readParcel(const Reader& reader) {
    reader.expectMembers({"number", "surface"});
    return {reader.at("number").text(), readSurface(reader.at("surface"))};
}

model::Shape readShape(const Reader& reader) {
    const std::string type = reader.at("type").word();
    if (type == "polygon") {
        reader.expectMembers({"type", "polygon"});
        return model::DrawnPolygon{readPolygon(reader.at("polygon"))};
    }
    if (type == "circle") {
        reader.expectMembers({"type", "centre", "radius"});
        return model::Circle{readPlace(reader.at("centre")), readLength(reader.at("radius"))};
    }
    if (type == "corridor") {
        if (reader.has("halfWidth")) { // layout 1: one width for both sides
            reader.expectMembers({"type", "line", "halfWidth"});
            const StatedLength width = readLength(reader.at("halfWidth"));
            return model::Corridor{readPlaces(reader.at("line")), width, width};
        }
        reader.expectMembers({"type", "line", "left", "right"});
        return model::Corridor{readPlaces(reader.at("line")), readLength(reader.at("left")),
                               readLength(reader.at("right"))};
    }
    if (type == "setback") {
        reader.expectMembers({"type", "site", "distance"});
        return model::Setback{{reader.at("site").text()}, readLength(reader.at("distance"))};
    }
    if (type == "parcels") {
        reader.expectMembers({"type", "parcels", "closing"});
        model::ParcelUnion shape;
        const Reader parcels = reader.at("parcels");
        for (std::size_t i = 0, count = parcels.arraySize(); i < count; ++i)
            shape.parcels.push_back(readParcel(parcels.at(i)));
        shape.closing = readLength(reader.at("closing"));
        return shape;
    }
    reader.at("type").refuse(phrase("core", "is no kind of shape that is known"));
}

model::HeightLimit readLimit(const Reader& reader) {
    reader.expectMembers({"value", "reference"});
    return {readLength(reader.at("value")), reader.at("reference").choice<model::HeightReference>()};
}

model::Season readSeason(const Reader& reader) {
    reader.expectMembers({"from", "to"});
    return {readYearDay(reader.at("from")), readYearDay(reader.at("to"))};
}

StatedSpeed readSpeed(const Reader& reader) {
    reader.expectMembers({"metresPerSecond", "written"});
    return {Speed::metresPerSecond(reader.at("metresPerSecond").number()), reader.at("written").text()};
}

StatedAcceleration readAcceleration(const Reader& reader) {
    reader.expectMembers({"metresPerSecondSquared", "written"});
    return {Acceleration::metresPerSecondSquared(reader.at("metresPerSecondSquared").number()),
            reader.at("written").text()};
}

model::Margin readMargin(const Reader& reader) {
    reader.expectMembers({"positionError", "speed", "reactionSeconds", "deceleration", "allowance", "basis"});
    model::Margin margin;
    margin.positionError = readLength(reader.at("positionError"));
    margin.speed = readSpeed(reader.at("speed"));
    margin.reaction = std::chrono::duration<double>{reader.at("reactionSeconds").number()};
    margin.deceleration = readAcceleration(reader.at("deceleration"));
    margin.allowance = readLength(reader.at("allowance"));
    margin.basis = reader.at("basis").text();
    return margin;
}

/// What was kept in layout 1 is not locked.
bool readLock(const Reader& thing) { return thing.has("locked") && thing.at("locked").yesOrNo(); }

Json parsed(std::string_view text) {
    // The parser keeps its own stack, not the program's; the depth is bounded for what walks the value afterwards, and
    // a member given twice has no one meaning.
    std::vector<std::set<std::string>> members;
    const auto look = [&](int depth, Json::parse_event_t event, Json& value) {
        if (depth > kDeepest)
            throw ValueError{phrase("core", "nests too deeply"), ""};
        if (event == Json::parse_event_t::object_start)
            members.emplace_back();
        else if (event == Json::parse_event_t::object_end)
            members.pop_back();
        else if (event == Json::parse_event_t::key && !members.back().insert(value.get<std::string>()).second)
            throw ValueError{phrase("core", "has a member twice"), value.get<std::string>().substr(0, 60)};
        return true;
    };
    try {
        Json value = Json::parse(text, look);
        if (!value.is_object())
            throw ValueError{phrase("core", "is not an object"), ""};
        return value;
    } catch (const Json::exception&) {
        throw ValueError{phrase("core", "is not JSON"), ""};
    }
}

} // namespace

template <> model::Fence valueFromText(std::string_view text) {
    const Json value = parsed(text);
    const Reader reader{value};
    reader.expectMembers({"id", "name", "kind", "shape", "band", "period", "basis", "enabled", "locked", "notes"});
    model::Fence fence;
    fence.id.value = reader.at("id").text();
    fence.name = reader.at("name").text();
    fence.kind = reader.at("kind").choice<model::FenceKind>();
    fence.shape = readShape(reader.at("shape"));
    const Reader band = reader.at("band");
    band.expectMembers({"floor", "ceiling"});
    fence.band = {readOptional(band.at("floor"), readLimit), readOptional(band.at("ceiling"), readLimit)};
    const Reader period = reader.at("period");
    period.expectMembers({"from", "until", "season"});
    fence.period = {readOptional(period.at("from"), readDate), readOptional(period.at("until"), readDate),
                    readOptional(period.at("season"), readSeason)};
    const Reader basis = reader.at("basis");
    basis.expectMembers({"kind", "citation", "distance", "date", "who"});
    fence.basis = {basis.at("kind").choice<model::BasisKind>(), basis.at("citation").text(),
                   readOptional(basis.at("distance"), readLength), readOptional(basis.at("date"), readDate),
                   basis.at("who").text()};
    fence.enabled = reader.at("enabled").yesOrNo();
    fence.locked = readLock(reader);
    fence.notes = reader.at("notes").text();
    return fence;
}

template <> model::Site valueFromText(std::string_view text) {
    const Json value = parsed(text);
    const Reader reader{value};
    reader.expectMembers(
        {"id", "name", "category", "geometry", "positionError", "positionSource", "confidential", "locked", "notes"});
    model::Site site;
    site.id.value = reader.at("id").text();
    site.name = reader.at("name").text();
    site.category = reader.at("category").text();
    const Reader geometry = reader.at("geometry");
    const std::string type = geometry.at("type").word();
    if (type == "point") {
        geometry.expectMembers({"type", "place"});
        site.geometry = readPlace(geometry.at("place"));
    } else if (type == "line") {
        geometry.expectMembers({"type", "line"});
        site.geometry = readPlaces(geometry.at("line"));
    } else if (type == "area") {
        geometry.expectMembers({"type", "polygon"});
        site.geometry = readPolygon(geometry.at("polygon"));
    } else {
        geometry.at("type").refuse(phrase("core", "is no kind of geometry that is known"));
    }
    site.positionError = readLength(reader.at("positionError"));
    site.positionSource = reader.at("positionSource").text();
    site.confidential = reader.at("confidential").yesOrNo();
    site.locked = readLock(reader);
    site.notes = reader.at("notes").text();
    return site;
}

template <> model::Home valueFromText(std::string_view text) {
    const Json value = parsed(text);
    const Reader reader{value};
    reader.expectMembers({"id", "name", "kind", "place", "landingRadius", "locked", "notes"});
    model::Home home;
    home.id.value = reader.at("id").text();
    home.name = reader.at("name").text();
    home.kind = reader.at("kind").choice<model::HomeKind>();
    home.place = readPlace(reader.at("place"));
    home.landingRadius = readLength(reader.at("landingRadius"));
    home.locked = readLock(reader);
    home.notes = reader.at("notes").text();
    return home;
}

template <> model::Source valueFromText(std::string_view text) {
    const Json value = parsed(text);
    const Reader reader{value};
    reader.expectMembers({"id", "kind", "name", "path", "layer", "crs", "visible", "opacity", "captured", "labelField",
                          "numberField", "filter", "bands", "stretch"});
    model::Source source;
    source.id.value = reader.at("id").text();
    source.kind = reader.at("kind").choice<model::SourceKind>();
    source.name = reader.at("name").text();
    source.path = reader.at("path").text();
    source.layer = reader.at("layer").text();
    source.crs = reader.at("crs").text();
    source.visible = reader.at("visible").yesOrNo();
    source.opacity = reader.at("opacity").number();
    source.captured = readOptional(reader.at("captured"), readDate);
    source.labelField = reader.at("labelField").text();
    source.numberField = reader.at("numberField").text();
    // Documents from before there were filters have none.
    if (reader.has("filter"))
        source.filter = reader.at("filter").text();
    // Nor have older ones bands and stretch.
    if (reader.has("bands"))
        source.bands = readOptional(reader.at("bands"), [](const Reader& bands) {
            constexpr std::int64_t most = 65'535;
            if (bands.arraySize() != 3)
                bands.refuse(phrase("core", "is not a list of three"));
            return std::array{int(bands.at(std::size_t{0}).integer(1, most)),
                              int(bands.at(std::size_t{1}).integer(1, most)),
                              int(bands.at(std::size_t{2}).integer(1, most))};
        });
    if (reader.has("stretch"))
        source.stretch = readOptional(reader.at("stretch"), [](const Reader& stretch) {
            if (stretch.arraySize() != 2)
                stretch.refuse(phrase("core", "is not a list of two"));
            return std::array{stretch.at(std::size_t{0}).number(), stretch.at(std::size_t{1}).number()};
        });
    return source;
}

template <> DocumentHead valueFromText(std::string_view text) {
    constexpr std::int64_t most = 10'000'000;
    const Json value = parsed(text);
    const Reader reader{value};
    reader.expectMembers({"title", "notes", "fences", "sites", "homes", "sources", "margin"});
    const auto count = [&](const char* name) { return static_cast<std::size_t>(reader.at(name).integer(0, most)); };
    DocumentHead head{reader.at("title").text(),
                      reader.at("notes").text(),
                      count("fences"),
                      count("sites"),
                      count("homes"),
                      count("sources"),
                      std::nullopt};
    if (reader.has("margin")) // layouts 1 and 2 knew of none
        head.margin = readOptional(reader.at("margin"), readMargin);
    return head;
}

} // namespace fencewright::store
