#pragma once

#include "desktop/tools/tool.h"
#include "model/fence_set.h"

#include <string>

namespace fencewright::desktop {

/// "Keep-out 3": one more than the highest number of its kind in the set.
std::string defaultFenceName(const model::FenceSet& set, model::FenceKind kind);
/// "Home", then "Home 2"; "Alternate 1".
std::string defaultHomeName(const model::FenceSet& set, model::HomeKind kind);
/// "Site 4".
std::string defaultSiteName(const model::FenceSet& set);

model::FenceKind otherKind(model::FenceKind kind);
/// "Keep-out".
QString kindWords(model::FenceKind kind);
/// "K makes it a keep-in." Empty where no key does.
QString otherKindWords(model::FenceKind kind, const ToolKeys& keys);

/// Adds a fence of that kind and shape under its default name, and selects it.
ToolAnswer addedFence(const ToolScene& scene, model::FenceKind kind, model::Shape shape);

/// The place with the longitude that continues `former`'s.
model::Position continued(const model::Position& place, const model::Position& former);
/// The place with its longitude in [-180, 180].
model::Position onFirstTurn(const model::Position& place);
/// All moved by whole turns, so that the first lies in [-180, 180].
model::LineString onFirstTurn(model::LineString places);

} // namespace fencewright::desktop
