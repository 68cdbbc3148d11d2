#pragma once

#include "progress.h"

#include <exception>

namespace fencewright::raster::detail {

/// The progress of work inside GDAL, handed on to a listener. What the listener throws may not pass through C: it waits
/// here, and whoever called GDAL throws it on.
struct GdalProgress {
    const Progress* progress = nullptr;
    const char* words = "";
    std::exception_ptr thrown{};
    double reached = 0.0;    ///< the fraction that was reported last
    bool keepsWhole = false; ///< what is done is not thrown away: at the end nobody is asked

    static int report(double fraction, const char*, void* data) {
        auto& self = *static_cast<GdalProgress*>(data);
        self.reached = fraction;
        if (self.keepsWhole && fraction >= 1.0)
            return 1;
        try {
            self.progress->report(fraction, self.words);
            return 1;
        } catch (...) {
            self.thrown = std::current_exception();
            return 0;
        }
    }
};

} // namespace fencewright::raster::detail
