#include "exchange/detail/geopackage_rows.h"

#include "exchange/detail/attribute_text.h"
#include "exchange/detail/text_encoding.h"
#include "units/number_notation.h"

#include <sqlite3.h>

#include <bit>
#include <charconv>
#include <cstring>
#include <string_view>

namespace fencewright::exchange::detail {

namespace {

static_assert(std::endian::native == std::endian::little, "geometries are read as they lie in the file");

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

/// Takes a geometry apart.
class BlobReading {
public:
    BlobReading(std::string_view blob, PlainIntake& intake) : m_rest{blob}, m_intake{intake} {}

    /// Whether there is a geometry.
    bool run() {
        skipHead();
        const Type type = nextType();
        switch (type.kind) {
        case kPoint:
            point(type);
            return true;
        case kLine:
            return openLine(type);
        case kPolygon:
            return polygon(type);
        case kMultiPoint:
        case kMultiLine:
        case kMultiPolygon:
            break;
        default:
            throw NotPlain{};
        }
        const auto parts = count(5);
        for (std::uint32_t i = 0; i < parts; ++i) {
            const Type own = nextType();
            if (own.kind != type.kind - 3 || own.stride != type.stride || own.hasZ != type.hasZ)
                throw NotPlain{};
            if (own.kind == kPoint)
                point(own);
            else if (!(own.kind == kLine ? openLine(own) : polygon(own)))
                throw NotPlain{};
        }
        return parts > 0;
    }

private:
    enum Kind : std::uint32_t { kPoint = 1, kLine, kPolygon, kMultiPoint, kMultiLine, kMultiPolygon };
    struct Type {
        std::uint32_t kind = 0;
        std::size_t stride = 16; ///< bytes of a corner
        bool hasZ = false;
    };

    template <class T> T next() {
        T value;
        if (m_rest.size() < sizeof value)
            throw NotPlain{};
        std::memcpy(&value, m_rest.data(), sizeof value);
        m_rest.remove_prefix(sizeof value);
        return value;
    }
    /// How many follow, each of at least so many bytes.
    std::uint32_t count(std::size_t bytesEach) {
        const auto number = next<std::uint32_t>();
        if (number > m_rest.size() / bytesEach)
            throw NotPlain{};
        return number;
    }

    void skipHead() {
        constexpr std::array<std::size_t, 5> envelope{0, 32, 48, 48, 64};
        const auto magic = next<std::array<char, 3>>();
        const auto flags = next<std::uint8_t>();
        const std::size_t kind = (flags >> 1) & 7U;
        // Not the first version of the form, or an extended one; or of another byte order.
        if (magic != std::array<char, 3>{'G', 'P', 0} || (flags & 0xE1U) != 1 || kind >= envelope.size() ||
            m_rest.size() < 4 + envelope[kind])
            throw NotPlain{};
        m_rest.remove_prefix(4 + envelope[kind]);
    }

    Type nextType() {
        if (next<std::uint8_t>() != 1)
            throw NotPlain{};
        const auto code = next<std::uint32_t>();
        const std::uint32_t dimensions = code / 1000;
        if (dimensions > 3)
            throw NotPlain{};
        return {code % 1000, dimensions == 0 ? 16U : dimensions == 3 ? 32U : 24U, dimensions == 1 || dimensions == 3};
    }

    void corners(std::size_t number, const Type& type) {
        if (number > m_rest.size() / type.stride)
            throw NotPlain{};
        std::vector<geodesy::PlanePoint>& into = m_intake.corners();
        const std::size_t before = into.size();
        into.resize(before + number);
        const char* at = m_rest.data();
        for (std::size_t i = 0; i < number; ++i, at += type.stride) {
            std::memcpy(&into[before + i].x, at, sizeof(double));
            std::memcpy(&into[before + i].y, at + 8, sizeof(double));
            if (type.hasZ) {
                double z = 0.0;
                std::memcpy(&z, at + 16, sizeof z);
                m_intake.height(z);
            }
        }
        m_rest.remove_prefix(number * type.stride);
    }

    void point(const Type& type) {
        corners(1, type);
        m_intake.endPoint(); // an empty one has coordinates that are no numbers: not plain
    }

