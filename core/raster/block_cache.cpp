#include "raster/block_cache.h"

#include "fault.h"
#include "raster/detail/block_parts.h"

namespace fencewright::raster {

namespace {

// Blocks without a pixel cost something as well, or a mosaic full of holes would keep them without bound.
constexpr std::size_t kBytesOfAnEntry = 256;
constexpr std::chrono::milliseconds kLookAround{15};

std::size_t bytesOf(const PaintedPixels& pixels) {
    const auto count = static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height);
    return kBytesOfAnEntry + (pixels.words ? detail::WordPool::bytesFor(count) : 0);
}

} // namespace

BlockCache::BlockCache(std::size_t byteLimit) : m_parts{std::make_unique<Parts>(byteLimit)} {}
BlockCache::~BlockCache() = default;

BlockCache::Counts BlockCache::counts() const {
    const std::lock_guard lock{m_parts->mutex};
    return m_parts->counts;
}

std::size_t BlockCache::bytes() const {
    const std::lock_guard lock{m_parts->mutex};
    return m_parts->bytes;
}

std::uint64_t BlockCache::Parts::numberOf(const std::string& source) {
    const std::lock_guard lock{mutex};
    return m_sources.try_emplace(source, m_sources.size()).first->second;
}

void BlockCache::Parts::count(std::uint64_t reads, std::uint64_t pixels) {
    const std::lock_guard lock{mutex};
    counts.reads += reads;
    counts.pixels += pixels;
}

void BlockCache::Parts::keep(const Key& key, const PaintedPixels& pixels) {
    m_byUse.push_front(key);
    m_kept.insert_or_assign(key, Kept{pixels, m_byUse.begin()});
    bytes += bytesOf(pixels);
    while (bytes > byteLimit) {
        const auto oldest = m_kept.find(m_byUse.back());
        bytes -= bytesOf(oldest->second.pixels);
        m_kept.erase(oldest);
        m_byUse.pop_back();
    }
}

PaintedPixels BlockCache::Parts::take(const Key& key, const std::function<PaintedPixels()>& decode,
                                      const Progress& progress) {
    using State = Decoding::State;
    std::unique_lock lock{mutex};
    std::shared_ptr<Decoding> decoding;
    for (;;) {
        if (const auto kept = m_kept.find(key); kept != m_kept.end()) {
            m_byUse.splice(m_byUse.begin(), m_byUse, kept->second.use);
            return kept->second.pixels;
        }
        const auto other = m_underWay.find(key);
        if (other == m_underWay.end())
            break;
        decoding = other->second;
        while (decoding->state == State::UnderWay) {
            m_ended.wait_for(lock, kLookAround);
            lock.unlock();
            progress.report(0, phrase("core", "Reading imagery"));
            lock.lock();
        }
        if (decoding->state == State::Failed)
            std::rethrow_exception(decoding->fault);
        if (decoding->state == State::Done)
            return decoding->pixels;
    }

    decoding = std::make_shared<Decoding>();
    m_underWay.emplace(key, decoding);
    lock.unlock();
    State state = State::Done;
    PaintedPixels pixels;
    std::exception_ptr fault;
    try {
        pixels = decode();
    } catch (const Cancelled&) {
        state = State::Cancelled;
        fault = std::current_exception();
    } catch (...) {
        state = State::Failed;
        fault = std::current_exception();
    }
    lock.lock();
    decoding->state = state;
    decoding->pixels = pixels;
    decoding->fault = fault;
    m_underWay.erase(key);
    m_ended.notify_all();
    if (fault)
        std::rethrow_exception(fault);
    keep(key, pixels);
    return pixels;
}

} // namespace fencewright::raster
