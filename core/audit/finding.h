#pragma once

#include "model/edit.h"
#include "model/id.h"
#include "model/position.h"
#include "wording.h"

#include <optional>
#include <string>

namespace fencewright::audit {

enum class Severity {
    Note,  ///< worth knowing
    Doubt, ///< a person must decide
    Error  ///< the set must not be flown
};

/// What the audit reports: a value, never an exception.
struct Finding {
    std::string rule; ///< id of the rule, "ring.too-few-corners"
    Severity severity = Severity::Doubt;
    std::optional<model::FenceId> fence; ///< what it is about; none where it is the set
    std::optional<model::HomeId> home;
    std::optional<model::Position> place; ///< where to look
    Wording words;                        ///< one plain sentence with names and figures
    Wording remedy;                       ///< what to do
    std::optional<model::Edit> repair;    ///< a safe repair, to be shown before it is taken
};

} // namespace fencewright::audit
