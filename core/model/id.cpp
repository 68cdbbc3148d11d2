#include "model/id.h"

#include <random>

namespace fencewright::model {

std::string freshIdValue() {
    std::random_device device;
    constexpr char digits[] = "0123456789abcdef";
    std::string value;
    for (int word = 0; word < 4; ++word) {
        auto bits = device();
        for (int digit = 0; digit < 8; ++digit, bits >>= 4)
            value += digits[bits & 0xF];
    }
    return value;
}

} // namespace fencewright::model
