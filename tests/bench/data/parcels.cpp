#include "bench/data/parcels.h"

#include "bench/data/orthophoto.h"

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <cstdint>
#include <stdexcept>
#include <string>
#include <vector>

namespace fencewright::bench {
namespace {

constexpr int kAcross = 1000;

double shift(int i, int k, std::uint32_t salt) {
    std::uint32_t h = std::uint32_t(i) * 0x9E3779B1U ^ std::uint32_t(k) * 0x85EBCA77U ^ salt * 0xC2B2AE3DU;
    h = (h ^ (h >> 15)) * 0x2C1B3C6DU;
    h = (h ^ (h >> 12)) * 0x297A2D39U;
    return double((h ^ (h >> 15)) % 2001) / 1000.0 - 1.0;
}

/// The corner points of the tiling and the middles of its edges, on a grid of twice the fineness.
OGRRawPoint pointAt(int i, int k) {
    const double cell = kCountyMetres / kAcross, half = cell / 2;
    const bool atRim = i == 0 || k == 0 || i == 2 * kAcross || k == 2 * kAcross;
    const double reach = atRim ? 0.0 : cell / 8;
    return {kCountyWest + i * half + reach * shift(i, k, 1), kCountyNorth - k * half + reach * shift(i, k, 2)};
}

void require(bool done, const std::string& what) {
    if (!done)
        throw std::runtime_error{what + ": " + CPLGetLastErrorMsg()};
}

} // namespace

void writeParcels(const std::filesystem::path& to, const char* driver, int epsg) {
    OGRSpatialReference utm, wanted;
    utm.importFromEPSG(32629);
    wanted.importFromEPSG(epsg);
    for (OGRSpatialReference* one : {&utm, &wanted})
        one->SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    std::vector<double> xs, ys;
    for (int k = 0; k <= 2 * kAcross; ++k)
        for (int i = 0; i <= 2 * kAcross; ++i) {
            const OGRRawPoint at = pointAt(i, k);
            xs.push_back(at.x);
            ys.push_back(at.y);
        }
    if (epsg != 32629) {
        const std::unique_ptr<OGRCoordinateTransformation> way{OGRCreateCoordinateTransformation(&utm, &wanted)};
        require(way && way->Transform(int(xs.size()), xs.data(), ys.data()), "transformation");
    }
    const GDALDatasetUniquePtr file{
        GetGDALDriverManager()->GetDriverByName(driver)->Create(to.c_str(), 0, 0, 0, GDT_Unknown, nullptr)};
    require(file != nullptr, to.string());
    OGRLayer* layer = file->CreateLayer("parcels", &wanted, wkbPolygon, nullptr);
    require(layer != nullptr, to.string());
    OGRFieldDefn number{"number", OFTString}, use{"use", OFTString}, area{"area", OFTReal};
    number.SetWidth(12);
    use.SetWidth(12);
    for (OGRFieldDefn* field : {&number, &use, &area})
        require(layer->CreateField(field) == OGRERR_NONE, "field");
    constexpr const char* uses[] = {"arable", "pasture", "wood", "yard"};
    constexpr int ring[][2] = {{0, 0}, {0, 1}, {0, 2}, {1, 2}, {2, 2}, {2, 1}, {2, 0}, {1, 0}, {0, 0}};
    (void)file->StartTransaction();
    for (int row = 0; row < kAcross; ++row)
        for (int column = 0; column < kAcross; ++column) {
            auto* shell = new OGRLinearRing;
            for (const auto& [i, k] : ring) {
                const auto at = std::size_t(2 * row + k) * (2 * kAcross + 1) + std::size_t(2 * column + i);
                shell->addPoint(xs[at], ys[at]);
            }
            OGRPolygon polygon;
            polygon.addRingDirectly(shell);
            OGRFeature feature{layer->GetLayerDefn()};
            feature.SetField(0, (std::to_string(row) + "/" + std::to_string(column)).c_str());
            feature.SetField(1, uses[(row * 7 + column * 3) % 4]);
            feature.SetField(2, 1600.0 + 10.0 * shift(row, column, 3));
            feature.SetGeometry(&polygon);
            require(layer->CreateFeature(&feature) == OGRERR_NONE, to.string());
        }
    (void)file->CommitTransaction();
}

} // namespace fencewright::bench
