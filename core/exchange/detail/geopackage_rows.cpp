#include "exchange/detail/geopackage_rows.h"

#include "exchange/detail/attribute_text.h"
#include "exchange/detail/text_encoding.h"
#include "units/number_notation.h"

#include <sqlite3.h>

#include <charconv>
#include <string_view>

namespace fencewright::exchange::detail {

namespace {

constexpr const char* kMapped = "PRAGMA mmap_size = 1073741824";

struct CloseDatabase {
    void operator()(sqlite3* database) const { sqlite3_close(database); }
};
struct FinalizeStatement {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};
using Database = std::unique_ptr<sqlite3, CloseDatabase>;
using Statement = std::unique_ptr<sqlite3_stmt, FinalizeStatement>;

std::string quoted(const std::string& name) {
    std::string text = "\"";
    for (const char c : name) {
        text += c;
        if (c == '"')
            text += c;
    }
    return text + "\"";
}

/// A path in the form that SQLite takes as an address of a file; whoever else writes it, this process does not look.
std::string addressOf(const std::string& path) {
    constexpr std::string_view kHex = "0123456789ABCDEF";
    std::string address = "file:";
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '%' || c == '?' || c == '#') {
            address += '%';
            address += kHex[byte >> 4];
            address += kHex[byte & 15U];
        } else {
            address += c;
        }
    }
    return address + "?immutable=1";
}

bool isNumber(std::string_view digits, int low, int high) {
    int value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return error == std::errc{} && end == digits.data() + digits.size() && digits.front() != '-' && value >= low &&
           value <= high;
}

bool isDate(std::string_view text) {
    return text.size() == 10 && text[4] == '-' && text[7] == '-' && isNumber(text.substr(0, 4), 1, 9999) &&
           isNumber(text.substr(5, 2), 1, 12) && isNumber(text.substr(8, 2), 1, 31);
}

/// "2020-01-02T03:04:05.000Z", the one form of the standard: whatever else is told with a warning. The fraction is not
/// told.
std::optional<std::string> plainTime(std::string_view text) {
    if (text.size() != 24 || !isDate(text.substr(0, 10)) || text[10] != 'T' || text[13] != ':' || text[16] != ':' ||
        text[19] != '.' || text[23] != 'Z' || !isNumber(text.substr(11, 2), 0, 23) ||
        !isNumber(text.substr(14, 2), 0, 59) || !isNumber(text.substr(17, 2), 0, 59) ||
        !isNumber(text.substr(20, 3), 0, 999))
        return std::nullopt;
    return std::string{text.substr(0, 19)} + "Z";
}

template <class Number> void addNumber(TextColumn& to, Number number) {
    char digits[32];
    const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
    to.add({digits, static_cast<std::size_t>(end - digits)});
}

std::string_view textOf(sqlite3_stmt* row, int column) {
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(row, column));
    return {text ? text : "", static_cast<std::size_t>(sqlite3_column_bytes(row, column))};
}

} // namespace

struct GeopackageRows::Parts {
    GeopackageTable table;
    Database database;
    Statement attributes;

    Statement prepared(const std::string& query) const {
        sqlite3_stmt* statement = nullptr;
        if (sqlite3_prepare_v2(database.get(), query.c_str(), -1, &statement, nullptr) != SQLITE_OK)
            throw NotPlain{};
        return Statement{statement};
    }
    /// Whether there is another row.
    static bool step(sqlite3_stmt* statement) {
        const int result = sqlite3_step(statement);
        if (result != SQLITE_ROW && result != SQLITE_DONE)
            throw NotPlain{};
        return result == SQLITE_ROW;
    }
    Statement preparedForTable(const std::string& query) const {
        Statement statement = prepared(query);
        sqlite3_bind_text(statement.get(), 1, table.name.data(), static_cast<int>(table.name.size()), SQLITE_STATIC);
        return statement;
    }
    void requireRowsInOrder() const;
    static void addValue(sqlite3_stmt* row, int column, GeopackageTable::Content content, TextColumn& to);
};

/// The identity is that of the row itself only where it is the table's one key and a whole number.
void GeopackageRows::Parts::requireRowsInOrder() const {
    const Statement kind = preparedForTable("SELECT type FROM sqlite_master WHERE lower(name) = lower(?)");
    if (!step(kind.get()) || textOf(kind.get(), 0) != "table")
        throw NotPlain{};
    const Statement columns = preparedForTable("SELECT name, upper(type) FROM pragma_table_info(?) WHERE pk > 0");
    if (!step(columns.get()) || textOf(columns.get(), 0) != table.idColumn || textOf(columns.get(), 1) != "INTEGER" ||
        step(columns.get()))
        throw NotPlain{};
}

