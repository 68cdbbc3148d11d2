#pragma once

#include <QMetaType>

#include "model/id.h"

#include <variant>

namespace fencewright::desktop {

/// The one thing that is selected, on the map and in the ledger alike.
using Selection = std::variant<std::monostate, model::FenceId, model::SiteId, model::HomeId>;

} // namespace fencewright::desktop

Q_DECLARE_METATYPE(fencewright::desktop::Selection)
