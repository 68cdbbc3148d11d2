#pragma once

#include "model/fence_set.h"
#include "progress.h"

#include <string>

namespace fencewright::store {

/// The layout of our tables in the GeoPackage. A newer one than this is refused, an older one is read.
/// 3: the set has a margin, or says that none was stated. 2: corridors have a width on each side, and things can be
/// locked. 1: one width, and no locks.
inline constexpr int kDocumentVersion = 3;

struct OpenedDocument {
    model::FenceSet set;
    bool readOnly = false; ///< the file or its folder cannot be written
};

/// Reads a document. The file is not changed, and is not kept open.
/// @throws Fault  not there, not a GeoPackage, a GeoPackage that is not ours, newer than this program, damaged (says
/// what and where), or locked by another program.
[[nodiscard]] OpenedDocument openDocument(const std::string& path);

/// Writes the document: into a new file beside it, flushed to the disk, read back and compared by value, and then
/// renamed over the old one. At every instant the old or the new file is whole.
///
/// GeoPackage 1.3: feature layers "fences" (outlines, MultiPolygon, attributes in plain columns), "sites" and "homes",
/// which any GIS library opens, and our own tables "fencewright_..." which hold the values exactly.
/// @throws Fault  cannot be written (folder, rights, space, lock), or did not read back equal; the old file is
/// untouched.
void saveDocument(const model::FenceSet& set, const std::string& path, const Progress& progress = {});

} // namespace fencewright::store
