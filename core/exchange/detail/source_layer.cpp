#include "exchange/detail/source_layer.h"

#include "units/number_notation.h"

#include <cpl_conv.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

namespace fencewright::exchange::detail {

namespace {

std::string wordsFor(OGRwkbGeometryType type) {
    switch (wkbFlatten(type)) {
    case wkbNone:
        return "none";
    case wkbPoint:
    case wkbMultiPoint:
        return "Point";
    case wkbLineString:
    case wkbMultiLineString:
    case wkbCompoundCurve:
    case wkbMultiCurve:
    case wkbCircularString:
        return "Line";
    case wkbPolygon:
    case wkbMultiPolygon:
    case wkbCurvePolygon:
    case wkbMultiSurface:
    case wkbTriangle:
        return "Polygon";
    default:
        return "mixed";
    }
}

} // namespace

void DestroyCrs::operator()(void* crs) const { OSRDestroySpatialReference(static_cast<OGRSpatialReferenceH>(crs)); }

std::string geometryWordsOf(void* layer) { return wordsFor(OGR_L_GetGeomType(static_cast<OGRLayerH>(layer))); }

int geometryColumnOf(void* layer) {
    OGRFeatureDefnH definition = OGR_L_GetLayerDefn(static_cast<OGRLayerH>(layer));
    for (int i = 0; i < OGR_FD_GetGeomFieldCount(definition); ++i)
        if (wordsFor(OGR_GFld_GetType(OGR_FD_GetGeomFieldDefn(definition, i))) == "Polygon")
            return i;
    return 0;
}

void* crsOf(void* layer) {
    OGRFeatureDefnH definition = OGR_L_GetLayerDefn(static_cast<OGRLayerH>(layer));
    if (OGR_FD_GetGeomFieldCount(definition) == 0)
        return nullptr;
    OGRSpatialReferenceH crs = OGR_GFld_GetSpatialRef(OGR_FD_GetGeomFieldDefn(definition, geometryColumnOf(layer)));
    // GeoPackage's -1 and 0, and drawings' local systems: not known.
    if (!crs || OSRIsLocal(crs))
        return nullptr;
    const char* name = OSRGetName(crs);
    return name && std::string_view{name}.starts_with("Undefined") ? nullptr : crs;
}

std::string crsName(void* crs) {
    const char* name = crs ? OSRGetName(static_cast<OGRSpatialReferenceH>(crs)) : nullptr;
    return name ? name : crs ? "unnamed CRS" : "";
}

std::string crsText(void* crs) {
    char* text = nullptr;
    const char* options[] = {"FORMAT=WKT2_2018", nullptr};
    OSRExportToWktEx(static_cast<OGRSpatialReferenceH>(crs), &text, options);
    const std::string wkt = text ? text : "";
    CPLFree(text);
    return wkt;
}

bool isWgs84(void* crs) {
    const CrsHandle flat{OSRClone(static_cast<OGRSpatialReferenceH>(crs))};
    auto here = static_cast<OGRSpatialReferenceH>(flat.get());
    OSRDemoteTo2D(here, nullptr);
    const CrsHandle reference{OSRNewSpatialReference(nullptr)};
    auto wgs84 = static_cast<OGRSpatialReferenceH>(reference.get());
    OSRImportFromEPSG(wgs84, 4326);
    const char* options[] = {"CRITERION=EQUIVALENT_EXCEPT_AXIS_ORDER_GEOGCRS",
                             "IGNORE_DATA_AXIS_TO_SRS_AXIS_MAPPING=YES", nullptr};
    return OSRIsSameEx(here, wgs84, options) != 0;
}

bool saysWgs84(const std::string& crs) {
    const CrsHandle handle{OSRNewSpatialReference(nullptr)};
    auto reference = static_cast<OGRSpatialReferenceH>(handle.get());
    const bool text = crs.find('[') != std::string::npos;
    const bool code = crs.starts_with("EPSG:") && units::parseNumber(crs.substr(5)).has_value();
    std::string copy = crs;
    char* at = copy.data();
    if (text ? OSRImportFromWkt(reference, &at) != OGRERR_NONE
             : !code || OSRImportFromEPSG(reference, std::atoi(crs.c_str() + 5)) != OGRERR_NONE)
        return crs == "OGC:CRS84";
    return isWgs84(reference);
}

bool swapsAxes(void* handle) {
    auto crs = static_cast<OGRSpatialReferenceH>(handle);
    return OSRGetAxisMappingStrategy(crs) == OAMS_AUTHORITY_COMPLIANT &&
           (OSREPSGTreatsAsLatLong(crs) || OSREPSGTreatsAsNorthingEasting(crs));
}

} // namespace fencewright::exchange::detail
