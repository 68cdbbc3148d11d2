// A tile of a raster in another plane, against GDAL's own warping: how fast, and how true.

#include "bench/bar.h"
#include "raster/block_cache.h"
#include "raster/warp.h"

#include <gdal_priv.h>
#include <gdalwarper.h>
#include <ogr_spatialref.h>

#include <cmath>
#include <stdexcept>

using namespace fencewright;
using namespace fencewright::bench;
namespace fs = std::filesystem;

namespace {

constexpr int kTile = 512;
constexpr std::size_t kCacheBytes = 64 << 20; // of each side

/// The plane's definition as a CRS of GDAL: transverse Mercator of scale one through the origin, as LocalFrame is.
OGRSpatialReference localCrs(const model::Position& origin) {
    OGRSpatialReference crs;
    char text[200];
    std::snprintf(text, sizeof text, "+proj=tmerc +lat_0=%.12f +lon_0=%.12f +k=1 +x_0=0 +y_0=0 +datum=WGS84 +units=m",
                  origin.lat, origin.lon);
    crs.importFromProj4(text);
    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    return crs;
}

std::string wktOf(const OGRSpatialReference& crs) {
    char* text = nullptr;
    crs.exportToWkt(&text);
    std::string wkt = text;
    CPLFree(text);
    return wkt;
}

void require(bool done, const std::string& what) {
    if (!done)
        throw std::runtime_error{what + ": " + CPLGetLastErrorMsg()};
}

/// GDALWarpOperation with an approximating transformer, 0.125 pixels, bilinear, made once and pointed at each window.
class GdalWarp {
public:
    GdalWarp(const fs::path& path, const model::Position& origin) : m_source{GDALDataset::Open(path.c_str())} {
        require(m_source != nullptr, path.string());
        const std::string from = m_source->GetProjectionRef(), to = wktOf(localCrs(origin));
        m_exact = GDALCreateGenImgProjTransformer3(from.c_str(), geotransformOf(*m_source).data(), to.c_str(),
                                                   std::array<double, 6>{0, 1, 0, 0, 0, 1}.data());
        require(m_exact != nullptr, "transformer");
        m_target.reset(GetGDALDriverManager()->GetDriverByName("MEM")->Create("", kTile, kTile, 3, GDT_Byte, nullptr));
    }
    ~GdalWarp() { GDALDestroyGenImgProjTransformer(m_exact); }
    GdalWarp(const GdalWarp&) = delete;
    GdalWarp& operator=(const GdalWarp&) = delete;

