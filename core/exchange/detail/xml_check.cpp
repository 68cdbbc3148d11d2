#include "exchange/detail/xml_check.h"

#include "exchange/detail/text_encoding.h"
#include "fault.h"

#include <cctype>
#include <charconv>

namespace fencewright::exchange::detail {

namespace {

constexpr std::size_t kDeepestNesting = 200;

class Walk {
public:
    Walk(std::string_view text, const std::string& path) : m_text{text}, m_path{path} {}

    XmlOutline run() {
        while (true) {
            const std::size_t open = m_text.find('<', m_at);
            if (open == std::string_view::npos)
                return m_outline;
            if (m_inCoordinates)
                checkCoordinates(m_text.substr(m_at, open - m_at), m_at);
            m_at = open;
            if (starts("<!--"))
                skipBeyond("-->");
            else if (starts("<![CDATA["))
                skipBeyond("]]>");
            else if (starts("<?"))
                skipBeyond("?>");
            else if (starts("<!"))
                declaration();
            else
                tag();
        }
    }

private:
    [[nodiscard]] bool starts(std::string_view what) const { return m_text.substr(m_at).starts_with(what); }

    void skipBeyond(std::string_view end) {
        const std::size_t found = m_text.find(end, m_at);
        m_at = found == std::string_view::npos ? m_text.size() : found + end.size();
    }

    [[nodiscard]] std::string place(std::size_t at) const {
        const auto line = 1 + std::count(m_text.begin(), m_text.begin() + static_cast<std::ptrdiff_t>(at), '\n');
        return m_path + ", line " + std::to_string(line);
    }

    // A few declared entities that name one another can stand for gigabytes, and an external one for any file.
    void declaration() {
        std::size_t end = m_at;
        int brackets = 0;
        for (; end < m_text.size(); ++end) {
            if (m_text[end] == '[')
                ++brackets;
            else if (m_text[end] == ']')
                --brackets;
            else if (m_text[end] == '>' && brackets <= 0)
                break;
        }
        if (m_text.substr(m_at, end - m_at).find("<!ENTITY") != std::string_view::npos)
            throw Fault{
                phrase("core", "The document declares entities, which are not read: they can stand for other files or "
                               "for gigabytes."),
                place(m_at),
                phrase("core", "Ask for the file without a DOCTYPE, or save it anew with the program that wrote it.")};
        m_at = std::min(end + 1, m_text.size());
    }

    void tag() {
        const bool closing = starts("</");
        std::size_t at = m_at + (closing ? 2 : 1);
        const std::size_t nameStart = at;
        while (at < m_text.size() && !std::isspace(static_cast<unsigned char>(m_text[at])) && m_text[at] != '>' &&
               m_text[at] != '/')
            ++at;
        std::string_view name = m_text.substr(nameStart, at - nameStart);
        char quote = 0;
        for (; at < m_text.size() && (quote || m_text[at] != '>'); ++at) {
            if (quote ? m_text[at] == quote : m_text[at] == '"' || m_text[at] == '\'')
                quote = quote ? 0 : m_text[at];
        }
        const bool empty = at < m_text.size() && at > m_at && m_text[at - 1] == '/';
        if (const std::size_t colon = name.find(':'); colon != std::string_view::npos)
            name.remove_prefix(colon + 1);

        m_inCoordinates = false;
        if (closing) {
            m_depth -= m_depth > 0 ? 1 : 0;
        } else {
            if (!empty && ++m_depth > kDeepestNesting)
                throw Fault{phrase("core", "The elements are nested more than %1 deep.")(kDeepestNesting), place(m_at),
                            phrase("core", "No map document needs that: ask for another copy of the file.")};
            count(name);
            m_inCoordinates = !empty && name == "coordinates";
        }
        m_at = std::min(at + 1, m_text.size());
    }

