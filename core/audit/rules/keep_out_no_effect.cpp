#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geometry/containment.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace fencewright::audit {

constinit extern const Rule keepOutNoEffect{
    .id = "keep-out.no-effect",
    .title = phrase("core", "Keep-out without effect"),
    .why = phrase(
        "core", "It touches no keep-in, so it forbids nothing that was permitted; perhaps it lies in the wrong place."),
    .remedy = phrase("core", "Check its place. If it is right, it may stay: it does no harm."),
    .severity = Severity::Note,
    .reach = Reach::FenceInKeepIns,
    .check = [](const Subject& subject, const Report& report) {
        const auto keepIns = detail::enclosing(subject, model::FenceKind::KeepIn);
        if (keepIns.empty())
            return; // said by the rule on keep-ins
        std::vector<geometry::PreparedSurface> surfaces;
        for (const auto& keepIn : keepIns)
            surfaces.emplace_back(*keepIn.outline);
        for (const auto& keepOut : detail::enclosing(subject, model::FenceKind::KeepOut)) {
            const bool met =
                std::any_of(surfaces.begin(), surfaces.end(),
                            [&](const geometry::PreparedSurface& keepIn) { return keepIn.touches(*keepOut.outline); });
            if (met)
                continue;
            Finding finding;
            finding.fence = keepOut.fence->id;
            finding.place = detail::placeOf(subject, keepOut.fence->id);
            finding.words = phrase("core", "%1 touches no keep-in.")(detail::beginWith(*keepOut.fence));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
