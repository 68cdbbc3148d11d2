#include "store/detail/old_document.h"

#include <filesystem>

namespace fencewright::store {

OldDocumentLock::OldDocumentLock(const std::string& path) {
    try {
        m_database = std::make_unique<Database>(path, Access::Write);
        if (m_database->text("PRAGMA journal_mode") == "wal")
            (void)m_database->text("PRAGMA journal_mode = DELETE");
        m_database->run("BEGIN EXCLUSIVE");
    } catch (const DatabaseFault& fault) {
        if (fault.reason() == DatabaseFault::Reason::Locked)
            throw;
        m_database.reset();
    }
    for (const char* suffix : {"-journal", "-wal"}) {
        std::error_code ignored;
        if (std::filesystem::exists(path + suffix, ignored))
            throw Fault{
                phrase("core", "Another program left unfinished work beside the file."), path + suffix,
                phrase(
                    "core",
                    "Open and close the file in that program, or remove this leftover, or save under another name.")};
    }
}

} // namespace fencewright::store
