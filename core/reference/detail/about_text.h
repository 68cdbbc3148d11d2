#pragma once

#include "exchange/vector_content.h"

#include <optional>
#include <string>
#include <string_view>

namespace fencewright::reference::detail {

/// What a content says beside its features, as bytes and back.
[[nodiscard]] std::string aboutText(const exchange::VectorContent& content);
/// Nothing where the bytes are not such a thing.
[[nodiscard]] std::optional<exchange::VectorContent> aboutFromText(std::string_view bytes);

} // namespace fencewright::reference::detail
