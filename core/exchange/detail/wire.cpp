#include "exchange/detail/wire.h"

#include <cstring>
#include <type_traits>

namespace fencewright::exchange::detail {

namespace {

[[noreturn]] void refuse() {
    throw Fault{phrase("core", "The answer of the reading program is garbled."), "",
                phrase("core", "Check that the program is the one that was installed.")};
}

// Each thing has one function `pass` for both ways: a Writer puts it down, a Reader fills it.
class Writer {
public:
    static constexpr bool kReads = false;
    std::string bytes;

    template <class T> void raw(const T& value) {
        static_assert(std::is_trivially_copyable_v<T>);
        bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
    }
    void text(const std::string& value) {
        raw(std::uint64_t{value.size()});
        bytes += value;
    }
    template <class T, class Each> void list(const std::vector<T>& items, Each each) {
        raw(std::uint64_t{items.size()});
        for (const T& item : items)
            each(item);
    }
    void places(const std::vector<model::Position>& items) {
        raw(std::uint64_t{items.size()});
        bytes.append(reinterpret_cast<const char*>(items.data()), items.size() * sizeof(model::Position));
    }
};

class Reader {
public:
    static constexpr bool kReads = true;
    explicit Reader(std::string_view bytes) : m_rest{bytes} {}

    template <class T> void raw(T& value) {
        static_assert(std::is_trivially_copyable_v<T>);
        std::memcpy(&value, take(sizeof value).data(), sizeof value);
    }
    void text(std::string& value) { value = take(length(1)); }
    template <class T, class Each> void list(std::vector<T>& items, Each each) {
        // Each item takes a byte at least, so that a false length cannot ask for more memory than the answer has.
        const std::size_t count = length(1);
        items.clear();
        for (std::size_t i = 0; i < count; ++i)
            each(items.emplace_back());
    }
    void places(std::vector<model::Position>& items) {
        items.resize(length(sizeof(model::Position)));
        if (!items.empty())
            std::memcpy(items.data(), take(items.size() * sizeof(model::Position)).data(),
                        items.size() * sizeof(model::Position));
    }
    void end() const {
        if (!m_rest.empty())
            refuse();
    }

private:
    std::string_view take(std::size_t count) {
        if (count > m_rest.size())
            refuse();
        const std::string_view taken = m_rest.substr(0, count);
        m_rest.remove_prefix(count);
        return taken;
    }
    std::size_t length(std::size_t bytesEach) {
        std::uint64_t count = 0;
        raw(count);
        if (count > m_rest.size() / bytesEach)
            refuse();
        return static_cast<std::size_t>(count);
    }

