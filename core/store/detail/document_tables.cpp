#include "store/detail/document_tables.h"

#include "store/detail/checksum.h"
#include "store/detail/geopackage.h"
#include "store/detail/value_text.h"
#include "store/document_file.h"

namespace fencewright::store {

namespace {

constexpr std::string_view kDocumentTable = "fencewright_document";

/// The row's place in the document is part of what is summed: rows that changed places are found too.
std::string checksumOf(std::string_view table, std::int64_t row, std::string_view value) {
    std::string summed{table};
    summed += ' ';
    summed += std::to_string(row);
    summed += ' ';
    summed += value;
    return crc64Text(summed);
}

void createTable(const Database& database, std::string_view table, const std::string& description) {
    database.run("CREATE TABLE " + std::string{table} +
                 " (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, version INTEGER NOT NULL, value TEXT NOT NULL, "
                 "checksum TEXT NOT NULL)");
    registerAttributes(database, table, description);
}

class RowWriter {
public:
    RowWriter(const Database& database, std::string_view table)
        : m_table{table}, m_insert{database, "INSERT INTO " + std::string{table} +
                                                 " (id, version, value, checksum) VALUES (?1, ?2, ?3, ?4)"} {}

    void write(std::int64_t row, const std::string& value) {
        m_insert.bind(1, row)
            .bind(2, std::int64_t{kDocumentVersion})
            .bind(3, value)
            .bind(4, checksumOf(m_table, row, value))
            .execute();
    }

private:
    std::string_view m_table;
    Statement m_insert;
};

template <class T>
void writeRoster(const Database& database, std::string_view table, const model::Roster<T>& roster,
                 const Progress& progress) {
    createTable(database, table, "Read and written by Fencewright alone; to be read there, not changed here.");
    RowWriter writer{database, table};
    for (std::size_t i = 0; i < roster.size(); ++i) {
        if (i % 100 == 0)
            progress.report(0.05, phrase("core", "Writing values"));
        writer.write(static_cast<std::int64_t>(i) + 1, valueText(roster[i]));
    }
}

[[noreturn]] void refuseDamaged(const Database& database, const Wording& what) {
    throw Fault{
        phrase("core", "The document is damaged: %1")(what), database.path(),
        phrase("core", "Take an older copy of it. If another program has written into its tables, undo that there.")};
}

/// Calls `take` with the text of each row, in order.
template <class Take>
void readRows(const Database& database, std::string_view table, std::size_t expected, const Take& take) {
    const std::string name{table};
    if (!database.hasPlainTable(table))
        refuseDamaged(database, phrase("core", "table %1 is missing.")(name));
    Statement rows{database, "SELECT id, value, checksum FROM " + name + " ORDER BY id"};
    std::size_t read = 0;
    while (rows.step()) {
        ++read;
        const Wording place = phrase("core", "table %1, row %2")(name, read);
        if (read > expected)
            refuseDamaged(database,
                          phrase("core", "table %1 has more rows than the document says, %2.")(name, expected));
        if (rows.type(0) != Statement::Type::Integer || rows.integer(0) != static_cast<std::int64_t>(read))
            refuseDamaged(database, phrase("core", "%1 is missing.")(place));
        if (rows.type(1) != Statement::Type::Text || rows.type(2) != Statement::Type::Text)
            refuseDamaged(database, phrase("core", "%1 has no text for its value or checksum.")(place));
        const std::string value = rows.text(1);
        if (rows.text(2) != checksumOf(table, static_cast<std::int64_t>(read), value))
            refuseDamaged(database, phrase("core", "%1 does not agree with its checksum.")(place));
        try {
            take(value);
        } catch (const ValueError& error) {
            refuseDamaged(database, error.member().empty()
                                        ? phrase("core", "%1, value %2.")(place, error.problem())
                                        : phrase("core", "%1, member %2 %3.")(place, error.member(), error.problem()));
        }
    }
    if (read != expected)
        refuseDamaged(database, phrase("core", "table %1 has %2 rows; the document says %3.")(name, read, expected));
}

template <class T>
void readRoster(const Database& database, std::string_view table, std::size_t expected, model::Roster<T>& roster) {
    readRows(database, table, expected, [&](const std::string& value) { roster.append(valueFromText<T>(value)); });
}

void requireOurVersion(const Database& database) {
    if (!database.hasPlainTable(kDocumentTable))
        throw Fault{phrase("core", "The file is a GeoPackage, but not a document of Fencewright."), database.path(),
                    phrase("core", "Import it as fences, sites or a reference layer instead.")};
    const auto version = database.integer("SELECT max(version) FROM " + std::string{kDocumentTable});
    if (!version || *version < 1)
        refuseDamaged(database, phrase("core", "table fencewright_document has no version."));
    if (*version > kDocumentVersion)
        throw Fault{
            phrase("core", "The document was written by a newer Fencewright (layout %1; this one reads up to %2).")(
                *version, kDocumentVersion),
            database.path(), phrase("core", "Open it with that, or bring this program up to date.")};
}

} // namespace

void writeDocumentTables(const Database& database, const model::FenceSet& set, const Progress& progress) {
    createTable(database, kDocumentTable,
                "Title, notes, margin and number of things; read and written by Fencewright alone.");
    const DocumentHead head{set.title,        set.notes,          set.fences.size(), set.sites.size(),
                            set.homes.size(), set.sources.size(), set.margin};
    RowWriter{database, kDocumentTable}.write(1, valueText(head));
    writeRoster(database, "fencewright_fences", set.fences, progress);
    writeRoster(database, "fencewright_sites", set.sites, progress);
    writeRoster(database, "fencewright_homes", set.homes, progress);
    writeRoster(database, "fencewright_sources", set.sources, progress);
}

model::FenceSet readDocumentTables(const Database& database) {
    requireOurVersion(database);
    DocumentHead head;
    readRows(database, kDocumentTable, 1, [&](const std::string& value) { head = valueFromText<DocumentHead>(value); });
    model::FenceSet set;
    set.title = head.title;
    set.notes = head.notes;
    set.margin = std::move(head.margin);
    readRoster(database, "fencewright_fences", head.fences, set.fences);
    readRoster(database, "fencewright_sites", head.sites, set.sites);
    readRoster(database, "fencewright_homes", head.homes, set.homes);
    readRoster(database, "fencewright_sources", head.sources, set.sources);
    return set;
}

} // namespace fencewright::store
