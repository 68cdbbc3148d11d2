#pragma once

#include <QRect>
#include <QString>

#include "desktop/canvas/selection.h"
#include "desktop/canvas/view_transform.h"
#include "model/fence_set.h"
#include "session/outline_cache.h"

#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A thing as the map shows it.
struct ShownThing {
    Thing thing;
    QString words; ///< "Keep-out: Nest, locked"
    QRect box;     ///< on the map, in pixels; may reach beyond it
};

/// Where things are looked for. The references hold for one call.
struct ShownOn {
    const model::FenceSet& set;
    const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined;
    const ViewTransform& view;
    QRect map;
};

/// What is chosen, in view or not, and after that what is in view: fences, sites, homes, each in the order of the set.
/// @param most  are answered; what is chosen comes first.
[[nodiscard]] std::vector<ShownThing> shownThings(const ShownOn& on, const Selection& chosen, std::size_t most);
/// One of them; none: it is not in the set, or has no place on the map.
[[nodiscard]] std::optional<ShownThing> shownThing(const ShownOn& on, const Thing& thing);

} // namespace fencewright::desktop
