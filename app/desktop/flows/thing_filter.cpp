#include "desktop/flows/thing_filter.h"

#include "airspace/activity.h"

#include <algorithm>
#include <unordered_map>

namespace fencewright::desktop {
namespace {

bool contains(const std::string& words, const QString& sought) {
    return sought.isEmpty() || QString::fromStdString(words).contains(sought, Qt::CaseInsensitive);
}

bool isOfKind(const model::Fence& fence, ThingFilter::Kind kind) {
    using Kind = ThingFilter::Kind;
    return kind == Kind::Any || kind == Kind::Fence ||
           (kind == Kind::KeepIn && fence.kind == model::FenceKind::KeepIn) ||
           (kind == Kind::KeepOut && fence.kind == model::FenceKind::KeepOut);
}

} // namespace

std::vector<Thing> thingsWhere(const model::FenceSet& set, const ThingFilter& filter, const model::Date& day,
                               const audit::AuditResult* audited) {
    using Kind = ThingFilter::Kind;
    std::unordered_map<std::string, audit::Severity> worst; // identities are never given twice, to whatever kind
    if (audited)
        for (const audit::Finding& finding : audited->findings)
            for (const std::string& id : {finding.fence ? finding.fence->value : std::string{},
                                          finding.home ? finding.home->value : std::string{}})
                if (!id.empty())
                    if (const auto [at, added] = worst.try_emplace(id, finding.severity); !added)
                        at->second = std::max(at->second, finding.severity);
    const auto hasFinding = [&](const std::string& id) {
        if (!filter.leastFinding)
            return true;
        const auto found = worst.find(id);
        return found != worst.end() && found->second >= *filter.leastFinding;
    };
    const bool onlyFences = filter.enabled || filter.inPeriod;
    std::vector<Thing> found;
    for (const model::Fence& fence : set.fences)
        if (isOfKind(fence, filter.kind) && contains(fence.name, filter.name) &&
            (contains(fence.basis.citation, filter.basis) || contains(fence.basis.who, filter.basis)) &&
            filter.enabled.value_or(fence.enabled) == fence.enabled &&
            (!filter.inPeriod || *filter.inPeriod == (fence.enabled && airspace::inPeriod(fence.period, day))) &&
            hasFinding(fence.id.value))
            found.emplace_back(fence.id);
    if (!onlyFences && (filter.kind == Kind::Any || filter.kind == Kind::Site))
        for (const model::Site& site : set.sites)
            if (contains(site.name, filter.name) && contains(site.category, filter.basis) && hasFinding(site.id.value))
                found.emplace_back(site.id);
    if (!onlyFences && filter.basis.isEmpty())
        for (const model::Home& home : set.homes) {
            const Kind kind = home.kind == model::HomeKind::Home ? Kind::Home : Kind::Alternate;
            if ((filter.kind == Kind::Any || filter.kind == kind) && contains(home.name, filter.name) &&
                hasFinding(home.id.value))
                found.emplace_back(home.id);
        }
    return found;
}

std::vector<Thing> allThings(const model::FenceSet& set) {
    std::vector<Thing> all;
    for (const model::Fence& fence : set.fences)
        all.emplace_back(fence.id);
    for (const model::Site& site : set.sites)
        all.emplace_back(site.id);
    for (const model::Home& home : set.homes)
        all.emplace_back(home.id);
    return all;
}

} // namespace fencewright::desktop
