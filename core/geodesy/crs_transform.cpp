#include "geodesy/crs_transform.h"

#include "fault.h"
#include "geodesy/detail/proj_session.h"
#include "geodesy/edge_meaning.h"

#include <array>
#include <cmath>

namespace fencewright::geodesy {

namespace {

/// The longest definitions in use (WKT 2 of a compound system with all its usages) are a tenth of this.
constexpr std::size_t kLongestDefinition = 200'000;

std::string shown(const std::string& crs) {
    constexpr std::size_t most = 120;
    return crs.size() <= most ? crs : crs.substr(0, most) + "...";
}

[[noreturn]] void refuse(const Wording& problem, const std::string& crs) {
    throw Fault{problem, phrase("core", "coordinate reference system %1")(shown(crs)),
                phrase("core", "State the right coordinate reference system by hand, such as EPSG:25829.")};
}

/// A PROJ string means a system, not an operation, only where it says so.
std::string asDefinition(const std::string& crs) {
    const bool projString = crs.find("proj=") != std::string::npos && crs.find('[') == std::string::npos &&
                            crs.find('{') == std::string::npos;
    return projString && crs.find("type=crs") == std::string::npos ? crs + " +type=crs" : crs;
}

} // namespace

struct CrsTransform::Parts {
    std::string said; ///< what PROJ complained of last
    ContextHandle context;
    OperationHandle operation; ///< from the system to WGS 84, axes as GIS files have them
    std::string name;
    bool geographic = false;
    std::optional<double> metresPerUnit;
    std::optional<Length> accuracy;
    bool datumShiftUnknown = false;
    bool smooth = false;
    bool usedSince = false; ///< the two are of an earlier operation than the last

