#include "session/outline_cache.h"

#include "airspace/outline.h"
#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/validity.h"
#include "session/drawn_lines.h"

#include <chrono>
#include <exception>
#include <optional>
#include <string_view>
#include <unordered_map>

namespace fencewright::session {
namespace {

using Clock = std::chrono::steady_clock;
using Outlined = std::shared_ptr<const OutlinedFence>;

// What one call may spend in the window's thread: a good third of a frame.
constexpr double kBudgetMilliseconds = 6.0;
constexpr double kAsking = 0.1; // what it takes to ask what an outline costs
// A job that takes longer brings what it has and goes on in the next.
constexpr std::chrono::milliseconds kJobLength{120};

double millisecondsSince(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>{Clock::now() - start}.count();
}

std::size_t cornersOf(const model::Polygon& polygon) {
    std::size_t count = polygon.shell.corners.size();
    for (const model::Ring& hole : polygon.holes)
        count += hole.corners.size();
    return count;
}

std::size_t cornersOf(const model::SiteGeometry& geometry) {
    struct Count {
        std::size_t operator()(const model::Position&) const { return 1; }
        std::size_t operator()(const model::LineString& line) const { return line.size(); }
        std::size_t operator()(const model::Polygon& polygon) const { return cornersOf(polygon); }
    };
    return std::visit(Count{}, geometry);
}

/// Roughly what the outline of a shape costs that was not computed before, in milliseconds of a laptop. From measured
/// figures: offsets take about a millisecond a corner, a repair a tenth of one.
struct Cost {
    const model::Site* site;

