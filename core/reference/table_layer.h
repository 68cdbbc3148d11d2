#pragma once

#include "reference/layer_cache.h"

#include <memory>
#include <string>

namespace fencewright::reference {

/// A table of a database as a layer, and how fresh it is.
struct TableLayer {
    std::shared_ptr<const Layer> layer;
    std::string readAt; ///< when the server gave it, in universal time: "2026-05-14 09:30 UTC"
    Wording whyKept;    ///< why it was not asked anew; empty: it is as it lies on the server now
};

/// The table as it was kept, where the server says that nothing has changed; else read anew and kept. Where the server
/// cannot be asked, what was kept is better than nothing: it comes with words that say why.
/// @throws Fault  as openLayer, and nothing is kept; FilterFault  always.
[[nodiscard]] TableLayer openTableLayer(const std::string& reader, const exchange::ReadRequest& request,
                                        const LayerCache& cache, const exchange::ChildLimits& limits,
                                        const Progress& progress);

/// The table as it was kept, without a word to the server.
/// @throws Fault  nothing is kept: says `why`.
[[nodiscard]] TableLayer keptTableLayer(const exchange::ReadRequest& request, const LayerCache& cache,
                                        const Wording& why);

} // namespace fencewright::reference