    std::string_view m_rest;
};

/// The value for a Reader, the constant value for a Writer.
template <class Way, class T> using Passed = std::conditional_t<Way::kReads, T&, const T&>;

// A bool or an enumeration out of foreign bytes may hold no value of its type: it travels as a number and is checked.
template <class Way, class T> void passChoice(Way& way, T& value, int choices) {
    auto number = static_cast<std::uint8_t>(value);
    way.raw(number);
    if constexpr (Way::kReads) {
        if (number >= choices)
            refuse();
        value = static_cast<T>(number);
    }
}

template <class Way, class T> void passOptional(Way& way, T& value) {
    bool there = value.has_value();
    passChoice(way, there, 2);
    if (!there)
        return;
    if constexpr (Way::kReads)
        value.emplace();
    way.raw(*value);
}

template <class Way> void pass(Way& way, Passed<Way, ForeignRequest> request) {
    passChoice(way, request.kind, 5);
    way.text(request.read.path);
    way.text(request.read.password);
    way.text(request.read.layer);
    way.text(request.read.crs);
    passChoice(way, request.read.forceCrs, 2);
    way.text(request.read.encoding);
    way.text(request.read.where);
    way.raw(request.read.featureLimit);
    way.raw(request.read.cornerLimit);
    way.raw(request.limits.time);
    way.raw(request.limits.memoryBytes);
}

/// Wording within words, as deep as our own ever are: no answer may nest them without end.
constexpr int kDeepestWords = 16;

template <class Way> void pass(Way& way, Passed<Way, Wording> words, int depth = 0) {
    if (depth > kDeepestWords)
        refuse();
    bool isPhrase = words.isPhrase();
    std::string text = words.text();
    std::vector<Wording> things = words.things();
    passChoice(way, isPhrase, 2);
    way.text(text);
    way.list(things, [&](auto& thing) { pass<Way>(way, thing, depth + 1); });
    if constexpr (Way::kReads)
        words = isPhrase ? Wording{std::move(text), std::move(things)} : Wording{std::move(text)};
}

template <class Way> void pass(Way& way, Passed<Way, LayerDescription> layer) {
    way.text(layer.name);
    way.text(layer.geometry);
    passOptional(way, layer.features);
    way.text(layer.crs);
    way.list(layer.fields, [&](auto& field) { way.text(field); });
    pass<Way>(way, layer.remark);
}

template <class Way> void pass(Way& way, Passed<Way, VectorDescription> description) {
    way.text(description.path);
    way.text(description.format);
    way.list(description.layers, [&](auto& layer) { pass<Way>(way, layer); });
}

template <class Way> void pass(Way& way, Passed<Way, model::Ring> ring) {
    way.places(ring.corners);
    passChoice(way, ring.closureAssumed, 2);
}

template <class Way> void pass(Way& way, Passed<Way, FeatureGeometry> part) {
    std::uint8_t kind = static_cast<std::uint8_t>(part.index());
    way.raw(kind);
    if constexpr (Way::kReads) {
        if (kind == 0)
            part = model::Position{};
        else if (kind == 1)
            part = model::LineString{};
        else if (kind == 2)
            part = model::Polygon{};
        else
            refuse();
    }
    if (auto* place = std::get_if<model::Position>(&part)) {
        way.raw(place->lon);
        way.raw(place->lat);
    } else if (auto* line = std::get_if<model::LineString>(&part)) {
        way.places(*line);
    } else if (auto* polygon = std::get_if<model::Polygon>(&part)) {
        pass<Way>(way, polygon->shell);
        way.list(polygon->holes, [&](auto& hole) { pass<Way>(way, hole); });
    }
}

template <class Way> void pass(Way& way, Passed<Way, Feature> feature) {
    way.text(feature.id);
    way.list(feature.attributes, [&](auto& text) { way.text(text); });
    way.list(feature.parts, [&](auto& part) { pass<Way>(way, part); });
    passOptional(way, feature.lowestZ);
    passOptional(way, feature.highestZ);
}

template <class Way> void pass(Way& way, Passed<Way, VectorContent> content) {
    way.text(content.path);
    way.text(content.layer);
    way.text(content.format);
    way.text(content.crs);
    way.list(content.fields, [&](auto& field) { way.text(field); });
    way.list(content.features, [&](auto& feature) { pass<Way>(way, feature); });
    way.raw(content.featuresInFile);
    way.raw(content.featuresLeftOut);
    way.list(content.notes, [&](auto& note) {
        passChoice(way, note.kind, 3);
        pass<Way>(way, note.place);
        pass<Way>(way, note.words);
    });
    way.raw(content.extent);
}

template <class T> std::string encoded(const T& value) {
    Writer writer;
    pass<Writer>(writer, value);
    return std::move(writer.bytes);
}

template <class T> T decoded(std::string_view bytes) {
    Reader reader{bytes};
    T value;
    pass<Reader>(reader, value);
    reader.end();
    return value;
}

bool sound(const std::vector<model::Position>& corners) {
    return std::all_of(corners.begin(), corners.end(), [](const model::Position& corner) {
        return std::isfinite(corner.lon) && std::isfinite(corner.lat);
    });
}

bool sound(const FeatureGeometry& part) {
    if (const auto* place = std::get_if<model::Position>(&part))
        return std::isfinite(place->lon) && std::isfinite(place->lat);
    if (const auto* line = std::get_if<model::LineString>(&part))
        return sound(*line);
    const auto& polygon = std::get<model::Polygon>(part);
    return sound(polygon.shell.corners) && std::all_of(polygon.holes.begin(), polygon.holes.end(),
                                                       [](const model::Ring& hole) { return sound(hole.corners); });
}

} // namespace

std::string encode(const ForeignRequest& request) { return encoded(request); }
std::string encode(const VectorDescription& description) { return encoded(description); }
std::string encode(const VectorContent& content) { return encoded(content); }
std::string encode(const Fault& fault) {
    Writer writer;
    for (const Wording* words : {&fault.words().problem, &fault.words().place, &fault.words().remedy})
        pass<Writer>(writer, *words);
    return std::move(writer.bytes);
}

ForeignRequest decodeRequest(std::string_view bytes) { return decoded<ForeignRequest>(bytes); }

VectorDescription decodeDescription(std::string_view bytes) { return decoded<VectorDescription>(bytes); }

VectorContent decodeContent(std::string_view bytes) {
    auto content = decoded<VectorContent>(bytes);
    for (const Feature& feature : content.features)
        if (feature.attributes.size() != content.fields.size() ||
            !std::all_of(feature.parts.begin(), feature.parts.end(),
                         [](const FeatureGeometry& part) { return sound(part); }))
            refuse();
    return content;
}

Fault decodeFault(std::string_view bytes) {
    Reader reader{bytes};
    FaultWords words;
    for (Wording* one : {&words.problem, &words.place, &words.remedy})
        pass<Reader>(reader, *one);
    reader.end();
    return Fault{std::move(words)};
}

} // namespace fencewright::exchange::detail
