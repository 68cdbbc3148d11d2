#pragma once

#include "exchange/feature_batch.h"
#include "exchange/vector_content.h"
#include "exchange/vector_reader.h"
#include "reference/detail/corner_packing.h"

#include <vector>

namespace fencewright::reference {

/// Gathers the features of a layer, and writes them down as the body of a layer file (see layer.h).
class LayerBuilder {
public:
    /// @throws Fault  a coordinate is not finite.
    void add(const exchange::Feature& feature);
    /// Side: exact.
    /// @param about  what is known of the layer as a whole; its features are not looked at.
    /// @throws Fault  there is more of something than a layer file holds: 2^32 corners, lines or bytes in one column.
    void write(const exchange::VectorContent& about, const exchange::ByteSink& to);

    /// The same in two steps, for features that come in batches: their geometry, then their attributes.
    void writeGeometry(std::vector<exchange::FeatureBatch> batches, const exchange::VectorContent& about,
                       const exchange::ByteSink& to);
    void writeAttributes(const std::vector<exchange::AttributeBatch>& batches, const exchange::VectorContent& about,
                         const exchange::ByteSink& to) const;

private:
    std::vector<exchange::FeatureBatch> m_batches;
    std::vector<exchange::AttributeBatch> m_attributes;
    std::vector<detail::Slot> m_slots; ///< in the order of the layer
};

/// The child's answer to what openLayer() asks, for exchange::answerForeignRequest().
void answerWithLayer(const exchange::ReadRequest& request, const exchange::ByteSink& to, const Progress& progress);

} // namespace fencewright::reference
