#include "raster/warp.h"

#include "raster/block_cache.h"
#include "support/made_raster.h"

#include <GeographicLib/Constants.hpp>
#include <GeographicLib/TransverseMercator.hpp>

#include <cpl_conv.h>
#include <cpl_string.h>
#include <gdal_alg.h>
#include <gdal_utils.h>
#include <gdalwarper.h>
#include <ogr_srs_api.h>

#include <QtTest>

using namespace fencewright;
using raster::Dataset;
using raster::FrameWindow;
using raster::RgbaImage;

namespace {

constexpr int kSize = 256;

std::string imagery(const std::string& name) {
    return QStringLiteral(FENCEWRIGHT_TEST_DATA "/imagery/%1").arg(QString::fromStdString(name)).toStdString();
}

std::string framesCrs(model::Position origin) {
    return QStringLiteral("+proj=tmerc +lat_0=%1 +lon_0=%2 +k=1 +x_0=0 +y_0=0 +datum=WGS84")
        .arg(origin.lat, 0, 'f', 12)
        .arg(origin.lon, 0, 'f', 12)
        .toStdString();
}

// A picture as GDAL describes one: where its pixels lie, in which CRS.
struct Grid {
    std::string crs; ///< empty: the raster's own
    std::array<double, 6> geotransform{};
    int width = kSize, height = kSize;
    /// Pixels of the picture for one of the raster. GDAL finds it from the box around the window in the raster, which
    /// is too large by half where the window is turned, and blurs; so there it has to be told. Nothing: as GDAL finds
    /// it.
    std::optional<double> scale{};
};

// A place in a CRS, by GDAL and PROJ alone.
geodesy::PlanePoint inCrs(const std::string& crs, model::Position place) {
    GDALAllRegister();
    OGRSpatialReferenceH earth = OSRNewSpatialReference(nullptr);
    OGRSpatialReferenceH plane = OSRNewSpatialReference(nullptr);
    OSRSetFromUserInput(earth, "EPSG:4326");
    OSRSetFromUserInput(plane, crs.c_str());
    OSRSetAxisMappingStrategy(earth, OAMS_TRADITIONAL_GIS_ORDER);
    OSRSetAxisMappingStrategy(plane, OAMS_TRADITIONAL_GIS_ORDER);
    OGRCoordinateTransformationH transformation = OCTNewCoordinateTransformation(earth, plane);
    geodesy::PlanePoint point{place.lon, place.lat};
    if (!OCTTransform(transformation, 1, &point.x, &point.y, nullptr))
        point = {std::nan(""), std::nan("")};
    OCTDestroyCoordinateTransformation(transformation);
    OSRDestroySpatialReference(earth);
    OSRDestroySpatialReference(plane);
    return point;
}

// The window of a map's plane. Turned: up points to the azimuth, so a step up goes by its sine to the east and by its
// cosine to the north; right is a quarter further.
Grid gridOf(const geodesy::MapPlane::Definition& plane, const FrameWindow& window, int width, int height) {
    const geodesy::PlanePoint origin = plane.crs.empty() ? geodesy::PlanePoint{} : inCrs(plane.crs, plane.origin);
    const double sine = std::sin(plane.upAzimuthDegrees * M_PI / 180);
    const double cosine = std::cos(plane.upAzimuthDegrees * M_PI / 180);
    const double right = (window.maxX - window.minX) / width;
    const double down = -(window.maxY - window.minY) / height;
    return {plane.crs.empty() ? framesCrs(plane.origin) : plane.crs,
            {origin.x + window.minX * cosine + window.maxY * sine, right * cosine, down * sine,
             origin.y - window.minX * sine + window.maxY * cosine, -right * sine, down * cosine},
            width,
            height};
}

// The same picture by GDAL's warper: red, green, blue and alpha, every pixel placed exactly.
std::vector<std::uint8_t> warpedByGdal(const std::string& path, const Grid& grid,
                                       GDALResampleAlg algorithm = GRA_Bilinear) {
    GDALAllRegister();
    GDALDatasetH source = GDALOpen(path.c_str(), GA_ReadOnly);
    GDALDatasetH target = GDALCreate(GDALGetDriverByName("MEM"), "", grid.width, grid.height, 4, GDT_Byte, nullptr);
    GDALSetGeoTransform(target, const_cast<double*>(grid.geotransform.data()));
    if (grid.crs.empty()) {
        GDALSetSpatialRef(target, GDALGetSpatialRef(source));
    } else {
        OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
        OSRSetFromUserInput(crs, grid.crs.c_str());
        OSRSetAxisMappingStrategy(crs, OAMS_TRADITIONAL_GIS_ORDER);
        GDALSetSpatialRef(target, crs);
        OSRDestroySpatialReference(crs);
    }

    GDALWarpOptions* options = GDALCreateWarpOptions();
    options->hSrcDS = source;
    options->hDstDS = target;
    options->eResampleAlg = algorithm;
    options->nBandCount = 3;
    options->panSrcBands = static_cast<int*>(CPLMalloc(3 * sizeof(int)));
    options->panDstBands = static_cast<int*>(CPLMalloc(3 * sizeof(int)));
    for (int band = 0; band < 3; ++band)
        options->panSrcBands[band] = options->panDstBands[band] = band + 1;
    options->nDstAlphaBand = 4;
    for (int band = 1; band <= GDALGetRasterCount(source); ++band)
        if (GDALGetRasterColorInterpretation(GDALGetRasterBand(source, band)) == GCI_AlphaBand)
            options->nSrcAlphaBand = band;
    int hasNoData = FALSE;
    const double noData = GDALGetRasterNoDataValue(GDALGetRasterBand(source, 1), &hasNoData);
    if (hasNoData) {
        options->padfSrcNoDataReal = static_cast<double*>(CPLMalloc(3 * sizeof(double)));
        std::fill_n(options->padfSrcNoDataReal, 3, noData);
        options->papszWarpOptions = CSLSetNameValue(options->papszWarpOptions, "UNIFIED_SRC_NODATA", "YES");
    }
    options->papszWarpOptions = CSLSetNameValue(options->papszWarpOptions, "INIT_DEST", "0");
    if (grid.scale)
        for (const char* name : {"XSCALE", "YSCALE"})
            options->papszWarpOptions =
                CSLSetNameValue(options->papszWarpOptions, name, QByteArray::number(*grid.scale).constData());
    options->pTransformerArg = GDALCreateGenImgProjTransformer2(source, target, nullptr);
    options->pfnTransformer = GDALGenImgProjTransform;
    GDALWarpOperationH operation = GDALCreateWarpOperation(options);
    const CPLErr result = GDALChunkAndWarpImage(operation, 0, 0, grid.width, grid.height);
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(grid.width) * static_cast<std::size_t>(grid.height) * 4);
    if (result != CE_None ||
        GDALDatasetRasterIO(target, GF_Read, 0, 0, grid.width, grid.height, pixels.data(), grid.width, grid.height,
                            GDT_Byte, 4, nullptr, 4, 4 * grid.width, 1) != CE_None)
        pixels.clear();
    GDALDestroyWarpOperation(operation);
    GDALDestroyGenImgProjTransformer(options->pTransformerArg);
    GDALDestroyWarpOptions(options);
    GDALClose(target);
    GDALClose(source);
    return pixels;
}

