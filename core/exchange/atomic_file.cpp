#include "exchange/atomic_file.h"

#include "fault.h"
#include "model/id.h"

#include <cerrno>
#include <filesystem>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fencewright::exchange {

namespace {

namespace fs = std::filesystem;

std::string reason(int error) { return std::generic_category().message(error); }

/// Calls again where a signal interrupted.
template <class Call> auto uninterrupted(Call call) {
    auto result = call();
    while (result < 0 && errno == EINTR)
        result = call();
    return result;
}

Phrase remedyFor(int error) {
    switch (error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
        return phrase("core", "Make room on the disk, or choose another folder.");
    case EACCES:
    case EPERM:
    case EROFS:
        return phrase("core", "Choose a folder in which you may write.");
    case ENOENT:
        return phrase("core", "Choose a folder that exists.");
    case ENAMETOOLONG:
        return phrase("core", "Choose a shorter name.");
    default:
        return phrase("core", "Choose another folder.");
    }
}

} // namespace

AtomicFile::AtomicFile(const std::string& path) : m_path{path} {
    std::error_code error;
    fs::path target{path};
    if (target.filename().empty() || fs::is_directory(target, error))
        throw Fault{path.empty() ? phrase("core", "No file is named.")
                                 : phrase("core", "This is a folder, not a file."),
                    path, phrase("core", "Give the file a name.")};
    if (fs::is_symlink(target, error)) {
        target = fs::canonical(target, error);
        if (error)
            throw Fault{phrase("core", "This link leads nowhere."), path,
                        phrase("core", "Remove the link, or choose another name.")};
    }
    m_target = target.string();
    m_folder = target.has_parent_path() ? target.parent_path().string() : ".";

    struct stat old {};
    const bool replaces = ::stat(m_target.c_str(), &old) == 0;
    if (replaces && !S_ISREG(old.st_mode))
        throw Fault{phrase("core", "This is not an ordinary file."), path, phrase("core", "Choose another name.")};
    if (replaces && ::access(m_target.c_str(), W_OK) != 0)
        throw Fault{phrase("core", "The file that is there is read-only."), path,
                    phrase("core", "Choose another name, or make it writable.")};

    m_temporary = (fs::path{m_folder} / (".fencewright-" + model::freshIdValue() + ".part")).string();
    m_descriptor =
        uninterrupted([&] { return ::open(m_temporary.c_str(), O_CREAT | O_EXCL | O_RDWR | O_CLOEXEC, 0666); });
    if (m_descriptor < 0) {
        m_temporary.clear();
        fail(phrase("core", "No file can be made here"), errno);
    }
    if (replaces)
        (void)::fchmod(m_descriptor, old.st_mode & 07777); // as before, where the file system lets us
}

AtomicFile::~AtomicFile() {
    if (m_descriptor >= 0)
        ::close(m_descriptor);
    if (!m_temporary.empty())
        ::unlink(m_temporary.c_str());
}

void AtomicFile::fail(const Wording& problem, int error) const {
    throw Fault{phrase("core", "%1: %2.")(problem, reason(error)), m_path, remedyFor(error)};
}

void AtomicFile::write(std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = uninterrupted([&] { return ::write(m_descriptor, bytes.data(), bytes.size()); });
        if (written <= 0)
            fail(phrase("core", "The file could not be written"), written < 0 ? errno : ENOSPC);
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    if (uninterrupted([&] { return ::fsync(m_descriptor); }) != 0)
        fail(phrase("core", "The file could not be written to the disk"), errno);
}

std::string AtomicFile::content() const {
    std::string bytes;
    char block[1 << 16];
    for (;;) {
        const ssize_t read =
            uninterrupted([&] { return ::pread(m_descriptor, block, sizeof block, static_cast<off_t>(bytes.size())); });
        if (read < 0)
            fail(phrase("core", "The file could not be read back"), errno);
        if (read == 0)
            return bytes;
        bytes.append(block, static_cast<std::size_t>(read));
    }
}

void AtomicFile::commit() {
    // Some network file systems tell of a failed write only here.
    const int closed = ::close(m_descriptor);
    m_descriptor = -1;
    if (closed != 0)
        fail(phrase("core", "The file could not be finished"), errno);
    if (::rename(m_temporary.c_str(), m_target.c_str()) != 0)
        fail(phrase("core", "The file could not take its name"), errno);
    m_temporary.clear();
    // The new name reaches the disk with the folder. Where a file system cannot do that, the file is there all the
    // same.
    const int folder = ::open(m_folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder >= 0) {
        (void)::fsync(folder);
        ::close(folder);
    }
}

} // namespace fencewright::exchange
