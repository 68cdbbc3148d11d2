#include "audit/audit.h"

#include "airspace/clear_area.h"
#include "airspace/outline.h"
#include "audit/detail/drawn.h"
#include "audit/rule_table.h"
#include "fault.h"
#include "geometry/validity.h"
#include "model/edit.h"

#include <algorithm>
#include <cmath>
#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

namespace fencewright::audit {
namespace {

/// Findings with the number of their rule.
using RuledFindings = std::vector<std::pair<std::size_t, Finding>>;

/// What depends on one fence and its site alone, and what its lying to the keep-ins comes to.
struct Remembered {
    std::shared_ptr<const model::Fence> fence;
    std::shared_ptr<const model::Site> site; ///< of a setback
    std::uint64_t outlineNumber = 0;
    std::optional<std::vector<DrawnFault>> faults;
    std::optional<RuledFindings> own;
    std::optional<RuledFindings> inKeepIns;
    std::uint64_t seen = 0; ///< by which audit
};

/// What findings of Reach::FenceInKeepIns rest on besides the keep-out.
struct KeepIns {
    std::vector<std::shared_ptr<const model::Fence>> fences;
    std::vector<std::uint64_t> outlineNumbers;
    airspace::Moment moment;

    bool operator==(const KeepIns&) const = default;
};

std::vector<DrawnFault> drawnFaultsOf(const model::Fence& fence) {
    std::vector<DrawnFault> found;
    if (!fence.enabled)
        return found;
    const auto polygons = detail::drawnPolygons(fence);
    for (std::size_t number = 0; number < polygons.size(); ++number)
        for (const auto& fault : geometry::faults(*polygons[number]))
            found.push_back({number, fault});
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

double share(std::size_t done, std::size_t of) {
    return static_cast<double>(done) / static_cast<double>(std::max<std::size_t>(of, 1));
}

/// Asks one rule, and completes what it finds.
void ask(const Rule& rule, const Subject& subject, const std::function<void(Finding)>& take) {
    const Report report = [&](Finding finding) {
        finding.severity = rule.severity;
        if (finding.place && !(std::isfinite(finding.place->lon) && std::isfinite(finding.place->lat)))
            finding.place.reset(); // no map can go there; the rule on coordinates reports it
        if (finding.rule.empty())
            finding.rule = rule.id;
        if (finding.remedy.empty())
            finding.remedy = rule.remedy;
        take(std::move(finding));
    };
    try {
        rule.check(subject, report);
    } catch (const std::exception& fault) {
        Finding finding;
        finding.words = phrase("core", "This could not be checked (%1): %2")(rule.title, fault.what());
        report(std::move(finding));
    }
}

/// A repair that was made against a set of few fences, as one against the whole set.
void place(Finding& finding, std::size_t index) {
    if (finding.repair)
        for (model::Change& change : finding.repair->changes)
            if (auto* replacement = std::get_if<model::Replacement<model::Fence>>(&change))
                replacement->index = index;
}

} // namespace

struct AuditMemory::Parts {
    std::unordered_map<std::string, Remembered> fences; ///< by id
    airspace::Outlines outlines;
    airspace::KeptOperatingArea area;
    airspace::KeptClearArea clear;
    std::optional<KeepIns> keepIns;
    std::uint64_t lastOutline = 0;
    std::uint64_t audits = 0;

