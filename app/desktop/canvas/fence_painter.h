#pragma once

#include <QPainter>

#include "desktop/canvas/view_transform.h"
#include "model/fence.h"
#include "session/outline_cache.h"

#include <memory>
#include <unordered_map>
#include <vector>

namespace fencewright::desktop {

enum class FenceLook {
    Active,
    Quiet,         ///< disabled, or not active at the moment: thin, dashed, without comb
    Selected,      ///< stronger
    SelectedQuiet, ///< stronger, and still dashed: choosing a fence does not put it in force
    Draft          ///< as it would be
};

/// Paints fences: boundary with casing, and the comb on the side where the aircraft may not be. Keeps what it worked
/// out for each outline for as long as that outline lives.
class FencePainter {
public:
    using Outlined = std::shared_ptr<const session::OutlinedFence>;
    struct Item {
        Outlined fence;
        FenceLook look = FenceLook::Active;
    };

    /// Paints what reaches into `seen`, in the order given; tints first.
    void paint(QPainter& painter, const ViewTransform& view, const std::vector<Item>& items, const QRectF& seen);

    /// The box of the outline in widget pixels, room for comb and casing included; empty: nothing to paint.
    QRectF boundsOf(const Outlined& fence, const ViewTransform& view);
    /// A place well inside, for the name.
    std::optional<QPointF> labelPlace(const Outlined& fence, const ViewTransform& view);

    /// Whether the boundary runs through the rectangle.
    bool boundaryCrosses(const Outlined& fence, const ViewTransform& view, const QRectF& widget);

    /// Drops what is kept for outlines that are none of these.
    void keepOnly(const std::vector<Outlined>& fences);

private:
    struct PlaneRing {
        std::vector<QPointF> points;
        bool hole = false;
    };
    struct Kept {
        Outlined fence; ///< holds the pointer that is the key
        std::uint64_t planeNumber = 0;
        std::vector<std::vector<PlaneRing>> parts;
        QRectF bounds;
        int coarseness = 0;
        std::vector<std::vector<PlaneRing>> coarse; ///< the parts with as few points as the scale needs
        std::optional<QPointF> label;
        bool labelSought = false;
    };
    struct ScreenRing {
        QPolygonF whole;
        QPolygonF clipped;
        bool hole = false;
    };

    Kept& kept(const Outlined& fence, const ViewTransform& view);
    std::vector<std::vector<ScreenRing>> onScreen(const Outlined& fence, const ViewTransform& view, const QRectF& seen);
    void paintGaps(QPainter& painter, const ViewTransform& view, const session::OutlinedFence& fence);

    std::unordered_map<const session::OutlinedFence*, Kept> m_kept;
};

QColor mapColour(model::FenceKind kind);
/// Somewhat darker, for letters.
QColor mapInk(model::FenceKind kind);

/// Paints a closed line in widget pixels as the boundary of a fence of that kind.
void paintBoundary(QPainter& painter, const QPolygonF& whole, const QPolygonF& clipped, model::FenceKind kind,
                   FenceLook look, bool hole, const QRectF& seen);

} // namespace fencewright::desktop