// Whether all pixels within two of this one have at least that much alpha.
bool covered(const std::vector<std::uint8_t>& pixels, int width, int height, int x, int y, int leastAlpha) {
    for (int dy = -2; dy <= 2; ++dy)
        for (int dx = -2; dx <= 2; ++dx)
            if (x + dx < 0 || y + dy < 0 || x + dx >= width || y + dy >= height ||
                pixels[static_cast<std::size_t>(((y + dy) * width + x + dx) * 4 + 3)] < leastAlpha)
                return false;
    return true;
}

// How two pictures differ away from the edges of what there is.
struct Difference {
    double mean = 0;         ///< levels
    double ofNeighbour = 0;  ///< to the next pixel of the second picture: what a shift by one pixel would make
    int count = 0;           ///< values compared
    int opaqueInOneOnly = 0; ///< pixels
    bool isCompared = false; ///< a sixteenth of the picture at least
};
Difference difference(const std::vector<std::uint8_t>& ours, const std::vector<std::uint8_t>& theirs, int width,
                      int height, int leastAlpha = 255) {
    Difference result;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const auto at = static_cast<std::size_t>((y * width + x) * 4);
            result.opaqueInOneOnly += (ours[at + 3] > 127) != (theirs[at + 3] > 127) ? 1 : 0;
            if (!covered(ours, width, height, x, y, leastAlpha) || !covered(theirs, width, height, x, y, leastAlpha))
                continue;
            for (std::size_t band = 0; band < 3; ++band, ++result.count) {
                result.mean += std::abs(int{ours[at + band]} - int{theirs[at + band]});
                result.ofNeighbour += std::abs(int{ours[at + band]} - int{theirs[at + 4 + band]});
            }
        }
    result.mean /= std::max(1, result.count);
    result.ofNeighbour /= std::max(1, result.count);
    result.isCompared = result.count > 3 * width * height / 16;
    return result;
}

// Colours multiplied by alpha.
std::vector<std::uint8_t> painted(std::vector<std::uint8_t> pixels) {
    for (std::size_t at = 0; at < pixels.size(); at += 4)
        for (std::size_t band = 0; band < 3; ++band)
            pixels[at + band] = static_cast<std::uint8_t>((pixels[at + band] * pixels[at + 3] + 127) / 255);
    return pixels;
}
// In the same order.
std::vector<std::uint8_t> bytesOf(const raster::PaintedPixels& pixels) {
    std::vector<std::uint8_t> bytes;
    for (int index = 0; pixels.words && index < pixels.width * pixels.height; ++index)
        for (const int shift : {16, 8, 0, 24})
            bytes.push_back(static_cast<std::uint8_t>(pixels.words[index] >> shift));
    return bytes;
}

// A raster may be empty for the most part.
geodesy::PlanePoint middleOfWhatIsThere(const Dataset& dataset) {
    const double width = dataset.description().width;
    const double height = dataset.description().height;
    const RgbaImage coarse = dataset.read({0, 0, width, height}, 64, 64);
    geodesy::PlanePoint sum;
    int count = 0;
    for (int y = 0; y < 64; ++y)
        for (int x = 0; x < 64; ++x)
            if (coarse.pixels[static_cast<std::size_t>((y * 64 + x) * 4 + 3)] == 255) {
                sum.x += x + 0.3;
                sum.y += y + 0.3;
                ++count;
            }
    return {sum.x / count / 64 * width, sum.y / count / 64 * height};
}

