#pragma once

#include "airspace/activity.h"
#include "airspace/operating_area.h"
#include "audit/finding.h"
#include "fault.h"
#include "geodesy/vertical_reference.h"
#include "geometry/validity.h"
#include "model/fence_set.h"
#include "units/area.h"
#include "units/length.h"

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <vector>

namespace fencewright::audit {

/// A fault in one of the polygons that a fence is drawn with: see drawnPolygons().
struct DrawnFault {
    std::size_t polygon = 0;
    geometry::RingFault fault;
};

/// What the margin leaves of the operating area.
struct ClearArea {
    std::optional<Length> margin; ///< nothing: none is stated, or it cannot be computed
    model::MultiPolygon surface;
    std::vector<Area> areas;    ///< of its parts, by geodesics
    std::optional<Fault> fault; ///< why it could not be computed, and counts as empty
};

/// What a rule looks at. What several rules need is computed once. Disabled fences take no part: no rule looks at them.
struct Subject {
    const model::FenceSet& set;
    const airspace::Moment& moment;
    const airspace::Outlines& outlines; ///< fences whose outline cannot be computed are absent
    const model::MultiPolygon& operatingArea;
    const geodesy::GroundHeight& ground;
    const std::map<model::FenceId, std::vector<DrawnFault>>& drawnFaults; ///< of enabled fences that have some
    const std::set<model::FenceId>& active;                               ///< at the moment
    const std::vector<Area>& areas;        ///< of the parts of the operating area, by geodesics
    const std::optional<Fault>& areaFault; ///< why the operating area could not be computed, and counts as empty
    const ClearArea& clear;
};

/// How a rule tells what it found; the audit fills in the rule, its severity, and its standing remedy where left empty.
using Report = std::function<void(Finding)>;

/// What a rule's findings about a fence depend on, besides the moment and the ground: as long as that stays what it
/// was, they stay too, and a later audit need not ask again.
enum class Reach {
    Set,   ///< on the whole set
    Fence, ///< on the fence and its site, and not on the moment: the rule may be shown a set of that fence alone
    FenceInKeepIns ///< on a keep-out and all keep-ins: the rule may be shown a set of those alone
};

/// One thing that can be wrong. One file in rules/, one line in rule_table.cpp.
struct Rule {
    std::string_view id; ///< "family.what", stable: documents and scripts refer to it
    Phrase title;        ///< what is wrong, as a heading
    Phrase why;          ///< a sentence: why it matters
    Phrase remedy;
    Severity severity;
    Reach reach = Reach::Set;
    void (*check)(const Subject& subject, const Report& report);
};

} // namespace fencewright::audit
