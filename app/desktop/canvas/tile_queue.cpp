#include "desktop/canvas/tile_queue.h"

#include "fault.h"
#include "session/quiet_thread.h"
#include "session/translated.h"

#include <QTimer>

#include <algorithm>
#include <tuple>

namespace fencewright::desktop {
namespace {

constexpr std::size_t kOpenDatasets = 8; // of a thread
constexpr int kServerWorkers = 4;        // they wait more than they work
constexpr std::size_t kDelivered = 4;    // tiles at once: between them the window's thread does its other work

} // namespace

const geodesy::MapPlane& TileBench::plane(const geodesy::MapPlane::Definition& definition) {
    if (!m_plane || m_plane->definition() != definition)
        m_plane.emplace(definition);
    return *m_plane;
}

const raster::Dataset& TileBench::dataset(const std::shared_ptr<const RasterOpening>& opening) {
    const auto at = std::find_if(m_open.begin(), m_open.end(), [&](const Open& one) {
        return !one.opening.owner_before(opening) && !opening.owner_before(one.opening);
    });
    if (at != m_open.end()) {
        m_open.splice(m_open.begin(), m_open, at);
    } else {
        if (m_open.size() >= kOpenDatasets)
            m_open.pop_back();
        auto spare = opening->spare ? opening->spare->take(opening->path, opening->options) : std::nullopt;
        m_open.push_front({opening, spare ? std::make_unique<raster::Dataset>(std::move(*spare))
                                          : std::make_unique<raster::Dataset>(opening->path, opening->options)});
    }
    return *m_open.front().dataset;
}

void TileBench::closeUnused() {
    std::erase_if(m_open, [](const Open& one) { return one.opening.expired(); });
}

TileQueue::TileQueue(QObject* parent) : QObject{parent} {}

TileQueue::~TileQueue() {
    {
        const std::lock_guard lock{m_mutex};
        m_stop = true;
        m_wanted.clear();
        for (const UnderWay& one : m_underWay)
            one.stop->store(true);
    }
    m_wake.notify_all();
    for (Crew& crew : m_crews)
        for (std::thread& thread : crew.threads)
            thread.join();
}

int TileQueue::workersOf(TileJob::Lane lane) {
    return lane == TileJob::Lane::Server ? kServerWorkers : std::clamp(int(std::thread::hardware_concurrency()), 2, 4);
}

TileQueue::Client TileQueue::join(Receiver receiver) {
    m_receivers.emplace(m_nextClient, std::move(receiver));
    return m_nextClient++;
}

void TileQueue::leave(Client client) {
    m_receivers.erase(client);
    want(client, {});
}

bool TileQueue::isStarted(TileJob::Lane lane) const {
    return std::any_of(m_crews.begin(), m_crews.end(), [&](const Crew& crew) { return crew.lane == lane; });
}

void TileQueue::start(TileJob::Lane lane, const std::function<void()>& preparation) {
    if (isStarted(lane))
        return;
    m_crews.push_back({lane, {}});
    for (int i = 0; i < workersOf(lane); ++i)
        m_crews.back().threads.emplace_back([this, lane, preparation] {
            session::comeAfterTheWindow();
            preparation();
            work(lane);
        });
}

void TileQueue::want(Client client, std::vector<TileJob> jobs) {
    for (const TileJob& job : jobs)
        if (!isStarted(job.lane))
            start(job.lane, [] {});
    bool any = false;
    {
        const std::lock_guard lock{m_mutex};
        std::erase_if(m_wanted, [&](const Wanted& one) { return one.client == client; });
        for (const UnderWay& one : m_underWay)
            if (one.client == client &&
                std::none_of(jobs.begin(), jobs.end(), [&](const TileJob& job) { return job.key == one.key; }))
                one.stop->store(true);
        // Made already, but not yet delivered.
        const auto isMade = [&](const TileJob& job) {
            return std::any_of(m_done.begin(), m_done.end(),
                               [&](const Done& done) { return done.client == client && done.tile.key == job.key; });
        };
        const auto isUnderWay = [&](const TileJob& job) {
            return std::any_of(m_underWay.begin(), m_underWay.end(), [&](const UnderWay& one) {
                return one.client == client && one.key == job.key && !one.stop->load();
            });
        };
        for (TileJob& job : jobs)
            if (!isUnderWay(job) && !isMade(job)) {
                m_wanted.push_back({client, std::move(job)});
                any = true;
            }
    }
    // Whoever wakes a thread may lose the processor to it for a tick of the scheduler, longer than a frame takes: so
    // not amid the frame that asks for tiles, but when it is painted.
    if (any && !std::exchange(m_wakeAsked, true))
        QTimer::singleShot(0, this, [this] {
            m_wakeAsked = false;
            m_wake.notify_all();
        });
}

void TileQueue::closeUnused() {
    {
        const std::lock_guard lock{m_mutex};
        ++m_closing;
    }
    m_wake.notify_all();
}

std::optional<TileQueue::Wanted> TileQueue::next(TileJob::Lane lane) {
    auto best = m_wanted.end();
    for (auto at = m_wanted.begin(); at != m_wanted.end(); ++at)
        if (at->job.lane == lane && (best == m_wanted.end() || std::tie(at->job.stage, at->job.distance) <
                                                                   std::tie(best->job.stage, best->job.distance)))
            best = at;
    if (best == m_wanted.end())
        return std::nullopt;
    Wanted wanted = std::move(*best);
    m_wanted.erase(best);
    return wanted;
}

void TileQueue::work(TileJob::Lane lane) {
    TileBench bench;
    std::uint64_t closed = 0;
    while (true) {
        std::optional<Wanted> wanted;
        const auto stop = std::make_shared<std::atomic<bool>>(false);
        bool closes = false;
        {
            std::unique_lock lock{m_mutex};
            m_wake.wait(lock,
                        [&] { return m_stop || closed != m_closing || (wanted = next(lane), wanted.has_value()); });
            if (m_stop)
                return;
            closes = std::exchange(closed, m_closing) != m_closing;
            if (wanted)
                m_underWay.push_back({wanted->client, wanted->job.key, stop});
        }
        if (closes)
            bench.closeUnused();
        if (!wanted)
            continue;
        MadeTile made{wanted->job.key, {}, {}, wanted->job.ground};
        bool cancelled = false;
        try {
            made.image = wanted->job.make(bench, Progress{[&stop](double, std::string_view) { return !stop->load(); }});
        } catch (const Cancelled&) {
            cancelled = true;
        } catch (const Fault& fault) {
            made.fault = session::translated(fault);
            made.reason = session::translatedWithoutPlace(fault);
        } catch (const std::exception& problem) {
            made.fault = made.reason = QString::fromUtf8(problem.what());
        }
        wanted->job.make = {}; // what it holds is let go here, not in the window's thread
        bool asks = false;
        {
            const std::lock_guard lock{m_mutex};
            std::erase_if(m_underWay, [&](const UnderWay& one) { return one.stop == stop; });
            if (!cancelled) {
                m_done.push_back({wanted->client, std::move(made)});
                asks = !std::exchange(m_deliveryAsked, true);
            }
        }
        if (asks)
            QMetaObject::invokeMethod(this, &TileQueue::deliver, Qt::QueuedConnection);
    }
}

void TileQueue::deliver() {
    std::vector<Done> piece;
    bool more = false;
    {
        const std::lock_guard lock{m_mutex};
        while (!m_done.empty() && piece.size() < kDelivered) {
            piece.push_back(std::move(m_done.front()));
            m_done.pop_front();
        }
        more = m_deliveryAsked = !m_done.empty();
    }
    for (Done& done : piece)
        if (const auto at = m_receivers.find(done.client); at != m_receivers.end())
            at->second(std::move(done.tile));
    if (more) // by a timer: a posted event would come before painting
        QTimer::singleShot(0, this, &TileQueue::deliver);
}

} // namespace fencewright::desktop