    double operator()(const model::DrawnPolygon& shape) const {
        const std::size_t corners = cornersOf(shape.polygon);
        constexpr std::size_t few = 60, many = 3'000;
        if (corners <= few || corners > many)
            return double(corners) * 0.002;
        return double(corners) * (geometry::isValid(shape.polygon) ? 0.002 : 0.1);
    }
    double operator()(const model::Circle&) const { return 1.0; }
    double operator()(const model::Corridor& shape) const { return double(shape.line.size()); }
    double operator()(const model::Setback&) const { return site ? double(cornersOf(site->geometry)) : 0.0; }
    double operator()(const model::ParcelUnion& shape) const {
        std::size_t corners = 0;
        for (const model::Parcel& parcel : shape.parcels)
            for (const model::Polygon& part : parcel.surface.parts)
                corners += cornersOf(part);
        return double(corners) * (shape.closing.length > Length{} ? 0.5 : 0.05);
    }
};

void findable(OutlinedFence& one) {
    one.box = {};
    one.rings.clear();
    for (const model::Polygon& part : one.surface.parts) {
        one.rings.emplace_back(part.shell.corners, true);
        for (const model::Ring& hole : part.holes)
            one.rings.emplace_back(hole.corners, true);
    }
    forEachDrawnLine(one.fence->shape,
                     [&](const model::LineString& corners, bool closed) { one.lines.emplace_back(corners, closed); });
    for (const auto* boxes : {&one.rings, &one.lines})
        for (const geometry::LineBoxes& line : *boxes)
            if (!line.box().empty())
                one.box.add(line.box());
    if (const auto* circle = std::get_if<model::Circle>(&one.fence->shape))
        one.box.add(circle->centre.lon, circle->centre.lat);
}

/// What stands in for an outline until it is there.
Outlined standIn(std::shared_ptr<const model::Fence> fence, std::shared_ptr<const model::Site> site,
                 const OutlinedFence* last) {
    auto result = std::make_shared<OutlinedFence>();
    result->fence = std::move(fence);
    result->site = std::move(site);
    result->pending = true;
    if (const auto* drawn = std::get_if<model::DrawnPolygon>(&result->fence->shape))
        result->surface = {{drawn->polygon}};
    else if (last)
        result->surface = last->surface;
    if (last) {
        result->area = last->area;
        result->milliseconds = last->milliseconds;
    }
    findable(*result);
    return result;
}

} // namespace

std::shared_ptr<const OutlinedFence> outlinedFence(std::shared_ptr<const model::Fence> fence,
                                                   std::shared_ptr<const model::Site> site) {
    const auto start = Clock::now();
    auto result = std::make_shared<OutlinedFence>();
    result->fence = std::move(fence);
    result->site = std::move(site);
    model::Roster<model::Site> sites;
    if (result->site)
        sites.insert(0, result->site);
    try {
        result->surface = airspace::outline(*result->fence, sites);
        result->closedGaps = airspace::closedGaps(*result->fence);
        result->area = geodesy::measure(result->surface).area;
    } catch (const std::exception& fault) {
        result->surface = {};
        result->fault = fault.what();
    }
    findable(*result);
    result->milliseconds = millisecondsSince(start);
    return result;
}

OutlineCache::OutlineCache(BackgroundJobs* jobs, QObject* parent) : QObject{parent}, m_jobs{jobs} {}

bool OutlineCache::isUnchanged(const model::FenceSet& set) const {
    if (set.fences.size() != m_fences.size())
        return false;
    for (std::size_t i = 0; i < m_fences.size(); ++i)
        if (set.fences.pointer(i).get() != m_fences[i])
            return false;
    if (!m_hasSetbacks)
        return true;
    if (set.sites.size() != m_sites.size())
        return false;
    for (std::size_t i = 0; i < m_sites.size(); ++i)
        if (set.sites.pointer(i) != m_sites[i])
            return false;
    return true;
}

const std::vector<std::shared_ptr<const OutlinedFence>>& OutlineCache::outlined(const model::FenceSet& set) {
    if (isUnchanged(set))
        return m_outlined;
    m_sites.clear();
    std::unordered_map<std::string_view, std::size_t> siteOf;
    for (std::size_t i = 0; i < set.sites.size(); ++i) {
        m_sites.push_back(set.sites.pointer(i));
        siteOf.emplace(set.sites[i].id.value, i);
    }
    // Most often one fence is another at its place; only if fences came or went are they looked for by identity.
    std::optional<std::unordered_map<std::string_view, Outlined>> byId;
    const auto before = [&](std::size_t i, const model::FenceId& id) -> Outlined {
        if (i < m_outlined.size() && m_outlined[i]->fence->id == id)
            return m_outlined[i];
        if (!byId) {
            byId.emplace();
            for (const Outlined& one : m_outlined)
                byId->emplace(one->fence->id.value, one);
        }
        const auto found = byId->find(id.value);
        return found == byId->end() ? nullptr : found->second;
    };
    std::vector<Outlined> now;
    now.reserve(set.fences.size());
    std::vector<Shape> pending, older;
    m_hasSetbacks = false;
    double budget = kBudgetMilliseconds;
    for (std::size_t i = 0; i < set.fences.size(); ++i) {
        const auto& fence = set.fences.pointer(i);
        std::shared_ptr<const model::Site> site;
        if (const auto* setback = std::get_if<model::Setback>(&fence->shape)) {
            m_hasSetbacks = true;
            if (const auto found = siteOf.find(setback->site.value); found != siteOf.end())
                site = m_sites[found->second];
        }
        const Outlined last = i < m_fences.size() && m_fences[i] == fence.get() ? m_outlined[i] : before(i, fence->id);
        if (last && last->fence == fence && last->site == site) {
            now.push_back(last);
            if (last->pending)
                older.push_back({fence, site});
            continue;
        }
        if (m_jobs) {
            // Once the budget is spent nobody asks what more would cost.
            const double cost = budget <= 0.0                      ? 1.0
                                : last && last->milliseconds > 0.0 ? last->milliseconds
                                                                   : std::visit(Cost{site.get()}, fence->shape);
            if (cost > budget) {
                budget -= kAsking;
                now.push_back(standIn(fence, site, last.get()));
                pending.push_back({fence, site});
                continue;
            }
            budget -= cost;
        }
        now.push_back(outlinedFence(fence, std::move(site)));
    }
    // What is newest is looked at: it goes first. What is not in the set any more need not be computed.
    pending.insert(pending.end(), older.begin(), older.end());
    m_pending = std::move(pending);
    put(std::move(now));
    computePending();
    return m_outlined;
}

void OutlineCache::put(std::vector<std::shared_ptr<const OutlinedFence>> now) {
    if (m_places.size() == 0) {
        std::vector<geometry::Box> boxes;
        for (const Outlined& one : now)
            boxes.push_back(one->box);
        m_places = geometry::ChangingIndex{std::move(boxes)};
    } else {
        for (std::size_t i = 0; i < now.size(); ++i)
            if (i >= m_outlined.size() || m_outlined[i] != now[i])
                m_places.set(i, now[i]->box);
        for (std::size_t i = now.size(); i < m_outlined.size(); ++i)
            m_places.remove(i);
    }
    m_fences.resize(now.size());
    for (std::size_t i = 0; i < now.size(); ++i)
        if (i >= m_outlined.size() || m_outlined[i] != now[i])
            m_fences[i] = now[i]->fence.get();
    m_outlined = std::move(now);
    ++m_number;
}

void OutlineCache::computePending() {
    if (m_running || m_pending.empty() || !m_jobs)
        return;
    m_running = m_jobs->start(
        tr("Outlines"),
        [shapes = m_pending](const Progress& progress) {
            const auto start = Clock::now();
            std::vector<Outlined> made;
            for (const Shape& shape : shapes) {
                progress.report(double(made.size()) / double(shapes.size()), phrase("core", "Computing outlines"));
                made.push_back(outlinedFence(shape.fence, shape.site));
                if (Clock::now() - start > kJobLength)
                    break;
            }
            return made;
        },
        [this](std::vector<Outlined> arrived) {
            m_running.clear();
            take(arrived);
        },
        [this](const Fault&) { m_running.clear(); });
    connect(m_running, &BackgroundJob::finished, this, [this, job = m_running.data(), shapes = m_pending] {
        if (m_running != job)
            return;
        // A person has cancelled it: the next change computes what is missing, also one that has come meanwhile.
        m_running.clear();
        if (m_pending != shapes)
            computePending();
    });
}

void OutlineCache::take(const std::vector<std::shared_ptr<const OutlinedFence>>& arrived) {
    std::unordered_map<std::string_view, const Outlined*> byId;
    for (const Outlined& one : arrived)
        byId.emplace(one->fence->id.value, &one);
    std::vector<Outlined> now = m_outlined;
    for (Outlined& one : now) {
        if (!one->pending)
            continue;
        const auto found = byId.find(one->fence->id.value);
        if (found == byId.end())
            continue;
        const Outlined& made = *found->second;
        // Of a state that has passed meanwhile, it is still the nearest there is.
        one = made->fence == one->fence && made->site == one->site ? made : standIn(one->fence, one->site, made.get());
    }
    put(std::move(now));
    std::erase_if(m_pending, [&](const Shape& shape) {
        const auto found = byId.find(shape.fence->id.value);
        return found != byId.end() && (*found->second)->fence == shape.fence && (*found->second)->site == shape.site;
    });
    emit settled();
    computePending();
}

} // namespace fencewright::session
