#pragma once

#include "model/fence_set.h"
#include "progress.h"
#include "store/detail/database.h"

#include <string>

// Our own tables of a document: "fencewright_document" with one row for the set, and one table for each kind of thing,
// with a row for each in its order. A row holds the value as JSON and a checksum of it, so that a byte that has changed
// anywhere in a value is found.
namespace fencewright::store {

/// Creates the tables in an empty GeoPackage, registers them, and fills them.
void writeDocumentTables(const Database& database, const model::FenceSet& set, const Progress& progress);

/// @throws Fault  not a document of ours, newer, or damaged: names table, row and member.
[[nodiscard]] model::FenceSet readDocumentTables(const Database& database);

} // namespace fencewright::store
