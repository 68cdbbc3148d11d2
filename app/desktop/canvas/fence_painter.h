#pragma once

#include <QPainter>

#include "desktop/canvas/plane_runs.h"
#include "desktop/canvas/view_transform.h"
#include "model/fence.h"
#include "session/outline_cache.h"

#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace fencewright::desktop {

class BoundaryRaster;

enum class FenceLook {
    Active,
    Quiet,         ///< disabled, or not active at the moment: thin, dashed, without comb
    Selected,      ///< stronger
    SelectedQuiet, ///< stronger, and still dashed: choosing a fence does not put it in force
    Draft          ///< as it would be
};

/// Paints fences: boundary with casing, and the comb on the side where the aircraft may not be. Keeps what it worked
/// out for each outline for as long as that outline lives. A fence whose outline is still being computed is dashed.
///
/// May be used from several threads at once, each with a projection of its own. What it keeps depends on the outline
/// and the scale alone.
class FencePainter {
public:
    using Outlined = std::shared_ptr<const session::OutlinedFence>;
    struct Item {
        Outlined fence;
        FenceLook look = FenceLook::Active;

        bool operator==(const Item&) const = default;
    };

    /// Paints what reaches into `seen`, in the order given; tints first.
    void paint(QPainter& painter, const ViewTransform& view, const std::vector<Item>& items, const QRectF& seen);
    /// On another thread. Of the view, only what is said where it is declared to be arithmetic is used.
    void paint(QPainter& painter, const ViewTransform& view, const Projection& project, const std::vector<Item>& items,
               const QRectF& seen);

    /// A box in widget pixels that the outline lies in, room for comb and casing included; empty: nothing to paint.
    QRectF boundsOf(const Outlined& fence, const ViewTransform& view);
    /// The same in the plane, without room.
    QRectF planeBoundsOf(const Outlined& fence, const ViewTransform& view);
    /// How much more than the outline is painted, in pixels.
    static constexpr double kReachPixels = 14.0;

    /// Whether the boundary runs through the rectangle.
    bool boundaryCrosses(const Outlined& fence, const ViewTransform& view, const QRectF& widget);
    /// Roughly how many microseconds painting it takes, where at most so much of the widget is painted.
    double costOf(const Outlined& fence, const ViewTransform& view, const QSizeF& painted);

    /// Drops what is kept of fences that are none of these.
    void keepOnly(const std::vector<Outlined>& fences);

private:
    struct PlaneRing {
        PlaneRuns line;
        bool hole = false;
    };
    struct CoarseRun {
        std::vector<QPointF> points;
        QRectF box;
    };
    struct CoarseRing {
        std::vector<std::shared_ptr<const CoarseRun>> runs;
        bool hole = false;
    };
    /// What is kept of one outline; never changes.
    struct Kept {
        Outlined fence; ///< holds the pointer that is the key
        std::uint64_t planeNumber = 0;
        std::vector<std::vector<PlaneRing>> parts;
        int coarseness = 0;
        std::vector<std::vector<CoarseRing>> coarse; ///< the parts with as few points as the scale needs
    };
    struct Bounds {
        Outlined fence;
        std::uint64_t planeNumber = 0;
        QRectF plane;
    };
    struct ScreenRing {
        QPolygonF whole;
        QPolygonF clipped;
        bool hole = false;
    };

    std::shared_ptr<const Kept> kept(const Outlined& fence, const ViewTransform& view, const Projection& project);
    std::vector<std::vector<ScreenRing>> onScreen(const Kept& kept, const ViewTransform& view, const QRectF& seen);
    static void makeParts(Kept& made, const Projection& project, const Kept* former);
    static void makeCoarse(Kept& made, const Kept* former);
    static void paintBoundary(QPainter& painter, BoundaryRaster& raster, const ScreenRing& ring, model::FenceKind kind,
                              FenceLook look, const QRectF& seen);
    void paintGaps(QPainter& painter, const ViewTransform& view, const Projection& project,
                   const session::OutlinedFence& fence);

    std::mutex m_mutex;
    std::unordered_map<const session::OutlinedFence*, std::shared_ptr<const Kept>> m_kept;
    /// The outlines of each fence of which something is kept, the newest last: the next may share most of it.
    std::unordered_map<std::string, std::vector<const session::OutlinedFence*>> m_states;
    std::unordered_map<const session::OutlinedFence*, Bounds> m_bounds; ///< the window's thread's alone
};

QColor mapColour(model::FenceKind kind);
/// Somewhat darker, for letters.
QColor mapInk(model::FenceKind kind);

} // namespace fencewright::desktop