// A wave of straight flanks: 30 levels a pixel, turning every 8 pixels. On a flank bilinear interpolation is exact, so
// that a level tells a thirtieth of a pixel.
double wave(double position) {
    const double phase = position - 16 * std::floor(position / 16);
    return 8 + 30 * (phase < 8 ? phase : 16 - phase);
}
bool onFlank(double position, double margin) {
    const double phase = position - 8 * std::floor(position / 8);
    return phase > margin && phase < 8 - margin;
}

// Smooth, and full of detail: half a pixel aside it differs by some five levels. Bands differ.
double detail(int band, double x, double y) {
    const double turn = 2 * M_PI;
    return 127.5 + 60 * std::sin(turn * (x / 13.0 + band * 0.2)) * std::cos(turn * (y / 17.0 - band * 0.1)) +
           45 * std::sin(turn * ((x + 1.3 * y) / 29.0 + band * 0.3)) + 15 * std::cos(turn * (x - y) / 150.0);
}

// Where a made raster lies, in which CRS, and a projected CRS that a map of the place may be drawn in.
struct Region {
    const char* name;
    const char* crs;
    model::Position middle;
    const char* planeCrs;
};
constexpr std::array<Region, 5> kRegions{{{"UTM", "EPSG:32633", {14.2, 50.1}, "EPSG:3035"},
                                          {"degrees", "EPSG:4326", {9.3, 48.2}, "EPSG:32632"},
                                          {"Web Mercator", "EPSG:3857", {-3.5, 40.4}, "EPSG:25830"},
                                          {"Lambert", "EPSG:2154", {3.4, 46.7}, "EPSG:2154"},
                                          {"British grid", "EPSG:27700", {-1.5, 52.6}, "EPSG:27700"}}};

// A kind of raster: how it is made, how it is opened, and how GDAL is told to make red, green and blue of it.
struct Kind {
    const char* name;
    test::MadeRaster made;
    raster::Appearance appearance{};
    std::vector<const char*> translation{};     ///< none: GDAL warps the file as it is
    std::vector<double> factors{0.6, 1.0, 1.5}; ///< pixels of the raster for one of the picture, in turn
    /// How many times as broad its waves are. Of what is only two or three pixels of a coarse picture wide, an overview
    /// and GDAL's one wide filter keep different amounts, so overviews are compared on broad ones.
    double waves = 1;
};
constexpr int kMadeWidth = 512;
constexpr int kMadeHeight = 448;

std::vector<Kind> kinds() {
    std::vector<Kind> all;
    const auto add = [&](const char* name, int bands) -> Kind& {
        Kind kind{name, {}};
        kind.made.width = kMadeWidth;
        kind.made.height = kMadeHeight;
        kind.made.bands = bands;
        kind.made.value = detail;
        all.push_back(kind);
        return all.back();
    };
    add("grey", 1).translation = {"-b", "1", "-b", "1", "-b", "1"};
    add("strips", 3);
    Kind& transparent = add("transparent", 4);
    transparent.made.colours = {"Red", "Green", "Blue", "Alpha"};
    transparent.made.options = {"TILED=YES"};
    transparent.made.value = [](int band, int x, int y) {
        // A round hole, and a band that is seen through.
        const double hole = std::hypot(x - 225, y - 210) < 18 ? 0 : 1;
        const double veil = 1 - 0.7 * std::exp(-std::pow((x - 285) / 25.0, 2));
        return band < 3 ? detail(band, x, y) : std::round(255 * hole * veil);
    };
    Kind& palette = add("palette", 1);
    for (int entry = 0; entry < 16; ++entry)
        palette.made.palette.push_back({static_cast<short>(entry * 17), static_cast<short>((entry * 7 % 16) * 17),
                                        static_cast<short>((entry * 11 % 16) * 17), 255});
    palette.made.value = [](int, int x, int y) { return (x / 11 * 5 + y / 11 * 3) % 16; };
    palette.translation = {"-expand", "rgb"};
    Kind& deep = add("16 bits", 3);
    deep.made.type = "UInt16";
    deep.made.value = [](int band, int x, int y) { return std::round(900 + 37 * detail(band, x, y)); };
    deep.appearance.stretch = {1000, 9800};
    deep.translation = {"-ot", "Byte", "-scale", "1000", "9800", "0", "255"};
    Kind& infrared = add("infrared", 4);
    infrared.made.options = {"ALPHA=NO", "INTERLEAVE=BAND"};
    infrared.made.colours = {"Red", "Green", "Blue", "Undefined"};
    infrared.appearance.bands = {4, 3, 2};
    infrared.translation = {"-b", "4", "-b", "3", "-b", "2", "-colorinterp", "red,green,blue"};
    Kind& jpeg = add("jpeg", 3);
    jpeg.made.options = {"TILED=YES",     "BLOCKXSIZE=128",  "BLOCKYSIZE=128",
                         "COMPRESS=JPEG", "JPEG_QUALITY=92", "PHOTOMETRIC=YCBCR"};
    jpeg.made.overviews = {2, 4};
    // Colours change slowly, as in photographs: the format keeps a quarter of them.
    jpeg.made.value = [](int band, int x, int y) {
        return 0.9 * detail(0, x, y) + 12 + 15 * std::sin(2 * M_PI * (x / 170.0 + band * 0.3));
    };
    add("jpeg 2000", 3).made.driver = "JP2OpenJPEG";
    // Overviews, as the program that writes them makes them, and those of wavelets.
    for (const std::size_t like : {all.size() - 2, all.size() - 1}) {
        Kind coarse = all[like];
        coarse.name = coarse.made.driver == "GTiff" ? "jpeg, coarse" : "jpeg 2000, coarse";
        // The library offers those of wavelets only where sizes can be halved.
        const int odd = coarse.made.driver == "GTiff" ? 5 : 0;
        coarse.made.width = 640 + odd;
        coarse.made.height = 512 + odd;
        coarse.waves = 3;
        coarse.factors = {2.2, 2.6, 3.0};
        coarse.made.value = [](int, int x, int y) { return detail(0, x / 3.0, y / 3.0); };
        all.push_back(coarse);
    }
    add("mbtiles", 3).made.driver = "MBTiles";
    add("folder", 3).made.options = {"TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=64"};
    return all;
}

