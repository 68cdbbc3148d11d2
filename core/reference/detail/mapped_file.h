#pragma once

#include <cstddef>
#include <string>

namespace fencewright::reference::detail {

/// A file as memory, for reading only.
class MappedFile {
public:
    /// @throws Fault  not there, no file, empty, no rights.
    explicit MappedFile(const std::string& path);
    ~MappedFile();
    MappedFile(const MappedFile&) = delete;
    MappedFile& operator=(const MappedFile&) = delete;

    [[nodiscard]] const char* data() const { return m_data; }
    [[nodiscard]] std::size_t size() const { return m_size; }
    /// Gives back the memory that holds it; what is looked at again is taken from the file again.
    void release() const;

private:
    const char* m_data = nullptr;
    std::size_t m_size = 0;
};

} // namespace fencewright::reference::detail
