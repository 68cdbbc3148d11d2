#pragma once

#include <QPainter>

#include "desktop/canvas/view_transform.h"
#include "desktop/tools/tool.h"
#include "model/fence.h"

namespace fencewright::desktop {

// Marks of what is being edited, each in its colour with a white casing.

/// The edge, heavier, with an arrow on either side at the middle of what is in view: that way it goes.
void paintChosenEdge(QPainter& painter, const ViewTransform& view, const model::Fence& fence, const Edge& edge);

/// A ring, a cross in its middle, and four squares outside it; while it is used, a hand from the middle to where it was
/// and one to where it is.
void paintDial(QPainter& painter, const ViewTransform& view, const Dial& dial);

} // namespace fencewright::desktop
