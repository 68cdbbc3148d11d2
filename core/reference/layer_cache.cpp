#include "reference/layer_cache.h"

#include "exchange/checksum.h"
#include "exchange/database_address.h"
#include "fault.h"
#include "reference/detail/layer_form.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>

namespace fencewright::reference {
namespace {

using namespace detail;
namespace fs = std::filesystem;

constexpr const char* kSuffix = ".layer";
constexpr const char* kUnfinished = ".part-";
constexpr std::chrono::hours kForgotten{24};
// The files beside a shapefile, a GML text and a GeoPackage that change what is read.
constexpr std::array kBeside{".dbf", ".shx", ".prj", ".cpg", ".gfs", ".xsd", ".csvt"};
constexpr std::array kAppended{"-wal", "-journal"};

std::string stateOf(const fs::path& path) {
    struct stat state {};
    if (::stat(path.c_str(), &state) != 0)
        return "none";
    return std::to_string(state.st_size) + " " + std::to_string(state.st_mtim.tv_sec) + " " +
           std::to_string(state.st_mtim.tv_nsec);
}

/// What of the request tells one kept layer from another.
std::string identityOf(const exchange::ReadRequest& request) {
    const std::string where = exchange::isDatabaseAddress(request.path)
                                  ? request.path
                                  : fs::absolute(request.path).lexically_normal().string();
    std::string identity;
    for (const std::string& word : {where, request.layer, request.crs, std::string{request.forceCrs ? "forced" : ""},
                                    request.encoding, request.where})
        identity += std::to_string(word.size()) + ":" + word + "\n";
    return identity;
}

/// A file that is written beside its place and takes it when it is whole; without that it goes away.
class Unfinished {
public:
    explicit Unfinished(const fs::path& path) : m_path{path}, m_temporary{path.string() + kUnfinished + "XXXXXX"} {
        m_file = ::mkostemp(m_temporary.data(), O_CLOEXEC);
        if (m_file < 0)
            fail();
    }
    ~Unfinished() {
        if (m_file >= 0)
            ::close(m_file);
        if (!m_done)
            ::unlink(m_temporary.c_str());
    }
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;

    void write(std::string_view bytes) {
        while (!bytes.empty()) {
            const ssize_t done = ::write(m_file, bytes.data(), bytes.size());
            if (done < 0 && errno == EINTR)
                continue;
            if (done <= 0)
                fail();
            bytes.remove_prefix(static_cast<std::size_t>(done));
        }
    }
    [[nodiscard]] const std::string& path() const { return m_temporary; }
    void writeHead(const FileHead& head) {
        if (::pwrite(m_file, &head, sizeof head, 0) != static_cast<ssize_t>(sizeof head))
            fail();
    }
    void commit() {
        if (::rename(m_temporary.c_str(), m_path.c_str()) != 0)
            fail();
        m_done = true;
    }

private:
    [[noreturn]] void fail() const {
        throw Fault{phrase("core", "The layer cannot be kept: %1.")(std::strerror(errno)), m_path.string(),
                    phrase("core", "Make room on the disk, or see to the rights of the folder.")};
    }

    fs::path m_path;
    std::string m_temporary;
    int m_file = -1;
    bool m_done = false;
};

/// Watches a body go by for the end of its geometry.
class GeometryWatch {
public:
    /// Whether all of the geometry is there, for the first time.
    bool isWhole(std::string_view piece) {
        const bool before = m_end && m_seen >= *m_end;
        m_seen += piece.size();
        if (m_start.size() < sizeof(GeometryHead)) {
            m_start += piece.substr(0, sizeof(GeometryHead) - m_start.size());
            if (m_start.size() < sizeof(GeometryHead))
                return false;
            GeometryHead head;
            std::memcpy(&head, m_start.data(), sizeof head);
            m_end = geometryBytes(head);
        }
        return !before && m_end && m_seen >= *m_end;
    }

private:
    std::string m_start;
    std::uint64_t m_seen = 0;
    std::optional<std::uint64_t> m_end;
};

/// Takes away what was left unfinished long ago, and the layers not used for longest.
void tidy(const LayerCache& cache, const fs::path& keep) {
    struct Kept {
        fs::file_time_type used;
        fs::path path;
        std::uint64_t bytes;
    };
    std::vector<Kept> kept;
    std::uint64_t total = 0;
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator{cache.folder, ignored}) {
        const auto used = entry.last_write_time(ignored);
        const std::string name = entry.path().filename().string();
        if (name.find(kUnfinished) != std::string::npos) {
            if (fs::file_time_type::clock::now() - used > kForgotten)
                fs::remove(entry.path(), ignored);
        } else if (entry.path().extension() == kSuffix) {
            kept.push_back({used, entry.path(), entry.file_size(ignored)});
            total += kept.back().bytes;
        }
    }
    std::sort(kept.begin(), kept.end(), [](const Kept& a, const Kept& b) { return a.used < b.used; });
    for (const Kept& one : kept)
        if (total > cache.byteLimit && one.path != keep) {
            fs::remove(one.path, ignored);
            total -= one.bytes;
        }
}

} // namespace

