#pragma once

#include <string>
#include <string_view>

namespace fencewright::exchange::detail {

/// A folder of GDAL's files in memory, gone with this object. A driver that looks for files beside its own, or writes
/// some, finds and leaves nothing on the disk.
class MemoryFolder {
public:
    MemoryFolder();
    ~MemoryFolder();
    MemoryFolder(const MemoryFolder&) = delete;
    MemoryFolder& operator=(const MemoryFolder&) = delete;

    [[nodiscard]] std::string pathOf(const std::string& name) const { return m_path + "/" + name; }
    /// Copies the bytes into a file. @returns its path.
    std::string write(const std::string& name, std::string_view bytes) const;

private:
    std::string m_path;
};

} // namespace fencewright::exchange::detail
