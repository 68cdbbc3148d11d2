#include "geodesy/detail/place_check.h"

#include "fault.h"
#include "units/number_notation.h"

#include <cmath>

namespace fencewright::geodesy {

void requirePlace(model::Position position) {
    if (std::isfinite(position.lon) && std::abs(position.lat) <= 90.0)
        return;
    const std::string place =
        "longitude " + units::shortest(position.lon) + ", latitude " + units::shortest(position.lat);
    if (!std::isfinite(position.lon))
        throw Fault{"The longitude is not a number.", place, "Correct or delete this place."};
    if (!std::isfinite(position.lat))
        throw Fault{"The latitude is not a number.", place, "Correct or delete this place."};
    throw Fault{"The latitude is beyond 90 degrees.", place,
                "Correct this place; longitude and latitude may have been exchanged."};
}

} // namespace fencewright::geodesy
