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
        throw Fault{phrase("core", "The longitude is not a number."), place,
                    phrase("core", "Correct or delete this place.")};
    if (!std::isfinite(position.lat))
        throw Fault{phrase("core", "The latitude is not a number."), place,
                    phrase("core", "Correct or delete this place.")};
    throw Fault{phrase("core", "The latitude is beyond 90 degrees."), place,
                phrase("core", "Correct this place; longitude and latitude may have been exchanged.")};
}

} // namespace fencewright::geodesy