GeopackageRows::GeopackageRows(const GeopackageTable& table) : m_parts{std::make_unique<Parts>()} {
    m_parts->table = table;
    sqlite3* database = nullptr;
    const int opened = sqlite3_open_v2(addressOf(table.path).c_str(), &database,
                                       SQLITE_OPEN_READONLY | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX, nullptr);
    m_parts->database.reset(database);
    if (opened != SQLITE_OK)
        throw NotPlain{};
    sqlite3_db_config(database, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(database, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    // Pages are looked at where they lie; a file that shrinks meanwhile ends the child.
    sqlite3_exec(database, kMapped, nullptr, nullptr, nullptr);
    m_parts->requireRowsInOrder();
    std::string values = "SELECT " + quoted(table.idColumn);
    for (const GeopackageTable::Column& column : table.columns)
        values += ", " + quoted(column.name);
    m_parts->attributes = m_parts->prepared(values + " FROM " + quoted(table.name) + " WHERE " +
                                            quoted(table.idColumn) + " BETWEEN ? AND ?");
}

GeopackageRows::~GeopackageRows() = default;
GeopackageRows::GeopackageRows(GeopackageRows&&) noexcept = default;

GeopackageGeometry::Place GeopackageRows::placeOfGeometry() const {
    GeopackageGeometry::Place place;
    const Statement root =
        m_parts->preparedForTable("SELECT rootpage FROM sqlite_master WHERE type = 'table' AND lower(name) = lower(?)");
    if (!Parts::step(root.get()))
        throw NotPlain{};
    place.root = sqlite3_column_int64(root.get(), 0);
    // Columns lie in the order of the schema, but for those that are worked out.
    const Statement columns = m_parts->preparedForTable("SELECT name, hidden FROM pragma_table_xinfo(?) ORDER BY cid");
    std::optional<std::size_t> found;
    for (std::size_t column = 0; Parts::step(columns.get()); ++column) {
        if (sqlite3_column_int64(columns.get(), 1) != 0)
            throw NotPlain{};
        if (textOf(columns.get(), 0) == m_parts->table.geometryColumn)
            found = column;
    }
    if (!found)
        throw NotPlain{};
    place.column = *found;
    return place;
}

void GeopackageRows::Parts::addValue(sqlite3_stmt* row, int column, GeopackageTable::Content content, TextColumn& to) {
    using Content = GeopackageTable::Content;
    const int type = sqlite3_column_type(row, column);
    if (type == SQLITE_NULL)
        return to.add({});
    switch (content) {
    case Content::Text:
    case Content::Date:
    case Content::DateTime: {
        if (type != SQLITE_TEXT)
            throw NotPlain{};
        const std::string_view text = textOf(row, column);
        if (content == Content::Text) {
            if (text.size() > kLongestText || text.find('\0') != std::string_view::npos || !isUtf8(text))
                throw NotPlain{};
            return to.add(text);
        }
        if (content == Content::Date && isDate(text))
            return to.add(text);
        const auto time = content == Content::DateTime ? plainTime(text) : std::nullopt;
        if (!time)
            throw NotPlain{};
        return to.add(*time);
    }
    case Content::Real: {
        if (type != SQLITE_FLOAT)
            throw NotPlain{};
        const double number = sqlite3_column_double(row, column);
        return to.add(std::isfinite(number) ? units::shortest(number) : std::string{});
    }
    case Content::Binary:
        if (type != SQLITE_BLOB)
            throw NotPlain{};
        return to.add("(binary)");
    default:
        break;
    }
    if (type != SQLITE_INTEGER)
        throw NotPlain{};
    const std::int64_t number = sqlite3_column_int64(row, column);
    if (content == Content::YesNo) {
        if (number != 0 && number != 1)
            throw NotPlain{};
        return to.add(number == 1 ? "true" : "false");
    }
    if ((content == Content::Whole16 && number != static_cast<std::int16_t>(number)) ||
        (content == Content::Whole32 && number != static_cast<std::int32_t>(number)))
        throw NotPlain{};
    addNumber(to, number);
}

AttributeBatch GeopackageRows::readAttributes(const std::vector<std::int64_t>& ids) {
    const std::vector<GeopackageTable::Column>& columns = m_parts->table.columns;
    AttributeBatch batch(columns.size() + 1);
    for (TextColumn& column : batch)
        column.ends.reserve(ids.size());
    if (ids.empty())
        return batch;
    sqlite3_stmt* rows = m_parts->attributes.get();
    sqlite3_reset(rows);
    sqlite3_bind_int64(rows, 1, ids.front());
    sqlite3_bind_int64(rows, 2, ids.back());
    std::size_t taken = 0;
    while (taken < ids.size() && Parts::step(rows)) {
        if (sqlite3_column_int64(rows, 0) != ids[taken])
            continue;
        ++taken;
        addNumber(batch[0], ids[taken - 1]);
        for (std::size_t c = 0; c < columns.size(); ++c)
            Parts::addValue(rows, static_cast<int>(c) + 1, columns[c].content, batch[c + 1]);
    }
    if (taken < ids.size())
        throw NotPlain{};
    return batch;
}

} // namespace fencewright::exchange::detail
