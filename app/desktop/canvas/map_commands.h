#pragma once

#include <QAction>
#include <QList>

namespace fencewright::desktop {

class MapCanvas;

/// The commands of the map alone. Each bears the name under which its key is kept, and where it works as the property
/// "place". They belong to no widget, so that nobody but the map answers to their keys: it does while it has the focus.
[[nodiscard]] QList<QAction*> makeMapCommands(MapCanvas& map);

} // namespace fencewright::desktop