    void run(const raster::FrameWindow& window) {
        const double pixel = (window.maxX - window.minX) / kTile;
        const double geotransform[6] = {window.minX, pixel, 0, window.maxY, 0, -pixel};
        GDALSetGenImgProjTransformerDstGeoTransform(m_exact, geotransform);
        void* approximating = GDALCreateApproxTransformer(GDALGenImgProjTransform, m_exact, 0.125);
        GDALWarpOptions* options = GDALCreateWarpOptions();
        options->hSrcDS = GDALDataset::ToHandle(m_source.get());
        options->hDstDS = GDALDataset::ToHandle(m_target.get());
        options->nBandCount = 3;
        options->panSrcBands = static_cast<int*>(CPLMalloc(3 * sizeof(int)));
        options->panDstBands = static_cast<int*>(CPLMalloc(3 * sizeof(int)));
        for (int band = 0; band < 3; ++band)
            options->panSrcBands[band] = options->panDstBands[band] = band + 1;
        options->eResampleAlg = GRA_Bilinear;
        options->pfnTransformer = GDALApproxTransform;
        options->pTransformerArg = approximating;
        {
            GDALWarpOperation operation;
            require(operation.Initialize(options) == CE_None &&
                        operation.ChunkAndWarpImage(0, 0, kTile, kTile) == CE_None,
                    "warp");
        }
        GDALDestroyWarpOptions(options);
        GDALDestroyApproxTransformer(approximating);
    }

private:
    static std::array<double, 6> geotransformOf(GDALDataset& dataset) {
        std::array<double, 6> numbers{};
        require(dataset.GetGeoTransform(numbers.data()) == CE_None, "geotransform");
        return numbers;
    }
    GDALDatasetUniquePtr m_source, m_target;
    void* m_exact = nullptr;
};

Figures tileTime(const Options& options) {
    const fs::path path = options.data / "ortho-cog.tif";
    const model::Position origin{-7.49, 42.32};
    const geodesy::MapPlane plane{{"", origin}};
    raster::OpenOptions opening;
    opening.blocks = std::make_shared<raster::BlockCache>(kCacheBytes);
    const raster::Dataset dataset{path.string(), opening};
    GDALSetCacheMax64(kCacheBytes); // the library's, which ours would leave too small for the other side
    GdalWarp warp{path, origin};
    // At the raster's own fineness, so that both read the same blocks, which lie in their caches after the first turn:
    // what is compared is the warping, not the decoding.
    constexpr double metres = kTile * 0.4;
    std::vector<raster::FrameWindow> windows;
    for (int i = 0; i < 4; ++i)
        for (int k = 0; k < 4; ++k)
            windows.push_back({i * metres, k * metres, (i + 1) * metres, (k + 1) * metres});
    return interleaved(
        options.rounds(),
        [&] {
            return milliseconds([&] {
                       for (const raster::FrameWindow& window : windows)
                           (void)raster::warpedForPainting(dataset, plane, window, kTile, kTile);
                   }) /
                   double(windows.size());
        },
        [&] {
            return milliseconds([&] {
                       for (const raster::FrameWindow& window : windows)
                           warp.run(window);
                   }) /
                   double(windows.size());
        });
}

/// A raster whose colours say where each of its pixels lies: red and green are column and row, modulo four, sixty
/// values to a pixel; blue is the column again, two pixels on, for where red jumps. Alpha is not needed.
constexpr int kSlope = 60;
constexpr int kSide = 640;

void writePlaces(const fs::path& path, const OGRSpatialReference& crs, const std::array<double, 6>& geotransform) {
    const char* tiled[] = {"TILED=YES", "INTERLEAVE=PIXEL", nullptr};
    const GDALDatasetUniquePtr file{GetGDALDriverManager()->GetDriverByName("GTiff")->Create(
        path.c_str(), kSide, kSide, 3, GDT_Byte, const_cast<char**>(tiled))};
    require(file != nullptr, path.string());
    auto numbers = geotransform;
    require(file->SetGeoTransform(numbers.data()) == CE_None && file->SetSpatialRef(&crs) == CE_None, path.string());
    std::vector<std::uint8_t> pixels;
    for (int y = 0; y < kSide; ++y)
        for (int x = 0; x < kSide; ++x)
            for (const int value : {x, y, x + y})
                pixels.push_back(std::uint8_t(value % 4 * kSlope));
    require(file->RasterIO(GF_Write, 0, 0, kSide, kSide, pixels.data(), kSide, kSide, GDT_Byte, 3, nullptr, 3,
                           GSpacing{3} * kSide, 1, nullptr) == CE_None,
            path.string());
}

struct Error {
    double worstPixels = 0.0;
    std::size_t compared = 0;
};

/// How far the picture's pixels lie from where PROJ puts them, in the picture's pixels.
Error placesError(const fs::path& folder, const OGRSpatialReference& sourceCrs, const model::Position& origin,
                  double pixelMetres, double offsetMetres) {
    OGRSpatialReference local = localCrs(origin);
    const std::unique_ptr<OGRCoordinateTransformation> toSource{OGRCreateCoordinateTransformation(&local, &sourceCrs)};
    require(toSource != nullptr, "transformation");
    const double left = offsetMetres, top = offsetMetres + kTile * pixelMetres, half = kTile * pixelMetres / 2;
    // Source pixels as large as the picture's on the ground, in the tile's middle.
    double xs[3] = {left + half, left + half + pixelMetres, left + half};
    double ys[3] = {top - half, top - half, top - half - pixelMetres};
    require(toSource->Transform(3, xs, ys), "transformation");
    const double wide = std::hypot(xs[1] - xs[0], ys[1] - ys[0]), high = std::hypot(xs[2] - xs[0], ys[2] - ys[0]);
    const std::array<double, 6> geotransform{xs[0] - wide * kSide / 2, wide, 0, ys[0] + high * kSide / 2, 0, -high};
    const fs::path path = folder / "places.tif";
    fs::remove(path);
    writePlaces(path, sourceCrs, geotransform);

    const raster::Dataset dataset{path.string()};
    const geodesy::MapPlane plane{{"", origin}};
    const raster::RgbaImage picture = raster::warped(
        dataset, plane, {left, top - kTile * pixelMetres, left + kTile * pixelMetres, top}, kTile, kTile);
    Error error;
    for (int row = 0; row < kTile; row += 3) {
        std::vector<double> x, y;
        for (int column = 0; column < kTile; ++column) {
            x.push_back(left + (column + 0.5) * pixelMetres);
            y.push_back(top - (row + 0.5) * pixelMetres);
        }
        require(toSource->Transform(kTile, x.data(), y.data()), "transformation");
        for (int column = 0; column < kTile; ++column) {
            const std::size_t at = std::size_t(column);
            // The colours are those of pixel centres.
            const double true1 = (x[at] - geotransform[0]) / wide - 0.5, true2 = (geotransform[3] - y[at]) / high - 0.5;
            const auto* pixel = &picture.pixels[(std::size_t(row) * kTile + at) * 4];
            if (pixel[3] != 255 || true1 < 1 || true2 < 1 || true1 > kSide - 2 || true2 > kSide - 2)
                continue;
            const auto deviation = [](double value, double wanted) {
                const double phase = wanted - 4 * std::floor(wanted / 4);
                // Where the colour jumps from four back to nothing, it says nothing.
                return phase < 0.6 || phase > 2.4 ? 0.0 : std::abs(value / kSlope - phase);
            };
            error.worstPixels = std::max({error.worstPixels, deviation(pixel[0], true1), deviation(pixel[1], true2)});
            ++error.compared;
        }
    }
    return error;
}

Figures geometricError(const Options& options) {
    const fs::path folder = options.data / "places";
    fs::create_directories(folder);
    Error worst;
    std::string where;
    for (const double lat : {0.0, 45.0, 70.0})
        for (const int epsg : {32629, 3857, 4326})
            for (const double pixelMetres : {0.05, 0.5, 5.0, 50.0})
                for (const double offset : {0.0, 20'000.0}) {
                    OGRSpatialReference crs;
                    crs.importFromEPSG(epsg);
                    crs.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
                    // At the zone's edge, three degrees off its meridian.
                    const Error error = placesError(folder, crs, {-6.05, lat}, pixelMetres, offset);
                    if (error.compared < 20'000)
                        throw std::runtime_error{"too little of a tile could be compared"};
                    worst.compared += error.compared;
                    if (error.worstPixels > worst.worstPixels) {
                        worst.worstPixels = error.worstPixels;
                        where = "EPSG:" + std::to_string(epsg) + " at latitude " + std::to_string(int(lat)) + ", " +
                                std::to_string(pixelMetres).substr(0, 5) + " m a pixel";
                    }
                }
    fs::remove_all(folder);
    return {.ours = worst.worstPixels,
            .note =
                "worst at " + where + "; " + std::to_string(worst.compared) + " pixels; colours resolve 0.01 pixel"};
}

} // namespace

int main(int argc, char** argv) {
    GDALAllRegister();
    return runBars(argc, argv,
                   {{"reprojected tile of 512 pixels, bilinear, against GDALWarpOperation (approximating, 0.125 pixel)",
                     "ms", Sense::AtMost, 0.25, tileTime},
                    {"reprojected tiles: farthest from where PROJ puts them, latitude 0/45/70, 0.05 to 50 m a pixel",
                     "pixel", Sense::AtMost, 0.125, geometricError}});
}
