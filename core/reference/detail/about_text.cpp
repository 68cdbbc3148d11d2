#include "reference/detail/about_text.h"

#include <cstdint>
#include <cstring>

namespace fencewright::reference::detail {
namespace {

class Writer {
public:
    std::string bytes;

    template <class T> void number(T value) { bytes.append(reinterpret_cast<const char*>(&value), sizeof value); }
    void text(const std::string& value) {
        number(std::uint64_t{value.size()});
        bytes += value;
    }
    void words(const Wording& value) {
        number(std::uint64_t{value.isPhrase()});
        text(value.text());
        number(std::uint64_t{value.things().size()});
        for (const Wording& thing : value.things())
            words(thing);
    }
};

class Reader {
public:
    explicit Reader(std::string_view bytes) : m_rest{bytes} {}

    template <class T> bool number(T& value) {
        if (m_rest.size() < sizeof value)
            return false;
        std::memcpy(&value, m_rest.data(), sizeof value);
        m_rest.remove_prefix(sizeof value);
        return true;
    }
    bool text(std::string& value) {
        std::uint64_t length = 0;
        if (!number(length) || length > m_rest.size())
            return false;
        value = m_rest.substr(0, length);
        m_rest.remove_prefix(length);
        return true;
    }
    bool words(Wording& value, int depth = 0) {
        constexpr int deepest = 16;
        std::uint64_t isPhrase = 0, things = 0;
        std::string said;
        if (depth > deepest || !number(isPhrase) || isPhrase > 1 || !text(said) || !count(things))
            return false;
        std::vector<Wording> inside(things);
        for (Wording& thing : inside)
            if (!words(thing, depth + 1))
                return false;
        value = isPhrase ? Wording{std::move(said), std::move(inside)} : Wording{std::move(said)};
        return true;
    }
    /// How many follow, each of at least eight bytes.
    bool count(std::uint64_t& value) { return number(value) && value <= m_rest.size() / 8; }
    bool atEnd() const { return m_rest.empty(); }

private:
    std::string_view m_rest;
};

} // namespace

std::string aboutText(const exchange::VectorContent& content) {
    Writer out;
    for (const auto* words : {&content.path, &content.layer, &content.format, &content.crs})
        out.text(*words);
    out.number(std::uint64_t{content.featuresInFile});
    out.number(std::uint64_t{content.featuresLeftOut});
    for (const double side : {content.extent.minX, content.extent.minY, content.extent.maxX, content.extent.maxY})
        out.number(side);
    out.number(std::uint64_t{content.fields.size()});
    for (const std::string& field : content.fields)
        out.text(field);
    out.number(std::uint64_t{content.notes.size()});
    for (const exchange::ReadNote& note : content.notes) {
        out.number(static_cast<std::uint64_t>(note.kind));
        out.words(note.place);
        out.words(note.words);
    }
    return std::move(out.bytes);
}

std::optional<exchange::VectorContent> aboutFromText(std::string_view bytes) {
    exchange::VectorContent content;
    Reader in{bytes};
    std::uint64_t inFile = 0, leftOut = 0, fields = 0, notes = 0;
    bool well = in.text(content.path) && in.text(content.layer) && in.text(content.format) && in.text(content.crs) &&
                in.number(inFile) && in.number(leftOut) && in.number(content.extent.minX) &&
                in.number(content.extent.minY) && in.number(content.extent.maxX) && in.number(content.extent.maxY) &&
                in.count(fields);
    content.featuresInFile = inFile;
    content.featuresLeftOut = leftOut;
    for (std::uint64_t i = 0; well && i < fields; ++i)
        well = in.text(content.fields.emplace_back());
    well = well && in.count(notes);
    for (std::uint64_t i = 0; well && i < notes; ++i) {
        exchange::ReadNote& note = content.notes.emplace_back();
        std::uint64_t kind = 0;
        well = in.number(kind) && kind <= 2 && in.words(note.place) && in.words(note.words);
        note.kind = static_cast<exchange::ReadNote::Kind>(kind);
    }
    return well && in.atEnd() ? std::optional{std::move(content)} : std::nullopt;
}

} // namespace fencewright::reference::detail
