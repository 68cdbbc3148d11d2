#include "exchange/detail/database_table.h"

#include "exchange/detail/source_layer.h"
#include "exchange/detail/where_clause.h"
#include "fault.h"

#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>

namespace fencewright::exchange::detail {
namespace {

constexpr const char* kFormat = "PostGIS table";
constexpr std::size_t kMostTables = 2000;
// Where the server has not counted yet, smaller tables are counted when they are listed, and the coordinate system of
// as many views is looked up in their rows.
constexpr const char* kCountedBytes = "16777216";
constexpr int kMostLookedInto = 50;

/// What the server answered to a query of ours that it did not like.
struct Refusal {
    std::string words;
};

std::string literal(const std::string& value) {
    std::string quoted = "'";
    for (const char c : value)
        quoted += c == '\'' ? std::string{"''"} : std::string{c};
    return quoted + "'";
}

std::string identifier(const std::string& name) {
    std::string quoted = "\"";
    for (const char c : name)
        quoted += c == '"' ? std::string{"\"\""} : std::string{c};
    return quoted + "\"";
}

ResultHandle query(const gdal::DatasetHandle& database, const std::string& statement) {
    auto dataset = static_cast<GDALDatasetH>(database.get());
    gdal::ErrorCapture said;
    ResultHandle result{GDALDatasetExecuteSQL(dataset, statement.c_str(), nullptr, nullptr), {dataset}};
    const std::string trouble = said.firstError("");
    if (!trouble.empty() || !result)
        throw Refusal{serverWords(trouble.empty() ? "the query has no result" : trouble)};
    return result;
}

/// What is selected of a query, each as text. The driver finds columns by their names, small or capital: so each has a
/// name of ours.
std::vector<std::vector<std::string>> rows(const gdal::DatasetHandle& database,
                                           const std::vector<std::string>& selected, const std::string& from) {
    std::string statement = "SELECT ";
    for (std::size_t i = 0; i < selected.size(); ++i)
        statement += (i ? ", (" : "(") + selected[i] + ")::text AS c" + std::to_string(i);
    const ResultHandle result = query(database, statement + " FROM " + from);
    auto layer = static_cast<OGRLayerH>(result.get());
    gdal::ErrorCapture said;
    std::vector<std::vector<std::string>> all;
    while (const gdal::FeatureHandle handle{OGR_L_GetNextFeature(layer)}) {
        auto feature = static_cast<OGRFeatureH>(handle.get());
        std::vector<std::string>& row = all.emplace_back();
        for (int i = 0; i < OGR_F_GetFieldCount(feature); ++i)
            row.emplace_back(OGR_F_IsFieldSetAndNotNull(feature, i) ? OGR_F_GetFieldAsString(feature, i) : "");
    }
    if (const std::string trouble = said.firstError(""); !trouble.empty())
        throw Refusal{serverWords(trouble)};
    return all;
}

bool contains(const std::string& text, std::string_view words) { return text.find(words) != std::string::npos; }

[[noreturn]] void notLetIn(const std::string& path, std::string words) {
    const DatabaseAddress address = parseDatabaseAddress(path);
    const Wording who =
        address.user.empty() ? Wording{phrase("core", "this user")} : phrase("core", "\"%1\"")(address.user);
    if (const std::size_t failed = words.find(" failed: ");
        words.starts_with("connection to server") && failed != std::string::npos)
        words.erase(0, failed + std::string_view{" failed: "}.size());
    if (words.starts_with("FATAL:  "))
        words.erase(0, 8);
    if (contains(words, "password authentication failed"))
        throw Fault{phrase("core", "The server does not accept the name %1 with this password.")(who), path,
                    phrase("core", "Type both anew, or ask whoever keeps the server.")};
    if (contains(words, "no password supplied"))
        throw Fault{phrase("core", "The server asks %1 for a password.")(who), path,
                    phrase("core", "Connect with the password.")};
    if (contains(words, "database \"") && contains(words, "does not exist"))
        throw Fault{phrase("core", "There is no database \"%1\" on the server.")(address.database), path,
                    phrase("core", "Check the last part of the address.")};
    if (contains(words, "pg_hba.conf") || contains(words, "permission denied") || contains(words, "is not permitted"))
        throw Fault{phrase("core", "The server does not let %1 in: %2.")(who, words), path,
                    phrase("core", "Ask whoever keeps the server for access from this machine.")};
    throw Fault{phrase("core", "The server cannot be reached: %1.")(words), path,
                phrase("core", "Check the address, and that the server runs and the network is there.")};
}

gdal::DatasetHandle connect(const std::string& path) {
    if (!gdal::admitsDatabases())
        throw Fault{phrase("core", "This process does not speak to servers."), path,
                    phrase("core", "Read the table through the reading process.")};
    gdal::ErrorCapture said;
    // Where and as whom: see speakTo().
    const char* drivers[] = {"PostgreSQL", nullptr};
    const char* options[] = {"LIST_ALL_TABLES=NO", nullptr};
    gdal::DatasetHandle database{
        GDALOpenEx("PG:connect_timeout=10", GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers, options, nullptr)};
    if (!database)
        notLetIn(path, serverWords(said.firstError("it does not answer")));
    return database;
}

/// The schema that PostGIS is installed in, as an identifier.
std::string postgisSchema(const gdal::DatasetHandle& database, const std::string& path) {
    const auto found = rows(database, {"n.nspname"},
                            "pg_catalog.pg_extension e JOIN pg_catalog.pg_namespace n ON n.oid = e.extnamespace "
                            "WHERE e.extname = 'postgis'");
    if (found.empty())
        throw Fault{
            phrase("core", "The database has no PostGIS, so there are no geometries in it."), path,
            phrase("core",
                   "Check the name of the database, or ask whoever keeps the server to CREATE EXTENSION postgis.")};
    return identifier(found.front().front());
}

bool isGeometry(const std::string& type) { return type == "geometry" || type == "geography"; }

struct Column {
    std::string name;
    std::string type;
    int modifier = -1;
    bool readable = false;
    bool key = false;
    int srid = 0; ///< of a geometry; zero: any
};

struct Table {
    TableName name;
    char kind = 'r'; ///< pg_class.relkind
    std::optional<std::size_t> expected;
    std::vector<Column> columns;

