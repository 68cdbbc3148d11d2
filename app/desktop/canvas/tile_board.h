#pragma once

#include <QObject>
#include <QPainter>
#include <QTimer>

#include "desktop/canvas/tile_queue.h"
#include "desktop/canvas/tile_store.h"
#include "desktop/canvas/view_transform.h"

#include <chrono>
#include <optional>
#include <set>

namespace fencewright::desktop {

/// How well tiles are painted.
enum class TileQuality {
    Fast, ///< amid a motion
    Fine
};

/// A tile that a view needs.
struct WantedTile {
    TileKey key;
    QRectF ground; ///< as TileStore::Tile
    TileJob::Lane lane = TileJob::Lane::Local;
    bool standIn = false; ///< coarse: not painted itself, but where finer ones are missing
};

/// What one source shows in a view.
struct WantedLayer {
    std::uint64_t layer = 0;
    double opacity = 1.0;
    std::optional<QPointF> crsOrigin; ///< of the plane, where the raster lies in it without warping
    std::optional<TileKey> lent;      ///< of a picture of all of it, see TileBoard::lend()
    std::vector<WantedTile> tiles;
    /// What came into sight and left it before it was made, and is still near: made after all else, so that the way
    /// back is ready. The board's own.
    std::vector<WantedTile> left;
    /// What a thread does to make one of them.
    std::function<decltype(TileJob::make)(const WantedTile& tile)> maker;
};

/// Tiles of several sources in a view: asks the queue for those that are missing, keeps what was made, paints what is
/// there. Where a tile is missing, the nearest coarser or finer ones stand in.
class TileBoard : public QObject {
    Q_OBJECT

public:
    TileBoard(TileQueue& queue, qint64 byteLimit, QObject* parent = nullptr);
    ~TileBoard() override;

    /// What the view shows from now on, in drawing order. Those that are missing are asked for.
    void show(std::vector<WantedLayer> layers, const ViewTransform& view);
    /// The same, but nothing is asked for: the next view follows at once.
    void showWithoutAsking(std::vector<WantedLayer> layers, const ViewTransform& view);
    /// A coarse picture of all of a layer, which is there before any view asked for it: it stands in like a tile.
    void lend(const TileKey& key, QImage image, const QRectF& ground);
    /// Drops the tiles of all other layers.
    void keepOnly(const std::vector<std::uint64_t>& layers);

    /// Paints what reaches into `seen`, in widget pixels.
    void paint(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality);

    /// Counts up whenever what was painted before is void: other sources, another order, opacity, style or level.
    std::uint64_t arrangement() const { return m_arrangement; }
    /// Whether everything of the last view is there.
    bool isComplete() const { return m_complete; }
    qint64 bytes() const { return m_store.bytes(); }
    qint64 byteLimit() const { return m_store.byteLimit(); }

signals:
    /// What is seen in that part of the plane changed.
    void arrived(const QRectF& plane);
    /// @param reason  the words without the place.
    void failed(quint64 layer, const QString& words, const QString& reason);
    /// Of a layer that failed: all that the view shows of it is there now.
    void whole(quint64 layer);

private:
    using Clock = std::chrono::steady_clock;
    /// A tile that may stand in for others.
    struct Other {
        TileKey key;
        QRectF plane;
        const QImage* image = nullptr;
    };

    void keepWhatWasLeft(WantedLayer& layer, const WantedLayer& before, const ViewTransform& view);
    std::vector<TileJob> arrange(std::vector<WantedLayer> layers, const ViewTransform& view);
    void take(MadeTile made);
    void settleTrouble();
    std::vector<Other> othersOf(const WantedLayer& layer, const QRectF& seenPlane) const;
    void paintStandIn(QPainter& painter, const ViewTransform& view, const WantedTile& missing, const QRectF& plane,
                      const std::vector<Other>& others, TileQuality quality);

    TileQueue& m_queue;
    TileQueue::Client m_client;
    TileStore m_store;
    std::vector<WantedLayer> m_layers;
    std::map<TileKey, Clock::time_point> m_failed; ///< when it is tried again
    std::set<std::uint64_t> m_troubled;            ///< layers of which some failed, until all of it is there
    QTimer m_again;                                ///< for nobody may ask before
    std::uint64_t m_planeNumber = 0;
    std::uint64_t m_arrangement = 0;
    bool m_complete = true;
};

} // namespace fencewright::desktop
