#pragma once

#include "exchange/vector_content.h"
#include "reference/layer.h"

#include <memory>

namespace fencewright::support {

/// A layer of these features, made as openLayer() makes one of a file's.
[[nodiscard]] std::shared_ptr<const reference::Layer> keptLayer(const exchange::VectorContent& content);

} // namespace fencewright::support
