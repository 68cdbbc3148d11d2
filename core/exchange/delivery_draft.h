#pragma once

#include "compare/permits_more.h"
#include "exchange/delivery.h"
#include "exchange/delivery_content.h"
#include "geodesy/vertical_reference.h"
#include "model/fence_set.h"
#include "progress.h"

#include <string>
#include <vector>

namespace fencewright::exchange {

/// A fence set made ready for a file: what to write, what was approved, and what a person should know about it.
struct DeliveryDraft {
    DeliveryContent content;
    std::vector<compare::HeldFence> approved; ///< the outlines themselves, under the names that are written
    Area keepOutAdded;
    Area keepInLost;
    std::vector<Wording> cautions;
};

/// Of confidential sites, neither place nor name gets into the draft: their setbacks, and whatever else mentions their
/// names, go under neutral names without texts.
/// @throws Fault  a keep-out without a surface, no fence at all, a surface that cannot be kept on the safe side: names
/// the fence. Cancelled.
[[nodiscard]] DeliveryDraft draftOf(const model::FenceSet& set, const DeliveryOptions& options, bool drawsHeights,
                                    const geodesy::GroundHeight& ground, const Progress& progress);

} // namespace fencewright::exchange
