#pragma once

#include <QString>

#include <optional>

namespace fencewright::desktop {

/// How badly `typed` fits `text`: 0 and below where the words begin with it, more for letters inside, initials and one
/// slip of the fingers; nothing: not at all. Capitals and accents do not count.
[[nodiscard]] std::optional<int> misfit(const QString& typed, const QString& text);

} // namespace fencewright::desktop
