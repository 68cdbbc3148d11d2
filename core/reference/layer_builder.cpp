#include "reference/layer_builder.h"

#include "fault.h"
#include "geometry/hilbert_order.h"
#include "geometry/two_halves.h"
#include "reference/detail/about_text.h"
#include "reference/detail/corner_packing.h"
#include "reference/detail/layer_form.h"
#include "reference/detail/packed_tree.h"

#include <array>
#include <limits>

namespace fencewright::reference {
namespace {

using namespace detail;
using exchange::AttributeBatch;
using exchange::FeatureBatch;

constexpr std::size_t kMost = std::numeric_limits<std::uint32_t>::max();

void requireRoom(std::size_t count, const char* what) {
    if (count >= kMost)
        throw Fault{phrase("core", "The layer has more %1 than can be kept.")(what), "",
                    phrase("core", "Read a part of the file by a filter.")};
}

/// Gathers bytes into larger pieces, and fills up sections.
class Output {
public:
    explicit Output(const exchange::ByteSink& to) : m_to{to} { m_piece.reserve(kPiece + 4096); }
    ~Output() = default;
    Output(const Output&) = delete;
    Output& operator=(const Output&) = delete;

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
    template <class T> void section(const std::vector<T>& values) {
        bytes({reinterpret_cast<const char*>(values.data()), values.size() * sizeof(T)});
        endSection();
    }
    void section(std::string_view text) {
        bytes(text);
        endSection();
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

} // namespace

void LayerBuilder::add(const exchange::Feature& feature) {
    if (m_batches.empty() || m_batches.back().size() >= FeatureBatch::kMostFeatures) {
        m_batches.emplace_back();
        m_attributes.emplace_back();
    }
    m_batches.back().add(feature);
    AttributeBatch& columns = m_attributes.back();
    columns.resize(feature.attributes.size() + 1);
    columns[0].add(feature.id);
    for (std::size_t i = 0; i < feature.attributes.size(); ++i)
        columns[i + 1].add(feature.attributes[i]);
}

void LayerBuilder::write(const exchange::VectorContent& about, const exchange::ByteSink& to) {
    writeGeometry(std::move(m_batches), about, to);
    writeAttributes(m_attributes, about, to);
}

void LayerBuilder::writeGeometry(std::vector<FeatureBatch> batches, const exchange::VectorContent& about,
                                 const exchange::ByteSink& to) {
    m_batches = std::move(batches);
    std::vector<geometry::Box> boxes;
    std::vector<Slot> slots; // in the order of the file
    GeometryHead head;
    bool heights = false;
    for (const FeatureBatch& batch : m_batches)
        head.features += batch.size();
    boxes.reserve(head.features);
    slots.reserve(head.features);
    for (std::size_t b = 0; b < m_batches.size(); ++b) {
        const FeatureBatch& batch = m_batches[b];
        boxes.insert(boxes.end(), batch.boxes.begin(), batch.boxes.end());
        for (std::size_t i = 0; i < batch.size(); ++i)
            slots.push_back({static_cast<std::uint32_t>(b), static_cast<std::uint32_t>(i)});
        head.lines += batch.lineKinds.size();
        head.corners += batch.corners.size();
        heights = heights || !batch.lows.empty();
    }
    head.hasHeights = heights ? 1 : 0;
    requireRoom(head.features, "features");
    requireRoom(head.lines, "lines");
    requireRoom(head.corners, "corners");
    geometry::Box all;
    for (const geometry::Box& box : boxes)
        if (!box.empty())
            all = {std::min(all.minX, box.minX), std::min(all.minY, box.minY), std::max(all.maxX, box.maxX),
                   std::max(all.maxY, box.maxY)};
    if (!all.empty()) {
        head.originX = all.minX / 2 + all.maxX / 2;
        head.originY = all.minY / 2 + all.maxY / 2;
    }
    const std::vector<std::uint32_t> order = geometry::hilbertOrder(boxes);
    m_slots.resize(order.size());
    geometry::inTwoHalves(order.size(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            m_slots[i] = slots[order[i]];
    });
    const PlannedBlocks planned = plannedBlocks(m_batches, m_slots);
    CornerPacking packing{m_batches, m_slots, planned};
    const std::vector<NodeBox> nodes = nodesOf(boxes, order, head.originX, head.originY);

    std::vector<std::uint32_t> featureLines{0}, lineCorners{0};
    std::vector<exchange::LineKind> kinds;
    featureLines.reserve(head.features + 1);
    lineCorners.reserve(head.lines + 1);
    kinds.reserve(head.lines);
    for (const Slot& slot : m_slots) {
        const FeatureBatch& batch = m_batches[slot.batch];
        for (std::uint32_t line = batch.featureLines[slot.feature]; line < batch.featureLines[slot.feature + 1];
             ++line) {
            lineCorners.push_back(lineCorners.back() + batch.lineCorners[line + 1] - batch.lineCorners[line]);
            kinds.push_back(batch.lineKinds[line]);
        }
        featureLines.push_back(static_cast<std::uint32_t>(kinds.size()));
    }

    const std::string words = aboutText(about);
    head.aboutBytes = words.size();
    head.cornerBytes = planned.bytes + kSpareBytes;
    Output out{to};
    out.value(head);
    out.section(words);
    out.section(nodes);
    out.section(featureLines);
    out.section(lineCorners);
    out.section(kinds);
    out.section(order);
    out.section(planned.blocks);
    packing.sayTo([&out](std::string_view bytes) { out.bytes(bytes); });
    out.section(std::string(kSpareBytes, '\0'));
    if (heights)
        for (const auto heightsOf : {&FeatureBatch::lows, &FeatureBatch::highs})
            for (const Slot& slot : m_slots) {
                const std::vector<double>& known = m_batches[slot.batch].*heightsOf;
                out.value(slot.feature < known.size() ? known[slot.feature] : std::numeric_limits<double>::quiet_NaN());
            }
    out.flush();
    m_batches.clear();
}

void LayerBuilder::writeAttributes(const std::vector<AttributeBatch>& batches, const exchange::VectorContent& about,
                                   const exchange::ByteSink& to) const {
    AttributeHead head;
    head.columns = about.fields.size() + 1;
    const std::string words = aboutText(about);
    head.aboutBytes = words.size();
    std::vector<std::uint64_t> bytes(head.columns, 0);
    for (const AttributeBatch& batch : batches)
        for (std::size_t c = 0; c < std::min(batch.size(), bytes.size()); ++c)
            bytes[c] += batch[c].text.size();
    for (const std::uint64_t count : bytes)
        requireRoom(count, "text in one column");

    Output out{to};
    out.value(head);
    out.section(bytes);
    out.section(words);
    std::vector<std::uint32_t> ends;
    for (std::size_t c = 0; c < head.columns; ++c) {
        const auto textOf = [&](const Slot& slot) {
            const AttributeBatch& batch = batches[slot.batch];
            return c < batch.size() ? batch[c].at(slot.feature) : std::string_view{};
        };
        ends.assign(1, 0);
        ends.reserve(m_slots.size() + 1);
        for (const Slot& slot : m_slots)
            ends.push_back(ends.back() + static_cast<std::uint32_t>(textOf(slot).size()));
        out.section(ends);
        for (const Slot& slot : m_slots)
            out.bytes(textOf(slot));
        out.endSection();
    }
    out.flush();
}

void answerWithLayer(const exchange::ReadRequest& request, const exchange::ByteSink& to, const Progress& progress) {
    LayerBuilder layer;
    const exchange::BatchedAttributes attributes = exchange::readVectorInBatches(
        request,
        [&](std::vector<FeatureBatch>&& batches, const exchange::VectorContent& about) {
            progress.report(1.0, phrase("core", "Keeping the layer"));
            layer.writeGeometry(std::move(batches), about, to);
        },
        progress);
    layer.writeAttributes(attributes.batches, attributes.about, to);
}

} // namespace fencewright::reference
