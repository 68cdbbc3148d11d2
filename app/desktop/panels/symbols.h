#pragma once

#include <QPainter>

#include "audit/finding.h"
#include "desktop/palette.h"
#include "model/fence.h"

namespace fencewright::desktop {

/// A small square with the map's comb: ticks on the side where the aircraft may not be. Dashed where it is not in
/// force.
void paintFenceSymbol(QPainter& painter, const QRectF& box, model::FenceKind kind, bool inForce,
                      const Palette& palette);
void paintSiteSymbol(QPainter& painter, const QRectF& box, const Palette& palette);
void paintHomeSymbol(QPainter& painter, const QRectF& box, bool alternate, const Palette& palette);
/// Square: error, triangle: doubt, circle: note. The form tells them apart, not only the colour.
void paintSeverity(QPainter& painter, const QRectF& box, audit::Severity severity, const Palette& palette);

} // namespace fencewright::desktop
