#include "raster/detail/crs_definition.h"

#include "gdal/library.h"
#include "raster/dataset.h"

#include <cpl_conv.h>
#include <ogr_srs_api.h>

#include <cstdlib>
#include <memory>

namespace fencewright::raster::detail {

namespace {

using Crs = std::unique_ptr<void, decltype(&OSRDestroySpatialReference)>;

bool isSame(OGRSpatialReferenceH crs, int code) {
    const Crs published{OSRNewSpatialReference(nullptr), OSRDestroySpatialReference};
    if (OSRImportFromEPSG(published.get(), code) != OGRERR_NONE)
        return false;
    // Coordinates are easting, northing or longitude, latitude here, whatever order the authority gives them.
    const char* const options[] = {"CRITERION=EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS",
                                   "IGNORE_DATA_AXIS_TO_SRS_AXIS_MAPPING=YES", nullptr};
    return OSRIsSameEx(crs, published.get(), options) != 0;
}

int epsgCode(OGRSpatialReferenceH crs) {
    const char* authority = OSRGetAuthorityName(crs, nullptr);
    const char* code = OSRGetAuthorityCode(crs, nullptr);
    return authority && code && std::string_view{authority} == "EPSG" ? std::atoi(code) : 0;
}

} // namespace

std::string crsDefinition(const std::string& crs) {
    if (crs.empty() || crs.starts_with("EPSG:"))
        return crs;
    const gdal::ErrorCapture quiet;
    const Crs own{OSRNewSpatialReference(nullptr), OSRDestroySpatialReference};
    std::string text = crs;
    char* rest = text.data();
    if (OSRImportFromWkt(own.get(), &rest) != OGRERR_NONE)
        return crs;
    if (const int code = epsgCode(own.get()); code > 0 && isSame(own.get(), code))
        return "EPSG:" + std::to_string(code);

    // Files often leave the code out, or call the system something else.
    int count = 0;
    int* confidences = nullptr;
    OGRSpatialReferenceH* matches = OSRFindMatches(own.get(), nullptr, &count, &confidences);
    std::string found;
    for (int index = 0; index < count && found.empty(); ++index)
        if (const int code = epsgCode(matches[index]); code > 0 && isSame(own.get(), code))
            found = "EPSG:" + std::to_string(code);
    OSRFreeSRSArray(matches);
    CPLFree(confidences);
    return found.empty() ? crs : found;
}

} // namespace fencewright::raster::detail

namespace fencewright::raster {

void prepareThread() {
    const gdal::ErrorCapture quiet;
    const std::unique_ptr<void, decltype(&OSRDestroySpatialReference)> crs{OSRNewSpatialReference(nullptr),
                                                                           OSRDestroySpatialReference};
    // Put together out of names and figures, as GDAL does with what a GeoTIFF says, and then by code: both ways go
    // through tables that the other does not.
    OSRSetProjCS(crs.get(), "WGS 84 / UTM zone 30N");
    OSRSetGeogCS(crs.get(), "WGS 84", "World Geodetic System 1984 ensemble", "WGS 84", 6378137.0, 298.257223563,
                 "Greenwich", 0.0, nullptr, 0.0);
    OSRSetUTM(crs.get(), 30, TRUE);
    OSRGetAttrValue(crs.get(), "PROJCS", 0);
    OSRImportFromEPSG(crs.get(), 32630);
}

} // namespace fencewright::raster
