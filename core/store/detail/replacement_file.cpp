#include "store/detail/replacement_file.h"

#include "fault.h"
#include "model/id.h"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fencewright::store {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kStrayMark = ".saving-";

[[noreturn]] void refuse(int error, const std::string& path, const std::string& folder) {
    switch (error) {
    case ENOENT:
    case ENOTDIR:
        throw Fault{phrase("core", "The folder does not exist."), folder,
                    phrase("core", "Make the folder, or choose another place.")};
    case EACCES:
    case EPERM:
    case EROFS:
        throw Fault{phrase("core", "The folder cannot be written to."), folder,
                    phrase("core", "Choose another folder, or change its rights.")};
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
        throw Fault{phrase("core", "There is no space left for the file."), path,
                    phrase("core", "Make space on the disk, or choose another place.")};
    case ENAMETOOLONG:
        throw Fault{phrase("core", "The name of the file is too long."), path,
                    phrase("core", "Choose a shorter name.")};
    default:
        throw Fault{phrase("core", "The file cannot be written (%1).")(std::strerror(error)), path,
                    phrase("core", "Check the disk, or choose another place.")};
    }
}

/// Whoever fills a new file holds a lock on it for as long as it lives; one without a lock was left by a crash.
void removeStrays(const std::string& folder, const std::string& name) {
    std::error_code ignored;
    for (const fs::directory_entry& entry : fs::directory_iterator{folder, ignored}) {
        if (!entry.path().filename().string().starts_with(name + std::string{kStrayMark}))
            continue;
        const int descriptor = ::open(entry.path().c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW);
        if (descriptor < 0)
            continue;
        if (::flock(descriptor, LOCK_EX | LOCK_NB) == 0)
            ::unlink(entry.path().c_str());
        ::close(descriptor);
    }
}

} // namespace

ReplacementFile::ReplacementFile(const std::string& path, mode_t mode) : m_givenPath{path} {
    if (path.empty())
        throw Fault{phrase("core", "No file is named."), "", phrase("core", "Choose a file to save to.")};
    std::error_code error;
    const fs::path resolved = fs::weakly_canonical(fs::absolute(path, error), error);
    m_oldPath = error ? path : resolved.string();
    m_folder = fs::path{m_oldPath}.parent_path().string();
    struct stat old {};
    if (::stat(m_oldPath.c_str(), &old) == 0) {
        if (S_ISDIR(old.st_mode))
            throw Fault{phrase("core", "This is the name of a folder."), path, phrase("core", "Choose another name.")};
        if (!S_ISREG(old.st_mode))
            throw Fault{phrase("core", "This is the name of a device, not of a file."), path,
                        phrase("core", "Choose another name.")};
        if (::access(m_oldPath.c_str(), W_OK) != 0)
            throw Fault{phrase("core", "The file is read-only."), path,
                        phrase("core", "Save under another name, or change the rights of the file.")};
        m_oldExists = true;
    }

    removeStrays(m_folder, fs::path{m_oldPath}.filename().string());
    m_newPath = m_oldPath + std::string{kStrayMark} + model::freshIdValue().substr(0, 8);
    m_descriptor = ::open(m_newPath.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    if (m_descriptor < 0)
        refuse(errno, path, m_folder);
    ::flock(m_descriptor, LOCK_EX | LOCK_NB);
    if (m_oldExists)
        ::fchmod(m_descriptor, old.st_mode & 07777);
}

ReplacementFile::~ReplacementFile() {
    if (!m_inPlace) {
        ::unlink(m_newPath.c_str());
        ::unlink((m_newPath + "-journal").c_str());
    }
    ::close(m_descriptor);
}

void ReplacementFile::putInPlace() {
    if (::fsync(m_descriptor) != 0)
        refuse(errno, m_givenPath, m_folder);
    if (::rename(m_newPath.c_str(), m_oldPath.c_str()) != 0)
        refuse(errno, m_givenPath, m_folder);
    m_inPlace = true;
    // The rename itself is on the disk once the folder is. Some file systems cannot flush folders; the file is whole on
    // either side of the rename, so that is no reason to call the saving failed.
    const int folder = ::open(m_folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder >= 0) {
        ::fsync(folder);
        ::close(folder);
    }
}

} // namespace fencewright::store
