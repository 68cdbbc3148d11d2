#include "support/made_raster.h"

#include <cpl_error.h>
#include <cpl_string.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <memory>
#include <stdexcept>

namespace fencewright::test {

namespace {

using Raster = std::unique_ptr<void, decltype(&GDALClose)>;

void require(bool succeeded, const std::string& path) {
    if (!succeeded)
        throw std::runtime_error{path + ": " + CPLGetLastErrorMsg()};
}

Raster inMemory(const MadeRaster& raster) {
    const GDALDataType type = GDALGetDataTypeByName(raster.type.c_str());
    Raster memory{GDALCreate(GDALGetDriverByName("MEM"), "", raster.width, raster.height, raster.bands, type, nullptr),
                  GDALClose};
    if (raster.placed)
        GDALSetGeoTransform(memory.get(), const_cast<double*>(raster.geotransform.data()));
    if (!raster.crs.empty()) {
        OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
        OSRSetFromUserInput(crs, raster.crs.c_str());
        OSRSetAxisMappingStrategy(crs, OAMS_TRADITIONAL_GIS_ORDER);
        GDALSetSpatialRef(memory.get(), crs);
        OSRDestroySpatialReference(crs);
    }
    if (!raster.palette.empty()) {
        GDALColorTableH table = GDALCreateColorTable(GPI_RGB);
        for (std::size_t entry = 0; entry < raster.palette.size(); ++entry) {
            const auto& [red, green, blue, alpha] = raster.palette[entry];
            const GDALColorEntry colour{red, green, blue, alpha};
            GDALSetColorEntry(table, static_cast<int>(entry), &colour);
        }
        GDALSetRasterColorTable(GDALGetRasterBand(memory.get(), 1), table);
        GDALDestroyColorTable(table);
    }
    for (int band = 0; band < raster.bands; ++band) {
        GDALRasterBandH target = GDALGetRasterBand(memory.get(), band + 1);
        if (static_cast<std::size_t>(band) < raster.colours.size())
            GDALSetRasterColorInterpretation(
                target, GDALGetColorInterpretationByName(raster.colours[static_cast<std::size_t>(band)].c_str()));
        if (raster.noData >= 0)
            GDALSetRasterNoDataValue(target, raster.noData);
        std::vector<double> row(static_cast<std::size_t>(raster.width));
        for (int y = 0; y < raster.height; ++y) {
            for (int x = 0; x < raster.width; ++x)
                row[static_cast<std::size_t>(x)] = raster.value(band, x, y);
            require(GDALRasterIO(target, GF_Write, 0, y, raster.width, 1, row.data(), raster.width, 1, GDT_Float64, 0,
                                 0) == CE_None,
                    "memory");
        }
    }
    return memory;
}

} // namespace

void make(const MadeRaster& raster, const std::string& path) {
    GDALAllRegister();
    const Raster memory = inMemory(raster);
    char** options = nullptr;
    for (const std::string& option : raster.options)
        options = CSLAddString(options, option.c_str());
    const Raster file{GDALCreateCopy(GDALGetDriverByName(raster.driver.c_str()), path.c_str(), memory.get(), FALSE,
                                     options, nullptr, nullptr),
                      GDALClose};
    CSLDestroy(options);
    require(file != nullptr, path);
    if (!raster.overviews.empty())
        require(GDALBuildOverviews(file.get(), "AVERAGE", static_cast<int>(raster.overviews.size()),
                                   raster.overviews.data(), 0, nullptr, nullptr, nullptr) == CE_None,
                path);
}

} // namespace fencewright::test
