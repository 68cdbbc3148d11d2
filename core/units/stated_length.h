#pragma once

#include "units/length.h"

#include <string>

namespace fencewright {

/// A length together with the words in which it was given, so that "1/3 mi" is never shown back as "0.33 mi".
struct StatedLength {
    Length length;
    std::string asWritten; ///< e.g. "1/4 mi"; empty where the length was drawn and not typed.

    bool operator==(const StatedLength&) const = default;
};

} // namespace fencewright
