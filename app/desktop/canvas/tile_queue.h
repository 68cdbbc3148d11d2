#pragma once

#include <QImage>
#include <QObject>
#include <QRectF>
#include <QString>

#include "geodesy/map_plane.h"
#include "progress.h"
#include "raster/dataset.h"
#include "session/spare_dataset.h"

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace fencewright::desktop {

/// Which tile: equal keys, the very same picture.
struct TileKey {
    std::uint64_t layer = 0;     ///< another state of a source, another number
    std::uint64_t plane = 0;     ///< ViewTransform::planeNumber(); 0: of no plane, but of a raster's own pyramid
    int kind = 0;                ///< which level of the pyramid, or how lines are drawn
    double metresPerPixel = 1.0; ///< of the tile
    int x = 0;
    int y = 0;

    auto operator<=>(const TileKey&) const = default;
};

/// A raster as it is to be opened; each thread opens its own.
struct RasterOpening {
    std::string path;
    raster::OpenOptions options;
    std::shared_ptr<session::SpareDataset> spare; ///< open already, for the first; may be null
};

/// What a thread keeps from one tile to the next.
class TileBench {
public:
    const geodesy::MapPlane& plane(const geodesy::MapPlane::Definition& definition);
    /// Opened when it is asked for first.
    /// @throws Fault  as raster::Dataset.
    const raster::Dataset& dataset(const std::shared_ptr<const RasterOpening>& opening);
    /// Closes rasters that nobody shows any more.
    void closeUnused();

private:
    struct Open {
        std::weak_ptr<const RasterOpening> opening;
        std::unique_ptr<raster::Dataset> dataset;
    };
    std::optional<geodesy::MapPlane> m_plane;
    std::list<Open> m_open; ///< the most recently used first
};

/// A tile to be made.
struct TileJob {
    /// What waits for a server must not hold up what lies on the disk.
    enum class Lane { Local, Server };

    TileKey key;
    Lane lane = Lane::Local;
    int stage = 0;         ///< lower ones first: the coarse picture of all before any part of the fine one
    double distance = 0.0; ///< of the tile from the middle of the view, in pixels: the nearest first
    /// On a thread of the queue. A null image: nothing is there.
    /// @throws Fault, Cancelled
    std::function<QImage(TileBench& bench, const Progress& progress)> make;
    QRectF ground{}; ///< handed through to MadeTile
};

struct MadeTile {
    TileKey key;
    QImage image;  ///< null: nothing is there
    QString fault; ///< why it could not be made, where, and what to do; empty: it was
    QRectF ground;
    QString reason{}; ///< the same without the place
};

/// Makes tiles on threads of its own, for all layers of a map: what the newest view wants, the coarsest and the nearest
/// first. What no view wants any more is not begun, and stops at its next report of progress if it was.
class TileQueue : public QObject {
    Q_OBJECT

public:
    using Client = int;
    /// Called in the window's thread.
    using Receiver = std::function<void(MadeTile tile)>;

    explicit TileQueue(QObject* parent = nullptr);
    ~TileQueue() override;

    Client join(Receiver receiver);
    /// Nothing is delivered to it any more.
    void leave(Client client);

    /// All that the client wants from now on; what is under way already goes on. Threads that rest are woken when the
    /// event loop comes round.
    void want(Client client, std::vector<TileJob> jobs);
    /// Tells the threads to close what nobody shows any more.
    void closeUnused();

    /// Starts the threads of a lane before there is work for them; each does the preparation first.
    void start(TileJob::Lane lane, const std::function<void()>& preparation);

    /// The threads of a lane.
    static int workersOf(TileJob::Lane lane);

private:
    struct Wanted {
        Client client = 0;
        TileJob job;
    };
    struct UnderWay {
        Client client = 0;
        TileKey key;
        std::shared_ptr<std::atomic<bool>> stop;
    };
    struct Done {
        Client client = 0;
        MadeTile tile;
    };
    struct Crew {
        TileJob::Lane lane = TileJob::Lane::Local;
        std::vector<std::thread> threads;
    };

    bool isStarted(TileJob::Lane lane) const;
    void work(TileJob::Lane lane);
    std::optional<Wanted> next(TileJob::Lane lane);
    void deliver();

    std::map<Client, Receiver> m_receivers;
    Client m_nextClient = 1;
    std::vector<Crew> m_crews;
    bool m_wakeAsked = false;

    std::mutex m_mutex; ///< over what follows; never held while a tile is made
    std::condition_variable m_wake;
    std::vector<Wanted> m_wanted;
    std::vector<UnderWay> m_underWay;
    std::deque<Done> m_done;
    bool m_deliveryAsked = false;
    std::uint64_t m_closing = 0; ///< counts the calls of closeUnused()
    bool m_stop = false;
};

} // namespace fencewright::desktop
