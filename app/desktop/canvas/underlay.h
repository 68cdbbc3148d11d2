#pragma once

#include <QObject>
#include <QPainter>

#include "desktop/canvas/reference_layer.h"
#include "desktop/canvas/retained_layer.h"
#include "desktop/canvas/tile_layer.h"
#include "desktop/canvas/tile_queue.h"

#include <functional>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// What lies under the fences: imagery, and reference layers over it. Kept as one picture, so that a pan paints only
/// the strips that came into sight, and a tile that arrived only its own place.
class Underlay : public QObject {
    Q_OBJECT

public:
    explicit Underlay(QObject* parent = nullptr);

    /// Starts the threads that make tiles of what lies on this machine, before there is a view; each does the
    /// preparation first.
    void prepareThreads(const std::function<void()>& preparation) { m_queue.start(TileJob::Lane::Local, preparation); }

    TileLayer& tiles() { return m_tiles; }
    ReferenceLayer& references() { return m_references; }

    void setImagery(std::vector<ImagerySource> sources);
    void setReferences(std::vector<ReferenceSource> sources);

    /// @param ground  the colour of all that lies beneath, if nothing else does: it is painted along with it
    void paint(QPainter& painter, const ViewTransform& view, TileQuality quality,
               const std::optional<QColor>& ground = {});
    /// Whether what is there of the tiles is painted as finely as it can be.
    bool isFine() const { return m_changes.empty() && m_picture.isComplete(); }
    /// Whether an image without transparency of its own making lies over all that is seen.
    bool covers(const ViewTransform& view) const { return m_tiles.covers(view); }

    /// A rectangle of the widget around each image and reference layer that reaches into it.
    std::vector<QRectF> placesIn(const ViewTransform& view) const;

signals:
    /// There is more to see: paint again.
    void ready();

private:
    void addChange(const QRectF& plane);
    void paintParts(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality);

    TileQueue m_queue; ///< before those that it works for
    TileLayer m_tiles{m_queue};
    ReferenceLayer m_references{m_queue};
    RetainedLayer m_picture;
    std::vector<QRectF> m_changes; ///< in the plane: not yet in the picture
    /// What the picture was painted for.
    std::uint64_t m_plane = 0, m_tilesArrangement = 0, m_referencesArrangement = 0;
    double m_metresPerPixel = 0.0;
};

} // namespace fencewright::desktop
