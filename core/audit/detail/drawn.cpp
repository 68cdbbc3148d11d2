#include "audit/detail/drawn.h"

#include "airspace/outline.h"
#include "fault.h"
#include "geometry/containment.h"
#include "geometry/spatial_index.h"
#include "geometry/validity.h"
#include "units/measure_notation.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>
#include <utility>
#include <variant>

namespace fencewright::audit::detail {
namespace {

template <class... Callables> struct Overloaded : Callables... { using Callables::operator()...; };
template <class... Callables> Overloaded(Callables...) -> Overloaded<Callables...>;

bool finite(model::Position place) { return std::isfinite(place.lon) && std::isfinite(place.lat); }

std::optional<model::Position> firstFinite(const std::vector<model::Position>& places) {
    const auto found = std::find_if(places.begin(), places.end(), finite);
    return found == places.end() ? std::nullopt : std::optional{*found};
}

std::optional<model::Position> placeOfSite(const model::SiteGeometry& geometry) {
    return std::visit(Overloaded{[](const model::Position& place) { return firstFinite({place}); },
                                 [](const model::LineString& line) { return firstFinite(line); },
                                 [](const model::Polygon& polygon) { return firstFinite(polygon.shell.corners); }},
                      geometry);
}

} // namespace

std::vector<const model::Polygon*> drawnPolygons(const model::Fence& fence) {
    std::vector<const model::Polygon*> polygons;
    if (const auto* drawn = std::get_if<model::DrawnPolygon>(&fence.shape))
        polygons.push_back(&drawn->polygon);
    if (const auto* parcels = std::get_if<model::ParcelUnion>(&fence.shape))
        for (const auto& parcel : parcels->parcels)
            for (const auto& part : parcel.surface.parts)
                polygons.push_back(&part);
    return polygons;
}

model::Fence withDrawn(model::Fence fence, std::size_t polygon, const model::MultiPolygon& surface) {
    if (auto* drawn = std::get_if<model::DrawnPolygon>(&fence.shape)) {
        if (surface.parts.size() == 1)
            drawn->polygon = surface.parts.front();
        else
            fence.shape = model::ParcelUnion{{{"", surface}}, {}};
    } else if (auto* parcels = std::get_if<model::ParcelUnion>(&fence.shape)) {
        for (auto& parcel : parcels->parcels) {
            auto& parts = parcel.surface.parts;
            if (polygon < parts.size()) {
                const auto at = parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(polygon));
                parts.insert(at, surface.parts.begin(), surface.parts.end());
                break;
            }
            polygon -= parts.size();
        }
    }
    return fence;
}

Wording nameOf(const model::Fence& fence) {
    if (!fence.name.empty())
        return phrase("core", "\"%1\"")(fence.name);
    return fence.kind == model::FenceKind::KeepIn ? phrase("core", "a keep-in without a name")
                                                  : phrase("core", "a keep-out without a name");
}

Wording beginWith(const model::Fence& fence) {
    if (!fence.name.empty())
        return nameOf(fence);
    return fence.kind == model::FenceKind::KeepIn ? phrase("core", "A keep-in without a name")
                                                  : phrase("core", "A keep-out without a name");
}

std::string statedWords(const StatedLength& length) {
    return length.asWritten.empty() ? units::formatLength(length.length, units::System::Metric) : length.asWritten;
}

Wording homeWords(const model::Home& home) {
    return home.kind == model::HomeKind::Home ? phrase("core", "Home \"%1\"")(home.name)
                                              : phrase("core", "Alternate \"%1\"")(home.name);
}

Wording ringWords(const model::Fence& fence, std::size_t polygon, std::size_t ring) {
    const Wording words = ring == 0 ? Wording{phrase("core", "the outline")} : phrase("core", "hole %1")(ring);
    const auto* parcels = std::get_if<model::ParcelUnion>(&fence.shape);
    if (!parcels)
        return words;
    for (const auto& parcel : parcels->parcels) {
        if (polygon < parcel.surface.parts.size())
            return parcel.number.empty() ? phrase("core", "a parcel, %1")(words)
                                         : phrase("core", "parcel %1, %2")(parcel.number, words);
        polygon -= parcel.surface.parts.size();
    }
    return words;
}

std::optional<model::Edit> safeRepair(const Subject& subject, model::Fence repaired, Wording title) {
    const auto before = subject.outlines.find(repaired.id);
    if (before == subject.outlines.end())
        return std::nullopt;
    try {
        const auto after = airspace::outline(repaired, subject.set.sites);
        const bool safe = repaired.kind == model::FenceKind::KeepOut ? geometry::contains(after, before->second)
                                                                     : geometry::contains(before->second, after);
        if (!safe)
            return std::nullopt;
        return model::replaceFence(subject.set, std::move(repaired), std::move(title));
    } catch (const Fault&) {
        return std::nullopt; // what cannot be computed cannot be proved safe
    }
}

