#pragma once

#include <thread>

namespace fencewright::desktop {

/// Keeps the memory of a program that is used all day at what it works with. Tiles come and go by the megabyte on
/// several threads; left to itself, the C library keeps what was freed between what is in use, in as many heaps as
/// there are threads. Made before any other thread is; one in a program.
class TrimmedHeap {
public:
    TrimmedHeap();

private:
    std::jthread m_trims;
};

} // namespace fencewright::desktop
