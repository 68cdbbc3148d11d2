#include "desktop/canvas/underlay.h"

#include "desktop/canvas/plane_line.h"

#include <QTimer>

#include <algorithm>
#include <utility>

namespace fencewright::desktop {
Underlay::Underlay(QObject* parent) : QObject{parent} {
    connect(&m_tiles, &TileLayer::tileArrived, this, &Underlay::addChange);
    connect(&m_references, &ReferenceLayer::tileArrived, this, &Underlay::addChange);
    connect(&m_references, &ReferenceLayer::ready, this, &Underlay::ready);
}

void Underlay::setImagery(std::vector<ImagerySource> sources) {
    m_tiles.setSources(std::move(sources));
    m_picture.invalidate();
    emit ready();
}

void Underlay::setReferences(std::vector<ReferenceSource> sources) {
    m_references.setSources(std::move(sources));
    m_picture.invalidate();
    emit ready();
}

void Underlay::addChange(const QRectF& plane) {
    if (std::none_of(m_changes.begin(), m_changes.end(), [&](const QRectF& one) { return one.contains(plane); }))
        m_changes.push_back(plane);
    emit ready();
}

void Underlay::paint(QPainter& painter, const ViewTransform& view, TileQuality quality,
                     const std::optional<QColor>& ground) {
    const double ratio = painter.device()->devicePixelRatioF();
    m_tiles.show(view, ratio);
    m_references.show(view, ratio, quality);
    const QRectF widget{QPointF{}, view.size()};
    if (quality == TileQuality::Fast) {
        m_picture.invalidate();
        m_changes.clear();
        if (ground)
            painter.fillRect(widget, *ground);
        paintParts(painter, view, widget, quality);
        return;
    }
    const bool isAnother = m_plane != view.planeNumber() || m_metresPerPixel != view.metresPerPixel() ||
                           m_tilesArrangement != m_tiles.arrangement() ||
                           m_referencesArrangement != m_references.arrangement();
    if (isAnother) {
        m_plane = view.planeNumber();
        m_metresPerPixel = view.metresPerPixel();
        m_tilesArrangement = m_tiles.arrangement();
        m_referencesArrangement = m_references.arrangement();
        m_changes.clear();
        m_picture.invalidate();
    }
    for (const QRectF& change : std::exchange(m_changes, {})) {
        const QRectF place = QRectF{view.toWidget(QPointF{change.left(), change.bottom()}),
                                    view.toWidget(QPointF{change.right(), change.top()})}
                                 .intersected(widget);
        if (!place.isEmpty())
            m_picture.invalidate(place.adjusted(-1, -1, 1, 1)); // edges are rounded to whole pixels
    }
    m_picture.paint(painter, view, ground, [&](QPainter& into, const QRectF& seen, RetainedLayer::Finish finish) {
        paintParts(into, view, seen, finish == RetainedLayer::Finish::Rough ? TileQuality::Fast : TileQuality::Fine);
    });
    if (!m_picture.isComplete())
        QTimer::singleShot(0, this, &Underlay::ready);
}

std::vector<QRectF> Underlay::placesIn(const ViewTransform& view) const {
    std::vector<std::vector<model::Position>> corners = m_tiles.corners();
    for (const ReferenceSource& source : m_references.sources())
        if (const geometry::Box& box = source.layer->about().extent; !box.empty())
            corners.push_back({{box.minX, box.minY}, {box.maxX, box.minY}, {box.maxX, box.maxY}, {box.minX, box.maxY}});
    const QRectF widget{QPointF{}, view.size()};
    std::vector<QRectF> places;
    for (const std::vector<model::Position>& one : corners) {
        const std::vector<QPointF> points = view.planeOf(one);
        if (points.empty())
            continue;
        const QRectF plane = boundsOf(points);
        const QRectF place = QRectF{view.toWidget(plane.topLeft()), view.toWidget(plane.bottomRight())}.normalized();
        if (place.intersects(widget))
            places.push_back(place.intersected(widget));
    }
    return places;
}

void Underlay::paintParts(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality) {
    m_tiles.paintPart(painter, view, seen, quality);
    m_references.paintPart(painter, view, seen, quality);
}

} // namespace fencewright::desktop
