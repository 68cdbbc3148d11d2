#pragma once

#include "name_giver.h"

namespace fencewright::session {

/// Names in the language of the window, for what core/ names of itself; on any thread.
NameGiver inWindowLanguage();

} // namespace fencewright::session
