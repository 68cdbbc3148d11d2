#pragma once

#include <functional>

namespace fencewright::session {

/// From here on this thread gets what the window's thread leaves over. There is no way back.
void comeAfterTheWindow();

/// Runs the work on such a thread, and waits for it.
/// @throws  what the work throws.
void runQuietly(const std::function<void()>& work);

} // namespace fencewright::session
