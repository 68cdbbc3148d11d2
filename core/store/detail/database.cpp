#include "store/detail/database.h"

#include <sqlite3.h>

#include <chrono>

namespace fencewright::store {

namespace {

using Clock = std::chrono::steady_clock;

/// A file from outside may ask for endless work; no document of ours takes near as long.
constexpr auto kLongestReading = std::chrono::minutes{2};
constexpr int kLockPatienceMs = 1500;
constexpr int kStepsBetweenLooks = 100'000;
/// One value of a document; a fence of ten million corners has less.
constexpr int kLongestValue = 800'000'000;

int stopWhenLate(void* deadline) { return Clock::now() > *static_cast<Clock::time_point*>(deadline) ? 1 : 0; }

DatabaseFault::Reason reasonOf(int code) {
    switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return DatabaseFault::Reason::Locked;
    case SQLITE_CORRUPT:
    case SQLITE_FORMAT:
        return DatabaseFault::Reason::Damaged;
    case SQLITE_NOTADB:
        return DatabaseFault::Reason::NotADatabase;
    case SQLITE_FULL:
        return DatabaseFault::Reason::Full;
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH:
    case SQLITE_READONLY:
        return DatabaseFault::Reason::Denied;
    default:
        return DatabaseFault::Reason::Other;
    }
}

} // namespace

void Database::Close::operator()(sqlite3* handle) const { sqlite3_close(handle); }

Database::Database(const std::string& path, Access access) : m_path{path} {
    const int flags = access == Access::Read ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(path.c_str(), &handle, flags | SQLITE_OPEN_FULLMUTEX, nullptr);
    m_handle.reset(handle);
    if (code != SQLITE_OK)
        refuse(code);
    sqlite3_extended_result_codes(handle, 1);
    sqlite3_busy_timeout(handle, kLockPatienceMs);
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, kLongestValue);
    // Whoever made the file, no view, trigger or function in it acts for them.
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
    if (access == Access::Read) {
        m_deadline = std::make_unique<Clock::time_point>(Clock::now() + kLongestReading);
        sqlite3_progress_handler(handle, kStepsBetweenLooks, stopWhenLate, m_deadline.get());
        run("PRAGMA cell_size_check = ON; PRAGMA mmap_size = 0;");
    }
    if (access == Access::WriteNew)
        run("PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF;");
}

void Database::run(const std::string& statements) const {
    const int code = sqlite3_exec(m_handle.get(), statements.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK)
        refuse(code);
}

std::optional<std::int64_t> Database::integer(const std::string& query) const {
    Statement statement{*this, query};
    if (!statement.step() || statement.type(0) != Statement::Type::Integer)
        return std::nullopt;
    return statement.integer(0);
}

std::optional<std::string> Database::text(const std::string& query) const {
    Statement statement{*this, query};
    if (!statement.step() || statement.type(0) != Statement::Type::Text)
        return std::nullopt;
    return statement.text(0);
}

bool Database::hasPlainTable(std::string_view name) const {
    Statement statement{*this, "SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?1 AND rootpage > 0"};
    statement.bind(1, name);
    return statement.step();
}

void Database::refuse(int code) const {
    const auto reason = reasonOf(code);
    const std::string said = m_handle ? sqlite3_errmsg(m_handle.get()) : sqlite3_errstr(code);
    switch (reason) {
    case DatabaseFault::Reason::Locked:
        throw DatabaseFault{reason, phrase("core", "Another program has locked the file."), m_path,
                            phrase("core", "Close it there, and try again.")};
    case DatabaseFault::Reason::Damaged:
        throw DatabaseFault{reason, phrase("core", "The file is damaged (%1).")(said), m_path,
                            phrase("core", "Take an older copy of it, if there is one.")};
    case DatabaseFault::Reason::NotADatabase:
        throw DatabaseFault{reason, phrase("core", "The file is not a GeoPackage."), m_path,
                            phrase("core", "Choose another file, or import this one.")};
    case DatabaseFault::Reason::Full:
        throw DatabaseFault{reason, phrase("core", "There is no space left for the file."), m_path,
                            phrase("core", "Make space on the disk, or save elsewhere.")};
    case DatabaseFault::Reason::Denied:
        throw DatabaseFault{reason, phrase("core", "The file cannot be opened (%1).")(said), m_path,
                            phrase("core", "Check the rights of the file and its folder.")};
    case DatabaseFault::Reason::Other:
        break;
    }
    if ((code & 0xFF) == SQLITE_INTERRUPT)
        throw DatabaseFault{reason,
                            phrase("core", "Reading the file takes too long; it is not as a document should be."),
                            m_path, phrase("core", "Take an older copy of it, if there is one.")};
    if ((code & 0xFF) == SQLITE_TOOBIG)
        throw DatabaseFault{reason, phrase("core", "A value is too large for a document."), m_path,
                            phrase("core", "Simplify the largest fence, or divide it.")};
    throw DatabaseFault{reason, phrase("core", "The file cannot be read or written (%1).")(said), m_path,
                        phrase("core", "Check the disk, and the rights of the file and its folder.")};
}

void Statement::Finalise::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Statement::Statement(const Database& database, std::string_view query) : m_database{database} {
    sqlite3_stmt* statement = nullptr;
    const int code =
        sqlite3_prepare_v2(database.handle(), query.data(), static_cast<int>(query.size()), &statement, nullptr);
    m_statement.reset(statement);
    check(code);
}

Statement& Statement::bind(int parameter, std::int64_t value) {
    check(sqlite3_bind_int64(m_statement.get(), parameter, value));
    return *this;
}

Statement& Statement::bind(int parameter, double value) {
    check(sqlite3_bind_double(m_statement.get(), parameter, value));
    return *this;
}

Statement& Statement::bind(int parameter, std::string_view text) {
    // A null pointer would mean NULL, not the empty text.
    check(sqlite3_bind_text64(m_statement.get(), parameter, text.empty() ? "" : text.data(), text.size(),
                              SQLITE_TRANSIENT, SQLITE_UTF8));
    return *this;
}

Statement& Statement::bindBlob(int parameter, std::string_view bytes) {
    check(sqlite3_bind_blob64(m_statement.get(), parameter, bytes.empty() ? "" : bytes.data(), bytes.size(),
                              SQLITE_TRANSIENT));
    return *this;
}

Statement& Statement::bindNull(int parameter) {
    check(sqlite3_bind_null(m_statement.get(), parameter));
    return *this;
}

bool Statement::step() {
    const int code = sqlite3_step(m_statement.get());
    if (code == SQLITE_ROW)
        return true;
    if (code != SQLITE_DONE)
        m_database.refuse(code);
    return false;
}

void Statement::execute() {
    step();
    check(sqlite3_reset(m_statement.get()));
    check(sqlite3_clear_bindings(m_statement.get()));
}

Statement::Type Statement::type(int column) const {
    switch (sqlite3_column_type(m_statement.get(), column)) {
    case SQLITE_INTEGER:
        return Type::Integer;
    case SQLITE_FLOAT:
        return Type::Real;
    case SQLITE_TEXT:
        return Type::Text;
    case SQLITE_BLOB:
        return Type::Blob;
    default:
        return Type::Null;
    }
}

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(m_statement.get(), column); }

std::string Statement::text(int column) const {
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(m_statement.get(), column));
    if (text == nullptr)
        m_database.refuse(SQLITE_NOMEM);
    return {text, static_cast<std::size_t>(sqlite3_column_bytes(m_statement.get(), column))};
}

void Statement::check(int code) const {
    if (code != SQLITE_OK)
        m_database.refuse(code);
}

} // namespace fencewright::store
