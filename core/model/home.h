#pragma once

#include "model/id.h"
#include "model/position.h"
#include "units/stated_length.h"

#include <string>

namespace fencewright::model {

enum class HomeKind {
    Home,     ///< where the aircraft starts and returns
    Alternate ///< another place where it may land
};

struct Home {
    HomeId id;
    std::string name;
    HomeKind kind = HomeKind::Home;
    Position place;
    StatedLength landingRadius{Length::metres(10), "10 m"};
    std::string notes;
    bool locked = false; ///< no edit changes or removes it (see lock.h)

    bool operator==(const Home&) const = default;
};

} // namespace fencewright::model
