#pragma once

#include "model/active_period.h"
#include "model/basis.h"
#include "model/height_band.h"
#include "model/id.h"
#include "model/shape.h"

#include <string>

namespace fencewright::model {

enum class FenceKind {
    KeepIn, ///< the aircraft stays inside it
    KeepOut ///< the aircraft stays outside it
};

/// One closed area with a rule.
struct Fence {
    FenceId id;
    std::string name;
    FenceKind kind = FenceKind::KeepOut;
    Shape shape;
    HeightBand band;
    ActivePeriod period;
    Basis basis;
    bool enabled = true; ///< a disabled fence is kept, shown and saved, but takes no part in anything
    std::string notes;
    bool locked = false; ///< no edit changes or removes it (see lock.h)

    bool operator==(const Fence&) const = default;
};

} // namespace fencewright::model
