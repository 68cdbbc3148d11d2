#pragma once

#include "model/fence_set.h"

#include <random>

namespace fencewright::support {

[[nodiscard]] model::HeightLimit heightLimit(double metres, model::HeightReference reference);

/// A set with every kind of shape, band, period, site and home: invented, at 50 N 8 E.
[[nodiscard]] model::FenceSet deliverySet();

/// The fence of that name in the set of deliverySet().
[[nodiscard]] model::FenceId fenceNamed(const model::FenceSet& set, const std::string& name);

/// Up to three fences anywhere up to 80 degrees of latitude, often on the antimeridian, often with corners almost in
/// line, holes, crossed rings, bands of any reference.
[[nodiscard]] model::FenceSet randomFenceSet(std::mt19937& random);

} // namespace fencewright::support
