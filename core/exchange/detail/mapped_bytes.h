#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fencewright::exchange::detail {

/// A file as memory, for reading only; a file that shrinks meanwhile ends the child.
class MappedBytes {
public:
    /// Empty where there is no such file, or nothing in it.
    explicit MappedBytes(const std::string& path);
    ~MappedBytes();
    MappedBytes(MappedBytes&& other) noexcept;
    MappedBytes(const MappedBytes&) = delete;
    MappedBytes& operator=(const MappedBytes&) = delete;

    [[nodiscard]] std::string_view bytes() const { return m_bytes; }

private:
    std::string_view m_bytes;
};

} // namespace fencewright::exchange::detail
