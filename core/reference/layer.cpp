#include "reference/layer.h"

#include "fault.h"
#include "reference/detail/about_text.h"

#include <array>
#include <cmath>
#include <cstring>

namespace fencewright::reference {
namespace {

using namespace detail;

// What no reader gives: longitudes run on across the antimeridian, but not round the globe.
constexpr double kFarthestLongitude = 1e4;
constexpr double kFarthestLatitude = 90.0;

[[noreturn]] void refuse(const std::string& path, const char* problem) {
    throw Fault{problem, path, "Read the layer again."};
}

/// Gives out the sections of a body one after the other, none of which leaves it.
class Sections {
public:
    Sections(const char* begin, std::size_t size, const std::string& path) : m_at{begin}, m_left{size}, m_path{path} {}

    template <class T> const T* next(std::uint64_t count) {
        if (count > m_left / sizeof(T))
            refuse(m_path, "The kept layer is cut off.");
        const auto* section = reinterpret_cast<const T*>(m_at);
        const std::uint64_t bytes = padded(count * sizeof(T));
        if (bytes > m_left)
            refuse(m_path, "The kept layer is cut off.");
        m_at += bytes;
        m_left -= bytes;
        return section;
    }
    [[nodiscard]] bool atEnd() const { return m_left == 0; }

private:
    const char* m_at;
    std::size_t m_left;
    const std::string& m_path;
};

/// `count` steps from zero to `last`, none of them back.
bool climbs(const std::uint32_t* ends, std::uint64_t count, std::uint64_t last) {
    bool well = ends[0] == 0 && ends[count] == last;
    for (std::uint64_t i = 0; i < count; ++i)
        well &= ends[i] <= ends[i + 1];
    return well;
}

bool isHole(LineKind kind) { return kind == LineKind::Hole || kind == LineKind::HoleClosed; }
bool isRing(LineKind kind) { return kind != LineKind::Point && kind != LineKind::Line; }
bool isAssumed(LineKind kind) { return kind == LineKind::ShellClosed || kind == LineKind::HoleClosed; }

/// Appends the letters as small ones.
void appendFolded(std::string& to, std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if (byte < 0x80) {
            to += byte >= 'A' && byte <= 'Z' ? static_cast<char>(byte + 32) : text[i];
            continue;
        }
        const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
        if ((byte & 0xE0U) != 0xC0U || (next & 0xC0U) != 0x80U) {
            to += text[i];
            continue;
        }
        unsigned letter = (byte & 0x1FU) << 6 | (next & 0x3FU);
        // The blocks Latin-1 Supplement, Greek and Cyrillic of the Unicode Standard, chart by chart.
        if ((letter >= 0xC0 && letter <= 0xDE && letter != 0xD7) || (letter >= 0x391 && letter <= 0x3AB) ||
            (letter >= 0x410 && letter <= 0x42F))
            letter += 32;
        else if (letter >= 0x400 && letter <= 0x40F)
            letter += 80;
        else if (letter == 0x3C2) // the sigma at the end of a word
            letter = 0x3C3;
        to += static_cast<char>(0xC0U | letter >> 6);
        to += static_cast<char>(0x80U | (letter & 0x3FU));
        ++i;
    }
}

} // namespace

Layer::Layer(const std::string& path, std::string_view key) : m_file{path} {
    check(path, key);
    m_file.release();
}

