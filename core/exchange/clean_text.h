#pragma once

#include <string>
#include <string_view>

namespace fencewright::exchange {

/// The text as any reader of JSON or XML takes it: valid UTF-8 (bytes that are not become U+FFFD), control characters
/// but tab and line feed as spaces, no noncharacters that XML 1.0 forbids, no white space at either end.
[[nodiscard]] std::string cleanText(std::string_view text);

/// Whether `name` stands in the text as a whole word or words; letters of ASCII in any case. An empty name: never.
[[nodiscard]] bool mentions(std::string_view text, std::string_view name);

} // namespace fencewright::exchange
