#pragma once

#include "desktop/panels/form_grid.h"
#include "session/open_document.h"
#include "session/settings.h"
#include "session/source_library.h"

namespace fencewright::desktop {

// The fields of each kind of thing: what a person can type about it. Every change is one edit of the document.

/// Whether a union is of the land record's parcels; a repair that leaves several pieces gives one that is not.
[[nodiscard]] bool isOfParcels(const model::ParcelUnion& shape);

/// Of one fence, or what is to be said of several at once. Of one, they depend on the alternative of its shape: build
/// anew where that changes.
[[nodiscard]] std::vector<FormField> fenceFields(session::OpenDocument& document, const session::Settings& settings,
                                                 const std::vector<model::FenceId>& ids);
[[nodiscard]] std::vector<FormField> siteFields(session::OpenDocument& document, const session::Settings& settings,
                                                const std::vector<model::SiteId>& ids);
[[nodiscard]] std::vector<FormField> homeFields(session::OpenDocument& document, const session::Settings& settings,
                                                const std::vector<model::HomeId>& ids);
[[nodiscard]] std::vector<FormField> sourceFields(session::OpenDocument& document, session::SourceLibrary& sources,
                                                  const model::SourceId& id);
/// Those of imagery alone: its bands, its values, its smaller pictures, what else is to be known.
[[nodiscard]] std::vector<FormField> imageryFields(session::OpenDocument& document, session::SourceLibrary& sources,
                                                   const model::SourceId& id);

} // namespace fencewright::desktop
