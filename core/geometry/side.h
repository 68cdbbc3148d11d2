#pragma once

namespace fencewright::geometry {

/// Which way an approximation may err. Grow: the result contains the true shape (keep-outs). Shrink: the true shape
/// contains the result (keep-ins).
enum class Side { Grow, Shrink };

} // namespace fencewright::geometry
