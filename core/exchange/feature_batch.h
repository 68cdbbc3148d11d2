#pragma once

#include "exchange/vector_content.h"

#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::exchange {

/// What a line of a feature is. A point, an open line or a shell begins another part.
enum class LineKind : std::uint8_t { Point, Line, Shell, Hole, ShellClosed, HoleClosed };
inline constexpr std::uint8_t kLineKinds = 6; ///< the last two: their closure is assumed

/// The geometry of some features, in the order of the file, as columns: for whoever keeps a million of them and has no
/// use for a value of each. Places are as in Feature.
struct FeatureBatch {
    static constexpr std::size_t kMostFeatures = 65'536;

    std::vector<std::uint32_t> featureLines{0}; ///< the first line of each feature, and the end
    std::vector<std::uint32_t> lineCorners{0};  ///< the first corner of each line, and the end
    std::vector<LineKind> lineKinds;
    std::vector<model::Position> corners;
    std::vector<geometry::Box> boxes;
    std::vector<double> lows, highs; ///< empty, or one for each feature so far; NaN: not known

    [[nodiscard]] std::size_t size() const { return featureLines.size() - 1; }
    [[nodiscard]] std::span<const model::Position> cornersOf(std::size_t feature) const {
        const std::uint32_t first = lineCorners[featureLines[feature]];
        return {corners.data() + first, lineCorners[featureLines[feature + 1]] - first};
    }

    /// Ends a line, whose corners were appended to `corners`.
    void endLine(LineKind kind) {
        lineCorners.push_back(static_cast<std::uint32_t>(corners.size()));
        lineKinds.push_back(kind);
    }
    /// Ends a feature: all lines since the last one are its own.
    void endFeature(std::optional<double> lowest, std::optional<double> highest);
    void add(const Feature& feature);
};

/// One text of each feature.
struct TextColumn {
    std::vector<std::uint32_t> ends;
    std::string text;

    void add(std::string_view one) {
        text += one;
        ends.push_back(static_cast<std::uint32_t>(text.size()));
    }
    [[nodiscard]] std::string_view at(std::size_t feature) const {
        const std::uint32_t first = feature == 0 ? 0 : ends[feature - 1];
        return std::string_view{text}.substr(first, ends[feature] - first);
    }
};

/// What is written of the features of a batch: their identities, then a column for each field.
using AttributeBatch = std::vector<TextColumn>;

} // namespace fencewright::exchange
