#pragma once

namespace fencewright::desktop {

/// The map as programs that read a window out know it: what its picture shows, the tool and its hint, and each thing
/// that is chosen or in view as a part that can be chosen. Done once; a second time does nothing.
void installMapAccessible();

} // namespace fencewright::desktop