std::string layerKey(const exchange::ReadRequest& request) {
    if (exchange::isDatabaseAddress(request.path))
        return identityOf(request);
    const fs::path path{request.path};
    const std::string own = stateOf(path);
    if (own == "none")
        throw Fault{phrase("core", "The file is not there."), request.path,
                    phrase("core", "Check its name, or locate it anew.")};
    std::string key = identityOf(request) + own + "\n";
    for (const char* suffix : kBeside)
        key += stateOf(fs::path{path}.replace_extension(suffix)) + "\n";
    for (const char* ending : kAppended)
        key += stateOf(path.string() + ending) + "\n";
    return key;
}

fs::path layerPath(const LayerCache& cache, const exchange::ReadRequest& request) {
    return cache.folder / (exchange::sha256(identityOf(request)).substr(0, 40) + kSuffix);
}

std::shared_ptr<const Layer> openLayer(const exchange::StreamedReading& reading, const exchange::ReadRequest& request,
                                       const LayerCache& cache, const Progress& progress,
                                       const DrawableSink& drawable) {
    const std::string key = layerKey(request);
    const fs::path path = layerPath(cache, request);
    if (std::error_code ignored; fs::exists(path, ignored)) {
        try {
            auto layer = std::make_shared<const Layer>(path.string(), key);
            ::utimensat(AT_FDCWD, path.c_str(), nullptr, 0); // used now
            return layer;
        } catch (const Fault&) {
            // Damaged or out of date: made anew.
        }
    }
    return keepLayer(reading, request, cache, key, progress, drawable);
}

std::shared_ptr<const Layer> keepLayer(const exchange::StreamedReading& reading, const exchange::ReadRequest& request,
                                       const LayerCache& cache, const std::string& key, const Progress& progress,
                                       const DrawableSink& drawable) {
    const fs::path path = layerPath(cache, request);
    std::error_code failed;
    fs::create_directories(cache.folder, failed);
    if (!failed)
        fs::permissions(cache.folder, fs::perms::owner_all, failed);
    Unfinished file{path};
    FileHead head;
    head.keyBytes = key.size();
    Checksum sum;
    const auto write = [&](std::string_view bytes) {
        sum.add(bytes);
        file.write(bytes);
    };
    file.write(std::string(sizeof head, '\0'));
    write(key);
    write(std::string(padded(key.size()) - key.size(), '\0'));
    GeometryWatch watch;
    reading(
        request,
        [&](std::string_view bytes) {
            head.bodyBytes += bytes.size();
            if (head.bodyBytes > cache.layerLimit)
                throw Fault{phrase("core", "The layer is larger than %1 MiB, which is as much as is kept of one.")(
                                cache.layerLimit >> 20),
                            request.path, phrase("core", "Read a part of the file by a filter.")};
            write(bytes);
            if (drawable && watch.isWhole(bytes))
                drawable(
                    std::make_shared<const Layer>(file.path(), Layer::GeometryAt{sizeof head + padded(head.keyBytes)}));
        },
        progress);
    head.checksum = sum.result();
    head.headChecksum = checksumOf(head);
    file.writeHead(head);
    file.commit();
    tidy(cache, path);
    try {
        return std::make_shared<const Layer>(path.string(), key);
    } catch (const Fault&) {
        std::error_code ignored;
        fs::remove(path, ignored);
        throw;
    }
}

std::shared_ptr<const Layer> openLayer(const std::string& reader, const exchange::ReadRequest& request,
                                       const LayerCache& cache, const exchange::ChildLimits& limits,
                                       const Progress& progress, const DrawableSink& drawable) {
    return openLayer(
        [&](const exchange::ReadRequest& wanted, const exchange::ByteSink& take, const Progress& listening) {
            exchange::streamVectorApart(reader, wanted, limits, take, listening);
        },
        request, cache, progress, drawable);
}

} // namespace fencewright::reference