std::optional<model::Edit> DrawnRepairs::of(const model::Fence& fence, std::size_t polygon) {
    const auto [at, isNew] = m_made.try_emplace({fence.id, polygon});
    if (!isNew)
        return at->second;
    constexpr std::size_t most = 20'000; // repairs take more than in proportion: seconds here, minutes at 300,000
    const auto& drawn = *drawnPolygons(fence)[polygon];
    std::size_t corners = drawn.shell.corners.size();
    for (const auto& hole : drawn.holes)
        corners += hole.corners.size();
    if (corners > most)
        return std::nullopt;
    try {
        const auto surface = geometry::repaired(drawn, airspace::safeSide(fence.kind)).surface;
        if (!surface.empty())
            at->second = safeRepair(m_subject, withDrawn(fence, polygon, surface),
                                    phrase("core", "Repair the outline of %1")(nameOf(fence)));
    } catch (const Fault&) {
        // There is none.
    }
    return at->second;
}

void reportDrawn(const Subject& subject, const Report& report, std::initializer_list<geometry::FaultKind> kinds,
                 const std::function<Wording(const model::Fence&, const DrawnFault&)>& words,
                 const std::function<std::optional<model::Edit>(const model::Fence&, const DrawnFault&)>& repair) {
    for (const auto& fence : subject.set.fences) {
        const auto found = subject.drawnFaults.find(fence.id);
        if (found == subject.drawnFaults.end())
            continue;
        for (const auto& one : found->second) {
            if (std::find(kinds.begin(), kinds.end(), one.fault.kind) == kinds.end())
                continue;
            Finding finding;
            finding.fence = fence.id;
            if (finite(one.fault.place))
                finding.place = one.fault.place;
            finding.words = Wording::joined({beginWith(fence), words(fence, one)}, ": ");
            if (repair)
                finding.repair = repair(fence, one);
            report(std::move(finding));
        }
    }
}

std::optional<model::Position> placeOf(const Subject& subject, const model::FenceId& id) {
    const auto found = subject.outlines.find(id);
    if (found == subject.outlines.end() || found->second.empty())
        return std::nullopt;
    return firstFinite(found->second.parts.front().shell.corners);
}

std::optional<model::Position> drawnPlace(const model::Fence& fence, const model::FenceSet& set) {
    return std::visit(
        Overloaded{[](const model::DrawnPolygon& shape) { return firstFinite(shape.polygon.shell.corners); },
                   [](const model::Circle& shape) { return firstFinite({shape.centre}); },
                   [](const model::Corridor& shape) { return firstFinite(shape.line); },
                   [&](const model::Setback& shape) {
                       const auto* site = set.sites.find(shape.site);
                       return site ? placeOfSite(site->geometry) : std::nullopt;
                   },
                   [](const model::ParcelUnion& shape) {
                       for (const auto& parcel : shape.parcels)
                           for (const auto& part : parcel.surface.parts)
                               if (const auto place = firstFinite(part.shell.corners))
                                   return place;
                       return std::optional<model::Position>{};
                   }},
        fence.shape);
}

bool isUsable(model::Position place) {
    return finite(place) && std::abs(place.lat) <= 89.0 && std::abs(place.lon) <= 540.0;
}

model::MultiPolygon areaAround(const model::MultiPolygon& area, model::Position place, Length reach) {
    // A degree of latitude has over 110 km everywhere; one of longitude that much less as it lies nearer the pole.
    constexpr double metres = 110'000.0, leastShare = 0.01;
    const double high = std::max(0.0, reach.inMetres()) / metres;
    const double share = std::cos(std::min(89.9, std::abs(place.lat) + high) * std::numbers::pi / 180.0);
    const double wide = high / std::max(leastShare, share);
    const auto isNear = [&](const model::Ring& ring) {
        const auto box = geometry::boxOf(ring.corners);
        const double turned = place.lon + 360.0 * std::round(((box.minX + box.maxX) / 2.0 - place.lon) / 360.0);
        return box.meets({turned - wide, place.lat - high, turned + wide, place.lat + high});
    };
    model::MultiPolygon around;
    for (const auto& part : area.parts) {
        if (!isNear(part.shell))
            continue;
        model::Polygon& kept = around.parts.emplace_back();
        kept.shell = part.shell;
        std::copy_if(part.holes.begin(), part.holes.end(), std::back_inserter(kept.holes), isNear);
    }
    return around;
}

std::vector<EnclosingFence> enclosing(const Subject& subject, model::FenceKind kind) {
    std::vector<EnclosingFence> found;
    for (const auto& fence : subject.set.fences) {
        if (!fence.enabled || fence.kind != kind)
            continue;
        const auto outline = subject.outlines.find(fence.id);
        if (outline != subject.outlines.end() && !outline->second.empty())
            found.push_back({&fence, &outline->second});
    }
    return found;
}

} // namespace fencewright::audit::detail
