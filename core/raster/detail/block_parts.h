#pragma once

#include "raster/block_cache.h"
#include "raster/dataset.h"
#include "raster/detail/word_pool.h"

#include <compare>
#include <condition_variable>
#include <functional>
#include <list>
#include <map>
#include <mutex>

namespace fencewright::raster {

struct BlockCache::Parts {
    struct Key {
        std::uint64_t source = 0;
        std::size_t level = 0;
        int column = 0, row = 0;
        auto operator<=>(const Key&) const = default;
    };

    explicit Parts(std::size_t limit) : byteLimit{limit} {}

    /// The same number for the same raster in the same state, shown the same way.
    [[nodiscard]] std::uint64_t numberOf(const std::string& source);
    /// The block, decoded by this thread only where no other has or is about to.
    /// @throws  what decoding throws; waiting for another thread, what that one threw, unless it was cancelled: then
    /// this one decodes. Cancelled when this thread's progress says so.
    [[nodiscard]] PaintedPixels take(const Key& key, const std::function<PaintedPixels()>& decode,
                                     const Progress& progress);
    void count(std::uint64_t reads, std::uint64_t pixels);

    const std::shared_ptr<detail::WordPool> pool = std::make_shared<detail::WordPool>();
    mutable std::mutex mutex; ///< guards all that follows
    const std::size_t byteLimit;
    std::size_t bytes = 0;
    Counts counts;

private:
    struct Kept {
        PaintedPixels pixels;
        std::list<Key>::iterator use;
    };
    /// One thread decodes, others wait for it.
    struct Decoding {
        enum class State { UnderWay, Done, Cancelled, Failed };
        State state = State::UnderWay;
        PaintedPixels pixels;
        std::exception_ptr fault;
    };

    void keep(const Key& key, const PaintedPixels& pixels);

    std::map<std::string, std::uint64_t> m_sources;
    std::map<Key, Kept> m_kept;
    std::list<Key> m_byUse; ///< the latest first
    std::map<Key, std::shared_ptr<Decoding>> m_underWay;
    std::condition_variable m_ended;
};

} // namespace fencewright::raster
