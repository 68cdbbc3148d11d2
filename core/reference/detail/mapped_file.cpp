#include "reference/detail/mapped_file.h"

#include "fault.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace fencewright::reference::detail {

MappedFile::MappedFile(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
    struct stat state {};
    if (file >= 0 && ::fstat(file, &state) == 0 && S_ISREG(state.st_mode) && state.st_size > 0) {
        m_size = static_cast<std::size_t>(state.st_size);
        void* at = ::mmap(nullptr, m_size, PROT_READ, MAP_PRIVATE, file, 0);
        m_data = at == MAP_FAILED ? nullptr : static_cast<const char*>(at);
    }
    const int error = errno;
    if (file >= 0)
        ::close(file);
    if (!m_data)
        throw Fault{phrase("core", "The kept layer cannot be opened: %1.")(std::strerror(error)), path,
                    phrase("core", "Read the layer again.")};
}

MappedFile::~MappedFile() { ::munmap(const_cast<char*>(m_data), m_size); }

void MappedFile::release() const { ::madvise(const_cast<char*>(m_data), m_size, MADV_DONTNEED); }

} // namespace fencewright::reference::detail
