#include "desktop/canvas/label_places.h"

#include "desktop/canvas/plane_line.h"
#include "geometry/containment.h"
#include "session/quiet_thread.h"

#include <QElapsedTimer>

#include <algorithm>
#include <cmath>
#include <exception>
#include <numbers>
#include <utility>

namespace fencewright::desktop {
namespace {

constexpr qint64 kAtOnceNanoseconds = 1'000'000;
constexpr std::size_t kFewCorners = 400;
constexpr std::size_t kMostInAJob = 40;

std::size_t cornersOf(const model::MultiPolygon& surface) {
    std::size_t corners = 0;
    for (const model::Polygon& part : surface.parts) {
        corners += part.shell.corners.size();
        for (const model::Ring& hole : part.holes)
            corners += hole.corners.size();
    }
    return corners;
}

} // namespace

LabelPlaces::LabelPlaces(QObject* parent) : QObject{parent} { m_pool.setMaxThreadCount(1); }

LabelPlaces::~LabelPlaces() {
    m_pool.clear();
    m_pool.waitForDone();
}

std::optional<model::Position> LabelPlaces::sought(const session::OutlinedFence& fence) {
    constexpr double detail = 1.0 / 300.0; // of the fence's size
    const double squeeze = std::max(0.01, std::cos((fence.box.minY + fence.box.maxY) / 2.0 * std::numbers::pi / 180.0));
    const double size = std::max((fence.box.maxX - fence.box.minX) * squeeze, fence.box.maxY - fence.box.minY);
    const auto simpler = [&](const model::Ring& ring) {
        std::vector<QPointF> line;
        for (const model::Position& corner : ring.corners)
            line.emplace_back(corner.lon * squeeze, corner.lat);
        model::Ring result;
        for (const QPointF& point : decimated(line, size * detail, true))
            result.corners.push_back({point.x() / squeeze, point.y()});
        return result;
    };
    model::MultiPolygon surface;
    for (const model::Polygon& part : fence.surface.parts) {
        model::Polygon one{simpler(part.shell), {}};
        if (one.shell.corners.size() < 3)
            continue;
        for (const model::Ring& hole : part.holes)
            if (model::Ring ring = simpler(hole); ring.corners.size() >= 3)
                one.holes.push_back(std::move(ring));
        surface.parts.push_back(std::move(one));
    }
    try {
        return geometry::labelPlace(surface);
    } catch (const std::exception&) {
        return std::nullopt; // no place for a name on an outline that cannot be computed with; the audit speaks of it
    }
}

void LabelPlaces::begin() {
    m_wanted.clear();
    m_soughtNanoseconds = 0;
}

std::optional<model::Position> LabelPlaces::find(const Outlined& fence) {
    const auto known = m_places.find(fence->fence->id.value);
    if (known != m_places.end() && known->second.fence.lock() == fence)
        return known->second.place;
    if (m_soughtNanoseconds < kAtOnceNanoseconds && cornersOf(fence->surface) <= kFewCorners) {
        QElapsedTimer clock;
        clock.start();
        const auto place = (m_places[fence->fence->id.value] = {fence, sought(*fence)}).place;
        m_soughtNanoseconds += clock.nsecsElapsed();
        return place;
    }
    m_wanted.push_back(fence);
    return known == m_places.end() ? std::nullopt : known->second.place;
}

void LabelPlaces::end() {
    // A fence that is gone leaves its place behind; they are swept out once they are many.
    constexpr std::size_t many = 40'000;
    if (m_places.size() > many)
        m_places.clear();
    if (m_running || m_wanted.empty())
        return;
    m_running = true;
    m_wanted.resize(std::min(m_wanted.size(), kMostInAJob));
    m_pool.start([this, wanted = m_wanted] {
        session::comeAfterTheWindow();
        auto found = std::make_shared<std::vector<std::pair<Outlined, std::optional<model::Position>>>>();
        for (const Outlined& fence : wanted)
            found->emplace_back(fence, sought(*fence));
        QMetaObject::invokeMethod(
            this,
            [this, found] {
                m_running = false;
                for (const auto& [fence, place] : *found)
                    m_places[fence->fence->id.value] = {fence, place};
                emit arrived();
            },
            Qt::QueuedConnection);
    });
}

} // namespace fencewright::desktop
