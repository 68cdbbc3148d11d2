#include "support/made_layer.h"

#include "support/random_geometry.h"

#include <cpl_conv.h>
#include <gdal.h>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <stdexcept>

namespace fencewright::support {
namespace {

using tests::RandomGeometry;

/// Writes places at random in the coordinates of a layer.
class Shapes {
public:
    Shapes(RandomGeometry& random, bool degrees, bool heights, bool measures)
        : m_random{random}, m_unit{degrees ? 1e-4 : 10.0}, m_x{degrees ? -8.0 : 600'000.0},
          m_y{degrees ? 43.0 : 4'700'000.0}, m_heights{heights}, m_measures{measures} {
        if (random.chance(0.1)) // long edges, that bend on their way to the earth
            m_unit *= 300;
    }

    OGRGeometryH one(OGRwkbGeometryType type) {
        OGRGeometryH geometry = OGR_G_CreateGeometry(dimensioned(type));
        switch (type) {
        case wkbPoint:
            add(geometry, middle());
            break;
        case wkbLineString:
            for (int i = m_random.whole(2, 9); i > 0; --i)
                add(geometry, middle());
            break;
        case wkbPolygon:
            rings(geometry);
            break;
        case wkbCurvePolygon:
            arcs(geometry);
            break;
        default: {
            const auto part = type == wkbMultiPoint        ? wkbPoint
                              : type == wkbMultiLineString ? wkbLineString
                                                           : wkbPolygon;
            for (int i = m_random.whole(1, 4); i > 0; --i)
                OGR_G_AddGeometryDirectly(geometry, one(part));
        }
        }
        return geometry;
    }
    OGRGeometryH empty(OGRwkbGeometryType type) { return OGR_G_CreateGeometry(dimensioned(type)); }

private:
    struct Place {
        double x, y;
    };
    OGRwkbGeometryType dimensioned(OGRwkbGeometryType type) const {
        return OGR_GT_SetModifier(type, m_heights, m_measures);
    }
    Place middle() {
        return {m_x + m_random.between(0, 100) * m_unit,
                m_y + (m_random.chance(0.2) ? m_random.whole(0, 100) : m_random.between(0, 100)) * m_unit};
    }
    void add(OGRGeometryH to, const Place& place) {
        const double z = m_random.chance(0.05) ? 0.0 : m_random.between(-5, 500);
        if (m_heights && m_measures)
            OGR_G_AddPointZM(to, place.x, place.y, z, 7);
        else if (m_heights)
            OGR_G_AddPoint(to, place.x, place.y, z);
        else if (m_measures)
            OGR_G_AddPointM(to, place.x, place.y, 7);
        else
            OGR_G_AddPoint_2D(to, place.x, place.y);
    }
    void rings(OGRGeometryH polygon) {
        const Place at = middle();
        const int count = m_random.chance(0.3) ? m_random.whole(2, 4) : 1;
        for (int ring = 0; ring < count; ++ring) {
            OGRGeometryH line = OGR_G_CreateGeometry(wkbLinearRing);
            const double radius = (ring == 0 ? 20 : 3) * m_unit;
            const Place centre{at.x + (ring == 0 ? 0 : (ring - 2) * 7 * m_unit), at.y};
            const int corners = m_random.whole(3, 12);
            const double start = m_random.between(0, 6);
            Place first{};
            for (int i = 0; i < corners; ++i) {
                const double angle = start - 6.283185307179586 * i / corners; // as shells of shapefiles go
                const double reach = radius * m_random.between(0.6, 1.0);
                const Place place{centre.x + reach * std::cos(angle), centre.y + reach * std::sin(angle)};
                add(line, place);
                if (i == 0)
                    first = place;
            }
            add(line, first);
            if (ring > 0)
                OGR_G_CloseRings(line);
            OGR_G_AddGeometryDirectly(polygon, line);
        }
    }
    void arcs(OGRGeometryH polygon) {
        const Place at = middle();
        OGRGeometryH circle = OGR_G_CreateGeometry(wkbCircularString);
        for (const double dx : {-5.0, 5.0, -5.0})
            OGR_G_AddPoint_2D(circle, at.x + dx * m_unit, at.y);
        OGR_G_AddGeometryDirectly(polygon, circle);
    }

    RandomGeometry& m_random;
    double m_unit, m_x, m_y;
    bool m_heights, m_measures;
};

constexpr OGRwkbGeometryType kTypes[] = {wkbPolygon,    wkbPolygon,         wkbMultiPolygon, wkbMultiPolygon,
                                         wkbLineString, wkbMultiLineString, wkbPoint,        wkbMultiPoint};

void setField(RandomGeometry& random, OGRFeatureH feature, int field, bool latin) {
    OGRFieldDefnH definition = OGR_F_GetFieldDefnRef(feature, field);
    if (random.chance(0.15))
        return OGR_F_SetFieldNull(feature, field);
    switch (OGR_Fld_GetType(definition)) {
    case OFTString:
        return OGR_F_SetFieldString(feature, field,
                                    latin && random.chance(0.2) ? "stra\xdf"
                                                                  "e"
                                    : random.chance(0.3)        ? "Καστοριά 7"
                                                                : std::to_string(random.whole(0, 9999)).c_str());
    case OFTInteger:
        return OGR_F_SetFieldInteger(feature, field,
                                     OGR_Fld_GetSubType(definition) == OFSTBoolean ? random.whole(0, 1)
                                                                                   : random.whole(-9999, 9999));
    case OFTInteger64:
        return OGR_F_SetFieldInteger64(feature, field, GIntBig{random.whole(-9999, 9999)} * 1'000'000'007);
    case OFTReal:
        return OGR_F_SetFieldDouble(feature, field,
                                    random.chance(0.3) ? random.whole(-99, 99) : random.between(-1e6, 1e6));
    case OFTDate:
    case OFTDateTime:
        return OGR_F_SetFieldDateTimeEx(feature, field, random.whole(1900, 2100), random.whole(1, 12),
                                        random.whole(1, 28), random.whole(0, 23), random.whole(0, 59),
                                        static_cast<float>(random.whole(0, 59)), 100);
    default: {
        const unsigned char bytes[] = {0, 255, 7};
        return OGR_F_SetFieldBinary(feature, field, 3, bytes);
    }
    }
}

} // namespace

std::string writeMadeLayer(const std::string& path, unsigned seed) {
    RandomGeometry random{seed};
    GDALAllRegister();
    const bool geopackage = path.ends_with(".gpkg");
    const int epsg = random.chance(0.5) ? 4326 : random.chance(0.5) ? 25829 : 4258;
    const bool heights = random.chance(0.25), measures = random.chance(0.15);
    const OGRwkbGeometryType type = kTypes[random.whole(0, 7)];
    const bool mixed = geopackage && random.chance(0.15), curved = geopackage && random.chance(0.05),
               latin = geopackage && random.chance(0.08), sparse = geopackage && random.chance(0.1),
               thinned = random.chance(0.15), plainValues = random.chance(0.6);
    std::string what = "seed " + std::to_string(seed) + ", EPSG:" + std::to_string(epsg) + ", type " +
                       std::to_string(type) + (heights ? ", z" : "") + (measures ? ", m" : "") +
                       (mixed ? ", mixed" : "") + (curved ? ", curved" : "") + (latin ? ", latin" : "") +
                       (sparse ? ", sparse" : "") + (thinned ? ", thinned" : "");

    OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
    OSRImportFromEPSG(crs, epsg);
    OSRSetAxisMappingStrategy(crs, OAMS_TRADITIONAL_GIS_ORDER);
    // Of many small pages, a few large ones, and geometries that spread over several.
    const int pageBytes = geopackage && random.chance(0.7) ? 512 << random.whole(0, 7) : 4096;
    what += ", pages of " + std::to_string(pageBytes);
    CPLSetThreadLocalConfigOption("OGR_SQLITE_PRAGMA", ("page_size=" + std::to_string(pageBytes)).c_str());
    GDALDatasetH dataset = GDALCreate(GDALGetDriverByName(geopackage ? "GPKG" : "ESRI Shapefile"), path.c_str(), 0, 0,
                                      0, GDT_Unknown, nullptr);
    CPLSetThreadLocalConfigOption("OGR_SQLITE_PRAGMA", nullptr);
    if (!dataset)
        throw std::runtime_error{path};
    const char* options[] = {geopackage ? "SPATIAL_INDEX=NO" : nullptr, nullptr};
    OGRLayerH layer = GDALDatasetCreateLayer(dataset, "made", crs,
                                             mixed || curved ? wkbUnknown : OGR_GT_SetModifier(type, heights, measures),
                                             const_cast<char**>(options));
    struct Kind {
        OGRFieldType type;
        OGRFieldSubType subtype;
    };
    const Kind kinds[] = {{OFTString, OFSTNone},   {OFTInteger, OFSTNone},   {OFTReal, OFSTNone},
                          {OFTDate, OFSTNone},     {OFTInteger64, OFSTNone}, {OFTInteger, OFSTBoolean},
                          {OFTInteger, OFSTInt16}, {OFTDateTime, OFSTNone},  {OFTBinary, OFSTNone}};
    const int last = geopackage ? 8 : 3;
    for (int i = random.whole(0, 6); i > 0; --i) {
        const Kind& kind = kinds[random.whole(0, last)];
        OGRFieldDefnH field = OGR_Fld_Create(("F" + std::to_string(i)).c_str(), kind.type);
        OGR_Fld_SetSubType(field, kind.subtype);
        if (OGR_L_CreateField(layer, field, TRUE) != OGRERR_NONE)
            throw std::runtime_error{"no field"};
        OGR_Fld_Destroy(field);
    }
    Shapes shapes{random, epsg != 25829, heights, measures};
    OGRFeatureDefnH definition = OGR_L_GetLayerDefn(layer);
    GIntBig id = sparse ? random.whole(-5, 1'000'000) : 1;
    const int count = random.whole(0, random.chance(0.1) ? 1000 : 40);
    GDALDatasetStartTransaction(dataset, FALSE);
    for (int i = 0; i < count; ++i) {
        OGRFeatureH feature = OGR_F_Create(definition);
        if (sparse)
            OGR_F_SetFID(feature, id += random.whole(1, 100'000));
        for (int field = 0; field < OGR_FD_GetFieldCount(definition); ++field)
            if (!plainValues || !random.chance(0.1))
                setField(random, feature, field, latin);
        const OGRwkbGeometryType own = curved && random.chance(0.3) ? wkbCurvePolygon
                                       : mixed                      ? kTypes[random.whole(0, 7)]
                                                                    : type;
        if (!random.chance(0.05))
            OGR_F_SetGeometryDirectly(feature, random.chance(0.04) && geopackage ? shapes.empty(own) : shapes.one(own));
        if (OGR_L_CreateFeature(layer, feature) != OGRERR_NONE)
            what += ", one not written";
        OGR_F_Destroy(feature);
    }
    GDALDatasetCommitTransaction(dataset);
    if (thinned && count > 3)
        for (int i = 0; i < 3; ++i)
            if (OGR_L_DeleteFeature(layer, random.whole(0, count - 1)) != OGRERR_NONE)
                what += ", one not taken away";
    GDALClose(dataset);
    OSRDestroySpatialReference(crs);
    return what;
}

void writeLargeShapes(const std::string& path, int pageBytes) {
    GDALAllRegister();
    OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
    OSRImportFromEPSG(crs, 4326);
    OSRSetAxisMappingStrategy(crs, OAMS_TRADITIONAL_GIS_ORDER);
    CPLSetThreadLocalConfigOption("OGR_SQLITE_PRAGMA", ("page_size=" + std::to_string(pageBytes)).c_str());
    GDALDatasetH dataset = GDALCreate(GDALGetDriverByName(path.ends_with(".gpkg") ? "GPKG" : "ESRI Shapefile"),
                                      path.c_str(), 0, 0, 0, GDT_Unknown, nullptr);
    CPLSetThreadLocalConfigOption("OGR_SQLITE_PRAGMA", nullptr);
    OGRLayerH layer = dataset ? GDALDatasetCreateLayer(dataset, "made", crs, wkbPolygon, nullptr) : nullptr;
    if (!layer)
        throw std::runtime_error{path};
    OGRFieldDefnH field = OGR_Fld_Create("name", OFTString);
    (void)OGR_L_CreateField(layer, field, TRUE);
    OGR_Fld_Destroy(field);
    for (int i = 0; i < 30; ++i) {
        OGRGeometryH polygon = OGR_G_CreateGeometry(wkbPolygon), ring = OGR_G_CreateGeometry(wkbLinearRing);
        const int corners = 4 + i * i * 596 / 841;
        for (int k = 0; k <= corners; ++k) {
            const double angle = -6.283185307179586 * (k % corners) / corners;
            OGR_G_AddPoint_2D(ring, -8.0 + 0.01 * i + 0.004 * std::cos(angle), 43.0 + 0.004 * std::sin(angle));
        }
        OGR_G_AddGeometryDirectly(polygon, ring);
        OGRFeatureH feature = OGR_F_Create(OGR_L_GetLayerDefn(layer));
        OGR_F_SetFieldString(feature, 0, std::to_string(i).c_str());
        OGR_F_SetGeometryDirectly(feature, polygon);
        if (OGR_L_CreateFeature(layer, feature) != OGRERR_NONE)
            throw std::runtime_error{path};
        OGR_F_Destroy(feature);
    }
    GDALClose(dataset);
    OSRDestroySpatialReference(crs);
}

} // namespace fencewright::support
