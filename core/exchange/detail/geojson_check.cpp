#include "exchange/detail/geojson_check.h"

#include "fault.h"

#include <nlohmann/json.hpp>

#include <istream>

namespace fencewright::exchange::detail {

namespace {

using Json = nlohmann::json;

constexpr std::size_t kDeepestNesting = 64;
// The driver builds each feature as a tree of some three hundred bytes a corner.
constexpr std::size_t kMostCornersPerFeature = 2'000'000;

/// How deep the arrays of "coordinates" go above the numbers: 1 for Point. Nothing for what has no coordinates.
std::optional<std::size_t> depthOf(std::string_view type) {
    if (type == "Point")
        return 1;
    if (type == "MultiPoint" || type == "LineString")
        return 2;
    if (type == "Polygon" || type == "MultiLineString")
        return 3;
    if (type == "MultiPolygon")
        return 4;
    return std::nullopt;
}

/// The events of the parser, with a frame for each open object or array.
class Check : public nlohmann::json_sax<Json> {
public:
    GeoJsonFaults faults;
    std::string syntaxError;
    std::size_t syntaxOffset = 0;
    Wording rootFault;
    bool tooDeep = false;
    bool tooLarge = false;
    [[nodiscard]] std::size_t feature() const { return m_feature; }

    bool null() override { return value(What::Null); }
    bool boolean(bool) override { return value(What::Other); }
    bool number_integer(number_integer_t) override { return value(What::Number); }
    bool number_unsigned(number_unsigned_t) override { return value(What::Number); }
    bool number_float(number_float_t number, const string_t&) override {
        return value(std::isfinite(number) ? What::Number : What::Other);
    }
    bool string(string_t& text) override {
        if (!m_frames.empty() && m_frames.back().isObject && m_frames.back().key == "type" &&
            isGeoJsonObject(m_frames.back())) {
            m_frames.back().type = text.substr(0, 40);
            return true;
        }
        if (!m_frames.empty() && m_frames.back().role == Role::CrsProperties && m_frames.back().key == "name")
            faults.crsName = text.substr(0, 200);
        return value(What::Other);
    }
    bool binary(binary_t&) override { return false; }
    bool key(string_t& name) override {
        m_frames.back().key = name.size() > 40 ? std::string{} : name;
        if (m_frames.back().role == Role::Root && name == "crs")
            faults.namesCrs = true;
        return true;
    }
    bool start_object(std::size_t) override { return open(true); }
    bool start_array(std::size_t) override { return open(false); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception& problem) override {
        syntaxError = problem.what();
        syntaxOffset = position;
        return false;
    }

private:
    enum class What { Null, Number, Other };
    enum class Role { Root, Features, Feature, Geometry, Geometries, Coordinates, Crs, CrsProperties, Else };

    struct Frame {
        bool isObject = false;
        Role role = Role::Else;
        std::string key;
        std::string type;
        bool hasMember = false; ///< coordinates, geometries or features
        bool memberIsArray = false;
        // Of arrays within coordinates:
        std::size_t numbers = 0;
        std::size_t arrays = 0;
        bool others = false;
        std::size_t height = 0; ///< how many levels of arrays, this one included
        bool uneven = false;    ///< parts of different height, or a faulty position below
    };

    static bool isGeoJsonObject(const Frame& frame) {
        return frame.role == Role::Root || frame.role == Role::Feature || frame.role == Role::Geometry;
    }

    static bool holdsFeature(const Frame& frame) { return frame.role == Role::Feature || frame.role == Role::Root; }

    void blame(const Wording& words) { faults.byFeature.try_emplace(m_feature, words); }

    // An object that is null, or anything else than what its place asks for.
    bool value(What what) {
        if (m_frames.empty()) {
            rootFault = phrase("core", "The text is JSON, but no object.");
            return true;
        }
        Frame& frame = m_frames.back();
        if (frame.role == Role::Coordinates) {
            if (what == What::Number)
                ++frame.numbers;
            else
                frame.others = true;
        } else if (frame.role == Role::Features) {
            ++faults.notObjects;
        } else if (frame.role == Role::Geometries) {
            blame(phrase("core", "a member of its GeometryCollection is not a geometry"));
        } else if (holdsFeature(frame) && frame.key == "geometry") {
            if (what != What::Null)
                blame(phrase("core", "its geometry is not an object"));
        } else if (isGeoJsonObject(frame) && frame.key == "type") {
            frame.type = "?";
        }
        return true;
    }