void Layer::check(const std::string& path, std::string_view key) {
    FileHead file;
    if (m_file.size() < sizeof file)
        refuse(path, "The kept layer is cut off.");
    std::memcpy(&file, m_file.data(), sizeof file);
    if (file.magic != kMagic || file.orderMark != kOrderMark || file.version != kVersion)
        refuse(path, "This is no layer that this version keeps.");
    if (file.headChecksum != checksumOf(file))
        refuse(path, "The kept layer is damaged.");
    const std::size_t rest = m_file.size() - sizeof file;
    if (file.keyBytes > rest || padded(file.keyBytes) > rest || file.bodyBytes != rest - padded(file.keyBytes))
        refuse(path, "The kept layer is cut off.");
    const char* at = m_file.data() + sizeof file;
    if (std::string_view{at, file.keyBytes} != key)
        refuse(path, "The kept layer was made of another state of its file.");
    Checksum sum;
    sum.add({at, rest});
    if (sum.result() != file.checksum)
        refuse(path, "The kept layer is damaged.");

    // From here on the file is as it was written. But what was written came out of a foreign file.
    Sections sections{at + padded(file.keyBytes), file.bodyBytes, path};
    std::memcpy(&m_head, sections.next<BodyHead>(1), sizeof m_head);
    constexpr std::uint64_t most = 0xFFFFFFFFU;
    if (m_head.features >= most || m_head.lines >= most || m_head.corners > most || m_head.columns == 0 ||
        m_head.hasHeights > 1 || !std::isfinite(m_head.originX) || !std::isfinite(m_head.originY))
        refuse(path, "The kept layer contradicts itself.");
    const auto* columnBytes = sections.next<std::uint64_t>(m_head.columns);
    const char* about = sections.next<char>(m_head.aboutBytes);
    auto read = aboutFromText({about, m_head.aboutBytes});
    if (!read || read->fields.size() + 1 != m_head.columns)
        refuse(path, "The kept layer contradicts itself.");
    m_about = std::move(*read);
    m_levelEnds = levelEnds(m_head.features);
    m_nodes = sections.next<NodeBox>(m_levelEnds.back());
    m_featureLines = sections.next<std::uint32_t>(m_head.features + 1);
    m_lineCorners = sections.next<std::uint32_t>(m_head.lines + 1);
    m_lineKinds = sections.next<LineKind>(m_head.lines);
    m_fileNumbers = sections.next<std::uint32_t>(m_head.features);
    m_corners = sections.next<model::Position>(m_head.corners);
    if (m_head.hasHeights) {
        m_lows = sections.next<double>(m_head.features);
        m_highs = sections.next<double>(m_head.features);
    }
    bool well =
        climbs(m_featureLines, m_head.features, m_head.lines) && climbs(m_lineCorners, m_head.lines, m_head.corners);
    for (std::uint64_t c = 0; c < m_head.columns; ++c) {
        m_columnEnds.push_back(sections.next<std::uint32_t>(m_head.features + 1));
        m_columnTexts.push_back(sections.next<char>(columnBytes[c]));
        well = well && climbs(m_columnEnds.back(), m_head.features, columnBytes[c]);
    }
    well = well && sections.atEnd();
    for (std::uint64_t i = 0; well && i < m_head.lines; ++i) {
        well = static_cast<std::uint8_t>(m_lineKinds[i]) < kLineKinds;
        if (m_lineKinds[i] == LineKind::Point)
            well = m_lineCorners[i + 1] - m_lineCorners[i] == 1;
    }
    for (std::uint64_t i = 0; well && i < m_head.features; ++i) {
        bool shell = false; // a hole needs one before it
        for (std::uint32_t line = m_featureLines[i]; well && line < m_featureLines[i + 1]; ++line) {
            well = shell || !isHole(m_lineKinds[line]);
            shell = isRing(m_lineKinds[line]);
        }
    }
    bool placed = true;
    for (std::uint64_t i = 0; i < m_head.corners; ++i)
        placed &= std::abs(m_corners[i].lon) <= kFarthestLongitude && std::abs(m_corners[i].lat) <= kFarthestLatitude;
    if (!well || !placed)
        refuse(path, "The kept layer contradicts itself.");
}

std::optional<std::size_t> Layer::column(std::string_view field) const {
    const auto at = std::find(m_about.fields.begin(), m_about.fields.end(), field);
    return field.empty() || at == m_about.fields.end() ? std::nullopt
                                                       : std::optional{std::size_t(at - m_about.fields.begin())};
}

std::vector<double> Layer::turnsOf(const geometry::Box& window) const {
    std::vector<double> turns;
    if (m_head.features == 0 || window.empty())
        return turns;
    const geometry::Box all = boxOf(m_nodes[m_levelEnds.back() - 1]);
    if (all.empty())
        return turns;
    const double first = std::ceil((all.minX - window.maxX) / 360.0),
                 last = std::floor((all.maxX - window.minX) / 360.0);
    constexpr double farthest = 3.0;
    for (double turn = std::max(first, -farthest); turn <= std::min(last, farthest); ++turn)
        turns.push_back(turn * 360.0);
    return turns;
}

