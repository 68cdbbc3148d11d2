#pragma once

#include "fault.h"

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

// Owners of SQLite's handles, private to the module.
namespace fencewright::store {

/// SQLite refused. Carries its result code so that callers can tell locked from damaged from full.
class DatabaseFault : public Fault {
public:
    enum class Reason { Locked, Damaged, NotADatabase, Full, Denied, Other };

    DatabaseFault(Reason reason, Wording problem, Wording place, Wording remedy)
        : Fault{std::move(problem), std::move(place), std::move(remedy)}, m_reason{reason} {}
    [[nodiscard]] Reason reason() const { return m_reason; }

private:
    Reason m_reason;
};

enum class Access {
    Read,     ///< the file comes from outside: nothing in it may run, and nothing takes for ever
    Write,    ///< an existing file is changed
    WriteNew, ///< an empty file of ours is filled; made safe by a flush at the end, not by a journal
};

class Database {
public:
    /// @throws DatabaseFault  the place is the file.
    Database(const std::string& path, Access access);

    [[nodiscard]] sqlite3* handle() const { return m_handle.get(); }
    [[nodiscard]] const std::string& path() const { return m_path; }

    /// Runs statements that give no rows. @throws DatabaseFault
    void run(const std::string& statements) const;
    /// The first column of the first row; nothing where there is no row or it is NULL.
    [[nodiscard]] std::optional<std::int64_t> integer(const std::string& query) const;
    [[nodiscard]] std::optional<std::string> text(const std::string& query) const;
    /// Is it a table, rather than a view or a virtual one that computes what it likes?
    [[nodiscard]] bool hasPlainTable(std::string_view name) const;

    [[noreturn]] void refuse(int code) const;

private:
    struct Close {
        void operator()(sqlite3* handle) const;
    };
    std::string m_path;
    std::unique_ptr<std::chrono::steady_clock::time_point> m_deadline; ///< for reading; where it is, SQLite looks at it
    std::unique_ptr<sqlite3, Close> m_handle;
};

class Statement {
public:
    Statement(const Database& database, std::string_view query);

    /// Parameters count from 1. Texts and blobs are copied.
    Statement& bind(int parameter, std::int64_t value);
    Statement& bind(int parameter, double value);
    Statement& bind(int parameter, std::string_view text);
    Statement& bindBlob(int parameter, std::string_view bytes);
    Statement& bindNull(int parameter);

    /// On to the next row: false where there is none.
    bool step();
    /// Runs a statement without rows, and makes it ready for the next values.
    void execute();

    enum class Type { Integer, Real, Text, Blob, Null };
    [[nodiscard]] Type type(int column) const;
    [[nodiscard]] std::int64_t integer(int column) const;
    [[nodiscard]] std::string text(int column) const;

private:
    struct Finalise {
        void operator()(sqlite3_stmt* statement) const;
    };
    void check(int code) const;

    const Database& m_database;
    std::unique_ptr<sqlite3_stmt, Finalise> m_statement;
};

} // namespace fencewright::store