    bool open(bool isObject) {
        if (m_frames.size() >= kDeepestNesting) {
            tooDeep = true;
            return false;
        }
        Frame next;
        next.isObject = isObject;
        if (m_frames.empty()) {
            next.role = isObject ? Role::Root : Role::Else;
            if (!isObject)
                rootFault = phrase("core", "The text is JSON, but its root is a list, not an object.");
        } else {
            Frame& frame = m_frames.back();
            next.role = roleWithin(frame, isObject);
            if (frame.role == Role::Coordinates && isObject)
                frame.others = true;
            if (frame.role == Role::Features && !isObject)
                ++faults.notObjects;
            if (frame.role == Role::Geometries && !isObject)
                blame(phrase("core", "a member of its GeometryCollection is not a geometry"));
            if (holdsFeature(frame) && frame.key == "geometry" && !isObject)
                blame(phrase("core", "its geometry is not an object"));
            if (isGeoJsonObject(frame) && isObject && frame.key == "type")
                frame.type = "?";
        }
        if (next.role == Role::Feature) {
            ++m_feature;
            m_lists = 0;
        }
        if (next.role == Role::Coordinates && ++m_lists > kMostCornersPerFeature) {
            tooLarge = true;
            return false;
        }
        m_frames.push_back(std::move(next));
        return true;
    }

    Role roleWithin(Frame& frame, bool isObject) {
        if (frame.role == Role::Features)
            return isObject ? Role::Feature : Role::Else;
        if (frame.role == Role::Geometries)
            return isObject ? Role::Geometry : Role::Else;
        if (frame.role == Role::Coordinates)
            return isObject ? Role::Else : Role::Coordinates;
        if (holdsFeature(frame) && frame.key == "geometry")
            return isObject ? Role::Geometry : Role::Else;
        if (frame.role == Role::Root && frame.key == "crs")
            return Role::Crs;
        if (frame.role == Role::Crs && frame.key == "properties")
            return Role::CrsProperties;
        if (frame.role == Role::Root && frame.key == "features") {
            m_feature = 0;
            frame.hasMember = true;
            frame.memberIsArray = !isObject;
            return isObject ? Role::Else : Role::Features;
        }
        if (frame.role != Role::Geometry && frame.role != Role::Root)
            return Role::Else;
        if (frame.key == "coordinates" || frame.key == "geometries") {
            frame.hasMember = true;
            frame.memberIsArray = !isObject;
            if (!isObject)
                return frame.key == "coordinates" ? Role::Coordinates : Role::Geometries;
        }
        return Role::Else;
    }

    bool close() {
        const Frame done = std::move(m_frames.back());
        m_frames.pop_back();
        if (done.role == Role::Coordinates)
            closeCoordinates(done);
        else if (done.role == Role::Geometry)
            judgeGeometry(done);
        else if (done.role == Role::Feature && done.type != "Feature")
            blame(phrase("core", "its type is not \"Feature\""));
        else if (done.role == Role::Root)
            judgeRoot(done);
        return true;
    }

    void closeCoordinates(const Frame& done) {
        const bool position = done.arrays == 0 && done.numbers > 0;
        const bool sound = !done.others && !done.uneven && (position ? done.numbers >= 2 : done.numbers == 0);
        const std::size_t height = done.arrays == 0 ? 1 : done.height + 1;
        Frame& parent = m_frames.back();
        if (parent.role != Role::Coordinates) {
            m_coordinatesHeight = height;
            m_coordinatesSound = sound;
            m_coordinatesEmpty = done.arrays == 0 && done.numbers == 0 && !done.others;
            return;
        }
        // An empty list is a position that is missing where its neighbours are positions.
        if (!sound || (parent.arrays > 0 && parent.height != height) || (height == 1 && done.numbers == 0))
            parent.uneven = true;
        ++parent.arrays;
        parent.height = height;
    }

