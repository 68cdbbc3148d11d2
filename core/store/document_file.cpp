#include "store/document_file.h"

#include "store/detail/database.h"
#include "store/detail/document_tables.h"
#include "store/detail/geopackage.h"
#include "store/detail/old_document.h"
#include "store/detail/reading.h"
#include "store/detail/replacement_file.h"

#include <filesystem>
#include <unistd.h>

namespace fencewright::store {

namespace {

constexpr mode_t kRights = 0666; // less the person's umask

bool canBeSaved(const std::string& path) {
    std::error_code error;
    const std::filesystem::path file = std::filesystem::canonical(path, error);
    return !error && ::access(file.c_str(), W_OK) == 0 && ::access(file.parent_path().c_str(), W_OK) == 0;
}

} // namespace

OpenedDocument openDocument(const std::string& path) { return {readDocument(path), !canBeSaved(path)}; }

void saveDocument(const model::FenceSet& set, const std::string& path, const Progress& progress) {
    progress.report(0.0, phrase("core", "Saving"));
    ReplacementFile file{path, kRights};
    {
        const Database database{file.newPath(), Access::WriteNew};
        database.run("BEGIN");
        createGeoPackage(database);
        writeDocumentTables(database, set, progress);
        writeLayers(database, set, progress);
        database.run("COMMIT");
    }
    progress.report(0.75, phrase("core", "Reading back"));
    requireReadsBack(set, file.newPath(), path);
    progress.report(0.95, phrase("core", "Replacing the old file"));
    std::optional<OldDocumentLock> lock;
    if (file.oldExists())
        lock.emplace(file.oldPath());
    file.putInPlace();
}

} // namespace fencewright::store
