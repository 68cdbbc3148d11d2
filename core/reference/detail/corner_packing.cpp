#include "reference/detail/corner_packing.h"

#include "geometry/two_halves.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace fencewright::reference::detail {
namespace {

constexpr std::size_t kBlocksAtOnce = 512; // of parcels, two thirds of a megabyte
constexpr std::size_t kMostRooms = 24;     // packed and not yet said

std::size_t cornersOf(const exchange::FeatureBatch& batch, std::uint32_t feature) {
    return batch.lineCorners[batch.featureLines[feature + 1]] - batch.lineCorners[batch.featureLines[feature]];
}

} // namespace

PlannedBlocks plannedBlocks(std::span<const exchange::FeatureBatch> batches, std::span<const Slot> slots) {
    PlannedBlocks all;
    all.blocks.resize((slots.size() + kBlockFeatures - 1) / kBlockFeatures);
    std::vector<std::uint64_t> bytes(all.blocks.size());
    geometry::inTwoHalves(bytes.size(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t block = begin; block < end; ++block) {
            geometry::Box box;
            std::uint64_t corners = 0;
            const std::size_t first = block * kBlockFeatures;
            for (const Slot& slot : slots.subspan(first, std::min(kBlockFeatures, slots.size() - first))) {
                const exchange::FeatureBatch& batch = batches[slot.batch];
                const geometry::Box& own = batch.boxes[slot.feature];
                box = {std::min(box.minX, own.minX), std::min(box.minY, own.minY), std::max(box.maxX, own.maxX),
                       std::max(box.maxY, own.maxY)};
                corners += cornersOf(batch, slot.feature);
            }
            all.blocks[block] = blockOf(box, corners);
            bytes[block] = all.blocks[block].bytes(corners);
        }
    });
    for (std::size_t block = 0; block < bytes.size(); ++block) {
        all.blocks[block].beginAt(all.bytes);
        all.bytes += bytes[block];
    }
    return all;
}

CornerPacking::CornerPacking(std::span<const exchange::FeatureBatch> batches, std::span<const Slot> slots,
                             const PlannedBlocks& planned)
    : m_batches{batches}, m_slots{slots}, m_planned{planned}, m_thread{[this] { work(); }} {}

CornerPacking::~CornerPacking() {
    {
        const std::lock_guard lock{m_lock};
        m_stopped = true;
        m_changed.notify_all();
    }
    m_thread.join();
}

CornerPacking::Piece CornerPacking::packed(std::size_t first, std::size_t end, std::string room) const {
    const std::vector<CornerBlock>& blocks = m_planned.blocks;
    const std::uint64_t from = blocks[first].begin(), to = end < blocks.size() ? blocks[end].begin() : m_planned.bytes;
    Piece piece{std::move(room), static_cast<std::size_t>(to - from)};
    if (piece.room.size() < piece.bytes + kSpareBytes)
        piece.room.resize(piece.bytes + piece.bytes / 8 + kSpareBytes); // the next may need a little more
    std::vector<model::Position> corners;
    for (std::size_t block = first; block < end; ++block) {
        corners.clear();
        const std::size_t begin = block * kBlockFeatures;
        for (const Slot& slot : m_slots.subspan(begin, std::min(kBlockFeatures, m_slots.size() - begin))) {
            const auto own = m_batches[slot.batch].cornersOf(slot.feature);
            corners.insert(corners.end(), own.begin(), own.end());
        }
        pack(blocks[block], corners, piece.room.data() + (blocks[block].begin() - from));
    }
    return piece;
}

void CornerPacking::work() {
    try {
        for (std::size_t first = 0; first < m_planned.blocks.size(); first += kBlocksAtOnce) {
            std::string room;
            {
                std::unique_lock lock{m_lock};
                m_changed.wait(lock, [this] { return m_stopped || !m_used.empty() || m_rooms < kMostRooms; });
                if (m_stopped)
                    return;
                if (m_used.empty()) {
                    ++m_rooms;
                } else {
                    room = std::move(m_used.back().room);
                    m_used.pop_back();
                }
            }
            Piece piece = packed(first, std::min(first + kBlocksAtOnce, m_planned.blocks.size()), std::move(room));
            const std::lock_guard lock{m_lock};
            m_ready.push_back(std::move(piece));
            m_changed.notify_all();
        }
    } catch (...) {
        const std::lock_guard lock{m_lock};
        m_failure = std::current_exception();
    }
    const std::lock_guard lock{m_lock};
    m_done = true;
    m_changed.notify_all();
}

void CornerPacking::sayTo(const std::function<void(std::string_view)>& take) {
    std::vector<Piece> ready;
    while (true) {
        {
            std::unique_lock lock{m_lock};
            std::move(ready.begin(), ready.end(), std::back_inserter(m_used));
            ready.clear();
            m_changed.notify_all();
            m_changed.wait(lock, [this] { return m_done || !m_ready.empty(); });
            if (m_failure)
                std::rethrow_exception(m_failure);
            if (m_ready.empty())
                return;
            ready.swap(m_ready);
        }
        for (const Piece& piece : ready)
            take({piece.room.data(), piece.bytes});
    }
}

} // namespace fencewright::reference::detail
