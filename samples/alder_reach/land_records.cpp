#include "alder_reach/land_records.h"

#include "alder_reach/earth.h"

#include <cpl_conv.h>
#include <gdal.h>
#include <nlohmann/json.hpp>
#include <ogr_api.h>
#include <ogr_srs_api.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iomanip>
#include <memory>
#include <stdexcept>

namespace alder_reach {

using namespace fencewright;
using Json = nlohmann::ordered_json;

namespace {

void require(bool succeeded, const std::string& path) {
    if (!succeeded)
        throw std::runtime_error{path + ": " + CPLGetLastErrorMsg()};
}

struct CloseDataset {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
struct DestroyFeature {
    void operator()(void* feature) const { OGR_F_Destroy(static_cast<OGRFeatureH>(feature)); }
};

double areaOf(const Ring& ring) {
    double twice = 0;
    for (std::size_t index = 0; index < ring.size(); ++index) {
        const Point a = ring[index];
        const Point b = ring[(index + 1) % ring.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return std::abs(twice) / 2;
}

OGRGeometryH linearRing(const Ring& ring) {
    OGRGeometryH geometry = OGR_G_CreateGeometry(wkbLinearRing);
    for (const Point corner : ring)
        OGR_G_AddPoint_2D(geometry, kEasting + corner.x, kNorthing + corner.y);
    OGR_G_CloseRings(geometry);
    return geometry;
}

void addField(OGRLayerH layer, const char* name, OGRFieldType type) {
    OGRFieldDefnH field = OGR_Fld_Create(name, type);
    OGR_L_CreateField(layer, field, TRUE);
    OGR_Fld_Destroy(field);
}

void writeText(const std::string& text, const std::string& path) {
    std::ofstream file{path, std::ios::binary};
    file << text;
    file.close();
    if (!file)
        throw std::runtime_error{path + ": cannot be written."};
}

// A centimetre is 1e-7 of a degree.
double rounded(double degrees) { return std::round(degrees * 1e7) / 1e7; }

Json coordinates(const model::LineString& line) {
    Json array = Json::array();
    for (const model::Position& position : line)
        array.push_back({rounded(position.lon), rounded(position.lat)});
    return array;
}

Json feature(Json properties, const char* type, Json geometry) {
    return {{"type", "Feature"},
            {"properties", std::move(properties)},
            {"geometry", {{"type", type}, {"coordinates", std::move(geometry)}}}};
}

void writeFeatures(const Json& features, const std::string& path) {
    writeText(Json{{"type", "FeatureCollection"}, {"features", features}}.dump(1) + "\n", path);
}

} // namespace

void writeParcels(const Scene& scene, const std::string& path) {
    std::filesystem::remove(path);
    // The date in the file's own tables, so that it is the same each time.
    CPLSetThreadLocalConfigOption("OGR_CURRENT_DATE", "2026-05-14T00:00:00.000Z");
    const std::unique_ptr<void, CloseDataset> file{
        GDALCreate(GDALGetDriverByName("GPKG"), path.c_str(), 0, 0, 0, GDT_Unknown, nullptr)};
    require(file != nullptr, path);
    OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
    OSRSetFromUserInput(crs, kCrs);
    OGRLayerH layer = GDALDatasetCreateLayer(file.get(), "parcels", crs, wkbPolygon, nullptr);
    OSRDestroySpatialReference(crs);
    require(layer != nullptr, path);
    addField(layer, "parcel", OFTString);
    addField(layer, "owner_kind", OFTString);
    addField(layer, "consent", OFTString);
    addField(layer, "area_ha", OFTReal);
    for (const Parcel& parcel : scene.parcels) {
        const std::unique_ptr<void, DestroyFeature> row{OGR_F_Create(OGR_L_GetLayerDefn(layer))};
        auto* const record = static_cast<OGRFeatureH>(row.get());
        OGR_F_SetFieldString(record, 0, parcel.number.c_str());
        OGR_F_SetFieldString(record, 1, parcel.ownerKind.c_str());
        OGR_F_SetFieldString(record, 2, parcel.consent ? "yes" : "no");
        double area = areaOf(parcel.ring);
        OGRGeometryH polygon = OGR_G_CreateGeometry(wkbPolygon);
        OGR_G_AddGeometryDirectly(polygon, linearRing(parcel.ring));
        for (const Ring& hole : parcel.holes) {
            area -= areaOf(hole);
            OGR_G_AddGeometryDirectly(polygon, linearRing(hole));
        }
        OGR_F_SetFieldDouble(record, 3, std::round(area) / 1e4);
        OGR_F_SetGeometryDirectly(record, polygon);
        require(OGR_L_CreateFeature(layer, record) == OGRERR_NONE, path);
    }
    GDALFlushCache(file.get());
}

void writeSites(const Scene& scene, const std::string& path) {
    const Earth earth;
    const Point switchyard = (scene.switchyard[0] + scene.switchyard[2]) * 0.5;
    const Point landing = (scene.ferryLanding[0] + scene.ferryLanding[2]) * 0.5;
    std::ostringstream text;
    text << std::fixed << std::setprecision(7);
    text << "name,category,lon,lat,position_error_m,position_source,confidential,setback\n";
    const auto row = [&](const char* name, const char* category, Point point, const char* rest) {
        const model::Position place = earth.place(point);
        text << name << ',' << category << ',' << place.lon << ',' << place.lat << ',' << rest << '\n';
    };
    row("Osprey nest", "osprey nest", scene.nest, "5,hand-held GNSS,yes,1/4 mi");
    row("Chlorine store", "chlorine store", scene.chlorineStore, "1,site plan,no,500 ft");
    row("Switchyard", "switchyard", switchyard, "1,site plan,no,30 m");
    row("Village school", "school", scene.school, "2,orthophoto,no,150 m");
    row("Ferry landing", "ferry landing", landing, "2,orthophoto,no,50 m");
    writeText(text.str(), path);
}

void writeLines(const Scene& scene, const std::string& path) {
    const Earth earth;
    Line road;
    for (std::size_t index = 0; index < scene.road.size(); index += 4)
        road.push_back(scene.road[index]);
    writeFeatures(Json::array({feature({{"name", "County road"}, {"category", "road"}, {"setback", "25 m"}},
                                       "LineString", coordinates(earth.line(road)))}),
                  path);
}

void writeOlderFences(const Scene& scene, const std::string& path) {
    const Earth earth;
    Json features = Json::array();
    const auto ring = [&](const Ring& corners) {
        Json array = coordinates(earth.line(corners));
        array.push_back(array.front());
        return array;
    };
    const auto add = [&](const char* name, const char* kind, Json rings, Json more = Json::object()) {
        Json properties{{"name", name}, {"kind", kind}};
        properties.update(more);
        features.push_back(feature(std::move(properties), "Polygon", std::move(rings)));
    };
    const auto around = [](Point middle, double x, double y) {
        return Ring{middle + Point{-x, -y}, middle + Point{x, -y}, middle + Point{x, y}, middle + Point{-x, y}};
    };
    const Json lease{{"basis_kind", "lease"}, {"basis_citation", "Lease of 2019, annex 2"}};
    const Json judged{{"basis_kind", "judgement"}, {"basis_citation", "Site walk, spring 2019"}};

    // Sound: what the faulty ones lie in.
    add("Reservoir and banks, 2019", "keep-in",
        Json::array({ring({{210, 420}, {1880, 400}, {1900, 1240}, {1500, 1560}, {260, 1540}})}),
        {{"basis_kind", "lease"},
         {"basis_citation", "Lease of 2019, annex 1"},
         {"ceiling", "400"},
         {"ceiling_unit", "ft"},
         {"ceiling_reference", "ground"}});
    // The surveyor went round the corners in the wrong order.
    add("Works yard, 2019", "keep-out", Json::array({ring({{1760, 540}, {1900, 640}, {1900, 540}, {1760, 640}})}),
        judged);
    // The last corner is not the first: half a metre is missing.
    Json open = coordinates(earth.line({{600, 1420}, {760, 1430}, {770, 1530}, {610, 1525}, {600, 1420.5}}));
    add("North wood, 2019", "keep-out", Json::array({open}), judged);
    // A corner typed with a wrong digit and then corrected, without deleting the first.
    add("Dam, 2019", "keep-out",
        Json::array({ring({{1440, 600}, {1560, 640}, {1640, 480}, {1560.02, 640.01}, {1720, 820}, {1700, 930}})}),
        judged);
    // The island was cut out of the wrong fence.
    add("Landing, 2019", "keep-out", Json::array({ring(around({1304, 632}, 40, 50)), ring(around(scene.nest, 40, 30))}),
        judged);
    // Brought in twice.
    add("Switchyard, 2019", "keep-out", Json::array({ring(around({1800, 890}, 55, 48))}), lease);
    add("Switchyard, 2019 (copy)", "keep-out", Json::array({ring(around({1800, 890}, 55, 48))}), lease);
    // Nobody wrote down why.
    add("Parcel 17, 2019", "keep-out", Json::array({ring(scene.parcel("17").ring)}));
    // The same corner five times over.
    add("Boat yard, 2019", "keep-out",
        Json::array({ring({{890, 590}, {890, 590}, {970, 600}, {970, 600}, {970, 600}, {965, 640}, {885, 632}})}),
        judged);
    // Floor and ceiling changed places.
    Json upsideDown = judged;
    upsideDown.update({{"floor", "120"}, {"floor_unit", "m"}, {"ceiling", "60"}, {"ceiling_unit", "m"}});
    add("Pylons, 2019", "keep-out", Json::array({ring({{1850, 930}, {1890, 930}, {1890, 1010}, {1850, 1010}})}),
        upsideDown);
    // A sliver that a clipping left.
    add("Sliver, 2019", "keep-out", Json::array({ring({{1210, 460}, {1214, 460.02}, {1214, 460.08}})}), judged);
    // Far from all land that may be flown over.
    add("Village school, 2019", "keep-out", Json::array({ring(around(scene.school, 90, 80))}), judged);
    writeFeatures(features, path);
}

} // namespace alder_reach
