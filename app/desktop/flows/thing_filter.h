#pragma once

#include <QString>

#include "audit/audit.h"
#include "desktop/canvas/selection.h"
#include "model/date.h"
#include "model/fence_set.h"

#include <optional>
#include <vector>

namespace fencewright::desktop {

/// What things are sought by; what is not given does not matter. What a thing cannot have, such as a site a basis, it
/// has not.
struct ThingFilter {
    enum class Kind { Any, Fence, KeepIn, KeepOut, Site, Home, Alternate };

    Kind kind = Kind::Any;
    QString name;  ///< contained in the name, in whatever case
    QString basis; ///< contained in the citation, in who gave it, or in the kind of a site
    std::optional<bool> enabled;
    std::optional<bool> inPeriod; ///< switched on and in its period on the day
    std::optional<audit::Severity> leastFinding;
};

/// In the order of the set: fences, sites, homes.
/// @param audited  null: nothing has findings.
std::vector<Thing> thingsWhere(const model::FenceSet& set, const ThingFilter& filter, const model::Date& day,
                               const audit::AuditResult* audited);

/// All fences, sites and homes.
std::vector<Thing> allThings(const model::FenceSet& set);

} // namespace fencewright::desktop
