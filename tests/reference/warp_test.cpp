#include "raster/warp.h"

#include "support/made_raster.h"

#include <GeographicLib/Constants.hpp>
#include <GeographicLib/TransverseMercator.hpp>

#include <cpl_conv.h>
#include <cpl_string.h>
#include <gdal_alg.h>
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

// The same window by GDAL's warper: red, green, blue and alpha, bilinear, every pixel placed exactly.
std::vector<std::uint8_t> warpedByGdal(const std::string& path, model::Position origin, const FrameWindow& window) {
    GDALAllRegister();
    GDALDatasetH source = GDALOpen(path.c_str(), GA_ReadOnly);
    GDALDatasetH target = GDALCreate(GDALGetDriverByName("MEM"), "", kSize, kSize, 4, GDT_Byte, nullptr);
    double geotransform[] = {window.minX, (window.maxX - window.minX) / kSize, 0, window.maxY,
                             0,           -(window.maxY - window.minY) / kSize};
    GDALSetGeoTransform(target, geotransform);
    OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
    OSRSetFromUserInput(crs, framesCrs(origin).c_str());
    GDALSetSpatialRef(target, crs);
    OSRDestroySpatialReference(crs);

    GDALWarpOptions* options = GDALCreateWarpOptions();
    options->hSrcDS = source;
    options->hDstDS = target;
    options->eResampleAlg = GRA_Bilinear;
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
    options->pTransformerArg = GDALCreateGenImgProjTransformer2(source, target, nullptr);
    options->pfnTransformer = GDALGenImgProjTransform;
    GDALWarpOperationH operation = GDALCreateWarpOperation(options);
    const CPLErr result = GDALChunkAndWarpImage(operation, 0, 0, kSize, kSize);
    std::vector<std::uint8_t> pixels(kSize * kSize * 4);
    if (result != CE_None || GDALDatasetRasterIO(target, GF_Read, 0, 0, kSize, kSize, pixels.data(), kSize, kSize,
                                                 GDT_Byte, 4, nullptr, 4, 4 * kSize, 1) != CE_None)
        pixels.clear();
    GDALDestroyWarpOperation(operation);
    GDALDestroyGenImgProjTransformer(options->pTransformerArg);
    GDALDestroyWarpOptions(options);
    GDALClose(target);
    GDALClose(source);
    return pixels;
}

bool opaqueAround(const std::vector<std::uint8_t>& pixels, int x, int y) {
    for (int dy = -2; dy <= 2; ++dy)
        for (int dx = -2; dx <= 2; ++dx)
            if (x + dx < 0 || y + dy < 0 || x + dx >= kSize || y + dy >= kSize ||
                pixels[static_cast<std::size_t>(((y + dy) * kSize + x + dx) * 4 + 3)] != 255)
                return false;
    return true;
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
        const auto theirs = warpedByGdal(path, origin, window);
        QCOMPARE(theirs.size(), ours.pixels.size());
        double sum = 0;
        int count = 0;
        int opaqueInOneOnly = 0;
        for (int y = 0; y < kSize; ++y)
            for (int x = 0; x < kSize; ++x) {
                const auto at = static_cast<std::size_t>((y * kSize + x) * 4);
                opaqueInOneOnly += (ours.pixels[at + 3] > 127) != (theirs[at + 3] > 127) ? 1 : 0;
                if (!opaqueAround(ours.pixels, x, y) || !opaqueAround(theirs, x, y))
                    continue;
                for (std::size_t band = 0; band < 3; ++band, ++count)
                    sum += std::abs(int{ours.pixels[at + band]} - int{theirs[at + band]});
            }
        QVERIFY2(count > 3 * kSize * kSize / 16, qPrintable(QString::number(count)));
        qInfo("mean difference %.3f levels over %d values, %d pixels opaque in one only", sum / count, count,
              opaqueInOneOnly);
        QCOMPARE_LE(sum / count, 2.0);
        // Along the raster's border and the border of what has no data the two may round differently.
        QCOMPARE_LE(opaqueInOneOnly, kSize * kSize / 50);
    }

    void warped_placesPixelsWithinAnEighth_data() {
        QTest::addColumn<QString>("crs");
        QTest::addColumn<double>("latitude");
        QTest::addColumn<double>("metresPerPixel");
        for (const char* crs : {"EPSG:4326", "EPSG:3857", "EPSG:32633"})
            for (const double latitude : {0.0, 45.0, 70.0})
                for (const double metresPerPixel : {0.05, 0.5, 5.0, 50.0, 500.0})
                    QTest::addRow("%s, latitude %g, %g m a pixel", crs, latitude, metresPerPixel)
                        << crs << latitude << metresPerPixel;
    }
    void warped_placesPixelsWithinAnEighth() {
        QFETCH(QString, crs);
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

        // The independent way: GeographicLib from the frame to the earth, closed formulas or GeographicLib from there.
        const double frameLon = longitude + 20'000 / (degree * stretch);
        const GeographicLib::TransverseMercator plane{a, GeographicLib::Constants::WGS84_f(), 1.0};
        double originX;
        double originY;
        plane.Forward(frameLon, latitude, frameLon, originX, originY);
        double centreX;
        double centreY;
        plane.Forward(frameLon, latitude, longitude, centreX, centreY);
        centreY -= originY;
        const double half = metresPerPixel * kSize / 2;
        const FrameWindow window{centreX - half, centreY - half, centreX + half, centreY + half};
        const RgbaImage image =
            raster::warped(Dataset{path}, geodesy::MapPlane{{{}, {frameLon, latitude}}}, window, kSize, kSize);

        double worst = 0;
        int count = 0;
        for (int y = 0; y < kSize; ++y)
            for (int x = 0; x < kSize; ++x) {
                const double frameX = window.minX + (x + 0.5) * metresPerPixel;
                const double frameY = window.maxY - (y + 0.5) * metresPerPixel;
                double lat;
                double lon;
                plane.Reverse(frameLon, frameX, frameY + originY, lat, lon);
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
