#pragma once

#include <cstdint>
#include <memory>

namespace fencewright::raster {

namespace detail {
class SharedBlocks;
}

/// Decoded blocks of rasters, shared by the threads that read them: what one decodes the others take, and two who want
/// the same block wait for one decoding. Bounded; what was not used for longest goes first. Safe on any thread.
class BlockCache {
public:
    explicit BlockCache(std::size_t byteLimit);
    ~BlockCache();
    BlockCache(const BlockCache&) = delete;
    BlockCache& operator=(const BlockCache&) = delete;

    /// What reading cost since it was made, whether or not it went through the cache.
    struct Counts {
        std::uint64_t reads = 0;  ///< calls into the raster library
        std::uint64_t pixels = 0; ///< of the source that had to be decoded for them, in whole blocks
    };
    [[nodiscard]] Counts counts() const;
    [[nodiscard]] std::size_t bytes() const;

    struct Parts; // of raster/detail

private:
    std::unique_ptr<Parts> m_parts;
    friend class detail::SharedBlocks;
};

} // namespace fencewright::raster