std::vector<std::size_t> Layer::meeting(const geometry::Box& window) const {
    std::vector<std::size_t> found;
    for (const double turn : turnsOf(window)) {
        const geometry::Box turned{window.minX + turn, window.minY, window.maxX + turn, window.maxY};
        visitMeeting(turned, [&](std::size_t feature, const geometry::Box&) {
            if (box(feature).meets(turned))
                found.push_back(feature);
            return true;
        });
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

std::size_t Layer::cornersOf(std::size_t feature) const {
    return m_lineCorners[m_featureLines[feature + 1]] - m_lineCorners[m_featureLines[feature]];
}

geometry::Box Layer::box(std::size_t feature) const {
    const std::uint32_t first = m_lineCorners[m_featureLines[feature]];
    return geometry::boxOf({m_corners + first, cornersOf(feature)});
}

std::vector<exchange::FeatureGeometry> Layer::parts(std::size_t feature) const {
    std::vector<exchange::FeatureGeometry> parts;
    for (std::uint32_t line = m_featureLines[feature]; line < m_featureLines[feature + 1]; ++line) {
        const model::Position* begin = m_corners + m_lineCorners[line];
        const model::Position* end = m_corners + m_lineCorners[line + 1];
        const LineKind kind = m_lineKinds[line];
        if (kind == LineKind::Point)
            parts.emplace_back(*begin);
        else if (kind == LineKind::Line)
            parts.emplace_back(model::LineString{begin, end});
        else if (isHole(kind))
            std::get<model::Polygon>(parts.back()).holes.push_back({{begin, end}, isAssumed(kind)});
        else
            parts.emplace_back(model::Polygon{{{begin, end}, isAssumed(kind)}, {}});
    }
    return parts;
}

model::MultiPolygon Layer::surface(std::size_t feature) const {
    model::MultiPolygon surface;
    for (exchange::FeatureGeometry& part : parts(feature))
        if (auto* polygon = std::get_if<model::Polygon>(&part))
            surface.parts.push_back(std::move(*polygon));
    return surface;
}

bool Layer::encloses(std::size_t feature, const model::Position& place) const {
    // Parts of a multi-part surface do not overlap, and a hole lies inside its shell: the parity of all rings together
    // would do. But files are as they are: each part counts for itself.
    bool enclosed = false, inShell = false, inHole = false;
    visitLines(feature, [&](const Line& line) {
        if (!line.closed)
            return;
        bool around = false;
        for (std::size_t i = 0, j = line.corners.size() - 1; i < line.corners.size(); j = i++) {
            const model::Position &a = line.corners[i], &b = line.corners[j];
            const double lon = a.lon + std::remainder(place.lon - a.lon, 360.0);
            if ((a.lat > place.lat) != (b.lat > place.lat) &&
                lon < (b.lon - a.lon) * (place.lat - a.lat) / (b.lat - a.lat) + a.lon)
                around = !around;
        }
        if (line.hole) {
            inHole = inHole || around;
            return;
        }
        enclosed = enclosed || (inShell && !inHole);
        inShell = around;
        inHole = false;
    });
    return enclosed || (inShell && !inHole);
}

exchange::Feature Layer::feature(std::size_t number) const {
    exchange::Feature feature;
    feature.id = id(number);
    for (std::size_t c = 0; c < m_about.fields.size(); ++c)
        feature.attributes.emplace_back(attribute(number, c));
    feature.parts = parts(number);
    if (m_lows && !std::isnan(m_lows[number]))
        feature.lowestZ = m_lows[number];
    if (m_highs && !std::isnan(m_highs[number]))
        feature.highestZ = m_highs[number];
    return feature;
}

std::string_view Layer::attribute(std::size_t feature, std::size_t column) const { return text(feature, column + 1); }

std::vector<std::size_t> Layer::search(std::size_t column, std::string_view words, std::size_t limit) const {
    std::string wanted;
    appendFolded(wanted, words);
    std::vector<std::size_t> exact, close;
    std::string value;
    for (std::size_t i = 0; i < size() && exact.size() < limit; ++i) {
        const std::string_view own = attribute(i, column);
        if (own.size() < wanted.size())
            continue;
        value.clear();
        appendFolded(value, own);
        if (value == wanted)
            exact.push_back(i);
        else if (close.size() < limit && value.find(wanted) != std::string::npos)
            close.push_back(i);
    }
    exact.insert(exact.end(), close.begin(), close.end());
    return exact;
}

} // namespace fencewright::reference
