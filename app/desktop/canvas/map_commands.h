#pragma once

#include <QAction>
#include <QList>

namespace fencewright::desktop {

class MapCanvas;

/// The commands of the map alone, as actions of the map: their keys work while it has the focus. Each bears the name
/// under which its key is kept, and where it works as the property "place".
[[nodiscard]] QList<QAction*> addMapCommands(MapCanvas& map);

} // namespace fencewright::desktop