    [[nodiscard]] std::string quoted() const { return identifier(name.schema) + "." + identifier(name.table); }
};

Table tableOf(const gdal::DatasetHandle& database, const ReadRequest& request, const std::string& postgis) {
    Table table{parseTableName(request.layer), 'r', std::nullopt, {}};
    const auto found =
        rows(database,
             {"a.attname", "t.typname", "a.atttypmod", "c.relkind", "c.reltuples::bigint",
              "pg_catalog.has_schema_privilege(n.oid, 'USAGE') AND "
              "pg_catalog.has_column_privilege(c.oid, a.attnum, 'SELECT')",
              "EXISTS (SELECT 1 FROM pg_catalog.pg_index i WHERE i.indrelid = c.oid AND i.indisprimary AND "
              "i.indnatts = 1 AND i.indkey[0] = a.attnum)",
              "CASE WHEN t.typname IN ('geometry', 'geography') THEN " + postgis +
                  ".postgis_typmod_srid(a.atttypmod) ELSE 0 END"},
             "pg_catalog.pg_class c JOIN pg_catalog.pg_namespace n ON n.oid = c.relnamespace JOIN "
             "pg_catalog.pg_attribute a ON a.attrelid = c.oid JOIN pg_catalog.pg_type t ON t.oid = a.atttypid "
             "WHERE c.relkind IN ('r', 'v', 'm', 'f', 'p') AND n.nspname = " +
                 literal(table.name.schema) + " AND c.relname = " + literal(table.name.table) +
                 " AND a.attnum > 0 AND NOT a.attisdropped ORDER BY a.attnum");
    if (found.empty())
        throw Fault{phrase("core", "There is no table %1 in the database.")(request.layer), request.path,
                    phrase("core", "Choose another one, or ask whoever keeps the server what became of it.")};
    for (const auto& row : found) {
        table.kind = row[3].empty() ? 'r' : row[3].front();
        if (const long long count = std::atoll(row[4].c_str()); count >= 0 && table.kind != 'v')
            table.expected = static_cast<std::size_t>(count);
        table.columns.push_back(
            {row[0], row[1], std::atoi(row[2].c_str()), row[5] == "true", row[6] == "true", std::atoi(row[7].c_str())});
    }
    return table;
}

const Column& geometryOf(const Table& table, const ReadRequest& request) {
    const Column* first = nullptr;
    bool hidden = false;
    for (const Column& column : table.columns) {
        if (!isGeometry(column.type) || (!table.name.geometry.empty() && column.name != table.name.geometry))
            continue;
        hidden = hidden || !column.readable;
        if (!first && column.readable)
            first = &column;
    }
    if (first)
        return *first;
    if (hidden)
        throw Fault{
            phrase("core", "The user may not read the table %1.")(request.layer), request.path,
            phrase("core", "Ask whoever keeps the server for the right to: GRANT SELECT ON %1.")(table.quoted())};
    throw Fault{phrase("core", "There is no geometry in the table %1.")(request.layer), request.path,
                phrase("core", "Choose another table.")};
}

/// The columns that are not taken as they are: numbers with more digits than a double keeps are taken as text.
std::string selected(const Column& column) {
    const bool longNumber =
        column.type == "numeric" && (column.modifier < 4 || ((column.modifier - 4) >> 16 & 0xffff) > 15);
    return identifier(column.name) + (longNumber || column.type == "oid" ? "::text" : "");
}

bool isUnread(const Column& column) {
    return column.type == "bytea" || column.type == "raster" || isGeometry(column.type);
}

/// The one query that the table is read by.
struct Selection {
    std::string list; ///< of columns, under names of ours as in rows()
    std::string from; ///< with WHERE
    std::vector<std::string> fields;
    std::optional<int> idColumn;
};

Selection selectionOf(const Table& table, const Column& geometry, const ReadRequest& request, ReadingAccount& account) {
    Selection selection;
    for (const Column& column : table.columns) {
        if (&column == &geometry)
            continue;
        if (!column.readable || isUnread(column)) {
            account.leftOut("",
                            phrase("core", "the column \"%1\" is not read: %2")(
                                column.name, !column.readable ? Wording{phrase("core", "the user has no right to it.")}
                                             : isGeometry(column.type)
                                                 ? phrase("core", "the shapes are those of \"%1\".")(geometry.name)
                                                 : Wording{phrase("core", "it holds no text and no numbers.")}));
            continue;
        }
        if (column.key)
            selection.idColumn = static_cast<int>(selection.fields.size());
        selection.list += selected(column) + " AS c" + std::to_string(selection.fields.size()) + ", ";
        selection.fields.push_back(column.name);
    }
    selection.list += identifier(geometry.name) + " AS shape";
    selection.from = table.quoted();
    if (!request.where.empty())
        selection.from += " WHERE (" + request.where + ")";
    return selection;
}

[[noreturn]] void refuseFilter(const ReadRequest& request, const Wording& why) {
    throw FilterFault{phrase("core", "The filter \"%1\" is not understood: %2.")(request.where, why), request.path,
                      phrase("core", "Write it like: category = 'lease' AND area > 500.")};
}

/// The systems of coordinates by SRID; without those that the server does not know.
std::map<std::string, CrsHandle> systemsOf(const gdal::DatasetHandle& database, const std::string& postgis,
                                           const std::set<std::string>& srids) {
    std::map<std::string, CrsHandle> systems;
    std::string list;
    for (const std::string& srid : srids)
        list += (list.empty() ? "" : ", ") + srid;
    if (list.empty())
        return systems;
    gdal::ErrorCapture unheard; // what cannot be read is not known
    for (const auto& row : rows(database, {"srid", "auth_name", "auth_srid", "srtext"},
                                postgis + ".spatial_ref_sys WHERE srid IN (" + list + ")")) {
        CrsHandle handle{OSRNewSpatialReference(nullptr)};
        auto crs = static_cast<OGRSpatialReferenceH>(handle.get());
        OSRSetAxisMappingStrategy(crs, OAMS_TRADITIONAL_GIS_ORDER);
        std::string definition = row[3];
        char* at = definition.data();
        if (row[1] == "EPSG" ? OSRImportFromEPSG(crs, std::atoi(row[2].c_str())) == OGRERR_NONE
                             : OSRImportFromWkt(crs, &at) == OGRERR_NONE)
            systems[row[0]] = std::move(handle);
    }
    return systems;
}

/// A table, opened, and what was found out about it on the way.
struct OpenedTable {
    Table table;
    Selection selection;
    ForeignFile file;
};

OpenedTable open(const ReadRequest& request, ReadingAccount& account) {
    static const FormatRow row{kFormat, {}, "PostgreSQL", Content::Unknown, Loading::InPlace, SIZE_MAX, {}};
    OpenedTable opened;
    ForeignFile& file = opened.file;
    file.format = &row;
    file.dataset = connect(request.path);
    const std::string postgis = postgisSchema(file.dataset, request.path);
    if (request.layer.empty())
        throw Fault{phrase("core", "No table of the database is named."), request.path,
                    phrase("core", "Name one like schema.table, after the address and \"#\".")};
    opened.table = tableOf(file.dataset, request, postgis);
    const Column& geometry = geometryOf(opened.table, request);
    if (!request.where.empty())
        if (const auto why = whyNoCondition(request.where))
            refuseFilter(request, *why);
    opened.selection = selectionOf(opened.table, geometry, request, account);
    file.fields = opened.selection.fields;
    file.idColumn = opened.selection.idColumn;
    file.expected = opened.table.expected;
    // First without the filter, so that it is known what a refusal is about.
    (void)query(file.dataset, "SELECT " + opened.selection.list + " FROM " + opened.table.quoted() + " LIMIT 0");
    std::string srid = geometry.srid == 0 && geometry.type == "geography" ? "4326" : std::to_string(geometry.srid);
    try {
        if (srid == "0") {
            const std::string name = identifier(geometry.name);
            const auto srids =
                rows(file.dataset, {"srid"},
                     "(SELECT DISTINCT " + postgis + ".st_srid(" + name + ") AS srid FROM " + opened.selection.from +
                         (request.where.empty() ? " WHERE " : " AND ") + name + " IS NOT NULL LIMIT 9) AS found");
            if (srids.size() > 1) {
                std::string list;
                for (const auto& one : srids)
                    list += (list.empty() ? "" : ", ") + one.front();
                throw Fault{
                    phrase("core", "The shapes of %1 are in several coordinate systems: SRID %2.")(request.layer, list),
                    request.path,
                    phrase("core", "Read those of one by a filter: ST_SRID(%1) = %2.")(name, srids.front().front())};
            }
            if (!srids.empty())
                srid = srids.front().front();
        }
        auto systems = systemsOf(file.dataset, postgis, {srid});
        if (const auto known = systems.find(srid); known != systems.end())
            file.crs = std::move(known->second);
        file.result = query(file.dataset, "SELECT " + opened.selection.list + " FROM " + opened.selection.from);
    } catch (const Refusal& refusal) {
        if (request.where.empty())
            throw;
        refuseFilter(request, refusal.words);
    }
    // The driver looks for the system as well, and says once that there is none.
    gdal::ErrorCapture unheard;
    (void)crsOf(file.result.get());
    return opened;
}

[[noreturn]] void refused(const ReadRequest& request, const Refusal& refusal) {
    throw Fault{phrase("core", "The server does not give the table: %1.")(refusal.words), request.path,
                phrase("core", "Ask whoever keeps the server.")};
}

std::string geometryWords(const std::string& type) {
    const auto has = [&](std::string_view word) { return contains(type, word); };
    if (has("POLYGON") || has("SURFACE") || has("TRIANGLE") || has("Polygon") || has("Surface"))
        return "Polygon";
    if (has("POINT") || has("Point"))
        return "Point";
    if (has("LINE") || has("CURVE") || has("CIRCULAR") || has("Line") || has("Curve") || has("Circular"))
        return "Line";
    return "mixed";
}

} // namespace

std::string serverWords(const std::string& said) {
    std::string words = said;
    constexpr std::string_view kConnecting = "PQconnectdb failed.\n";
    if (words.starts_with(kConnecting))
        words.erase(0, kConnecting.size());
    words = words.substr(0, words.find('\n'));
    for (const std::string_view mark : {"ERROR:  ", "FATAL:  "})
        if (words.starts_with(mark))
            words.erase(0, mark.size());
    return plainWords(words).english();
}

void speakTo(const DatabaseAddress& address, const std::string& password, std::chrono::seconds patience) {
    // The library takes where and as whom from the environment of this process, which starts without such words: then
    // the password stands in no connection string, and so in no message. A name that is empty is not set.
    const auto set = [](const char* name, const std::string& value) {
        if (!value.empty())
            ::setenv(name, value.c_str(), 1);
    };
    set("PGHOST", address.host);
    set("PGPORT", address.port);
    set("PGUSER", address.user);
    set("PGDATABASE", address.database);
    set("PGSSLMODE", address.encryption);
    set("PGPASSWORD", password);
    // Nothing but what the person typed opens this door.
    set("PGPASSFILE", "/dev/null");
    set("PGSERVICEFILE", "/dev/null");
    set("PGGSSENCMODE", "disable");
    set("PGAPPNAME", "Fencewright");
    const std::string limit = std::to_string(std::chrono::milliseconds{patience}.count());
    set("PGOPTIONS", "-c default_transaction_read_only=on -c standard_conforming_strings=on -c lock_timeout=10000 "
                     "-c client_min_messages=error -c statement_timeout=" +
                         limit);
    gdal::admitDatabases();
}

ForeignFile openTable(const ReadRequest& request, ReadingAccount& account) {
    try {
        return open(request, account).file;
    } catch (const Refusal& refusal) {
        refused(request, refusal);
    }
}

} // namespace fencewright::exchange::detail

