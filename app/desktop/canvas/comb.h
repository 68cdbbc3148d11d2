#pragma once

#include <QLineF>
#include <QPolygonF>
#include <QRectF>

#include <vector>

namespace fencewright::desktop {

/// On which side of a ring the comb stands: the side where the aircraft may not be.
enum class CombSide { Inside, Outside };

inline constexpr double kCombSpacingPixels = 10.0;
inline constexpr double kCombTickPixels = 7.0;

/// The ticks along a ring in widget pixels, spread evenly between one sharp bend and the next. Only those that reach
/// into `seen`; which they are and where they stand does not depend on it.
std::vector<QLineF> combOf(const QPolygonF& ring, CombSide side, const QRectF& seen);

} // namespace fencewright::desktop