bool isThere(const Kind& kind) {
    GDALAllRegister();
    return GDALGetDriverByName(kind.made.driver.c_str()) != nullptr;
}

struct Files {
    std::string ours;   ///< what Dataset opens
    std::string theirs; ///< red, green, blue and perhaps alpha, for GDAL
};

void closed(GDALDatasetH dataset, const std::string& path) {
    if (!dataset)
        throw std::runtime_error{path + ": " + CPLGetLastErrorMsg()};
    GDALClose(dataset);
}

Files makeFiles(const Kind& kind, const Region& region, const QDir& folder) {
    const QString name = QStringLiteral("%1 %2").arg(kind.name, region.name);
    Files files{folder
                    .filePath(name + (kind.made.driver == "GTiff"     ? ".tif"
                                      : kind.made.driver == "MBTiles" ? ".mbtiles"
                                                                      : ".jp2"))
                    .toStdString(),
                {}};
    files.theirs = files.ours;
    const std::string virtualFile = folder.filePath(name + ".vrt").toStdString();

    test::MadeRaster made = kind.made;
    made.crs = region.crs;
    const geodesy::PlanePoint middle = inCrs(region.crs, region.middle);
    const double degree = M_PI / 180 * GeographicLib::Constants::WGS84_a();
    const double shrink = std::cos(region.middle.lat * M_PI / 180);
    double pixelX = 0.5;
    double pixelY = 0.5;
    if (made.crs == "EPSG:4326") {
        pixelX /= degree * shrink;
        pixelY /= degree;
    } else if (made.crs == "EPSG:3857") {
        pixelX /= shrink;
        pixelY /= shrink;
    }
    made.geotransform = {middle.x - pixelX * made.width / 2,  pixelX, 0,
                         middle.y + pixelY * made.height / 2, 0,      -pixelY};
    if (std::string{kind.name} == "folder") {
        // Four files that join near the middle.
        files.ours = folder.filePath(name).toStdString();
        files.theirs = virtualFile;
        folder.mkpath(name);
        std::vector<std::string> paths;
        std::vector<const char*> names;
        for (const auto& [left, top, right, bottom] : {std::array{0, 0, 250, 200},
                                                       {250, 0, kMadeWidth, 200},
                                                       {0, 200, 250, kMadeHeight},
                                                       {250, 200, kMadeWidth, kMadeHeight}}) {
            test::MadeRaster piece = made;
            piece.width = right - left;
            piece.height = bottom - top;
            piece.geotransform[0] += left * pixelX;
            piece.geotransform[3] -= top * pixelY;
            piece.value = [=](int band, int x, int y) { return detail(band, left + x, top + y); };
            paths.push_back(files.ours + QStringLiteral("/%1.tif").arg(paths.size()).toStdString());
            test::make(piece, paths.back());
        }
        for (const std::string& path : paths)
            names.push_back(path.c_str());
        closed(
            GDALBuildVRT(virtualFile.c_str(), static_cast<int>(names.size()), nullptr, names.data(), nullptr, nullptr),
            virtualFile);
        return files;
    }
    test::make(made, files.ours);
    if (!kind.translation.empty()) {
        files.theirs = virtualFile;
        std::vector<char*> words;
        for (const char* word : kind.translation)
            words.push_back(const_cast<char*>(word));
        words.insert(words.begin(), {const_cast<char*>("-of"), const_cast<char*>("VRT")});
        words.push_back(nullptr);
        GDALTranslateOptions* options = GDALTranslateOptionsNew(words.data(), nullptr);
        GDALDatasetH source = GDALOpen(files.ours.c_str(), GA_ReadOnly);
        closed(GDALTranslate(virtualFile.c_str(), source, options, nullptr), virtualFile);
        GDALClose(source);
        GDALTranslateOptionsFree(options);
    }
    return files;
}

} // namespace

class WarpTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

