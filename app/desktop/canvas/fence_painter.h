#pragma once

#include <QPainter>

#include "desktop/canvas/view_transform.h"
#include "session/outline_cache.h"

#include <memory>
#include <vector>

namespace fencewright::desktop {

/// Paints fences: boundary, casing, and the comb on the side where the aircraft may not be.
class FencePainter {
public:
    void paint(QPainter& painter, const ViewTransform& view,
               const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined);
};

} // namespace fencewright::desktop