    std::vector<Remembered*> remember(const model::FenceSet& set);
    void outline(const model::FenceSet& set, const std::vector<Remembered*>& remembered, const Progress& progress);
    [[nodiscard]] airspace::KeptOperatingArea::OutlineNumber numbers() const;
    [[nodiscard]] ClearArea clearArea(const model::FenceSet& set, const airspace::Moment& moment,
                                      const geodesy::GroundHeight& ground, const Progress& progress);
    void askAlone(const Subject& whole, const std::vector<Remembered*>& remembered, const Progress& progress);
    void askInKeepIns(const Subject& whole, const std::vector<Remembered*>& remembered, const Progress& progress);
};

AuditMemory::AuditMemory() : m_parts{std::make_unique<Parts>()} {}
AuditMemory::~AuditMemory() = default;
AuditMemory::AuditMemory(AuditMemory&&) noexcept = default;
AuditMemory& AuditMemory::operator=(AuditMemory&&) noexcept = default;

/// In the order of the set; what has changed is blank, and what is gone is forgotten.
std::vector<Remembered*> AuditMemory::Parts::remember(const model::FenceSet& set) {
    ++audits;
    std::unordered_map<std::string_view, std::shared_ptr<const model::Site>> sites;
    for (std::size_t i = 0; i < set.sites.size(); ++i)
        sites.emplace(set.sites[i].id.value, set.sites.pointer(i));
    std::vector<Remembered*> remembered;
    for (std::size_t i = 0; i < set.fences.size(); ++i) {
        const auto& fence = set.fences.pointer(i);
        std::shared_ptr<const model::Site> site;
        if (const auto* setback = std::get_if<model::Setback>(&fence->shape))
            if (const auto found = sites.find(setback->site.value); found != sites.end())
                site = found->second;
        Remembered& one = fences[fence->id.value];
        if (one.fence != fence || one.site != site) {
            outlines.erase(fence->id);
            one = Remembered{fence, std::move(site), 0, {}, {}, {}, 0};
        }
        one.seen = audits;
        remembered.push_back(&one);
    }
    std::erase_if(fences, [&](const auto& entry) {
        if (entry.second.seen == audits)
            return false;
        outlines.erase(model::FenceId{entry.first});
        return true;
    });
    return remembered;
}

void AuditMemory::Parts::outline(const model::FenceSet& set, const std::vector<Remembered*>& remembered,
                                 const Progress& progress) {
    for (std::size_t i = 0; i < remembered.size(); ++i) {
        Remembered& one = *remembered[i];
        if (one.outlineNumber != 0)
            continue;
        progress.report(0.5 * share(i, set.fences.size()), phrase("core", "Computing outlines"));
        model::Roster<model::Site> site;
        if (one.site)
            site.insert(0, one.site);
        try {
            outlines.emplace(one.fence->id, airspace::outline(*one.fence, site));
        } catch (const std::exception&) {
            // The fence stays without an outline, which a rule reports. Memory runs out before patience does where a
            // corner lies absurdly far away.
        }
        one.outlineNumber = ++lastOutline;
    }
    for (std::size_t i = 0; i < remembered.size(); ++i)
        if (!remembered[i]->faults) {
            progress.report(0.5 + 0.2 * share(i, set.fences.size()), phrase("core", "Looking for faults of rings"));
            remembered[i]->faults = drawnFaultsOf(*remembered[i]->fence);
        }
}

airspace::KeptOperatingArea::OutlineNumber AuditMemory::Parts::numbers() const {
    return [this](const model::FenceId& id) { return fences.find(id.value)->second.outlineNumber; };
}

ClearArea AuditMemory::Parts::clearArea(const model::FenceSet& set, const airspace::Moment& moment,
                                        const geodesy::GroundHeight& ground, const Progress& progress) {
    ClearArea found;
    if (!set.margin)
        return found;
    try {
        found.margin = model::distances(*set.margin).total;
        auto left = clear.area(set, outlines, numbers(), *found.margin, moment, ground, progress);
        found.surface = std::move(left.surface);
        found.areas = std::move(left.areas);
    } catch (const Cancelled&) {
        throw;
    } catch (const Fault& fault) {
        found.fault = fault;
    } catch (const std::exception& error) {
        found.fault = Fault{error.what(), "", phrase("core", "Look for corners far away from all others.")};
    }
    return found;
}

/// Each fence that has changed, by itself.
void AuditMemory::Parts::askAlone(const Subject& whole, const std::vector<Remembered*>& remembered,
                                  const Progress& progress) {
    const auto all = rules();
    for (std::size_t i = 0; i < remembered.size(); ++i) {
        Remembered& one = *remembered[i];
        if (one.own)
            continue;
        progress.report(0.8 + 0.1 * share(i, remembered.size()), phrase("core", "Looking at each fence"));
        model::FenceSet alone;
        alone.fences.insert(0, one.fence);
        if (one.site)
            alone.sites.insert(0, one.site);
        const Subject subject{alone,           whole.moment,      whole.outlines, whole.operatingArea,
                              whole.ground,    whole.drawnFaults, whole.active,   whole.areas,
                              whole.areaFault, whole.clear};
        RuledFindings found;
        for (std::size_t number = 0; number < all.size(); ++number)
            if (all[number]->reach == Reach::Fence)
                ask(*all[number], subject, [&](Finding finding) { found.emplace_back(number, std::move(finding)); });
        one.own = std::move(found);
    }
}

/// The keep-outs that have changed, against all keep-ins; all of them, where a keep-in has changed.
void AuditMemory::Parts::askInKeepIns(const Subject& whole, const std::vector<Remembered*>& remembered,
                                      const Progress& progress) {
    KeepIns now{{}, {}, whole.moment};
    for (const Remembered* one : remembered)
        if (one->fence->kind == model::FenceKind::KeepIn) {
            now.fences.push_back(one->fence);
            now.outlineNumbers.push_back(one->outlineNumber);
        }
    if (keepIns != now) {
        for (Remembered* one : remembered)
            one->inKeepIns.reset();
        keepIns = now;
    }
    const auto all = rules();
    constexpr std::size_t atOnce = 250; // keep-ins are prepared once for so many keep-outs
    for (std::size_t begin = 0; begin < remembered.size();) {
        model::FenceSet few;
        for (std::size_t i = 0; i < now.fences.size(); ++i)
            few.fences.insert(i, now.fences[i]);
        std::unordered_map<std::string_view, Remembered*> asked;
        for (; begin < remembered.size() && asked.size() < atOnce; ++begin)
            if (Remembered& one = *remembered[begin]; !one.inKeepIns) {
                if (one.fence->kind == model::FenceKind::KeepOut) {
                    few.fences.insert(few.fences.size(), one.fence);
                    asked.emplace(one.fence->id.value, &one);
                } else {
                    one.inKeepIns.emplace();
                }
            }
        if (asked.empty())
            continue;
        progress.report(0.9, phrase("core", "Comparing keep-outs with keep-ins"));
        const Subject subject{
            few,          whole.moment, whole.outlines,  whole.operatingArea, whole.ground, whole.drawnFaults,
            whole.active, whole.areas,  whole.areaFault, whole.clear};
        std::unordered_map<std::string_view, RuledFindings> found;
        for (std::size_t number = 0; number < all.size(); ++number)
            if (all[number]->reach == Reach::FenceInKeepIns)
                ask(*all[number], subject, [&](Finding finding) {
                    // What could not be checked is of no fence, and stands with the first.
                    const auto of = finding.fence ? asked.find(finding.fence->value) : asked.begin();
                    if (of != asked.end())
                        found[of->first].emplace_back(number, std::move(finding));
                });
        for (auto& [id, one] : asked)
            one->inKeepIns = std::move(found[id]);
    }
}

std::size_t AuditResult::count(Severity severity) const {
    return static_cast<std::size_t>(std::count_if(
        findings.begin(), findings.end(), [&](const Finding& finding) { return finding.severity == severity; }));
}

AuditResult audit(const model::FenceSet& set, const airspace::Moment& moment, const geodesy::GroundHeight& ground,
                  const Progress& progress) {
    AuditMemory memory;
    AuditResult result = audit(set, moment, ground, memory, progress);
    result.outlines = std::move(memory.m_parts->outlines);
    return result;
}

AuditResult audit(const model::FenceSet& set, const airspace::Moment& moment, const geodesy::GroundHeight& ground,
                  AuditMemory& memory, const Progress& progress) {
    AuditMemory::Parts& parts = *memory.m_parts;
    const std::vector<Remembered*> remembered = parts.remember(set);
    parts.outline(set, remembered, progress);

    AuditResult result;
    std::vector<Area> areas;
    std::optional<Fault> areaFault;
    progress.report(0.7, phrase("core", "Computing the operating area"));
    try {
        auto area = parts.area.area(set, parts.outlines, parts.numbers(), moment, ground, progress);
        result.operatingArea = std::move(area.surface);
        areas = std::move(area.areas);
        for (const Area& part : areas)
            result.area = result.area + part;
    } catch (const Cancelled&) {
        throw;
    } catch (const Fault& fault) {
        areaFault = fault; // the area is left empty, which permits nothing; a rule reports why
    } catch (const std::exception& error) {
        areaFault = Fault{error.what(), "", phrase("core", "Look for corners far away from all others.")};
    }
    progress.report(0.75, phrase("core", "Taking the margin off"));
    ClearArea clear = parts.clearArea(set, moment, ground, progress);
    for (const Area& part : clear.areas)
        result.clear = result.clear + part;
    std::map<model::FenceId, std::vector<DrawnFault>> drawnFaults;
    for (const Remembered* one : remembered)
        if (!one->faults->empty())
            drawnFaults.emplace(one->fence->id, *one->faults);
    const auto active = activeFences(set, parts.outlines, moment, ground);
    const Subject subject{set,   moment,    parts.outlines, result.operatingArea, ground, drawnFaults, active,
                          areas, areaFault, clear};
    parts.askAlone(subject, remembered, progress);
    parts.askInKeepIns(subject, remembered, progress);

    // By rule, and of each rule in the order of the fences.
    const auto all = rules();
    std::vector<std::vector<Finding>> byRule(all.size());
    for (std::size_t i = 0; i < remembered.size(); ++i)
        for (const auto* findings : {&remembered[i]->own, &remembered[i]->inKeepIns})
            for (const auto& [number, finding] : **findings) {
                byRule[number].push_back(finding);
                place(byRule[number].back(), i);
            }
    for (std::size_t number = 0; number < all.size(); ++number) {
        progress.report(0.9 + 0.1 * share(number, all.size()), all[number]->title);
        if (all[number]->reach == Reach::Set)
            ask(*all[number], subject, [&](Finding finding) { byRule[number].push_back(std::move(finding)); });
    }
    for (auto& findings : byRule)
        std::move(findings.begin(), findings.end(), std::back_inserter(result.findings));
    std::stable_sort(result.findings.begin(), result.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
    if (set.margin)
        result.clearArea = std::move(clear.surface);
    return result;
}

} // namespace fencewright::audit
