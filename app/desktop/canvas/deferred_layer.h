#pragma once

#include <QImage>
#include <QObject>
#include <QPainter>
#include <QPointF>
#include <QRectF>
#include <QThreadPool>

#include "desktop/canvas/inked_squares.h"
#include "desktop/canvas/view_transform.h"

#include <functional>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A picture of part of the map, somewhat larger than the view, that moves along with it: after a pan only what came
/// into reach is painted, after a change only what changed.
///
/// What takes longer than a fraction of a frame is painted on another thread, into another picture. Until that is there
/// the last one is shown, moved or stretched to the view.
class DeferredLayer : public QObject {
    Q_OBJECT

public:
    /// Paints what lies in the rectangle, in the widget coordinates of the given view. Must not depend on where the
    /// view lies.
    using Render = std::function<void(QPainter& painter, const ViewTransform& view, const QRectF& seen)>;
    struct Contents {
        Render here;                       ///< in the window's thread
        std::function<Render()> elsewhere; ///< one that may be used on another thread, of the contents as now
        /// Of painting a rectangle of the widget, in microseconds; 0: there is nothing to see in it.
        std::function<double(const QRectF&)> cost;
    };

    /// What may be painted in the window's thread at a time, in microseconds: for what a person has changed, and for
    /// what the view has come to show, while the map moves.
    static constexpr double kAffordable = 5'000.0;
    static constexpr double kAffordableMoving = 2'000.0;

    explicit DeferredLayer(QObject* parent = nullptr);
    ~DeferredLayer() override;

    /// Everything is to be painted anew.
    void invalidate() { m_stale = true; }
    /// What lies in the rectangle of the plane is.
    void invalidatePlane(const QRectF& plane) { m_changed.push_back(plane); }

    /// @param inMotion  amid a zoom: no picture is made for a scale that holds for one frame only.
    void paint(QPainter& painter, const ViewTransform& view, const Contents& contents, bool inMotion);
    /// Whether what was painted last is what there is to see, and nothing is being painted.
    bool isSettled() const { return m_settled; }

signals:
    /// A picture has come from the other thread.
    void arrived();

private:
    /// A picture and the part of the plane that it shows.
    struct Picture {
        QImage image;
        ViewTransform view;     ///< of the size of the picture
        model::Position middle; ///< for when the plane is another
        InkedSquares inked{};
    };

    ViewTransform pictureView(const ViewTransform& view, double margin) const;
    std::optional<QPoint> shiftTo(const ViewTransform& target, qreal ratio) const;
    void show(QPainter& painter, const ViewTransform& view) const;
    static void renderInto(Picture& picture, const QRect& devicePixels, const Render& render);
    static QImage blank(const QSizeF& size, qreal ratio);
    static QImage moved(const QImage& image, const QSize& size, const QPoint& by);
    std::vector<QRect> changedPixels(const ViewTransform& view, qreal ratio) const;
    void startElsewhere(const ViewTransform& target, qreal ratio, const Contents& contents);

    std::optional<Picture> m_picture;
    bool m_stale = true;
    std::vector<QRectF> m_changed;      ///< in the plane, since the picture was painted
    std::vector<QRectF> m_sinceStarted; ///< painted into the picture since the other one was begun
    bool m_running = false;
    bool m_settled = false;
    std::uint64_t m_started = 0;
    QThreadPool m_pool;
};

} // namespace fencewright::desktop
