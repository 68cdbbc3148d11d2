#include "store/detail/checksum.h"

#include <array>

namespace fencewright::store {

namespace {

constexpr std::array<std::uint64_t, 256> kTable = [] {
    std::array<std::uint64_t, 256> table{};
    for (std::uint64_t byte = 0; byte < 256; ++byte) {
        std::uint64_t value = byte;
        for (int bit = 0; bit < 8; ++bit)
            value = (value & 1) != 0 ? (value >> 1) ^ 0xC96C5795D7870F42ULL : value >> 1;
        table[static_cast<std::size_t>(byte)] = value;
    }
    return table;
}();

} // namespace

std::uint64_t crc64(std::string_view bytes) {
    std::uint64_t value = ~std::uint64_t{0};
    for (const char byte : bytes)
        value = kTable[(value ^ static_cast<unsigned char>(byte)) & 0xFF] ^ (value >> 8);
    return ~value;
}

std::string crc64Text(std::string_view bytes) {
    constexpr std::string_view digits = "0123456789abcdef";
    const std::uint64_t value = crc64(bytes);
    std::string text;
    for (int shift = 60; shift >= 0; shift -= 4)
        text += digits[static_cast<std::size_t>((value >> shift) & 0xF)];
    return text;
}

} // namespace fencewright::store
