#pragma once

#include <string>
#include <string_view>

namespace fencewright::exchange {

/// Where a PostgreSQL database is. Never what opens it: an address has no place for a password.
struct DatabaseAddress {
    std::string user; ///< empty: the name under which this program runs
    std::string host; ///< a name, a number, or the folder of a socket; empty: the socket of this machine
    std::string port; ///< empty: 5432
    std::string database;
    std::string encryption; ///< libpq's sslmode, "require" for example; empty: where the server offers it

    bool operator==(const DatabaseAddress&) const = default;
};

/// Whether a path is the address of a database, and not of a file: "postgresql://".
[[nodiscard]] bool isDatabaseAddress(std::string_view path);

/// "postgresql://user@host:port/database?sslmode=require", with percent signs before letters that would mislead.
/// @throws Fault  not such an address; more than one host; a password in it, which is not repeated in the words; or a
/// parameter that is none of host, port, user, dbname and sslmode.
/// Source: PostgreSQL 15 documentation, section 34.1.1.2, "Connection URIs".
[[nodiscard]] DatabaseAddress parseDatabaseAddress(std::string_view text);
[[nodiscard]] std::string text(const DatabaseAddress& address);

/// A table, view or the like in a database, and which of its geometries.
struct TableName {
    std::string schema;
    std::string table;
    std::string geometry; ///< empty: the first

    bool operator==(const TableName&) const = default;
};
/// "schema.table" or "schema.table(geometry)"; a name with a point, a bracket or a quotation mark stands in quotation
/// marks, doubled within. Small and capital letters differ. Without a schema: "public".
/// @throws Fault  not such a name.
[[nodiscard]] TableName parseTableName(std::string_view text);
[[nodiscard]] std::string text(const TableName& name);

} // namespace fencewright::exchange
