#include "geometry/hilbert_order.h"

#include "geometry/hilbert_curve.h"
#include "geometry/two_halves.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <stdexcept>
#include <utility>

namespace fencewright::geometry {
namespace {

struct Item {
    std::uint32_t place, number;
};

constexpr unsigned kDigitBits = 11;
constexpr unsigned kDigits = 3; ///< of a place
constexpr std::uint32_t kValues = 1U << kDigitBits;
constexpr std::size_t kFew = 1024; ///< sorted by comparing them

constexpr std::uint32_t digitOf(std::uint32_t place, unsigned digit) {
    return (place >> (digit * kDigitBits)) % kValues;
}

/// From a coordinate to the cells of the curve.
class Cells {
public:
    Cells(double from, double to) : m_from{from}, m_scale{kLast / (to - from)} {
        if (!(to > from) || !std::isfinite(m_scale))
            m_scale = 0.0;
    }
    std::uint32_t operator()(double value) const {
        const double cell = (value - m_from) * m_scale; // no number where a coordinate is none, or endless
        return cell > 0.0 ? static_cast<std::uint32_t>(std::min(cell, kLast)) : 0;
    }

private:
    static constexpr double kLast = 65535.0;
    double m_from, m_scale;
};

Box boxOfAll(std::span<const Box> boxes) {
    std::array<Box, 2> halves;
    inTwoHalves(boxes.size(), [&](std::size_t begin, std::size_t end) {
        Box all;
        for (const Box& box : boxes.subspan(begin, end - begin))
            if (!box.empty())
                all = {std::min(all.minX, box.minX), std::min(all.minY, box.minY), std::max(all.maxX, box.maxX),
                       std::max(all.maxY, box.maxY)};
        halves[begin == 0 ? 0 : 1] = all;
    });
    halves[0].add(halves[1]);
    return halves[0];
}

/// Calls `put(place, item)` with the place of each item in the order of one digit, where equals stay in their order.
template <class Put> void scatter(std::span<const Item> items, unsigned digit, const Put& put) {
    using Places = std::array<std::uint32_t, kValues>;
    std::array<Places, 2> at{}; // those of the first half come before the same of the second
    inTwoHalves(items.size(), [&](std::size_t begin, std::size_t end) {
        Places& own = at[begin == 0 ? 0 : 1];
        for (const Item& item : items.subspan(begin, end - begin))
            ++own[digitOf(item.place, digit)];
    });
    std::uint32_t next = 0;
    for (std::uint32_t value = 0; value < kValues; ++value)
        for (Places& half : at)
            next += std::exchange(half[value], next);
    inTwoHalves(items.size(), [&](std::size_t begin, std::size_t end) {
        Places& own = at[begin == 0 ? 0 : 1];
        for (const Item& item : items.subspan(begin, end - begin))
            put(own[digitOf(item.place, digit)]++, item);
    });
}

} // namespace

std::vector<std::uint32_t> hilbertOrder(std::span<const Box> boxes) {
    if (boxes.size() > std::numeric_limits<std::uint32_t>::max())
        throw std::length_error{"more boxes than numbers of 32 bits"};
    const Box all = boxOfAll(boxes);
    const Cells columns{all.minX, all.maxX}, rows{all.minY, all.maxY};
    const std::size_t count = boxes.size();
    // Left as they are until they are written: the two threads share the work of making memory ready.
    auto items = std::make_unique_for_overwrite<Item[]>(count);
    inTwoHalves(boxes.size(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const Box& box = boxes[i];
            items[i] = {
                box.empty() ? 0 : hilbertPlace(columns(box.minX / 2 + box.maxX / 2), rows(box.minY / 2 + box.maxY / 2)),
                static_cast<std::uint32_t>(i)};
        }
    });
    std::vector<std::uint32_t> order(count);
    if (count < kFew) {
        std::stable_sort(items.get(), items.get() + count,
                         [](const Item& a, const Item& b) { return a.place < b.place; });
        std::transform(items.get(), items.get() + count, order.begin(), [](const Item& item) { return item.number; });
        return order;
    }
    // By the lowest digit first, so that equals stay in their order. The last time only the numbers are written.
    auto sorted = std::make_unique_for_overwrite<Item[]>(count);
    for (unsigned digit = 0; digit + 1 < kDigits; ++digit) {
        scatter({items.get(), count}, digit, [&](std::size_t to, const Item& item) { sorted[to] = item; });
        items.swap(sorted);
    }
    scatter({items.get(), count}, kDigits - 1, [&](std::size_t to, const Item& item) { order[to] = item.number; });
    return order;
}

} // namespace fencewright::geometry