    bool openLine(const Type& type) {
        const auto number = count(type.stride);
        if (number == 0)
            return false;
        corners(number, type);
        m_intake.endOpenLine();
        return true;
    }

    bool polygon(const Type& type) {
        const auto rings = count(4);
        for (std::uint32_t ring = 0; ring < rings; ++ring) {
            corners(count(type.stride), type);
            m_intake.endRing(ring > 0);
        }
        return rings > 0;
    }

    std::string_view m_rest;
    PlainIntake& m_intake;
};

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
    Statement geometry, attributes;

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
    std::string from() const {
        return " FROM " + quoted(table.name) + " WHERE " + quoted(table.idColumn) + " BETWEEN ? AND ?";
    }
    static void start(sqlite3_stmt* statement, std::int64_t first, std::int64_t last) {
        sqlite3_reset(statement);
        sqlite3_bind_int64(statement, 1, first);
        sqlite3_bind_int64(statement, 2, last);
    }
    void requireRowsInOrder() const;
    static void addValue(sqlite3_stmt* row, int column, GeopackageTable::Content content, TextColumn& to);
};

/// The identity is that of the row itself only where it is the table's one key and a whole number.
void GeopackageRows::Parts::requireRowsInOrder() const {
    const Statement kind = prepared("SELECT type FROM sqlite_master WHERE lower(name) = lower(?)");
    sqlite3_bind_text(kind.get(), 1, table.name.data(), static_cast<int>(table.name.size()), SQLITE_STATIC);
    if (!step(kind.get()) || textOf(kind.get(), 0) != "table")
        throw NotPlain{};
    const Statement columns = prepared("SELECT name, upper(type) FROM pragma_table_info(?) WHERE pk > 0");
    sqlite3_bind_text(columns.get(), 1, table.name.data(), static_cast<int>(table.name.size()), SQLITE_STATIC);
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
    m_parts->geometry =
        m_parts->prepared("SELECT " + quoted(table.idColumn) + ", " + quoted(table.geometryColumn) + m_parts->from());
    std::string values = "SELECT " + quoted(table.idColumn);
    for (const GeopackageTable::Column& column : table.columns)
        values += ", " + quoted(column.name);
    m_parts->attributes = m_parts->prepared(values + m_parts->from());
}

GeopackageRows::~GeopackageRows() = default;
GeopackageRows::GeopackageRows(GeopackageRows&&) noexcept = default;

std::pair<std::int64_t, std::int64_t> GeopackageRows::ids() {
    const std::string id = quoted(m_parts->table.idColumn), table = quoted(m_parts->table.name);
    const auto end = [&](const std::string& which) {
        const Statement statement = m_parts->prepared("SELECT " + which + "(" + id + ") FROM " + table);
        if (!Parts::step(statement.get()))
            throw NotPlain{};
        return sqlite3_column_type(statement.get(), 0) == SQLITE_INTEGER
                   ? std::optional{sqlite3_column_int64(statement.get(), 0)}
                   : std::nullopt;
    };
    const auto first = end("min"), last = end("max");
    return first && last ? std::pair<std::int64_t, std::int64_t>{*first, *last}
                         : std::pair<std::int64_t, std::int64_t>{0, -1};
}

void GeopackageRows::readGeometry(std::int64_t first, std::int64_t last, PlainIntake& intake, PlainStretch& into) {
    sqlite3_stmt* rows = m_parts->geometry.get();
    Parts::start(rows, first, last);
    while (Parts::step(rows)) {
        const std::int64_t id = sqlite3_column_int64(rows, 0);
        const int type = sqlite3_column_type(rows, 1);
        if (type != SQLITE_BLOB && type != SQLITE_NULL)
            throw NotPlain{};
        const auto* blob = static_cast<const char*>(sqlite3_column_blob(rows, 1));
        if (type == SQLITE_BLOB &&
            BlobReading{{blob, static_cast<std::size_t>(sqlite3_column_bytes(rows, 1))}, intake}.run())
            intake.endFeature(id, into);
        else
            intake.endFeatureWithoutGeometry(into);
    }
    intake.flush(into);
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
    Parts::start(rows, ids.front(), ids.back());
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
