#pragma once

#include <QObject>
#include <QPainter>
#include <QTimer>

#include "desktop/canvas/reference_tile.h"
#include "desktop/canvas/tile_board.h"
#include "desktop/tools/tool.h"
#include "geometry/spatial_index.h"
#include "reference/layer.h"

#include <map>
#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

namespace fencewright::desktop {

/// A reference layer as the map shows it.
struct ReferenceSource {
    QString id;
    QString name;
    std::shared_ptr<const reference::Layer> layer;
    std::optional<std::size_t> labelColumn;
    std::optional<std::size_t> numberColumn;
    double opacity = 1.0;
    bool isWhole = true; ///< its attributes are read: it can be asked and picked from
};

/// "Parcel 17", or the layer's name where the feature has no number.
QString nameOf(const ReferenceSource& source, std::size_t feature);
/// The parcels at a place, the uppermost layer first.
std::vector<PickableParcel> parcelsAt(const std::vector<ReferenceSource>& sources, const model::Position& place);

/// Reference layers over imagery and under the fences: in tiles, at exactly the scale of the view, so that lines are
/// sharp.
class ReferenceLayer : public QObject {
    Q_OBJECT

public:
    static constexpr qint64 kCacheBytes = 48LL * 1024 * 1024;

    struct Label {
        QPointF centre; ///< widget pixels
        QSizeF room;
        QString text;
    };

    explicit ReferenceLayer(TileQueue& queue, QObject* parent = nullptr);

    /// In drawing order.
    void setSources(std::vector<ReferenceSource> sources);
    const std::vector<ReferenceSource>& sources() const { return m_sources; }

    /// Makes the view the one that is shown: asks for what is missing in it, but amid a motion, for the next scale
    /// follows at once.
    void show(const ViewTransform& view, double pixelRatio, TileQuality quality);
    /// Paints of the view shown what reaches into `seen`, in widget pixels.
    void paintPart(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality);
    /// Shows the view and paints all of it.
    void paint(QPainter& painter, const ViewTransform& view);

    /// See TileBoard.
    std::uint64_t arrangement() const { return m_board.arrangement(); }
    bool isComplete() const { return m_board.isComplete(); }
    qint64 cachedBytes() const { return m_board.bytes(); }
    /// Numbers of parcels, where there is room; the largest first, none where too many are seen.
    std::vector<Label> labels(const ViewTransform& view, TileQuality quality = TileQuality::Fine);

signals:
    /// What is seen in that part of the plane changed.
    void tileArrived(const QRectF& plane);
    /// There are more labels: paint again.
    void ready();

private:
    struct Shown {
        std::shared_ptr<const reference::Layer> layer;
        std::uint64_t number = 0;
        LineStyle style = LineStyle::Fine;
        /// The view that the style was chosen for; another number: none yet.
        std::uint64_t stylePlane = ~std::uint64_t{0};
        double styleScale = 0.0;
        QPointF styleCentre;
        /// Where labels stand, in the plane of that number.
        std::uint64_t labelPlane = 0;
        std::unordered_map<std::size_t, std::optional<QPointF>> labelPlaces;
        /// What may have a label in and about a view: the largest first.
        struct Candidate {
            std::size_t feature;
            QSizeF room;
            QString text;
            std::optional<QPointF> place; ///< in the plane
            bool isSought = false;        ///< the place
        };
        struct Candidates {
            std::optional<std::size_t> column;
            std::uint64_t plane = 0;
            double metresPerPixel = 0.0;
            geometry::Box box;
            std::vector<Candidate> all;
        };
        std::optional<Candidates> candidates;
    };

    std::vector<WantedLayer> wanted(const ViewTransform& view, double pixelRatio);
    LineStyle styleOf(const ReferenceSource& source, const ViewTransform& view);
    void findCandidates(const ReferenceSource& source, std::size_t column, const ViewTransform& view,
                        TileQuality quality);
    Shown& shown(const ReferenceSource& source) { return m_shown.at(source.layer.get()); }

    TileBoard m_board;
    std::vector<ReferenceSource> m_sources;
    std::map<const void*, Shown> m_shown; ///< by layer
    std::uint64_t m_nextNumber = 1;
    QTimer m_release;
};

} // namespace fencewright::desktop
