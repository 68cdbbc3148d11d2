#include "exchange/detail/shape_records.h"

#include <array>
#include <bit>
#include <cstring>
#include <filesystem>

namespace fencewright::exchange::detail {

namespace {

namespace fs = std::filesystem;

static_assert(std::endian::native == std::endian::little, "coordinates are read as they lie in the file");
static_assert(sizeof(geodesy::PlanePoint) == 2 * sizeof(double));

constexpr std::size_t kFileHead = 100, kRecordHead = 8, kIndexEntry = 8;
constexpr std::uint32_t kPolygon = 5;
constexpr std::size_t kPolygonHead = 44; // its kind, its box, how many parts and corners
constexpr char kDeletedRow = '*';

template <class T> T littleAt(std::string_view bytes, std::size_t at) {
    T value;
    std::memcpy(&value, bytes.data() + at, sizeof value);
    return value;
}

std::uint64_t bigAt(std::string_view bytes, std::size_t at) {
    std::uint64_t whole = 0;
    for (std::size_t i = 0; i < 4; ++i)
        whole = whole << 8 | static_cast<unsigned char>(bytes[at + i]);
    return whole;
}

/// The one file that belongs to it; nothing where there is none, or two that only capitals tell apart.
std::string besides(const std::string& path, const char* small, const char* capital) {
    const fs::path first = fs::path{path}.replace_extension(small), second = fs::path{path}.replace_extension(capital);
    std::error_code ignored;
    const bool isFirst = fs::exists(first, ignored), isSecond = fs::exists(second, ignored);
    return isFirst == isSecond ? std::string{} : isFirst ? first.string() : second.string();
}

} // namespace

// Without a table of its own a layer is left to the driver as a whole.
ShapeRecords::ShapeRecords(const std::string& path)
    : m_shapes{path}, m_index{besides(path, ".shx", ".SHX")}, m_table{besides(path, ".dbf", ".DBF")} {
    const std::string_view shapes = m_shapes.bytes(), index = m_index.bytes(), table = m_table.bytes();
    if (shapes.size() < kFileHead || index.size() < kFileHead || table.size() < 32 ||
        littleAt<std::uint32_t>(shapes, 32) != kPolygon)
        return;
    m_rows = littleAt<std::uint32_t>(table, 4);
    m_tableHead = littleAt<std::uint16_t>(table, 8);
    m_rowBytes = littleAt<std::uint16_t>(table, 10);
    m_isKnown =
        m_tableHead >= 32 && m_rowBytes > 0 && m_rows < 1U << 31 && m_tableHead + m_rows * m_rowBytes <= table.size();
}

ShapeRecords::Look ShapeRecords::look(std::int64_t shape, std::vector<geodesy::PlanePoint>& corners) const {
    const auto number = static_cast<std::uint64_t>(shape);
    const std::string_view shapes = m_shapes.bytes(), index = m_index.bytes();
    if (!m_isKnown || shape < 0 || number >= (index.size() - kFileHead) / kIndexEntry || number >= m_rows)
        return Look::Driver;
    if (m_table.bytes()[m_tableHead + number * m_rowBytes] == kDeletedRow)
        return Look::Deleted;
    // Places and lengths are in words of two bytes.
    const std::size_t entry = kFileHead + number * kIndexEntry;
    const std::uint64_t begin = 2 * bigAt(index, entry), bytes = 2 * bigAt(index, entry + 4);
    if (begin < kFileHead || begin + kRecordHead + bytes > shapes.size() || bytes < kPolygonHead + 4 ||
        2 * bigAt(shapes, begin + 4) != bytes)
        return Look::Driver;
    const std::string_view record = shapes.substr(begin + kRecordHead, bytes);
    const auto count = littleAt<std::uint32_t>(record, 40);
    if (littleAt<std::uint32_t>(record, 0) != kPolygon || littleAt<std::uint32_t>(record, 36) != 1 ||
        littleAt<std::uint32_t>(record, kPolygonHead) != 0 ||
        bytes != kPolygonHead + 4 + sizeof(geodesy::PlanePoint) * std::uint64_t{count})
        return Look::Driver;
    const std::size_t before = corners.size();
    corners.resize(before + count);
    std::memcpy(corners.data() + before, record.data() + kPolygonHead + 4, count * sizeof(geodesy::PlanePoint));
    return Look::Ring;
}

} // namespace fencewright::exchange::detail
