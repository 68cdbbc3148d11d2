#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace fencewright::exchange::detail {

/// @throws Fault  not a name of an encoding.
void requireKnownEncoding(const std::string& encoding, const std::string& path);

/// The text in UTF-8; nothing where it is not text in that encoding.
[[nodiscard]] std::optional<std::string> recoded(std::string_view text, const std::string& encoding);

[[nodiscard]] bool isUtf8(std::string_view text);

} // namespace fencewright::exchange::detail
