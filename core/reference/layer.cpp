#include "reference/layer.h"

#include "fault.h"
#include "reference/detail/about_text.h"

#include <array>
#include <cmath>
#include <cstring>

namespace fencewright::reference {
namespace {

using namespace detail;
using exchange::LineKind;

// What no reader gives: longitudes run on across the antimeridian, but not round the globe.
constexpr double kFarthestLongitude = 1e4;
constexpr double kFarthestLatitude = 90.0;

constexpr Phrase kCutOff = phrase("core", "The kept layer is cut off.");
constexpr Phrase kContradiction = phrase("core", "The kept layer contradicts itself.");

[[noreturn]] void refuse(const std::string& path, const Wording& problem) {
    throw Fault{problem, path, phrase("core", "Read the layer again.")};
}

bool isPlaced(const model::Position& place) {
    return std::abs(place.lon) <= kFarthestLongitude && std::abs(place.lat) <= kFarthestLatitude;
}

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

/// Gives out sections one after the other, none of which leaves the file.
class Layer::Sections {
public:
    Sections(std::string_view bytes, const std::string& path) : m_rest{bytes}, m_path{path} {}

    template <class T> const T* next(std::uint64_t count) {
        const std::uint64_t bytes = padded(count * sizeof(T));
        if (count > m_rest.size() / sizeof(T) || bytes > m_rest.size())
            refuse(m_path, kCutOff);
        const auto* section = reinterpret_cast<const T*>(m_rest.data());
        m_rest.remove_prefix(bytes);
        return section;
    }
    [[nodiscard]] bool atEnd() const { return m_rest.empty(); }
    [[noreturn]] void refuseAll() const { refuse(m_path, kContradiction); }

private:
    std::string_view m_rest;
    const std::string& m_path;
};

Layer::Layer(const std::string& path, std::string_view key) : m_file{path} {
    FileHead file;
    if (m_file.size() < sizeof file)
        refuse(path, kCutOff);
    std::memcpy(&file, m_file.data(), sizeof file);
    if (file.magic != kMagic || file.orderMark != kOrderMark || file.version != kVersion)
        refuse(path, phrase("core", "This is no layer that this version keeps."));
    if (file.headChecksum != checksumOf(file))
        refuse(path, phrase("core", "The kept layer is damaged."));
    const std::string_view rest{m_file.data() + sizeof file, m_file.size() - sizeof file};
    if (file.keyBytes > rest.size() || padded(file.keyBytes) > rest.size() ||
        file.bodyBytes != rest.size() - padded(file.keyBytes))
        refuse(path, kCutOff);
    if (rest.substr(0, file.keyBytes) != key)
        refuse(path, phrase("core", "The kept layer was made of another state of its file."));
    Checksum sum;
    sum.add(rest);
    if (sum.result() != file.checksum)
        refuse(path, phrase("core", "The kept layer is damaged."));

    // From here on the file is as it was written. But what was written came out of a foreign file.
    Sections sections{rest.substr(padded(file.keyBytes)), path};
    takeGeometry(sections);
    takeAttributes(sections);
    m_file.release();
}

Layer::Layer(const std::string& path, GeometryAt begin) : m_file{path} {
    if (begin.byte > m_file.size())
        refuse(path, kCutOff);
    Sections sections{{m_file.data() + begin.byte, m_file.size() - begin.byte}, path};
    takeGeometry(sections);
    m_about.fields.clear();
    m_file.release();
}

void Layer::takeGeometry(Sections& sections) {
    std::memcpy(&m_head, sections.next<GeometryHead>(1), sizeof m_head);
    constexpr std::uint64_t most = 0xFFFFFFFFU;
    if (m_head.features >= most || m_head.lines >= most || m_head.corners > most || m_head.hasHeights > 1 ||
        m_head.cornerBytes < kSpareBytes || !std::isfinite(m_head.originX) || !std::isfinite(m_head.originY))
        sections.refuseAll();
    const char* about = sections.next<char>(m_head.aboutBytes);
    auto read = aboutFromText({about, m_head.aboutBytes});
    if (!read)
        sections.refuseAll();
    m_about = std::move(*read);
    m_levelEnds = levelEnds(m_head.features);
    m_nodes = sections.next<NodeBox>(m_levelEnds.back());
    m_featureLines = sections.next<std::uint32_t>(m_head.features + 1);
    m_lineCorners = sections.next<std::uint32_t>(m_head.lines + 1);
    m_lineKinds = sections.next<LineKind>(m_head.lines);
    m_fileNumbers = sections.next<std::uint32_t>(m_head.features);
    m_blocks = sections.next<CornerBlock>((m_head.features + kBlockFeatures - 1) / kBlockFeatures);
    m_packed = sections.next<char>(m_head.cornerBytes);
    if (m_head.hasHeights) {
        m_lows = sections.next<double>(m_head.features);
        m_highs = sections.next<double>(m_head.features);
    }
    bool well =
        climbs(m_featureLines, m_head.features, m_head.lines) && climbs(m_lineCorners, m_head.lines, m_head.corners);
    for (std::uint64_t i = 0; well && i < m_head.lines; ++i) {
        well = static_cast<std::uint8_t>(m_lineKinds[i]) < exchange::kLineKinds;
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
    if (!well || !cornersAreSound())
        sections.refuseAll();
}

bool Layer::cornersAreSound() const {
    std::uint64_t expected = 0;
    for (std::uint64_t first = 0; first < m_head.features; first += kBlockFeatures) {
        const CornerBlock& block = m_blocks[first / kBlockFeatures];
        const std::uint64_t end = std::min(first + kBlockFeatures, m_head.features);
        const std::uint64_t count = m_lineCorners[m_featureLines[end]] - m_lineCorners[m_featureLines[first]];
        if (block.begin() != expected || (!block.isRaw() && (block.lonBits() > kMostBits)) ||
            block.latBits() > (block.isRaw() ? 64 : kMostBits) || (block.isRaw() && block.latBits() != 64))
            return false;
        expected += block.bytes(count);
        if (expected > m_head.cornerBytes - kSpareBytes)
            return false;
        // Whole numbers are in the order of the doubles: where the lowest and the highest that the bits can say are
        // places, all are.
        const std::uint64_t highLon = block.lon + maskOf(block.lonBits()),
                            highLat = block.lat + maskOf(block.latBits());
        if (count == 0 ||
            (!block.isRaw() && highLon >= block.lon && highLat >= block.lat &&
             isPlaced({asNumber(block.lon), asNumber(block.lat)}) && isPlaced({asNumber(highLon), asNumber(highLat)})))
            continue;
        std::array<model::Position, 256> some;
        for (std::uint64_t done = 0; done < count; done += some.size()) {
            const std::span<model::Position> part =
                std::span{some}.first(static_cast<std::size_t>(std::min<std::uint64_t>(some.size(), count - done)));
            unpack(block, m_packed, done, part);
            if (!std::all_of(part.begin(), part.end(), isPlaced))
                return false;
        }
    }
    return expected + kSpareBytes == m_head.cornerBytes;
}

void Layer::takeAttributes(Sections& sections) {
    AttributeHead head;
    std::memcpy(&head, sections.next<AttributeHead>(1), sizeof head);
    if (head.columns == 0)
        sections.refuseAll();
    const auto* columnBytes = sections.next<std::uint64_t>(head.columns);
    const char* about = sections.next<char>(head.aboutBytes);
    auto read = aboutFromText({about, head.aboutBytes});
    if (!read || read->fields.size() + 1 != head.columns)
        sections.refuseAll();
    m_about = std::move(*read);
    for (std::uint64_t c = 0; c < head.columns; ++c) {
        m_columnEnds.push_back(sections.next<std::uint32_t>(m_head.features + 1));
        m_columnTexts.push_back(sections.next<char>(columnBytes[c]));
        if (!climbs(m_columnEnds.back(), m_head.features, columnBytes[c]))
            sections.refuseAll();
    }
    if (!sections.atEnd())
        sections.refuseAll();
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

std::span<const model::Position> Layer::corners(std::size_t feature, std::span<model::Position> few,
                                                std::vector<model::Position>& many) const {
    const std::size_t block = feature / kBlockFeatures;
    const std::size_t count = cornersOf(feature);
    if (count > few.size() && count > many.size())
        many.resize(count);
    const std::span<model::Position> into = count > few.size() ? std::span{many}.first(count) : few.first(count);
    unpack(m_blocks[block], m_packed,
           m_lineCorners[m_featureLines[feature]] - m_lineCorners[m_featureLines[block * kBlockFeatures]], into);
    return into;
}

geometry::Box Layer::box(std::size_t feature) const {
    std::array<model::Position, 32> few;
    std::vector<model::Position> many;
    return geometry::boxOf(corners(feature, few, many));
}

std::vector<exchange::FeatureGeometry> Layer::parts(std::size_t feature) const {
    std::vector<exchange::FeatureGeometry> parts;
    std::uint32_t number = m_featureLines[feature];
    visitLines(feature, [&](const Line& line) {
        const LineKind kind = m_lineKinds[number++];
        const std::vector<model::Position> places{line.corners.begin(), line.corners.end()};
        if (kind == LineKind::Point)
            parts.emplace_back(places.front());
        else if (kind == LineKind::Line)
            parts.emplace_back(places);
        else if (isHole(kind))
            std::get<model::Polygon>(parts.back()).holes.push_back({places, isAssumed(kind)});
        else
            parts.emplace_back(model::Polygon{{places, isAssumed(kind)}, {}});
    });
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
