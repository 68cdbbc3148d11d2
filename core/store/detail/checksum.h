#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace fencewright::store {

/// CRC-64/XZ. Finds every change of up to 64 bits in a row, and any other but for one in 10^19; it is no seal against
/// people. Source: ECMA-182, in the form of the XZ file format 1.1.0, section 1.1.2; check value of "123456789":
/// 995DC9BBDF1939FA.
[[nodiscard]] std::uint64_t crc64(std::string_view bytes);

/// As 16 hexadecimal digits.
[[nodiscard]] std::string crc64Text(std::string_view bytes);

} // namespace fencewright::store
