#include "airspace/activity.h"
#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geometry/containment.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace fencewright::audit {
namespace {

bool alike(const geometry::Box& a, const geometry::Box& b) {
    constexpr double rounding = 1e-9;
    return std::abs(a.minX - b.minX) < rounding && std::abs(a.maxX - b.maxX) < rounding &&
           std::abs(a.minY - b.minY) < rounding && std::abs(a.maxY - b.maxY) < rounding;
}

/// Whether there is a day on which both hold. Seasons repeat, so the days of a leap year and the year after tell.
bool periodsMeet(const model::ActivePeriod& a, const model::ActivePeriod& b) {
    const auto from = a.from && b.from ? std::max(*a.from, *b.from) : a.from ? a.from : b.from;
    const auto until = a.until && b.until ? std::min(*a.until, *b.until) : a.until ? a.until : b.until;
    if (from && until && *from > *until)
        return false;
    if (!a.season && !b.season)
        return true;
    const model::Date leapYear{std::chrono::year{2024} / 1 / 1};
    std::chrono::sys_days day = from    ? std::chrono::sys_days{*from}
                                : until ? std::chrono::sys_days{*until} - std::chrono::days{731}
                                        : std::chrono::sys_days{leapYear};
    for (int i = 0; i <= 731; ++i, day += std::chrono::days{1}) {
        const model::Date date{day};
        if (until && date > *until)
            return false;
        if (airspace::inPeriod(a, date) && airspace::inPeriod(b, date))
            return true;
    }
    return false;
}

Finding findingFor(const Subject& subject, const model::Fence& first, const model::Fence& second) {
    Finding finding;
    finding.fence = second.id;
    finding.place = detail::placeOf(subject, second.id);
    finding.words = first.kind == model::FenceKind::KeepIn
                        ? phrase("core", "%1 and %2 are both keep-ins and enclose the same area.")(
                              detail::beginWith(first), detail::nameOf(second))
                        : phrase("core", "%1 and %2 are both keep-outs and enclose the same area.")(
                              detail::beginWith(first), detail::nameOf(second));
    // Only where they agree in all that counts does the set permit the same without one of them, at any time and
    // height.
    if (first.period == second.period && first.band == second.band)
        finding.repair = model::removeFence(subject.set, second.id);
    return finding;
}

} // namespace

constinit extern const Rule fenceDuplicate{
    .id = "fence.duplicate",
    .title = phrase("core", "Two fences the same"),
    .why = phrase("core", "Whoever changes one and not the other believes a change was made that was not."),
    .remedy = phrase("core", "Delete one of them, or tell them apart by their dates or heights."),
    .severity = Severity::Doubt,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto kind : {model::FenceKind::KeepIn, model::FenceKind::KeepOut}) {
            const auto fences = detail::enclosing(subject, kind);
            std::vector<geometry::Box> boxes;
            for (const auto& one : fences)
                boxes.push_back(geometry::boxOf(*one.outline));
            const geometry::SpatialIndex index{boxes};
            for (std::size_t i = 0; i < fences.size(); ++i)
                for (const auto j : index.meeting(boxes[i]))
                    if (j > i && alike(boxes[i], boxes[j]) &&
                        periodsMeet(fences[i].fence->period, fences[j].fence->period) &&
                        geometry::sameArea(*fences[i].outline, *fences[j].outline))
                        report(findingFor(subject, *fences[i].fence, *fences[j].fence));
        }
    }};

} // namespace fencewright::audit
