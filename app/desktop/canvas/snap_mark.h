#pragma once

#include <QPainter>

#include "desktop/canvas/snap.h"
#include "desktop/canvas/view_transform.h"

namespace fencewright::desktop {

/// The mark of a kind of snap, around a point in widget pixels: told apart by form alone, in ink with a white casing.
void paintSnapMark(QPainter& painter, const QPointF& at, SnapKind kind);

/// The mark where the snap leads, and thin dashes along what its direction is taken from.
void paintSnap(QPainter& painter, const ViewTransform& view, const Snap& snap);

} // namespace fencewright::desktop
