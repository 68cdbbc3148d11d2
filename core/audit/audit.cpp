#include "audit/audit.h"

#include "airspace/outline.h"
#include "audit/detail/drawn.h"
#include "audit/rule_table.h"
#include "fault.h"
#include "geometry/validity.h"

#include <algorithm>
#include <cmath>
#include <exception>
#include <utility>

namespace fencewright::audit {
namespace {

std::map<model::FenceId, std::vector<DrawnFault>> drawnFaultsOf(const model::FenceSet& set) {
    std::map<model::FenceId, std::vector<DrawnFault>> found;
    for (const auto& fence : set.fences) {
        if (!fence.enabled)
            continue;
        const auto polygons = detail::drawnPolygons(fence);
        for (std::size_t number = 0; number < polygons.size(); ++number)
            for (const auto& fault : geometry::faults(*polygons[number]))
                found[fence.id].push_back({number, fault});
    }
    return found;
}

std::set<model::FenceId> activeFences(const model::FenceSet& set, const airspace::Outlines& outlines,
                                      const airspace::Moment& moment, const geodesy::GroundHeight& ground) {
    std::set<model::FenceId> active;
    for (const auto& fence : set.fences) {
        const auto outline = outlines.find(fence.id);
        if (outline == outlines.end() || outline->second.empty())
            continue;
        bool holds = false;
        try {
            holds = airspace::isActive(fence, moment, outline->second.parts.front().shell.corners.front(), ground);
        } catch (const Fault&) {
            holds = fence.kind == model::FenceKind::KeepOut; // the safe answer where heights cannot be compared
        }
        if (holds)
            active.insert(fence.id);
    }
    return active;
}

} // namespace

std::size_t AuditResult::count(Severity severity) const {
    return static_cast<std::size_t>(std::count_if(
        findings.begin(), findings.end(), [&](const Finding& finding) { return finding.severity == severity; }));
}

AuditResult audit(const model::FenceSet& set, const airspace::Moment& moment, const geodesy::GroundHeight& ground,
                  const Progress& progress) {
    AuditResult result;
    const auto share = [](std::size_t done, std::size_t of) {
        return static_cast<double>(done) / static_cast<double>(std::max<std::size_t>(of, 1));
    };
    for (std::size_t i = 0; i < set.fences.size(); ++i) {
        progress.report(0.7 * share(i, set.fences.size()), "Computing outlines");
        try {
            result.outlines.emplace(set.fences[i].id, airspace::outline(set.fences[i], set.sites));
        } catch (const Cancelled&) {
            throw;
        } catch (const std::exception&) {
            // The fence stays without an outline, which a rule reports. Memory runs out before patience does where a
            // corner lies absurdly far away.
        }
    }
    progress.report(0.7, "Computing the operating area");
    try {
        result.operatingArea = airspace::operatingArea(set, result.outlines, moment, ground);
    } catch (const std::exception&) {
        // Left empty, which permits nothing; a rule reports why.
    }
    const auto drawnFaults = drawnFaultsOf(set);
    const auto active = activeFences(set, result.outlines, moment, ground);
    const Subject subject{set, moment, result.outlines, result.operatingArea, ground, drawnFaults, active};

    const auto all = rules();
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Rule& rule = *all[i];
        progress.report(0.8 + 0.2 * share(i, all.size()), rule.title);
        const Report report = [&](Finding finding) {
            finding.severity = rule.severity;
            if (finding.place && !(std::isfinite(finding.place->lon) && std::isfinite(finding.place->lat)))
                finding.place.reset(); // no map can go there; the rule on coordinates reports it
            if (finding.rule.empty())
                finding.rule = rule.id;
            if (finding.remedy.empty())
                finding.remedy = rule.remedy;
            result.findings.push_back(std::move(finding));
        };
        try {
            rule.check(subject, report);
        } catch (const std::exception& fault) {
            Finding finding;
            finding.words = "This could not be checked (" + std::string{rule.title} + "): " + fault.what();
            report(std::move(finding));
        }
    }
    std::stable_sort(result.findings.begin(), result.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
    return result;
}

} // namespace fencewright::audit