    void judgeGeometry(const Frame& done) {
        if (done.type == "GeometryCollection") {
            if (!done.hasMember || !done.memberIsArray)
                blame(phrase("core", "its GeometryCollection has no list of geometries"));
            return;
        }
        const auto depth = depthOf(done.type);
        if (!depth)
            blame(done.type.empty() || done.type == "?"
                      ? Wording{phrase("core", "its geometry has no type")}
                      : Wording{phrase("core",
                                       "its geometry is of the type \"%1\", which GeoJSON does not have")(done.type)});
        else if (!done.hasMember || !done.memberIsArray)
            blame(phrase("core", "its %1 has no list of coordinates")(done.type));
        else if (!m_coordinatesEmpty && (!m_coordinatesSound || m_coordinatesHeight != *depth))
            blame(phrase("core", "the coordinates of its %1 are not the lists of numbers that a %2 has")(done.type,
                                                                                                         done.type));
        m_coordinatesSound = false;
    }

    void judgeRoot(const Frame& done) {
        if (done.type == "FeatureCollection") {
            if (!done.hasMember || !done.memberIsArray)
                rootFault = phrase("core", "The FeatureCollection has no list of features.");
            return;
        }
        if (done.type == "Feature")
            return;
        if (depthOf(done.type) || done.type == "GeometryCollection")
            judgeGeometry(done);
        else
            rootFault =
                done.type.empty() || done.type == "?"
                    ? Wording{phrase("core", "The object has no type, so it is not GeoJSON.")}
                    : phrase("core", "The object is of the type \"%1\", which GeoJSON does not have.")(done.type);
    }

    std::vector<Frame> m_frames;
    std::size_t m_feature = 1; ///< a text of one feature, or of a lone geometry, has no "features"
    std::size_t m_lists = 0;   ///< of coordinates, in this feature
    std::size_t m_coordinatesHeight = 0;
    bool m_coordinatesSound = false;
    bool m_coordinatesEmpty = false;
};

Wording lineAndColumn(std::istream& text, const std::string& path, std::size_t offset) {
    text.clear();
    text.seekg(0);
    std::size_t line = 1;
    std::size_t column = 1;
    char c = 0;
    for (std::size_t at = 1; at < offset && text.get(c); ++at) {
        ++column;
        if (c == '\n') {
            ++line;
            column = 1;
        }
    }
    return phrase("core", "%1, line %2, column %3")(path, line, column);
}

// The parser's words without its own number: "parse error at line 1, column 9: syntax error while ...".
std::string plain(std::string words) {
    if (const auto at = words.find(": syntax error"); at != std::string::npos)
        words = words.substr(at + 2);
    else if (const auto bracket = words.find("] "); bracket != std::string::npos)
        words = words.substr(bracket + 2);
    if (words.size() > 160)
        words = words.substr(0, 160) + "...";
    for (char& c : words)
        if (static_cast<unsigned char>(c) < 32 || static_cast<unsigned char>(c) > 126)
            c = '?';
    return words;
}

} // namespace

GeoJsonFaults checkGeoJson(std::istream& text, const std::string& path) {
    Check check;
    Json::sax_parse(text, &check);
    constexpr Phrase again =
        phrase("core", "Ask for another copy of the file, or save it anew with the program that wrote it.");
    if (check.tooDeep)
        throw Fault{phrase("core", "The JSON is nested more than %1 deep.")(kDeepestNesting), path, again};
    if (check.tooLarge)
        throw Fault{phrase("core", "Feature %1 has more than %2 corners.")(check.feature(), kMostCornersPerFeature),
                    path, phrase("core", "Cut it into parts, or convert the file to a GeoPackage.")};
    if (check.syntaxError.find("ill-formed UTF-8") != std::string::npos)
        throw Fault{phrase("core", "The text is not UTF-8, as JSON must be."),
                    lineAndColumn(text, path, check.syntaxOffset), phrase("core", "Name the encoding it is in.")};
    if (!check.syntaxError.empty())
        throw Fault{phrase("core", "The text is not JSON: %1.")(plain(check.syntaxError)),
                    lineAndColumn(text, path, check.syntaxOffset), again};
    if (!check.rootFault.empty())
        throw Fault{check.rootFault, path, again};
    return std::move(check.faults);
}

} // namespace fencewright::exchange::detail
