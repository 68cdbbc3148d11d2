#include "store/recovery.h"

#include "store/detail/database.h"
#include "store/detail/document_tables.h"
#include "store/detail/geopackage.h"
#include "store/detail/reading.h"
#include "store/detail/replacement_file.h"
#include "store/detail/running_program.h"

#include <algorithm>
#include <filesystem>

namespace fencewright::store {

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::system_clock;

constexpr std::string_view kSuffix = ".recovery";
constexpr const char* kTable = "fencewright_recovery";
constexpr mode_t kRights = 0600; // unsaved work is nobody else's

std::string fileOf(const std::string& folder, const std::string& key) {
    const auto isAllowed = [](char letter) {
        return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') ||
               (letter >= '0' && letter <= '9') || letter == '-';
    };
    if (key.empty() || key.size() > 100 || !std::all_of(key.begin(), key.end(), isAllowed))
        throw Fault{phrase("core", "The key of a recovery copy has letters, digits and hyphens only."), key, ""};
    return (fs::path{folder} / (key + std::string{kSuffix})).string();
}

void writeOwner(const Database& database, const std::string& documentPath) {
    database.run("CREATE TABLE fencewright_recovery (id INTEGER PRIMARY KEY NOT NULL, document_path TEXT NOT NULL, "
                 "written INTEGER NOT NULL, machine TEXT NOT NULL, boot TEXT NOT NULL, program INTEGER NOT NULL, "
                 "started INTEGER NOT NULL)");
    registerAttributes(database, kTable, "Whose unsaved work this is.");
    const RunningProgram program = RunningProgram::thisOne();
    const auto written = std::chrono::duration_cast<std::chrono::milliseconds>(Clock::now().time_since_epoch());
    Statement insert{database, "INSERT INTO fencewright_recovery VALUES (1, ?1, ?2, ?3, ?4, ?5, ?6)"};
    insert.bind(1, documentPath)
        .bind(2, std::int64_t{written.count()})
        .bind(3, program.machine)
        .bind(4, program.boot)
        .bind(5, program.number)
        .bind(6, program.started)
        .execute();
}

/// Nothing where its program may still run.
std::optional<RecoveryCopy> ownerless(const fs::path& file) {
    RecoveryCopy copy{file.string(), "", {}};
    std::error_code ignored;
    const auto age = fs::file_time_type::clock::now() - fs::last_write_time(file, ignored);
    copy.written = Clock::now() - std::chrono::duration_cast<Clock::duration>(age);
    try {
        const Database database{file.string(), Access::Read};
        if (!database.hasPlainTable(kTable))
            return copy;
        Statement row{database,
                      "SELECT document_path, written, machine, boot, program, started FROM fencewright_recovery"};
        if (!row.step())
            return copy;
        const RunningProgram owner{row.text(2), row.text(3), row.integer(4), row.integer(5)};
        if (owner.mayBeRunning())
            return std::nullopt;
        copy.documentPath = row.text(0);
        constexpr std::int64_t kFarFuture = 4'000'000'000'000; // ms since 1970, in the year 2096: no clock says so
        if (row.integer(1) > 0 && row.integer(1) < kFarFuture)
            copy.written = Clock::time_point{std::chrono::milliseconds{row.integer(1)}};
    } catch (const DatabaseFault&) {
        // A copy is put in place whole, so a damaged one has no program that still writes it. It is listed, and reading
        // it says what is wrong.
    }
    return copy;
}

} // namespace

std::vector<RecoveryCopy> leftBehind(const std::string& folder) {
    std::vector<RecoveryCopy> copies;
    std::error_code ignored;
    for (const fs::directory_entry& entry : fs::directory_iterator{folder, ignored}) {
        if (!entry.is_regular_file(ignored) || entry.path().extension() != kSuffix)
            continue;
        if (auto copy = ownerless(entry.path()))
            copies.push_back(std::move(*copy));
    }
    std::sort(copies.begin(), copies.end(), [](const RecoveryCopy& a, const RecoveryCopy& b) {
        return a.written != b.written ? a.written > b.written : a.file < b.file;
    });
    return copies;
}

void keepRecoveryCopy(const std::string& folder, const std::string& key, const std::string& documentPath,
                      const model::FenceSet& set) {
    const std::string path = fileOf(folder, key);
    std::error_code ignored;
    fs::create_directories(folder, ignored); // what is wrong with it shows when the file is made
    ReplacementFile file{path, kRights};
    {
        const Database database{file.newPath(), Access::WriteNew};
        database.run("BEGIN");
        createGeoPackage(database);
        writeDocumentTables(database, set, {});
        writeOwner(database, documentPath);
        database.run("COMMIT");
    }
    file.putInPlace();
}

model::FenceSet readRecoveryCopy(const RecoveryCopy& copy) { return readDocument(copy.file); }

void discardRecoveryCopy(const std::string& folder, const std::string& key) {
    std::error_code ignored;
    fs::remove(fileOf(folder, key), ignored);
}

void discardRecoveryCopy(const RecoveryCopy& copy) {
    std::error_code ignored;
    fs::remove(copy.file, ignored);
}

} // namespace fencewright::store
