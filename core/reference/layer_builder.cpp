#include "reference/layer_builder.h"

#include "geometry/hilbert_curve.h"
#include "reference/detail/about_text.h"
#include "reference/detail/layer_form.h"

#include <cmath>
#include <limits>

namespace fencewright::reference {
namespace {

using namespace detail;

constexpr std::size_t kMost = std::numeric_limits<std::uint32_t>::max();

[[noreturn]] void tooMuch(const char* what) {
    throw Fault{std::string{"The layer has more "} + what + " than can be kept.", "",
                "Read a part of the file by a filter."};
}

std::uint32_t cell(double value, double from, double to) {
    if (!(to > from))
        return 0;
    return static_cast<std::uint32_t>(std::clamp((value - from) / (to - from), 0.0, 1.0) * 65535.0);
}

float below(double value) {
    const auto nearest = static_cast<float>(value);
    return static_cast<double>(nearest) > value ? std::nextafter(nearest, -std::numeric_limits<float>::infinity())
                                                : nearest;
}
float above(double value) { return -below(-value); }

/// Gathers bytes into larger pieces, and fills up sections.
class Output {
public:
    explicit Output(const exchange::ByteSink& to) : m_to{to} { m_piece.reserve(kPiece + 4096); }

    void bytes(std::string_view some) {
        m_written += some.size();
        if (some.size() >= kPiece) {
            flush();
            m_to(some);
            return;
        }
        m_piece += some;
        if (m_piece.size() >= kPiece)
            flush();
    }
    template <class T> void value(const T& one) { bytes({reinterpret_cast<const char*>(&one), sizeof one}); }
    template <class T> void values(const T* first, std::size_t count) {
        bytes({reinterpret_cast<const char*>(first), count * sizeof(T)});
    }
    void endSection() {
        constexpr std::array<char, 8> none{};
        bytes({none.data(), padded(m_written) - m_written});
    }
    void flush() {
        if (!m_piece.empty())
            m_to(m_piece);
        m_piece.clear();
    }

private:
    static constexpr std::size_t kPiece = std::size_t{1} << 18;
    const exchange::ByteSink& m_to;
    std::string m_piece;
    std::uint64_t m_written = 0;
};

std::vector<NodeBox> nodesOf(const std::vector<geometry::Box>& boxes, const std::vector<std::uint32_t>& order,
                             const BodyHead& head) {
    constexpr float none = std::numeric_limits<float>::infinity();
    const std::vector<std::size_t> ends = levelEnds(boxes.size());
    std::vector<NodeBox> nodes;
    nodes.reserve(ends.back());
    for (const std::uint32_t i : order) {
        const geometry::Box& box = boxes[i];
        nodes.push_back(box.empty() ? NodeBox{none, none, -none, -none}
                                    : NodeBox{below(box.minX - head.originX), below(box.minY - head.originY),
                                              above(box.maxX - head.originX), above(box.maxY - head.originY)});
    }
    std::size_t begin = 0;
    for (std::size_t level = 0; level + 1 < ends.size(); ++level) {
        for (std::size_t first = begin; first < ends[level]; first += kNodeSize) {
            NodeBox parent{none, none, -none, -none};
            for (std::size_t i = first; i < std::min(first + kNodeSize, ends[level]); ++i)
                parent = {std::min(parent.minX, nodes[i].minX), std::min(parent.minY, nodes[i].minY),
                          std::max(parent.maxX, nodes[i].maxX), std::max(parent.maxY, nodes[i].maxY)};
            nodes.push_back(parent);
        }
        begin = ends[level];
    }
    return nodes;
}

} // namespace

void LayerBuilder::addLine(std::uint8_t kind, const std::vector<model::Position>& corners) {
    for (const model::Position& corner : corners) {
        if (!std::isfinite(corner.lon) || !std::isfinite(corner.lat))
            throw Fault{"A coordinate is not a finite number.", "", "Repair the file."};
        m_boxes.back().add(corner.lon, corner.lat);
    }
    m_corners.insert(m_corners.end(), corners.begin(), corners.end());
    if (m_corners.size() > kMost)
        tooMuch("corners");
    m_lineCorners.push_back(static_cast<std::uint32_t>(m_corners.size()));
    m_lineKinds.push_back(kind);
}

void LayerBuilder::addText(std::size_t column, const std::string& text) {
    Column& into = m_columns[column];
    into.ends.resize(m_boxes.size() - 1, into.ends.empty() ? 0 : into.ends.back());
    into.text += text;
    if (into.text.size() > kMost)
        tooMuch("text in one column");
    into.ends.push_back(static_cast<std::uint32_t>(into.text.size()));
}

void LayerBuilder::add(const exchange::Feature& feature) {
    m_boxes.emplace_back();
    if (m_boxes.size() >= kMost)
        tooMuch("features");
    for (const exchange::FeatureGeometry& part : feature.parts) {
        if (const auto* place = std::get_if<model::Position>(&part)) {
            addLine(static_cast<std::uint8_t>(LineKind::Point), {*place});
        } else if (const auto* line = std::get_if<model::LineString>(&part)) {
            addLine(static_cast<std::uint8_t>(LineKind::Line), *line);
        } else {
            const auto& polygon = std::get<model::Polygon>(part);
            addLine(static_cast<std::uint8_t>(polygon.shell.closureAssumed ? LineKind::ShellClosed : LineKind::Shell),
                    polygon.shell.corners);
            for (const model::Ring& hole : polygon.holes)
                addLine(static_cast<std::uint8_t>(hole.closureAssumed ? LineKind::HoleClosed : LineKind::Hole),
                        hole.corners);
        }
    }
    if (m_lineKinds.size() >= kMost)
        tooMuch("lines");
    m_featureLines.push_back(static_cast<std::uint32_t>(m_lineKinds.size()));
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    if (feature.lowestZ || feature.highestZ || !m_lows.empty()) {
        m_lows.resize(m_boxes.size() - 1, unknown);
        m_highs.resize(m_boxes.size() - 1, unknown);
        m_lows.push_back(feature.lowestZ.value_or(unknown));
        m_highs.push_back(feature.highestZ.value_or(unknown));
    }
    if (m_columns.size() < feature.attributes.size() + 1)
        m_columns.resize(feature.attributes.size() + 1);
    addText(0, feature.id);
    for (std::size_t i = 0; i < feature.attributes.size(); ++i)
        addText(i + 1, feature.attributes[i]);
}

void LayerBuilder::write(const exchange::VectorContent& about, const exchange::ByteSink& to) const {
    const std::size_t count = m_boxes.size();
    geometry::Box all;
    for (const geometry::Box& box : m_boxes)
        if (!box.empty())
            all.add(box);
    std::vector<std::uint64_t> places(count);
    for (std::size_t i = 0; i < count; ++i) {
        const geometry::Box& box = m_boxes[i];
        const std::uint64_t place = box.empty()
                                        ? 0
                                        : geometry::hilbertPlace(cell(box.minX / 2 + box.maxX / 2, all.minX, all.maxX),
                                                                 cell(box.minY / 2 + box.maxY / 2, all.minY, all.maxY));
        places[i] = place << 32 | i;
    }
    std::sort(places.begin(), places.end());
    std::vector<std::uint32_t> order(count);
    for (std::size_t i = 0; i < count; ++i)
        order[i] = static_cast<std::uint32_t>(places[i]);
    places = {};

    const std::string words = aboutText(about);
    BodyHead head;
    head.features = count;
    head.lines = m_lineKinds.size();
    head.corners = m_corners.size();
    head.columns = about.fields.size() + 1;
    head.aboutBytes = words.size();
    head.hasHeights = m_lows.empty() ? 0 : 1;
    if (!all.empty()) {
        head.originX = all.minX / 2 + all.maxX / 2;
        head.originY = all.minY / 2 + all.maxY / 2;
    }

    Output out{to};
    out.value(head);
    for (std::size_t c = 0; c < head.columns; ++c)
        out.value(std::uint64_t{c < m_columns.size() ? m_columns[c].text.size() : 0});
    out.bytes(words);
    out.endSection();
    const std::vector<NodeBox> nodes = nodesOf(m_boxes, order, head);
    out.values(nodes.data(), nodes.size());
    out.endSection();

    std::uint32_t lines = 0;
    out.value(lines);
    for (const std::uint32_t i : order)
        out.value(lines += m_featureLines[i + 1] - m_featureLines[i]);
    out.endSection();
    const auto eachLine = [&](auto&& visit) {
        for (const std::uint32_t i : order)
            for (std::uint32_t line = m_featureLines[i]; line < m_featureLines[i + 1]; ++line)
                visit(line);
    };
    std::uint32_t corners = 0;
    out.value(corners);
    eachLine([&](std::uint32_t line) { out.value(corners += m_lineCorners[line + 1] - m_lineCorners[line]); });
    out.endSection();
    eachLine([&](std::uint32_t line) { out.value(m_lineKinds[line]); });
    out.endSection();
    out.values(order.data(), order.size());
    out.endSection();
    for (const std::uint32_t i : order) {
        const std::uint32_t first = m_lineCorners[m_featureLines[i]];
        out.values(m_corners.data() + first, m_lineCorners[m_featureLines[i + 1]] - first);
    }
    if (head.hasHeights)
        for (const auto* heights : {&m_lows, &m_highs})
            for (const std::uint32_t i : order)
                out.value((*heights)[i]);
    for (std::size_t c = 0; c < head.columns; ++c) {
        const Column* column = c < m_columns.size() ? &m_columns[c] : nullptr;
        const auto endOf = [&](std::size_t i) {
            return column && !column->ends.empty() ? column->ends[std::min(i, column->ends.size() - 1)] : 0;
        };
        const auto beginOf = [&](std::size_t i) { return i == 0 ? 0 : endOf(i - 1); };
        std::uint32_t end = 0;
        out.value(end);
        for (const std::uint32_t i : order)
            out.value(end += endOf(i) - beginOf(i));
        out.endSection();
        if (column)
            for (const std::uint32_t i : order)
                out.bytes(std::string_view{column->text}.substr(beginOf(i), endOf(i) - beginOf(i)));
        out.endSection();
    }
    out.flush();
}

void answerWithLayer(const exchange::ReadRequest& request, const exchange::ByteSink& to, const Progress& progress) {
    LayerBuilder layer;
    const exchange::VectorContent about = exchange::readVectorInto(
        request, [&](exchange::Feature&& feature) { layer.add(feature); }, progress);
    progress.report(1.0, "Keeping " + about.layer);
    layer.write(about, to);
}

} // namespace fencewright::reference
