#pragma once

#include <QImage>
#include <QObject>
#include <QPainter>

#include "desktop/canvas/view_transform.h"

#include <condition_variable>
#include <cstdint>
#include <list>
#include <map>
#include <mutex>
#include <optional>
#include <thread>
#include <tuple>
#include <vector>

namespace fencewright::desktop {

/// An image source as the map shows it.
struct ImagerySource {
    QString id;
    QString path;
    QString crs;      ///< the person's word; empty: its own
    Length pixelSize; ///< on the ground: nothing finer is asked for
    std::vector<model::Position> corners;
    double opacity = 1.0;
};

/// Imagery as tiles of the map's own plane, read and warped on threads of its own; what is seen comes first, what is no
/// longer seen is not read any more. Until a tile is there, a coarser or finer one stands in.
class TileLayer : public QObject {
    Q_OBJECT

public:
    static constexpr int kTilePixels = 512;
    static constexpr qint64 kCacheBytes = 256LL * 1024 * 1024;

    explicit TileLayer(QObject* parent = nullptr);
    ~TileLayer() override;

    /// In drawing order.
    void setSources(std::vector<ImagerySource> sources);
    /// Paints what is there, and asks for what is missing.
    void paint(QPainter& painter, const ViewTransform& view);
    /// Whether all that the last painting wanted was there.
    bool isComplete() const { return m_complete; }
    qint64 cachedBytes() const { return m_cachedBytes; }

signals:
    void tileArrived();
    /// A source could not be read; said once for each.
    void sourceFailed(const QString& id, const QString& words);

private:
    /// Level n has 2^n metres a pixel.
    struct Key {
        std::uint64_t source = 0;
        std::uint64_t plane = 0;
        int level = 0;
        int x = 0;
        int y = 0;
        auto operator<=>(const Key&) const = default;
    };
    struct Wish {
        Key key;
        std::string path;
        std::string crs;
        geodesy::MapPlane::Definition plane;
    };
    struct Tile {
        QImage image; ///< null: nothing is there
        std::list<Key>::iterator use;
    };
    struct Layer {
        ImagerySource source;
        std::uint64_t number = 0; ///< another path, another number
        bool failed = false;
    };

    void work();
    void take(const Key& key, const QImage& image, const QString& fault);
    const QImage* find(const Key& key);
    void paintLayer(QPainter& painter, const ViewTransform& view, const Layer& layer, std::vector<Wish>& wishes);
    bool paintStandIn(QPainter& painter, const ViewTransform& view, const Key& key);

    std::vector<Layer> m_layers;
    std::uint64_t m_nextNumber = 1;
    std::map<Key, Tile> m_tiles;
    std::list<Key> m_byUse; ///< the most recently used first
    qint64 m_cachedBytes = 0;
    bool m_complete = true;

    std::mutex m_mutex; ///< guards what follows
    std::condition_variable m_wake;
    std::vector<Wish> m_wishes; ///< the most wanted first
    std::vector<Key> m_underWay;
    bool m_stop = false;
    std::vector<std::thread> m_workers;
};

} // namespace fencewright::desktop