namespace fencewright::exchange {

using namespace detail;

std::string stateOfTable(const ReadRequest& request) {
    ReadingAccount unheard; // the reading will tell
    try {
        const OpenedTable opened = open(request, unheard);
        if (opened.table.kind != 'r' && opened.table.kind != 'm' && opened.table.kind != 'p')
            return {};
        void* crs = opened.file.crs.get();
        std::string state = opened.selection.list + " FROM " + opened.selection.from + "\n";
        for (const Column& column : opened.table.columns)
            state += column.name + " " + column.type + " " + std::to_string(column.modifier) + "\n";
        state += (crs ? crsText(crs) : "no CRS") + "\n";
        // Each version of a row has a place of its own and the number of the transaction that wrote it: any change of
        // any row changes their sum. hashtextextended is PostgreSQL's own since version 11.
        const auto sum = rows(opened.file.dataset,
                              {"count(*)", "coalesce(sum(pg_catalog.hashtextextended(tableoid::text || ' ' || "
                                           "ctid::text || ' ' || xmin::text, 0)), 0)"},
                              opened.selection.from);
        return sum.empty() ? "" : state + sum.front()[0] + " " + sum.front()[1];
    } catch (const Refusal&) {
        return {}; // an older server, or no right to these columns: the table is read anew each time
    }
}

VectorDescription describeDatabase(const ReadRequest& request) {
    try {
        const gdal::DatasetHandle database = connect(request.path);
        const std::string postgis = postgisSchema(database, request.path);
        const std::string tables =
            "pg_catalog.pg_attribute a JOIN pg_catalog.pg_class c ON c.oid = a.attrelid JOIN pg_catalog.pg_namespace n "
            "ON n.oid = c.relnamespace JOIN pg_catalog.pg_type t ON t.oid = a.atttypid WHERE a.attnum > 0 AND NOT "
            "a.attisdropped AND c.relkind IN ('r', 'v', 'm', 'f', 'p') AND NOT c.relispartition AND "
            "n.nspname !~ '^pg_' AND n.nspname <> 'information_schema' AND t.typname ";
        const auto found =
            rows(database,
                 {"n.nspname", "c.relname", "a.attname", "t.typname", postgis + ".postgis_typmod_type(a.atttypmod)",
                  postgis + ".postgis_typmod_srid(a.atttypmod)", "c.reltuples::bigint", "c.relkind",
                  "pg_catalog.has_schema_privilege(n.oid, 'USAGE') AND "
                  "pg_catalog.has_column_privilege(c.oid, a.attnum, 'SELECT')",
                  std::string{"pg_catalog.pg_relation_size(c.oid) < "} + kCountedBytes},
                 tables + "IN ('geometry', 'geography') ORDER BY n.nspname, c.relname, a.attnum LIMIT " +
                     std::to_string(kMostTables));
        std::map<std::pair<std::string, std::string>, std::vector<std::string>> columns;
        for (const auto& row :
             rows(database, {"n.nspname", "c.relname", "a.attname"},
                  tables + "NOT IN ('geometry', 'geography', 'raster', 'bytea') AND EXISTS (SELECT 1 FROM "
                           "pg_catalog.pg_attribute g JOIN pg_catalog.pg_type y ON y.oid = g.atttypid WHERE "
                           "g.attrelid = c.oid AND NOT g.attisdropped AND y.typname IN ('geometry', 'geography')) "
                           "ORDER BY n.nspname, c.relname, a.attnum"))
            columns[{row[0], row[1]}].push_back(row[2]);
        VectorDescription description{request.path, kFormat, {}};
        std::vector<std::string> srids;
        int looks = 0;
        for (std::size_t i = 0; i < found.size(); ++i) {
            const auto& row = found[i];
            const auto sameTable = [&](std::size_t other) {
                return other < found.size() && found[other][0] == row[0] && found[other][1] == row[1];
            };
            const bool several = (i > 0 && sameTable(i - 1)) || sameTable(i + 1);
            LayerDescription layer;
            layer.name = text(TableName{row[0], row[1], several ? row[2] : ""});
            layer.geometry = geometryWords(row[4]);
            layer.fields = columns[{row[0], row[1]}];
            const std::string from = identifier(row[0]) + "." + identifier(row[1]);
            const bool view = row[7] == "v";
            std::string srid = row[5];
            if (row[8] != "true") {
                layer.remark = phrase("core", "no right to read it");
            } else {
                try {
                    if (!view && !row[6].starts_with('-'))
                        layer.features = static_cast<std::size_t>(std::atoll(row[6].c_str()));
                    else if (!view && row[9] == "true" && looks++ < kMostLookedInto)
                        layer.features = static_cast<std::size_t>(
                            std::atoll(rows(database, {"count(*)"}, from).front().front().c_str()));
                    if (srid == "0" && row[3] == "geometry" && looks++ < kMostLookedInto) {
                        const std::string name = identifier(row[2]);
                        const auto first = rows(database, {postgis + ".st_srid(" + name + ")"},
                                                from + " WHERE " + name + " IS NOT NULL LIMIT 1");
                        srid = first.empty() ? "0" : first.front().front();
                    }
                } catch (const Refusal& refusal) {
                    layer.remark = refusal.words;
                }
            }
            srids.push_back(row[3] == "geography" && srid == "0" ? "4326" : srid);
            description.layers.push_back(std::move(layer));
        }
        const auto systems = systemsOf(database, postgis, {srids.begin(), srids.end()});
        for (std::size_t i = 0; i < srids.size(); ++i) {
            LayerDescription& layer = description.layers[i];
            const auto known = systems.find(srids[i]);
            if (known != systems.end())
                layer.crs = crsName(known->second.get());
            else if (srids[i] != "0" && layer.remark.empty())
                layer.remark = phrase("core", "the server does not know its SRID %1")(srids[i]);
        }
        return description;
    } catch (const Refusal& refusal) {
        throw Fault{phrase("core", "The server does not list its tables: %1.")(refusal.words), request.path,
                    phrase("core", "Ask whoever keeps the server.")};
    }
}

} // namespace fencewright::exchange
