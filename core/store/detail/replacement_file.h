#pragma once

#include <string>
#include <sys/types.h>

namespace fencewright::store {

/// A new file that takes the place of another one, whole or not at all.
///
/// It is made in the same folder, so that a rename puts it in place at one instant. A crash leaves the old file and at
/// most a stray new one, which the next replacement of the same file removes.
class ReplacementFile {
public:
    /// Makes the new file, empty. A link is followed: what it points to is replaced.
    /// @param mode  rights where there is no old file to take them from.
    /// @throws Fault  no such folder, no rights, no space, the name is that of a folder.
    ReplacementFile(const std::string& path, mode_t mode);
    /// Removes the new file unless it was put in place.
    ~ReplacementFile();
    ReplacementFile(const ReplacementFile&) = delete;
    ReplacementFile& operator=(const ReplacementFile&) = delete;

    /// The new file, for filling.
    [[nodiscard]] const std::string& newPath() const { return m_newPath; }
    /// The file to be replaced, links resolved.
    [[nodiscard]] const std::string& oldPath() const { return m_oldPath; }
    [[nodiscard]] bool oldExists() const { return m_oldExists; }

    /// Brings the new file to the disk, and then in place of the old one.
    /// @throws Fault  the old file is as it was.
    void putInPlace();

private:
    std::string m_givenPath;
    std::string m_oldPath;
    std::string m_newPath;
    std::string m_folder;
    bool m_oldExists = false;
    bool m_inPlace = false;
    int m_descriptor = -1;
};

} // namespace fencewright::store
