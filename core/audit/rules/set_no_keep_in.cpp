#include "audit/rule.h"

#include <cstddef>
#include <string>
#include <utility>

namespace fencewright::audit {

constinit extern const Rule setNoKeepIn{
    .id = "set.no-keep-in",
    .title = phrase("core", "No keep-in"),
    .why = phrase("core", "Without a keep-in nothing is permitted, and a system that is given only keep-outs permits "
                          "all the rest of the world."),
    .remedy = phrase(
        "core", "Draw a keep-in around the place where the flight may be, or choose a date at which one is active."),
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        std::size_t keepIns = 0, active = 0;
        for (const auto& fence : subject.set.fences)
            if (fence.enabled && fence.kind == model::FenceKind::KeepIn) {
                ++keepIns;
                active += subject.active.contains(fence.id) ? 1 : 0;
            }
        if (active > 0 || subject.set.fences.empty())
            return;
        Finding finding;
        if (keepIns == 0)
            finding.words = phrase("core", "The set has no keep-in.");
        else
            finding.words = keepIns == 1 ? phrase("core", "The only keep-in of the set is not active on %1.")(
                                               model::isoDate(subject.moment.date))
                                         : phrase("core", "None of the set's %1 keep-ins is active on %2.")(
                                               keepIns, model::isoDate(subject.moment.date));
        report(std::move(finding));
    }};

} // namespace fencewright::audit
