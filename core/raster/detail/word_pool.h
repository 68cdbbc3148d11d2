#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <vector>

namespace fencewright::raster::detail {

/// Memory for pixels that comes back when nobody looks at them any more: fresh memory costs a third of what decoding a
/// block costs, for the system has to clear it page by page. What was handed out once is kept until the pool and all
/// that came out of it are gone. Safe on any thread.
class WordPool : public std::enable_shared_from_this<WordPool> {
public:
    ~WordPool();

    /// Of any content.
    [[nodiscard]] std::shared_ptr<std::uint32_t[]> take(std::size_t count);
    /// What so many words take up.
    [[nodiscard]] static std::size_t bytesFor(std::size_t count);

private:
    void giveBack(std::uint32_t* words, std::size_t bytes);

    std::mutex m_mutex;
    std::map<std::size_t, std::vector<std::uint32_t*>> m_free; ///< by their bytes
    std::vector<void*> m_slabs;
};

} // namespace fencewright::raster::detail
