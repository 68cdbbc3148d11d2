#pragma once

#include <cstddef>
#include <future>

namespace fencewright::geometry {

/// Calls `work(begin, end)` for the two halves of 0 to `count`, at the same time.
template <class Work> void inTwoHalves(std::size_t count, const Work& work) {
    constexpr std::size_t worthwhile = 4096;
    if (count < worthwhile)
        return work(std::size_t{0}, count);
    auto second = std::async(std::launch::async, [&] { work(count / 2, count); });
    work(std::size_t{0}, count / 2);
    second.get();
}

} // namespace fencewright::geometry
