#include "exchange/detail/table_pages.h"

#include <algorithm>
#include <array>
#include <bit>

namespace fencewright::exchange::detail {

namespace {

constexpr std::string_view kMagic{"SQLite format 3\0", 16};
constexpr std::size_t kFileHead = 100; // before what else is on the first page
constexpr std::size_t kLeafHead = 8, kInnerHead = 12;
constexpr char kInner = 5, kLeaf = 13;
constexpr std::size_t kDeepest = 20; // such trees have no more levels; the library's own bound

template <std::size_t Count> std::uint32_t wholeAt(std::string_view bytes, std::size_t at) {
    if (bytes.size() < Count || at > bytes.size() - Count)
        throw NotPlain{};
    std::uint32_t whole = 0;
    for (std::size_t i = 0; i < Count; ++i)
        whole = whole << 8 | static_cast<unsigned char>(bytes[at + i]);
    return whole;
}

std::uint64_t takeLongNumber(std::string_view& bytes) {
    std::uint64_t number = 0;
    for (std::size_t i = 0; i < std::min<std::size_t>(bytes.size(), 9); ++i) {
        const auto byte = static_cast<unsigned char>(bytes[i]);
        if (i == 8 || byte < 0x80) {
            bytes.remove_prefix(i + 1);
            return i == 8 ? number << 8 | byte : number << 7 | byte;
        }
        number = number << 7 | (byte & 0x7FU);
    }
    throw NotPlain{};
}

/// Takes a number of one to nine bytes off the begin.
inline std::uint64_t takeNumber(std::string_view& bytes) {
    if (bytes.empty() || static_cast<unsigned char>(bytes[0]) >= 0x80)
        return takeLongNumber(bytes);
    const auto number = static_cast<unsigned char>(bytes[0]);
    bytes.remove_prefix(1);
    return number;
}

} // namespace

TablePages::TablePages(const std::string& path, std::int64_t root) : m_file{path} {
    const std::string_view head = m_file.bytes().substr(0, kFileHead);
    const std::uint32_t bytes = wholeAt<2>(head, 16), kept = wholeAt<1>(head, 20);
    m_pageBytes = bytes == 1 ? 65'536 : bytes;
    if (!head.starts_with(kMagic) || m_pageBytes < 512 || !std::has_single_bit(m_pageBytes) ||
        m_pageBytes < kept + 480 || root < 1 || root > std::int64_t{0xFFFFFFFF})
        throw NotPlain{};
    m_usable = m_pageBytes - kept;
    std::size_t visited = 0;
    collect(static_cast<std::uint32_t>(root), 0, visited);
}

std::string_view TablePages::page(std::uint32_t number) const {
    if (number == 0 || number > m_file.bytes().size() / m_pageBytes)
        throw NotPlain{};
    return m_file.bytes().substr((number - 1) * m_pageBytes, m_usable);
}

/// The leaves under a page, from left to right.
void TablePages::collect(std::uint32_t number, std::size_t depth, std::size_t& visited) {
    if (depth > kDeepest || ++visited > m_file.bytes().size() / m_pageBytes)
        throw NotPlain{};
    const std::string_view bytes = page(number);
    const std::size_t head = number == 1 ? kFileHead : 0;
    if (bytes[head] == kLeaf) {
        m_leaves.push_back(number);
        return;
    }
    if (bytes[head] != kInner)
        throw NotPlain{}; // of an index, or none
    const std::uint32_t cells = wholeAt<2>(bytes, head + 3);
    for (std::uint32_t i = 0; i < cells; ++i)
        collect(wholeAt<4>(bytes, wholeAt<2>(bytes, head + kInnerHead + 2 * i)), depth + 1, visited);
    collect(wholeAt<4>(bytes, head + 8), depth + 1, visited);
}

std::size_t TablePages::cellsOf(std::uint32_t number) const {
    return wholeAt<2>(page(number), (number == 1 ? kFileHead : 0) + 3);
}

TablePages::Cell TablePages::cell(std::uint32_t leaf, std::size_t number, std::string& room) const {
    const std::string_view bytes = page(leaf);
    std::string_view rest = bytes.substr(
        std::min<std::size_t>(bytes.size(), wholeAt<2>(bytes, (leaf == 1 ? kFileHead : 0) + kLeafHead + 2 * number)));
    const std::uint64_t payload = takeNumber(rest);
    const auto id = static_cast<std::int64_t>(takeNumber(rest));
    // How much of it lies here: section 1.6, "Cell Payload Overflow Pages".
    const std::size_t most = m_usable - 35, least = (m_usable - 12) * 32 / 255 - 23;
    if (payload <= most) {
        if (payload > rest.size())
            throw NotPlain{};
        return {id, rest.substr(0, payload)};
    }
    if (payload > m_file.bytes().size())
        throw NotPlain{};
    const std::size_t likely = least + (payload - least) % (m_usable - 4), here = likely <= most ? likely : least;
    room.assign(rest.substr(0, here));
    if (room.size() < here)
        throw NotPlain{};
    appendRest(wholeAt<4>(rest, here), payload - here, room);
    return {id, room};
}

void TablePages::appendRest(std::uint32_t number, std::size_t bytes, std::string& room) const {
    while (bytes > 0) {
        const std::string_view own = page(number);
        const std::size_t here = std::min(bytes, own.size() - 4);
        room += own.substr(4, here);
        bytes -= here;
        number = wholeAt<4>(own, 0);
    }
}

TablePages::Value TablePages::valueIn(std::string_view record, std::size_t column) {
    std::string_view head = record;
    const std::uint64_t headBytes = takeNumber(head);
    if (headBytes > record.size() || headBytes < record.size() - head.size())
        throw NotPlain{};
    head.remove_suffix(record.size() - headBytes);
    record.remove_prefix(headBytes);
    constexpr std::array<std::uint8_t, 10> bytesOf{0, 1, 2, 3, 4, 6, 8, 8, 0, 0};
    for (;; --column) {
        const std::uint64_t type = takeNumber(head); // a row older than its column has none: NotPlain
        if (type == 10 || type == 11)
            throw NotPlain{};
        const std::uint64_t bytes = type < bytesOf.size() ? bytesOf[type] : (type - 12) / 2;
        if (bytes > record.size())
            throw NotPlain{};
        if (column == 0) {
            using Kind = Value::Kind;
            return {type == 0       ? Kind::Null
                    : type < 12     ? Kind::Number
                    : type % 2 == 0 ? Kind::Blob
                                    : Kind::Text,
                    record.substr(0, bytes)};
        }
        record.remove_prefix(bytes);
    }
}

} // namespace fencewright::exchange::detail
