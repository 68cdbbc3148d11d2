#pragma once

#include "exchange/vector_content.h"
#include "exchange/vector_reader.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fencewright::reference {

/// Gathers the features of a layer, and writes them down as the body of a layer file (see layer.h).
class LayerBuilder {
public:
    /// @throws Fault  a coordinate is not finite, or there is more of something than a layer file holds: 2^32 corners,
    /// lines or bytes in one column.
    void add(const exchange::Feature& feature);

    /// Side: exact.
    /// @param about  what is known of the layer as a whole; its features are not looked at.
    void write(const exchange::VectorContent& about, const exchange::ByteSink& to) const;

private:
    struct Column {
        std::vector<std::uint32_t> ends;
        std::string text;
    };

    void addLine(std::uint8_t kind, const std::vector<model::Position>& corners);
    void addText(std::size_t column, const std::string& text);

    std::vector<std::uint32_t> m_featureLines{0};
    std::vector<std::uint32_t> m_lineCorners{0};
    std::vector<std::uint8_t> m_lineKinds;
    std::vector<model::Position> m_corners;
    std::vector<geometry::Box> m_boxes;
    std::vector<double> m_lows, m_highs; ///< empty, or one for each feature so far
    std::vector<Column> m_columns;       ///< the first: identities
};

/// The child's answer to what openLayer() asks, for exchange::answerForeignRequest().
void answerWithLayer(const exchange::ReadRequest& request, const exchange::ByteSink& to, const Progress& progress);

} // namespace fencewright::reference
