#include "geodesy/vertical_reference.h"

#include "fault.h"
#include "geodesy/detail/place_check.h"
#include "geodesy/detail/proj_session.h"
#include "geodesy/edge_meaning.h"

#include <cmath>
#include <numbers>

namespace fencewright::geodesy {

namespace {

class GeoidGrid {
public:
    GeoidGrid() : m_context{quietContext()} {
        m_shift.reset(proj_create(m_context.get(), "+proj=vgridshift +grids=egm96_15.gtx +multiplier=1"));
        // The operation is made without a look at the file: a first height tells whether it is there.
        if (!m_shift || !std::isfinite(separationAt({})))
            throw Fault{phrase("core", "The EGM96 geoid grid is not installed."), phrase("core", "egm96_15.gtx"),
                        phrase("core", "Install the package proj-data; heights above mean sea level cannot be related "
                                       "to others without it.")};
    }

    [[nodiscard]] double separationAt(model::Position position) const {
        constexpr double radians = std::numbers::pi / 180.0;
        const PJ_COORD place =
            proj_coord(normalisedLongitude(position.lon) * radians, position.lat * radians, 0.0, 0.0);
        return proj_trans(m_shift.get(), PJ_FWD, place).xyz.z;
    }

private:
    ContextHandle m_context;
    OperationHandle m_shift;
};

} // namespace

Length geoidSeparation(model::Position position) {
    requirePlace(position);
    // Opening the grid costs more than a thousand look-ups in it; PROJ's objects serve one thread.
    thread_local const GeoidGrid grid;
    const double metres = grid.separationAt(position);
    if (!std::isfinite(metres))
        throw Fault{phrase("core", "The EGM96 geoid grid cannot be read."), phrase("core", "egm96_15.gtx"),
                    phrase("core", "Install the package proj-data afresh.")};
    return Length::metres(metres);
}

std::optional<Length> aboveEllipsoid(const model::HeightLimit& limit, model::Position position,
                                     const GroundHeight& ground) {
    const Length stated = limit.value.length;
    switch (limit.reference) {
    case model::HeightReference::Ellipsoid:
        return stated;
    case model::HeightReference::MeanSeaLevel:
        return stated + geoidSeparation(position);
    case model::HeightReference::Ground:
        break;
    }
    const std::optional<Length> base = ground ? ground(position) : std::nullopt;
    return base ? std::optional{*base + stated} : std::nullopt;
}

std::optional<Length> aboveMeanSeaLevel(const model::HeightLimit& limit, model::Position position,
                                        const GroundHeight& ground) {
    if (limit.reference == model::HeightReference::MeanSeaLevel)
        return limit.value.length;
    const std::optional<Length> height = aboveEllipsoid(limit, position, ground);
    return height ? std::optional{*height - geoidSeparation(position)} : std::nullopt;
}

} // namespace fencewright::geodesy
