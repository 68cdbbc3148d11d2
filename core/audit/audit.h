#pragma once

#include "audit/finding.h"
#include "audit/rule.h"
#include "progress.h"

#include <vector>

namespace fencewright::audit {

struct AuditResult {
    std::vector<Finding> findings; ///< errors first, then in the order of the rules
    airspace::Outlines outlines;   ///< what it computed on the way
    model::MultiPolygon operatingArea;

    [[nodiscard]] std::size_t count(Severity severity) const;
};

/// Every rule over the set at the moment. Never throws for what is in the set: a fence that cannot be computed becomes
/// a finding ("outline.not-computable").
/// @throws Cancelled
[[nodiscard]] AuditResult audit(const model::FenceSet& set, const airspace::Moment& moment,
                                const geodesy::GroundHeight& ground, const Progress& progress = {});

} // namespace fencewright::audit
