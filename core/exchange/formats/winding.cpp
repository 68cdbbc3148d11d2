#include "exchange/formats/winding.h"

#include <algorithm>

namespace fencewright::exchange {

model::Ring wound(model::Ring ring, Winding winding) {
    auto& corners = ring.corners;
    if (corners.size() < 3)
        return ring;
    // Relative to a corner: the products of full longitudes and latitudes would lose a small ring's area in rounding.
    const model::Position origin = corners.front();
    double twiceArea = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const model::Position a = corners[i];
        const model::Position b = corners[(i + 1) % corners.size()];
        twiceArea += (a.lon - origin.lon) * (b.lat - origin.lat) - (b.lon - origin.lon) * (a.lat - origin.lat);
    }
    if ((twiceArea > 0) != (winding == Winding::CounterClockwise))
        std::reverse(corners.begin() + 1, corners.end());
    return ring;
}

} // namespace fencewright::exchange
