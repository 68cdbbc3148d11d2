#include "exchange/detail/memory_folder.h"

#include "fault.h"
#include "model/id.h"

#include <cpl_vsi.h>

namespace fencewright::exchange::detail {

MemoryFolder::MemoryFolder() : m_path{"/vsimem/" + model::freshIdValue()} {}

MemoryFolder::~MemoryFolder() { VSIRmdirRecursive(m_path.c_str()); }

std::string MemoryFolder::write(const std::string& name, std::string_view bytes) const {
    const std::string path = pathOf(name);
    VSILFILE* file = VSIFOpenL(path.c_str(), "wb");
    const bool written = file && VSIFWriteL(bytes.data(), 1, bytes.size(), file) == bytes.size();
    const bool closed = file && VSIFCloseL(file) == 0;
    if (!written || !closed)
        throw Fault{phrase("core", "The file needs more memory than there is."), "",
                    phrase("core", "Close other programs, or read a part of it.")};
    return path;
}

} // namespace fencewright::exchange::detail
