#include "store/detail/reading.h"

#include "store/detail/database.h"
#include "store/detail/document_tables.h"
#include "store/detail/geopackage.h"
#include "store/detail/value_text.h"

#include <cerrno>
#include <cstring>
#include <sys/stat.h>
#include <unistd.h>

namespace fencewright::store {

namespace {

constexpr Phrase kTakeOlderCopy = phrase("core", "Take an older copy of it, if there is one.");

void requireFile(const std::string& path) {
    struct stat file {};
    if (::stat(path.c_str(), &file) != 0) {
        if (errno == ENOENT || errno == ENOTDIR)
            throw Fault{phrase("core", "The file does not exist."), path,
                        phrase("core", "Check its name; it may have been moved or removed.")};
        throw Fault{phrase("core", "The file cannot be reached (%1).")(std::strerror(errno)), path,
                    phrase("core", "Check the rights of its folder.")};
    }
    if (S_ISDIR(file.st_mode))
        throw Fault{phrase("core", "This is a folder, not a document."), path, phrase("core", "Choose a file.")};
    if (!S_ISREG(file.st_mode))
        throw Fault{phrase("core", "This is a device, not a document."), path, phrase("core", "Choose a file.")};
    if (::access(path.c_str(), R_OK) != 0)
        throw Fault{phrase("core", "The file may not be read."), path,
                    phrase("core", "Change the rights of the file.")};
    if (file.st_size == 0)
        throw Fault{phrase("core", "The file is empty."), path, kTakeOlderCopy};
}

void requireGeoPackage(const Database& database) {
    if (database.integer("PRAGMA application_id") != kApplicationId || !database.hasPlainTable("gpkg_contents"))
        throw Fault{phrase("core", "The file is a database, but not a GeoPackage."), database.path(),
                    phrase("core", "Choose another file.")};
}

void requireIntegrity(const Database& database) {
    // SQLite takes what is missing of a last page for zeros. With a write-ahead log, pages may be in the log alone.
    const std::int64_t stated =
        database.integer("PRAGMA page_count").value_or(0) * database.integer("PRAGMA page_size").value_or(0);
    struct stat file {};
    if (database.text("PRAGMA journal_mode") != "wal" && ::stat(database.path().c_str(), &file) == 0 &&
        file.st_size < stated)
        throw Fault{phrase("core", "The file is damaged: it is cut off after %1 of %2 bytes.")(file.st_size, stated),
                    database.path(), kTakeOlderCopy};
    const auto verdict = database.text("PRAGMA integrity_check(1)");
    if (verdict != "ok")
        throw Fault{phrase("core", "The file is damaged (%1).")(
                        verdict ? Wording{*verdict} : Wording{phrase("core", "it cannot be checked")}),
                    database.path(), kTakeOlderCopy};
}

/// By value. What is not a number equals nothing, not even itself: a thing with such a number is compared by its text.
template <class T> bool sameThings(const model::Roster<T>& a, const model::Roster<T>& b) {
    if (a.size() != b.size())
        return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
        const bool comparable = a[i] == a[i];
        if (comparable ? !(a[i] == b[i]) : valueText(a[i]) != valueText(b[i]))
            return false;
    }
    return true;
}

/// Title, notes and margin: exact, whatever numbers the margin has.
std::string headText(const model::FenceSet& set) {
    DocumentHead head;
    head.title = set.title;
    head.notes = set.notes;
    head.margin = set.margin;
    return valueText(head);
}

} // namespace

model::FenceSet readDocument(const std::string& path) {
    requireFile(path);
    const Database database{path, Access::Read};
    database.run("BEGIN"); // one state of the file, whatever another program writes meanwhile
    requireGeoPackage(database);
    requireIntegrity(database);
    return readDocumentTables(database);
}

void requireReadsBack(const model::FenceSet& set, const std::string& file, const std::string& shownPath) {
    const model::FenceSet read = readDocument(file);
    const bool same = headText(set) == headText(read) && sameThings(set.fences, read.fences) &&
                      sameThings(set.sites, read.sites) && sameThings(set.homes, read.homes) &&
                      sameThings(set.sources, read.sources);
    if (!same)
        throw Fault{phrase("core", "The document did not read back as it was written; it was not saved."), shownPath,
                    phrase("core", "Save it elsewhere, and check the disk.")};
}

} // namespace fencewright::store
