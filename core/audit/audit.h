#pragma once

#include "audit/finding.h"
#include "audit/rule.h"
#include "progress.h"
#include "units/area.h"

#include <memory>
#include <optional>
#include <vector>

namespace fencewright::audit {

struct AuditResult {
    std::vector<Finding> findings; ///< errors first, then in the order of the rules
    airspace::Outlines outlines;   ///< what it computed on the way; empty where a memory keeps them
    model::MultiPolygon operatingArea;
    Area area; ///< of the operating area, by geodesics
    /// What the margin leaves of it; nothing where none is stated.
    std::optional<model::MultiPolygon> clearArea;
    Area clear; ///< of the clear area, by geodesics

    [[nodiscard]] std::size_t count(Severity severity) const;
};

/// What one audit leaves for the next, of the same set after some changes: outlines, faults and findings of fences that
/// have stayed the same objects, and what the operating area is put together from. An audit with a memory answers what
/// one without answers; it only takes less time.
class AuditMemory {
public:
    AuditMemory();
    ~AuditMemory();
    AuditMemory(AuditMemory&&) noexcept;
    AuditMemory& operator=(AuditMemory&&) noexcept;

private:
    friend AuditResult audit(const model::FenceSet&, const airspace::Moment&, const geodesy::GroundHeight&,
                             const Progress&);
    friend AuditResult audit(const model::FenceSet&, const airspace::Moment&, const geodesy::GroundHeight&,
                             AuditMemory&, const Progress&);
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

/// Every rule over the set at the moment. Never throws for what is in the set: a fence that cannot be computed becomes
/// a finding ("outline.not-computable").
/// @throws Cancelled
[[nodiscard]] AuditResult audit(const model::FenceSet& set, const airspace::Moment& moment,
                                const geodesy::GroundHeight& ground, const Progress& progress = {});

/// The same with what an earlier one remembers. A memory is for one ground, and for one audit at a time.
/// @throws Cancelled  what was worked out until then is remembered.
[[nodiscard]] AuditResult audit(const model::FenceSet& set, const airspace::Moment& moment,
                                const geodesy::GroundHeight& ground, AuditMemory& memory,
                                const Progress& progress = {});

} // namespace fencewright::audit