    void count(std::string_view name) {
        if (m_outline.root.empty())
            m_outline.root = name;
        if (name == "Placemark")
            ++m_outline.placemarks;
        else if (name == "Track" || name == "MultiTrack")
            ++m_outline.tracks;
        else if (name == "NetworkLink" || name == "NetworkLinkControl")
            ++m_outline.networkLinks;
        else if (name == "GroundOverlay" || name == "ScreenOverlay" || name == "PhotoOverlay")
            ++m_outline.overlays;
    }

    // The drivers take what is no number for zero, or drop the rest of the line: both would move a fence without a
    // word.
    void checkCoordinates(std::string_view text, std::size_t start) const {
        constexpr std::string_view kSpace = " \t\r\n";
        std::size_t at = text.find_first_not_of(kSpace);
        while (at != std::string_view::npos) {
            const std::size_t end = std::min(text.find_first_of(kSpace, at), text.size());
            if (!isTuple(text.substr(at, end - at)))
                throw Fault{phrase("core", "The coordinates \"%1\" are not a longitude and a latitude.")(
                                std::string{text.substr(at, std::min<std::size_t>(end - at, 40))}),
                            place(start + at), phrase("core", "Mend that line, or ask for another copy of the file.")};
            at = text.find_first_not_of(kSpace, end);
        }
    }

    static bool isTuple(std::string_view tuple) {
        std::size_t numbers = 0;
        while (!tuple.empty()) {
            const std::size_t comma = std::min(tuple.find(','), tuple.size());
            std::string_view part = tuple.substr(0, comma);
            tuple.remove_prefix(std::min(comma + 1, tuple.size()));
            if (part.starts_with('+'))
                part.remove_prefix(1);
            double value = 0.0;
            const auto [rest, error] = std::from_chars(part.data(), part.data() + part.size(), value);
            if (part.empty() || rest != part.data() + part.size() || error == std::errc::invalid_argument)
                return false;
            ++numbers;
        }
        return numbers >= 2;
    }

    std::string_view m_text;
    const std::string& m_path;
    XmlOutline m_outline;
    std::size_t m_at = 0;
    std::size_t m_depth = 0;
    bool m_inCoordinates = false;
};

std::string upper(std::string_view text) {
    std::string result{text};
    for (char& c : result)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return result;
}

} // namespace

XmlOutline outlineOf(std::string_view text, const std::string& path) { return Walk{text, path}.run(); }

std::string asReadableXml(std::string text, const std::string& encoding, const std::string& path) {
    using namespace std::string_view_literals;
    const bool utf16 = text.starts_with("\xff\xfe"sv) || text.starts_with("\xfe\xff"sv);
    const std::size_t end = text.starts_with("<?xml") ? text.find("?>") : std::string::npos;
    std::string declared;
    std::size_t from = 0;
    if (end != std::string::npos) {
        const std::size_t key = text.find("encoding", 0);
        const std::size_t quote = key < end ? text.find_first_of("\"'", key) : std::string::npos;
        if (quote < end) {
            from = quote + 1;
            declared = text.substr(from, text.find(text[quote], from) - from);
        }
    }
    const std::string source = !encoding.empty() ? encoding : utf16 ? "UTF-16" : declared;
    const std::string known = upper(source);
    if (known.empty() || known == "UTF-8" || known == "US-ASCII" || (encoding.empty() && known == "ISO-8859-1"))
        return text;
    requireKnownEncoding(source, path);
    auto converted = recoded(text, source);
    if (!converted)
        throw Fault{phrase("core", "The text is not in the encoding %1.")(source), path,
                    phrase("core", "Name the encoding it is in.")};
    // The declaration has the same characters in UTF-8 for every encoding but UTF-16, where it is looked for anew.
    const std::size_t key = converted->starts_with("<?xml") ? converted->find("encoding") : std::string::npos;
    const std::size_t quote = key < converted->find("?>") ? converted->find_first_of("\"'", key) : std::string::npos;
    if (quote != std::string::npos) {
        const std::size_t close = converted->find((*converted)[quote], quote + 1);
        if (close != std::string::npos)
            converted->replace(quote + 1, close - quote - 1, "UTF-8");
    }
    return std::move(*converted);
}

} // namespace fencewright::exchange::detail
