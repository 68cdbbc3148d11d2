#pragma once

#include "airspace/activity.h"
#include "airspace/operating_area.h"
#include "audit/finding.h"
#include "geodesy/vertical_reference.h"
#include "model/fence_set.h"

#include <functional>
#include <string_view>

namespace fencewright::audit {

/// What a rule looks at. Outlines and the operating area are computed once and shared by all rules.
struct Subject {
    const model::FenceSet& set;
    const airspace::Moment& moment;
    const airspace::Outlines& outlines; ///< fences whose outline cannot be computed are absent
    const model::MultiPolygon& operatingArea;
    const geodesy::GroundHeight& ground;
};

/// How a rule tells what it found; rule, severity and standing remedy are filled in by the audit where left empty.
using Report = std::function<void(Finding)>;

/// One thing that can be wrong. One file in rules/, one line in rule_table.cpp.
struct Rule {
    std::string_view id;    ///< "family.what", stable: documents and scripts refer to it
    std::string_view title; ///< what is wrong, as a heading
    std::string_view why;   ///< a sentence: why it matters
    std::string_view remedy;
    Severity severity;
    void (*check)(const Subject& subject, const Report& report);
};

} // namespace fencewright::audit