    std::string missingGrid(PJ* used) const;
    void noteSmoothness(const PJ* system);
    void noteOperation(PJ* used);
    void noteOperationAtTheMiddle(const PJ* crs);
    void noteLastOperation();
};

void CrsTransform::Parts::noteOperation(PJ* used) {
    if (used == nullptr)
        return;
    const double metres = proj_coordoperation_get_accuracy(context.get(), used);
    datumShiftUnknown =
        proj_coordoperation_has_ballpark_transformation(context.get(), used) != 0 || !missingGrid(used).empty();
    accuracy = metres >= 0.0 && !datumShiftUnknown ? std::optional{Length::metres(metres)} : std::nullopt;
}

/// The name of a grid that the operation asks for and this machine has not; empty where none is missing.
std::string CrsTransform::Parts::missingGrid(PJ* used) const {
    const int count = proj_coordoperation_get_grid_used_count(context.get(), used);
    for (int i = 0; i < count; ++i) {
        const char* grid = nullptr;
        int available = 0;
        if (proj_coordoperation_get_grid_used(context.get(), used, i, &grid, nullptr, nullptr, nullptr, nullptr,
                                              nullptr, &available) != 0 &&
            available == 0)
            return grid != nullptr && *grid != 0 ? grid : "?";
    }
    return {};
}

void CrsTransform::Parts::noteSmoothness(const PJ* system) {
    // Several operations, of which each place takes one, are together of no type.
    if (proj_get_type(operation.get()) == PJ_TYPE_UNKNOWN ||
        proj_coordoperation_get_grid_used_count(context.get(), operation.get()) != 0)
        return;
    const OperationHandle projection{proj_crs_get_coordoperation(context.get(), system)};
    const char* code = nullptr;
    constexpr std::string_view transverseMercator = "9807"; // of the EPSG's methods
    smooth = projection &&
             proj_coordoperation_get_method_info(context.get(), projection.get(), nullptr, nullptr, &code) != 0 &&
             code != nullptr && code == transverseMercator;
}

void CrsTransform::Parts::noteLastOperation() {
    usedSince = false;
    noteOperation(OperationHandle{proj_trans_get_last_used_operation(operation.get())}.get());
}

/// Until there are places to transform, the middle of the area that the system is made for stands for them.
void CrsTransform::Parts::noteOperationAtTheMiddle(const PJ* crs) {
    double west = 0.0;
    double south = 0.0;
    double east = 0.0;
    double north = 0.0;
    if (proj_get_area_of_use(context.get(), crs, &west, &south, &east, &north, nullptr) == 0 || west == -1000.0) {
        west = east = 0.0;
        south = north = 0.0;
    }
    if (east < west)
        east += 360.0;
    const double longitude = std::remainder((west + east) / 2.0, 360.0);
    const PJ_COORD middle = proj_trans(operation.get(), PJ_INV, proj_coord(longitude, (south + north) / 2.0, 0.0, 0.0));
    if (std::isfinite(middle.v[0]))
        noteLastOperation();
    else
        noteOperation(operation.get());
}

CrsTransform::CrsTransform(const std::string& crs) : m_parts{std::make_unique<Parts>()} {
    if (crs.size() > kLongestDefinition)
        refuse(phrase("core", "The definition is too long to be one of a coordinate reference system."), crs);
    m_parts->context = quietContext(m_parts->said);
    PJ_CONTEXT* context = m_parts->context.get();

    OperationHandle given{proj_create(context, asDefinition(crs).c_str())};
    if (!given) {
        const std::string& said = m_parts->said;
        refuse(crs.empty() ? Wording{phrase("core", "The coordinate reference system is not stated.")}
                           : Wording{phrase("core", "This is not a coordinate reference system that is known%1")(
                                 (said.empty() ? std::string{"."} : " (" + said + ")."))},
               crs);
    }
    if (proj_is_crs(given.get()) == 0)
        refuse(phrase("core", "This is not a coordinate reference system."), crs);
    if (const char* name = proj_get_name(given.get()))
        m_parts->name = name;

    // Heights are not ours here: only the horizontal part counts.
    if (proj_get_type(given.get()) == PJ_TYPE_COMPOUND_CRS)
        given.reset(proj_crs_get_sub_crs(context, given.get(), 0));
    OperationHandle horizontal;
    if (given && proj_get_type(given.get()) == PJ_TYPE_BOUND_CRS)
        horizontal.reset(proj_get_source_crs(context, given.get()));
    const PJ* system = horizontal ? horizontal.get() : given.get();
    switch (system != nullptr ? proj_get_type(system) : PJ_TYPE_UNKNOWN) {
    case PJ_TYPE_GEOGRAPHIC_2D_CRS:
    case PJ_TYPE_GEOGRAPHIC_3D_CRS:
        m_parts->geographic = true;
        break;
    case PJ_TYPE_PROJECTED_CRS:
        break;
    case PJ_TYPE_VERTICAL_CRS:
        refuse(phrase("core", "This coordinate reference system has heights only, no places."), crs);
    case PJ_TYPE_GEOCENTRIC_CRS:
        refuse(
            phrase(
                "core",
                "This coordinate reference system has its origin at the centre of the earth; it has no plane places."),
            crs);
    case PJ_TYPE_ENGINEERING_CRS:
        refuse(phrase("core", "This is a local coordinate system that is not tied to the earth."), crs);
    default:
        refuse(phrase("core", "This kind of coordinate reference system cannot be related to WGS 84."), crs);
    }

    const OperationHandle axes{proj_crs_get_coordinate_system(context, system)};
    double unit = 0.0;
    if (!m_parts->geographic && axes &&
        proj_cs_get_axis_info(context, axes.get(), 0, nullptr, nullptr, nullptr, &unit, nullptr, nullptr, nullptr) !=
            0 &&
        unit > 0.0)
        m_parts->metresPerUnit = unit;

    const OperationHandle wgs84{proj_create(context, "EPSG:4326")};
    if (!wgs84)
        throw Fault{phrase("core", "The projection library has no database of coordinate reference systems."),
                    phrase("core", "proj.db"), phrase("core", "Check the installation of PROJ.")};
    m_parts->said.clear();
    const OperationHandle raw{proj_create_crs_to_crs_from_pj(context, given.get(), wgs84.get(), nullptr, nullptr)};
    if (raw)
        m_parts->operation.reset(proj_normalize_for_visualization(context, raw.get()));
    if (!m_parts->operation)
        refuse(phrase("core", "There is no known way from this coordinate reference system to WGS 84%1")(
                   (m_parts->said.empty() ? std::string{"."} : " (" + m_parts->said + ").")),
               crs);
    if (!m_parts->geographic)
        m_parts->noteSmoothness(system);
    m_parts->noteOperationAtTheMiddle(given.get());
    // A way through a grid that is missing leads nowhere, unless the definition calls the grid optional (@).
    const std::string grid = m_parts->missingGrid(m_parts->operation.get());
    if (!grid.empty() && !grid.starts_with('@'))
        refuse(phrase("core", "The way to WGS 84 needs the grid %1, which is not installed.")(grid), crs);
}

CrsTransform::~CrsTransform() = default;
CrsTransform::CrsTransform(CrsTransform&&) noexcept = default;
CrsTransform& CrsTransform::operator=(CrsTransform&&) noexcept = default;

std::vector<std::optional<model::Position>> CrsTransform::toWgs84(std::span<const PlanePoint> points) const {
    std::vector<std::optional<model::Position>> positions(points.size());
    if (points.empty())
        return positions;
    std::vector<PlanePoint> places{points.begin(), points.end()};
    proj_trans_generic(m_parts->operation.get(), PJ_FWD, &places.front().x, sizeof(PlanePoint), places.size(),
                       &places.front().y, sizeof(PlanePoint), places.size(), nullptr, 0, 0, nullptr, 0, 0);
    for (std::size_t i = 0; i < places.size(); ++i) {
        double longitude = places[i].x;
        const double latitude = places[i].y;
        if (!std::isfinite(longitude) || !(std::abs(latitude) <= 90.0))
            continue;
        if (std::abs(longitude) > 180.0)
            longitude = normalisedLongitude(longitude);
        positions[i] = model::Position{longitude, latitude};
    }
    m_parts->usedSince = true;
    return positions;
}

std::vector<std::optional<PlanePoint>> CrsTransform::fromWgs84(std::span<const model::Position> positions) const {
    std::vector<std::optional<PlanePoint>> points(positions.size());
    if (positions.empty())
        return points;
    std::vector<PlanePoint> places;
    places.reserve(positions.size());
    for (const model::Position& position : positions)
        places.push_back(
            {std::abs(position.lon) > 180.0 ? normalisedLongitude(position.lon) : position.lon, position.lat});
    proj_trans_generic(m_parts->operation.get(), PJ_INV, &places.front().x, sizeof(PlanePoint), places.size(),
                       &places.front().y, sizeof(PlanePoint), places.size(), nullptr, 0, 0, nullptr, 0, 0);
    for (std::size_t i = 0; i < places.size(); ++i)
        if (std::isfinite(places[i].x) && std::isfinite(places[i].y) && std::abs(positions[i].lat) <= 90.0)
            points[i] = places[i];
    m_parts->usedSince = true;
    return points;
}

std::string CrsTransform::name() const { return m_parts->name; }

bool CrsTransform::isGeographic() const { return m_parts->geographic; }

bool CrsTransform::isSmooth() const { return m_parts->smooth; }

std::optional<double> CrsTransform::metresPerUnit() const { return m_parts->metresPerUnit; }

// To ask PROJ which operation it used takes longer than to transform a parcel: it is asked only when somebody wants to
// know.
std::optional<Length> CrsTransform::accuracy() const {
    if (m_parts->usedSince)
        m_parts->noteLastOperation();
    return m_parts->accuracy;
}

bool CrsTransform::datumShiftUnknown() const {
    if (m_parts->usedSince)
        m_parts->noteLastOperation();
    return m_parts->datumShiftUnknown;
}

} // namespace fencewright::geodesy
