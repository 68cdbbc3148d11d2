#include "raster/detail/word_pool.h"

#include <sys/mman.h>

#include <bit>
#include <cstdlib>
#include <new>

namespace fencewright::raster::detail {

namespace {

constexpr std::size_t kSlab = std::size_t{2} << 20; // a large page of the processors we build for
constexpr std::size_t kSmallest = std::size_t{16} << 10;

void* slabOf(std::size_t bytes) {
    void* slab = std::aligned_alloc(kSlab, bytes);
    if (!slab)
        throw std::bad_alloc{};
    (void)::madvise(slab, bytes, MADV_HUGEPAGE); // where there are none, small ones do
    return slab;
}

} // namespace

std::size_t WordPool::bytesFor(std::size_t count) {
    const std::size_t bytes = count * sizeof(std::uint32_t);
    return bytes > kSlab ? (bytes + kSlab - 1) / kSlab * kSlab : std::max(kSmallest, std::bit_ceil(bytes));
}

WordPool::~WordPool() {
    for (void* slab : m_slabs)
        std::free(slab);
}

std::shared_ptr<std::uint32_t[]> WordPool::take(std::size_t count) {
    const std::size_t bytes = bytesFor(count);
    if (bytes > kSlab)
        return {static_cast<std::uint32_t*>(slabOf(bytes)), [](std::uint32_t* words) { std::free(words); }};
    std::uint32_t* words = nullptr;
    {
        const std::lock_guard lock{m_mutex};
        std::vector<std::uint32_t*>& free = m_free[bytes];
        if (free.empty()) {
            m_slabs.reserve(m_slabs.size() + 1);
            free.reserve(free.size() + kSlab / bytes);
            auto* const slab = static_cast<std::uint32_t*>(slabOf(kSlab));
            m_slabs.push_back(slab);
            for (std::size_t at = 0; at < kSlab; at += bytes)
                free.push_back(slab + at / sizeof(std::uint32_t));
        }
        words = free.back();
        free.pop_back();
    }
    return {words, [pool = shared_from_this(), bytes](std::uint32_t* back) { pool->giveBack(back, bytes); }};
}

void WordPool::giveBack(std::uint32_t* words, std::size_t bytes) {
    const std::lock_guard lock{m_mutex};
    m_free[bytes].push_back(words);
}

} // namespace fencewright::raster::detail
