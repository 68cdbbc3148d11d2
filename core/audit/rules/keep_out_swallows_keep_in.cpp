#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geometry/containment.h"
#include "geometry/spatial_index.h"

#include <cstddef>
#include <utility>
#include <vector>

namespace fencewright::audit {
namespace {

/// By their sizes alone: longitudes may lie turns apart.
bool couldHold(const geometry::Box& outer, const geometry::Box& inner) {
    constexpr double rounding = 1e-9;
    return outer.minY <= inner.minY && outer.maxY >= inner.maxY &&
           outer.maxX - outer.minX + rounding >= inner.maxX - inner.minX;
}

} // namespace

constinit extern const Rule keepOutSwallowsKeepIn{
    .id = "keep-out.swallows-keep-in",
    .title = phrase("core", "Keep-out covers a whole keep-in"),
    .why = phrase("core", "The keep-in permits nothing while the keep-out is active, which is seldom meant."),
    .remedy = phrase("core", "Check which of the two is right, and their dates and heights."),
    .severity = Severity::Error,
    .reach = Reach::FenceInKeepIns,
    .check = [](const Subject& subject, const Report& report) {
        const auto keepIns = detail::enclosing(subject, model::FenceKind::KeepIn);
        std::vector<geometry::Box> boxes;
        for (const auto& keepIn : keepIns)
            boxes.push_back(geometry::boxOf(*keepIn.outline));
        for (const auto& keepOut : detail::enclosing(subject, model::FenceKind::KeepOut)) {
            if (!subject.active.contains(keepOut.fence->id))
                continue;
            const auto box = geometry::boxOf(*keepOut.outline);
            for (std::size_t i = 0; i < keepIns.size(); ++i) {
                if (!subject.active.contains(keepIns[i].fence->id) || !couldHold(box, boxes[i]) ||
                    !geometry::contains(*keepOut.outline, *keepIns[i].outline))
                    continue;
                Finding finding;
                finding.fence = keepOut.fence->id;
                finding.place = detail::placeOf(subject, keepIns[i].fence->id);
                finding.words = phrase("core", "The keep-out %1 covers the whole keep-in %2.")(
                    detail::nameOf(*keepOut.fence), detail::nameOf(*keepIns[i].fence));
                report(std::move(finding));
            }
        }
    }};

} // namespace fencewright::audit