private slots:
    void warped_isWhatGdalWarps_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<double>("metresPerPixel");
        for (const auto& [name, size] : {std::pair{"naip_m_3607824_se_17_1_20160620_sub.tif", 1.0},
                                         {"linz_aerial.tif", 2.0},
                                         {"usgs_hro_colorado_alpha.tif", 0.15},
                                         {"rasterio_RGB.byte.tif", 300.0},
                                         {"rasterio_alpha.tif", 3.1}})
            // Finer than the raster, as fine, and coarser.
            for (const double factor : {0.4, 1.0, 1.2, 1.6})
                QTest::addRow("%s at %g times its pixel", name, factor) << name << size * factor;
        QTest::newRow("world map in a frame, 2 km a pixel") << "world_l1.mbtiles" << 2000.0;
        QTest::newRow("world map in a frame, 20 km a pixel") << "world_l1.mbtiles" << 20'000.0;
    }
    void warped_isWhatGdalWarps() {
        QFETCH(QString, name);
        QFETCH(double, metresPerPixel);
        const std::string path = imagery(name.toStdString());
        const Dataset dataset{path};
        const auto middle = dataset.toEarth({middleOfWhatIsThere(dataset)});
        // The frame is not centred on the raster, as it is not on a map.
        const model::Position origin{middle[0]->lon + 0.02, middle[0]->lat - 0.01};
        const geodesy::MapPlane frame{{{}, origin}};
        const auto centre = frame.toPlane(*middle[0]);
        const double half = metresPerPixel * kSize / 2;
        const FrameWindow window{centre.x - half, centre.y - half, centre.x + half, centre.y + half};
        const RgbaImage ours = raster::warped(dataset, frame, window, kSize, kSize);
        const auto theirs = warpedByGdal(path, gridOf({{}, origin}, window, kSize, kSize));
        QCOMPARE(theirs.size(), ours.pixels.size());
        const Difference found = difference(ours.pixels, theirs, kSize, kSize);
        QVERIFY2(found.isCompared, qPrintable(QString::number(found.count)));
        qInfo("mean difference %.3f levels over %d values, %d pixels opaque in one only", found.mean, found.count,
              found.opaqueInOneOnly);
        QCOMPARE_LE(found.mean, 2.0);
        // Along the raster's border and the border of what has no data the two may round differently.
        QCOMPARE_LE(found.opaqueInOneOnly, kSize * kSize / 50);
    }

    void everyKind_isDrawnAsGdalWarpsIt_data() {
        QTest::addColumn<int>("kindIndex");
        QTest::addColumn<int>("regionIndex");
        int seen = 0;
        for (const Kind& kind : kinds()) {
            const int kindIndex = seen++;
            if (!isThere(kind))
                continue;
            for (std::size_t region = 0; region < kRegions.size(); ++region)
                // MBTiles are in Web Mercator and nothing else.
                if (kind.made.driver != "MBTiles" || std::string{kRegions[region].crs} == "EPSG:3857")
                    QTest::addRow("%s, %s", kind.name, kRegions[region].name) << kindIndex << static_cast<int>(region);
        }
    }
    void everyKind_isDrawnAsGdalWarpsIt() {
        QFETCH(int, kindIndex);
        QFETCH(int, regionIndex);
        const Kind kind = kinds()[static_cast<std::size_t>(kindIndex)];
        const Region& region = kRegions[static_cast<std::size_t>(regionIndex)];
        const Files files = makeFiles(kind, region, QDir{m_folder.path()});
        const Dataset dataset{
            files.ours,
            {.appearance = kind.appearance, .blocks = std::make_shared<raster::BlockCache>(std::size_t{64} << 20)}};
        const bool isPalette = !kind.made.palette.empty();

        constexpr int width = 176;
        constexpr int height = 144;
        const model::Position origin{region.middle.lon + 0.02, region.middle.lat - 0.01};
        // Drawn in the local frame, in a projected CRS, and in one of the two turned.
        const std::array<geodesy::MapPlane::Definition, 3> definitions{
            {{{}, origin},
             {region.planeCrs, origin},
             {(kindIndex + regionIndex) % 2 ? region.planeCrs : "", origin, 37.0 + 60 * regionIndex}}};
        for (std::size_t index = 0; index < definitions.size(); ++index) {
            const double factor = kind.factors[(index + static_cast<std::size_t>(regionIndex)) % kind.factors.size()];
            const geodesy::MapPlane plane{definitions[index]};
            const double pixel = factor * dataset.description().pixelSize->inMetres();
            const auto centre = plane.toPlane(region.middle);
            const FrameWindow window{centre.x - width / 2 * pixel, centre.y - height / 2 * pixel,
                                     centre.x + width / 2 * pixel, centre.y + height / 2 * pixel};
            Grid grid = gridOf(definitions[index], window, width, height);
            if (definitions[index].upAzimuthDegrees != 0)
                grid.scale = std::min(1.0, 1 / factor);
            const auto theirs = warpedByGdal(files.theirs, grid);
            QVERIFY(!theirs.empty());

            const RgbaImage image = raster::warped(dataset, plane, window, width, height);
            const Difference plain = difference(image.pixels, theirs, width, height);
            // Also where it is half transparent.
            const auto ourPaint = bytesOf(raster::warpedForPainting(dataset, plane, window, width, height));
            QCOMPARE(ourPaint.size(), theirs.size());
            const Difference paint = difference(ourPaint, painted(theirs), width, height, 1);
            qInfo("%s plane, %g pixels in one: mean difference %.3f, for painting %.3f, to the next pixel %.1f; %d "
                  "pixels opaque in one only",
                  index == 0   ? "local"
                  : index == 1 ? "CRS"
                               : "turned",
                  factor, plain.mean, paint.mean, plain.ofNeighbour, plain.opaqueInOneOnly);
            QVERIFY(plain.isCompared && paint.isCompared);
            QCOMPARE_LE(plain.mean, 2.0);
            QCOMPARE_LE(paint.mean, 2.0);
            QCOMPARE_LE(plain.opaqueInOneOnly, width * height / 50);
            // Else a picture half a pixel aside would pass.
            QCOMPARE_GE(plain.ofNeighbour * 0.5 / std::min(factor, 1.0), 3.0);

            if (isPalette) {
                // Above, bilinear between the colours that the values stand for. In the midst of a class, the colour of
                // the nearest pixel and no other.
                const auto nearest = warpedByGdal(files.theirs, grid, GRA_NearestNeighbour);
                int inClass = 0;
                for (int y = 4; y < height - 4; ++y)
                    for (int x = 4; x < width - 4; ++x) {
                        const auto colour = [&](const std::vector<std::uint8_t>& pixels, int column, int row) {
                            const std::uint8_t* at = &pixels[static_cast<std::size_t>((row * width + column) * 4)];
                            return std::array{at[0], at[1], at[2], at[3]};
                        };
                        bool midst = true;
                        const int reach = factor < 1 ? 4 : 2;
                        for (int dy = -reach; dy <= reach; ++dy)
                            for (int dx = -reach; dx <= reach; ++dx)
                                midst = midst && colour(nearest, x + dx, y + dy) == colour(nearest, x, y);
                        if (!midst)
                            continue;
                        ++inClass;
                        QCOMPARE(colour(image.pixels, x, y), colour(nearest, x, y));
                    }
                qInfo("%d pixels in the midst of a class are as the nearest", inClass);
                QCOMPARE_GE(inClass, width * height / 50);
            }
        }

        // What is painted without a warp: a tile of each resolution, as GDAL fills the same ground.
        const auto& g = dataset.description().geotransform;
        QVERIFY(kind.waves == 1 || dataset.levels().size() >= 3);
        for (std::size_t level = 0; level < dataset.levels().size(); ++level) {
            const raster::PyramidLevel& of = dataset.levels()[level];
            if (level > 0 && kind.waves == 1)
                continue;
            // The one over the raster's middle.
            const int column = of.width / 2 / dataset.tilePixels();
            const int row = of.height / 2 / dataset.tilePixels();
            const raster::PaintedPixels tile = dataset.tile(level, column, row);
            const double left = (column * dataset.tilePixels() + of.offsetX) * of.scaleX;
            const double top = (row * dataset.tilePixels() + of.offsetY) * of.scaleY;
            const Grid grid{{},
                            {g[0] + g[1] * left + g[2] * top, g[1] * of.scaleX, g[2] * of.scaleY,
                             g[3] + g[4] * left + g[5] * top, g[4] * of.scaleX, g[5] * of.scaleY},
                            tile.width,
                            tile.height};
            const Difference found =
                difference(bytesOf(tile), painted(warpedByGdal(files.theirs, grid)), tile.width, tile.height, 1);
            qInfo("tile of %d x %d, level %d: mean difference %.3f", tile.width, tile.height, static_cast<int>(level),
                  found.mean);
            QVERIFY(found.isCompared);
            QCOMPARE_LE(found.mean, level == 0 ? 0.01 : 2.0); // the same pixels; another filter
        }
    }
    void enoughKinds_areCompared() {
        const auto all = kinds();
        QCOMPARE_GE(std::count_if(all.begin(), all.end(), isThere), 6);
    }

    void panning_decodesEachBlockOnce_data() {
        QTest::addColumn<QString>("options");
        QTest::addColumn<QString>("planeCrs");
        QTest::addColumn<double>("turn");
        for (const char* options : {"TILED=YES", "TILED=NO BLOCKYSIZE=32"})
            for (const auto& [crs, turn] : {std::pair{"", 0.0}, {"EPSG:32633", 0.0}, {"EPSG:32633", 30.0}})
                QTest::addRow("%s, %s, turned by %g", options, *crs ? crs : "local frame", turn)
                    << options << crs << turn;
    }
    void panning_decodesEachBlockOnce() {
        QFETCH(QString, options);
        QFETCH(QString, planeCrs);
        QFETCH(double, turn);
        test::MadeRaster made;
        made.width = 2560;
        made.height = 2048;
        made.crs = "EPSG:32633";
        made.geotransform = {500'000, 1, 0, 5'550'000, 0, -1};
        for (const QString& option : options.split(' '))
            made.options.push_back(option.toStdString());
        made.value = [](int band, int x, int y) { return (x + y + band * 60) % 256; };
        const std::string path = m_folder.filePath("panned.tif").toStdString();
        test::make(made, path);
        const auto blocks = std::make_shared<raster::BlockCache>(std::size_t{128} << 20);
        const Dataset dataset{path, {.blocks = blocks}};
        const auto middle = *dataset.toEarth({{1280, 1024}})[0];
        const geodesy::MapPlane plane{{planeCrs.toStdString(), middle, turn}};

        constexpr int width = 400;
        constexpr int height = 300;
        std::vector<geodesy::PlanePoint> centres; // a hundred pixels a step, there and back, over all of the raster
        const double reachX = 1280 + (turn == 0.0 ? 0 : 700);
        const double reachY = 1024 + (turn == 0.0 ? 0 : 700);
        for (int line = 0; - reachY + line * 250.0 <= reachY + 125; ++line) {
            std::vector<geodesy::PlanePoint> row;
            for (double x = -reachX; x <= reachX; x += 100)
                row.push_back({line % 2 ? -x : x, -reachY + line * 250.0});
            centres.insert(centres.end(), row.begin(), row.end());
        }
        const auto draw = [&](geodesy::PlanePoint at) {
            return raster::warpedForPainting(dataset, plane,
                                             {at.x - width / 2, at.y - height / 2, at.x + width / 2, at.y + height / 2},
                                             width, height);
        };
        int drawn = 0;
        for (const auto& at : centres)
            drawn += draw(at).words ? 1 : 0;
        const auto there = blocks->counts();
        const double perPixel = static_cast<double>(there.pixels) / (made.width * made.height);
        qInfo("%d pictures, %.3f pixels decoded for each of the raster, %d reads", drawn, perPixel,
              static_cast<int>(there.reads));
        QCOMPARE_GE(perPixel, 1.0); // all was seen
        QCOMPARE_LE(perPixel, 1.15);
        for (auto at = centres.rbegin(); at != centres.rend(); ++at)
            (void)draw(*at);
        QCOMPARE(blocks->counts().reads, there.reads);
        QCOMPARE(blocks->counts().pixels, there.pixels);
    }
    void warped_placesPixelsWithinAnEighth_data() {
        QTest::addColumn<QString>("crs");
        QTest::addColumn<QString>("planeCrs");
        QTest::addColumn<double>("turn");
        QTest::addColumn<double>("latitude");
        QTest::addColumn<double>("metresPerPixel");
        const auto add = [](const char* crs, const char* planeCrs, double turn, double latitude,
                            double metresPerPixel) {
            QTest::addRow("%s in %s turned by %g, latitude %g, %g m a pixel", crs, *planeCrs ? planeCrs : "local frame",
                          turn, latitude, metresPerPixel)
                << crs << planeCrs << turn << latitude << metresPerPixel;
        };
        for (const char* crs : {"EPSG:4326", "EPSG:3857", "EPSG:32633"})
            for (const double latitude : {0.0, 45.0, 70.0})
                for (const double metresPerPixel : {0.05, 0.5, 5.0, 50.0, 500.0}) {
                    add(crs, "", 0, latitude, metresPerPixel);
                    if (metresPerPixel == 0.5 || metresPerPixel == 50)
                        continue;
                    add(crs, "", 217, latitude, metresPerPixel);
                    add(crs, "EPSG:32633", 0, latitude, metresPerPixel);
                    add(crs, "EPSG:32633", 37, latitude, metresPerPixel);
                }
    }
    void warped_placesPixelsWithinAnEighth() {
        QFETCH(QString, crs);
        QFETCH(QString, planeCrs);
        QFETCH(double, turn);
        QFETCH(double, latitude);
        QFETCH(double, metresPerPixel);
        // The raster's middle lies at this longitude, 3 degrees off the meridian of zone 33; the frame's origin 20 km
        // away.
        const double longitude = 18;
        const double a = GeographicLib::Constants::WGS84_a();
        const double degree = M_PI * a / 180;
        const double stretch = std::cos(latitude * M_PI / 180);
        const GeographicLib::TransverseMercator zone{a, GeographicLib::Constants::WGS84_f(), 0.9996};

        // Pixels about as large on the ground as the picture's, in the units of the CRS.
        test::MadeRaster made;
        made.width = made.height = 400;
        made.crs = crs.toStdString();
        double pixelX = metresPerPixel;
        double pixelY = metresPerPixel;
        double middleX = longitude;
        double middleY = latitude;
        if (crs == "EPSG:4326") {
            pixelX /= degree * stretch;
            pixelY /= degree;
        } else if (crs == "EPSG:3857") {
            pixelX /= stretch;
            pixelY /= stretch;
            middleX = degree * longitude;
            middleY = a * std::asinh(std::tan(latitude * M_PI / 180));
        } else {
            zone.Forward(15, latitude, longitude, middleX, middleY);
            middleX += 500'000;
        }
        made.geotransform = {middleX - 200 * pixelX, pixelX, 0, middleY + 200 * pixelY, 0, -pixelY};
        made.value = [](int band, int x, int y) { return band == 0 ? wave(x + 0.5) : band == 1 ? wave(y + 0.5) : 0; };
        const std::string path = m_folder.filePath("wave.tif").toStdString();
        test::make(made, path);

        // The independent way: GeographicLib from the plane to the earth, closed formulas or GeographicLib from there.
        // A local frame is a transverse Mercator projection too, about its origin's meridian and true there.
        const bool isFrame = planeCrs.isEmpty();
        const double originLon = longitude + 20'000 / (degree * stretch);
        const double meridian = isFrame ? originLon : 15;
        const GeographicLib::TransverseMercator plane{a, GeographicLib::Constants::WGS84_f(), isFrame ? 1.0 : 0.9996};
        double originX;
        double originY;
        plane.Forward(meridian, latitude, originLon, originX, originY);
        double middleEast;
        double middleNorth;
        plane.Forward(meridian, latitude, longitude, middleEast, middleNorth);
        middleEast -= originX;
        middleNorth -= originY;
        // Up is the direction of the azimuth `turn`, right a quarter further.
        const double upEast = std::sin(turn * M_PI / 180);
        const double upNorth = std::cos(turn * M_PI / 180);
        const double centreX = middleEast * upNorth - middleNorth * upEast;
        const double centreY = middleEast * upEast + middleNorth * upNorth;
        const double half = metresPerPixel * kSize / 2;
        const FrameWindow window{centreX - half, centreY - half, centreX + half, centreY + half};
        const RgbaImage image =
            raster::warped(Dataset{path}, geodesy::MapPlane{{planeCrs.toStdString(), {originLon, latitude}, turn}},
                           window, kSize, kSize);

        double worst = 0;
        int count = 0;
        for (int y = 0; y < kSize; ++y)
            for (int x = 0; x < kSize; ++x) {
                const double planeX = window.minX + (x + 0.5) * metresPerPixel;
                const double planeY = window.maxY - (y + 0.5) * metresPerPixel;
                double lat;
                double lon;
                plane.Reverse(meridian, originX + planeX * upNorth + planeY * upEast,
                              originY - planeX * upEast + planeY * upNorth, lat, lon);
                double crsX = lon;
                double crsY = lat;
                if (crs == "EPSG:3857") {
                    crsX = degree * lon;
                    crsY = a * std::asinh(std::tan(lat * M_PI / 180));
                } else if (crs != "EPSG:4326") {
                    zone.Forward(15, lat, lon, crsX, crsY);
                    crsX += 500'000;
                }
                const double column = (crsX - made.geotransform[0]) / pixelX;
                const double row = (made.geotransform[3] - crsY) / pixelY;
                if (column < 2 || row < 2 || column > 398 || row > 398)
                    continue;
                const auto at = static_cast<std::size_t>((y * kSize + x) * 4);
                QCOMPARE(int{image.pixels[at + 3]}, 255);
                // Pixels of the picture and of the raster are about equal here, so the one measures the other.
                for (const auto& [position, value] :
                     {std::pair{column, int{image.pixels[at]}}, {row, int{image.pixels[at + 1]}}})
                    if (onFlank(position, 1.5)) {
                        worst = std::max(worst, std::abs(value - wave(position)) / 30);
                        ++count;
                    }
            }
        QVERIFY(count > kSize * kSize / 4);
        qInfo("at most %.3f of a pixel from where it belongs", worst);
        // A rounding of one level, and weights of 256ths of a pixel, come on top of an eighth.
        QVERIFY2(worst <= 0.125 + 1.0 / 30 + 1.0 / 256, qPrintable(QString::number(worst)));
        if (metresPerPixel <= 5)
            QVERIFY2(worst <= 0.06, qPrintable(QString::number(worst)));
    }

    void warped_acrossTheAntimeridianIsInOnePiece() {
        test::MadeRaster made;
        made.width = 720;
        made.height = 360;
        made.crs = "EPSG:4326";
        made.geotransform = {-180, 0.5, 0, 90, 0, -0.5};
        // Red rises from 0 at 180 on both sides: a smooth picture there.
        made.value = [](int band, int x, int) { return band == 0 ? std::min(x + 0.5, 719.5 - x) : 50; };
        const std::string path = m_folder.filePath("world.tif").toStdString();
        test::make(made, path);
        const double a = GeographicLib::Constants::WGS84_a();
        const geodesy::MapPlane frame{{{}, {179.9, 10}}};
        const double half = 20 * M_PI * a / 180;
        const RgbaImage image = raster::warped(Dataset{path}, frame, {-half, -half, half, half}, kSize, kSize);
        const GeographicLib::TransverseMercator plane{a, GeographicLib::Constants::WGS84_f(), 1.0};
        double originX;
        double originY;
        plane.Forward(179.9, 10, 179.9, originX, originY);
        int seen = 0;
        for (int y = 0; y < kSize; ++y)
            for (int x = 0; x < kSize; ++x) {
                double lat;
                double lon;
                plane.Reverse(179.9, -half + (x + 0.5) * 2 * half / kSize,
                              originY + half - (y + 0.5) * 2 * half / kSize, lat, lon);
                const double column = (lon + 180) / 0.5;
                const auto at = static_cast<std::size_t>((y * kSize + x) * 4);
                QCOMPARE(int{image.pixels[at + 3]}, 255);
                QCOMPARE_LE(std::abs(image.pixels[at] - std::clamp(std::min(column, 720 - column), 0.0, 255.0)), 1.5);
                ++seen;
            }
        QCOMPARE(seen, kSize * kSize);
    }

    void warped_turnsARotatedRaster() {
        // One bright pixel of a raster turned by 30 degrees is found where the geotransform says.
        test::MadeRaster made;
        made.width = made.height = 60;
        made.bands = 1;
        made.crs = "EPSG:32633";
        const double cosine = std::cos(M_PI / 6);
        made.geotransform = {500'000, cosine, 0.5, 5'000'000, 0.5, -cosine};
        made.value = [](int, int x, int y) { return x == 40 && y == 20 ? 255 : 10; };
        const std::string path = m_folder.filePath("turned.tif").toStdString();
        test::make(made, path);
        // On the zone's meridian, where the scale is 0.9996 and north is north: the frame's metres are the grid's /
        // 0.9996.
        const GeographicLib::TransverseMercator zone{GeographicLib::Constants::WGS84_a(),
                                                     GeographicLib::Constants::WGS84_f(), 0.9996};
        double lat;
        double lon;
        const double x = 40.5 * cosine + 20.5 * 0.5;
        const double y = 5'000'000 + 40.5 * 0.5 - 20.5 * cosine;
        zone.Reverse(15, x, y, lat, lon);
        const geodesy::MapPlane frame{{{}, {lon, lat}}};
        const RgbaImage image = raster::warped(Dataset{path}, frame, {-8, -8, 8, 8}, kSize, kSize);
        double sumX = 0;
        double sumY = 0;
        double weights = 0;
        for (int row = 0; row < kSize; ++row)
            for (int column = 0; column < kSize; ++column) {
                const double weight =
                    std::max(0, int{image.pixels[static_cast<std::size_t>((row * kSize + column) * 4)]} - 10);
                sumX += weight * (column + 0.5);
                sumY += weight * (row + 0.5);
                weights += weight;
            }
        QVERIFY(weights > 0);
        QCOMPARE_LE(std::abs(sumX / weights - kSize / 2.0), 0.25); // 1/64 of the raster's pixel
        QCOMPARE_LE(std::abs(sumY / weights - kSize / 2.0), 0.25);
    }
};

QTEST_GUILESS_MAIN(WarpTest)
#include "warp_test.moc"
