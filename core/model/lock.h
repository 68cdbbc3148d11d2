#pragma once

#include "model/edit.h"
#include "model/fence_set.h"

namespace fencewright::model {

/// Lets an edit pass that leaves locked things as they are. It may unlock one, but do nothing else to it, and lock what
/// it changes. A setback whose site moves is not touched by that: its own value stays.
/// @throws Fault  the edit changes or removes a thing that is locked in `set`: names it. Or it does not fit the set.
void requireUnlocked(const FenceSet& set, const Edit& edit);

/// Before an edit of the fence is worked on.
/// @throws Fault  the fence is locked: names it.
void requireUnlocked(const FenceSet& set, const FenceId& id);

} // namespace fencewright::model
