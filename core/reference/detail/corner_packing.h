#pragma once

#include "exchange/feature_batch.h"
#include "reference/detail/packed_corners.h"

#include <condition_variable>
#include <cstdint>
#include <exception>
#include <functional>
#include <mutex>
#include <span>
#include <string>
#include <thread>
#include <vector>

namespace fencewright::reference::detail {

/// Where a feature is in batches.
struct Slot {
    std::uint32_t batch, feature;
};

/// How the corners of each block will be kept, one after the other.
struct PlannedBlocks {
    std::vector<CornerBlock> blocks;
    std::uint64_t bytes = 0; ///< of all
};
/// @param slots  in the order of the layer.
[[nodiscard]] PlannedBlocks plannedBlocks(std::span<const exchange::FeatureBatch> batches, std::span<const Slot> slots);

/// Packs the corners of features, block by block, on a thread of its own: the bytes are said while others are packed.
class CornerPacking {
public:
    /// Refers to all that it is made of.
    CornerPacking(std::span<const exchange::FeatureBatch> batches, std::span<const Slot> slots,
                  const PlannedBlocks& planned);
    ~CornerPacking();
    CornerPacking(const CornerPacking&) = delete;
    CornerPacking& operator=(const CornerPacking&) = delete;

    /// Hands out all bytes, in order and in pieces.
    void sayTo(const std::function<void(std::string_view)>& take);

private:
    struct Piece {
        std::string room;
        std::size_t bytes = 0;
    };
    void work();
    [[nodiscard]] Piece packed(std::size_t first, std::size_t end, std::string room) const;

    std::span<const exchange::FeatureBatch> m_batches;
    std::span<const Slot> m_slots;
    const PlannedBlocks& m_planned;
    std::mutex m_lock;
    std::condition_variable m_changed;
    std::vector<Piece> m_ready, m_used; ///< under m_lock, as is all that follows; the first ready comes first
    std::size_t m_rooms = 0;
    bool m_done = false, m_stopped = false;
    std::exception_ptr m_failure;
    std::thread m_thread;
};

} // namespace fencewright::reference::detail
