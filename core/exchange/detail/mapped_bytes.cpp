#include "exchange/detail/mapped_bytes.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <utility>

namespace fencewright::exchange::detail {

MappedBytes::MappedBytes(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return;
    struct stat state {};
    if (::fstat(file, &state) == 0 && S_ISREG(state.st_mode) && state.st_size > 0) {
        const auto size = static_cast<std::size_t>(state.st_size);
        void* at = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file, 0);
        if (at != MAP_FAILED)
            m_bytes = {static_cast<const char*>(at), size};
    }
    ::close(file);
}

MappedBytes::MappedBytes(MappedBytes&& other) noexcept : m_bytes{std::exchange(other.m_bytes, {})} {}

MappedBytes::~MappedBytes() {
    if (!m_bytes.empty())
        ::munmap(const_cast<char*>(m_bytes.data()), m_bytes.size());
}

} // namespace fencewright::exchange::detail
