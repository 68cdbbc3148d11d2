#include "raster/detail/kept_tiles.h"

#include "raster/detail/server_address.h"

#include <atomic>
#include <cstring>
#include <fstream>

#include <unistd.h>

namespace fencewright::raster::detail {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view kMark = "Fencewright tile 1\n";
constexpr std::uintmax_t kLargestFile = 16U << 20;
constexpr std::chrono::hours kUseNoted{1}; // a file's time is not written for each look at it
constexpr double kShareLeft = 0.8;         // of the limit, when room is made

// FNV-1a, 64 bits (Fowler, Noll, Vo): only a name; the file itself says which source it is of.
std::string hashed(const std::string& text) {
    std::uint64_t hash = 0xcbf29ce484222325;
    for (const char letter : text) {
        hash ^= static_cast<unsigned char>(letter);
        hash *= 0x100000001b3;
    }
    char digits[17];
    std::snprintf(digits, sizeof digits, "%016llx", static_cast<unsigned long long>(hash));
    return digits;
}

void put(std::string& bytes, std::uint64_t number) {
    char raw[sizeof number];
    std::memcpy(raw, &number, sizeof number);
    bytes.append(raw, sizeof number);
}

bool take(std::string_view& bytes, std::uint64_t& number) {
    if (bytes.size() < sizeof number)
        return false;
    std::memcpy(&number, bytes.data(), sizeof number);
    bytes.remove_prefix(sizeof number);
    return true;
}

} // namespace

KeptTiles::KeptTiles(fs::path folder, std::uint64_t byteLimit) : m_folder{std::move(folder)}, m_byteLimit{byteLimit} {}

fs::path KeptTiles::folderOf(const std::string& source) const { return m_folder / hashed(source); }

fs::path KeptTiles::pathOf(const TileName& name) const {
    return folderOf(name.source) / percentEncoded(name.level.empty() ? "0" : name.level) / std::to_string(name.column) /
           (std::to_string(name.row) + ".tile");
}

std::optional<KeptTile> KeptTiles::find(const TileName& name) const {
    if (m_folder.empty())
        return std::nullopt;
    const fs::path path = pathOf(name);
    std::error_code failed;
    const auto size = fs::file_size(path, failed);
    if (failed || size > kLargestFile)
        return std::nullopt;
    std::string file(static_cast<std::size_t>(size), '\0');
    std::ifstream stream{path, std::ios::binary};
    if (!stream.read(file.data(), static_cast<std::streamsize>(size)))
        return std::nullopt;
    std::string_view bytes = file;
    std::uint64_t until = 0;
    std::uint64_t length = 0;
    if (!bytes.starts_with(kMark))
        return std::nullopt;
    bytes.remove_prefix(kMark.size());
    if (!take(bytes, until) || !take(bytes, length) || length > bytes.size() ||
        bytes.substr(0, static_cast<std::size_t>(length)) != name.source)
        return std::nullopt;
    bytes.remove_prefix(static_cast<std::size_t>(length));
    const auto now = fs::file_time_type::clock::now();
    if (fs::last_write_time(path, failed) + kUseNoted < now)
        fs::last_write_time(path, now, failed);
    return KeptTile{std::string{bytes},
                    std::chrono::system_clock::time_point{std::chrono::seconds{static_cast<std::int64_t>(until)}}};
}

void KeptTiles::keep(const TileName& name, const KeptTile& tile) {
    if (m_folder.empty())
        return;
    std::string file{kMark};
    put(file, static_cast<std::uint64_t>(
                  std::chrono::duration_cast<std::chrono::seconds>(tile.freshUntil.time_since_epoch()).count()));
    put(file, name.source.size());
    file += name.source;
    file += tile.bytes;

    const std::lock_guard lock{m_mutex};
    std::error_code failed;
    if (!fs::exists(m_folder, failed)) {
        fs::create_directories(m_folder, failed);
        fs::permissions(m_folder, fs::perms::owner_all, failed);
    }
    if (!m_bytes)
        countAll();
    const fs::path path = pathOf(name);
    fs::create_directories(path.parent_path(), failed);
    static std::atomic<unsigned> number{0};
    const fs::path part =
        path.parent_path() / ("." + std::to_string(::getpid()) + "-" + std::to_string(++number) + ".part");
    {
        std::ofstream stream{part, std::ios::binary};
        stream.write(file.data(), static_cast<std::streamsize>(file.size()));
        stream.close();
        if (!stream) {
            fs::remove(part, failed);
            return;
        }
    }
    const auto before = fs::file_size(path, failed);
    const std::uint64_t replacedBytes = failed ? 0 : before;
    fs::rename(part, path, failed);
    if (failed) {
        fs::remove(part, failed);
        return;
    }
    m_bytes = *m_bytes - std::min<std::uint64_t>(*m_bytes, replacedBytes) + file.size();
    if (*m_bytes > m_byteLimit)
        makeRoom();
}

void KeptTiles::drop(const TileName& name) {
    if (m_folder.empty())
        return;
    std::error_code failed;
    fs::remove(pathOf(name), failed);
}

void KeptTiles::dropAll(const std::string& source) {
    if (m_folder.empty())
        return;
    const std::lock_guard lock{m_mutex};
    std::error_code failed;
    fs::remove_all(folderOf(source), failed);
    m_bytes.reset();
}

void KeptTiles::countAll() {
    std::error_code failed;
    std::uint64_t bytes = 0;
    for (fs::recursive_directory_iterator at{m_folder, failed}, end; !failed && at != end; at.increment(failed))
        if (std::error_code gone; at->is_regular_file(gone))
            if (const auto size = at->file_size(gone); !gone)
                bytes += size;
    m_bytes = bytes;
}

void KeptTiles::makeRoom() {
    struct File {
        fs::file_time_type used;
        std::uint64_t size = 0;
        fs::path path;
    };
    std::vector<File> files;
    std::uint64_t bytes = 0;
    std::error_code failed;
    for (fs::recursive_directory_iterator at{m_folder, failed}, end; !failed && at != end; at.increment(failed)) {
        std::error_code gone;
        if (!at->is_regular_file(gone))
            continue;
        const File file{at->last_write_time(gone), at->file_size(gone), at->path()};
        if (gone)
            continue;
        bytes += file.size;
        files.push_back(file);
    }
    std::sort(files.begin(), files.end(), [](const File& a, const File& b) { return a.used < b.used; });
    const auto left = static_cast<std::uint64_t>(kShareLeft * static_cast<double>(m_byteLimit));
    for (const File& file : files) {
        if (bytes <= left)
            break;
        if (fs::remove(file.path, failed))
            bytes -= file.size;
    }
    m_bytes = bytes;
}

} // namespace fencewright::raster::detail
