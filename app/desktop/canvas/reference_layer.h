#pragma once

#include <QImage>
#include <QObject>
#include <QPainter>

#include "desktop/canvas/reference_tile.h"
#include "desktop/canvas/view_transform.h"
#include "desktop/tools/tool.h"
#include "geometry/spatial_index.h"
#include "reference/layer.h"

#include <condition_variable>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
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
};

/// "Parcel 17", or the layer's name where the feature has no number.
QString nameOf(const ReferenceSource& source, std::size_t feature);
/// The parcels at a place, the uppermost layer first.
std::vector<PickableParcel> parcelsAt(const std::vector<ReferenceSource>& sources, const model::Position& place);

/// Reference layers over imagery and under the fences: tiles drawn on threads of their own, at exactly the scale of the
/// view, so that lines are sharp. What is seen comes first, what is no longer seen is not drawn any more. Until a tile
/// is there, those of the nearest other scale stand in.
class ReferenceLayer : public QObject {
    Q_OBJECT

public:
    static constexpr qint64 kCacheBytes = 96LL * 1024 * 1024;

    struct Label {
        QPointF centre; ///< widget pixels
        QSizeF room;
        QString text;
    };

    explicit ReferenceLayer(QObject* parent = nullptr);
    ~ReferenceLayer() override;

    /// In drawing order.
    void setSources(std::vector<ReferenceSource> sources);
    const std::vector<ReferenceSource>& sources() const { return m_sources; }

    /// Paints what is there, and asks for what is missing.
    void paint(QPainter& painter, const ViewTransform& view);
    /// Whether all that the last painting wanted was there.
    bool isComplete() const { return m_complete; }
    qint64 cachedBytes() const { return m_cachedBytes; }
    /// Numbers of parcels, where there is room; the largest first, none where too many are seen.
    std::vector<Label> labels(const ViewTransform& view);

signals:
    /// There is more to see: paint again.
    void ready();

private:
    struct Key {
        const void* layer = nullptr; ///< kept alive by the tile, so that no other has its address
        std::uint64_t plane = 0;
        double metresPerPixel = 1.0;
        LineStyle style = LineStyle::Fine;
        int x = 0;
        int y = 0;
        auto operator<=>(const Key&) const = default;
    };
    struct Wish {
        Key key;
        ReferenceTile tile;
    };
    struct Tile {
        std::shared_ptr<const reference::Layer> layer;
        QImage image; ///< null: nothing is there
        std::list<Key>::iterator use;
    };
    struct Shown {
        LineStyle style = LineStyle::Fine;
        std::map<std::size_t, std::optional<model::Position>> labelPlaces;
    };

    void work();
    void take(const Key& key, std::shared_ptr<const reference::Layer> layer, const QImage& image);
    const QImage* find(const Key& key);
    LineStyle styleOf(const ReferenceSource& source, const ViewTransform& view);
    void paintSource(QPainter& painter, const ViewTransform& view, const ReferenceSource& source,
                     std::vector<Wish>& wishes);
    void paintStandIn(QPainter& painter, const ViewTransform& view, const Key& key, const QRectF& target);

    std::vector<ReferenceSource> m_sources;
    std::map<const void*, Shown> m_shown; ///< by layer
    std::map<Key, Tile> m_tiles;
    std::list<Key> m_byUse; ///< the most recently used first
    qint64 m_cachedBytes = 0;
    bool m_complete = true;

    std::mutex m_mutex; ///< over what follows
    std::condition_variable m_wake;
    std::vector<Wish> m_wishes;
    std::vector<Key> m_underWay;
    bool m_stop = false;
    std::vector<std::thread> m_workers;
};

} // namespace fencewright::desktop
