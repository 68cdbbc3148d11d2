#include "raster/dataset.h"

#include "fault.h"
#include "geodesy/crs_transform.h"
#include "geodesy/geodesic.h"
#include "support/made_raster.h"

#include <gdal.h>
#include <gdal_alg.h>
#include <gdal_utils.h>

#include <QtTest>

#include <filesystem>
#include <thread>

using namespace fencewright;
using raster::Dataset;
using raster::RgbaImage;

namespace {

std::string imagery(const std::string& name) {
    return QStringLiteral(FENCEWRIGHT_TEST_DATA "/imagery/%1").arg(QString::fromStdString(name)).toStdString();
}

RgbaImage wholeOf(const Dataset& dataset) {
    const auto& description = dataset.description();
    return dataset.read({0, 0, static_cast<double>(description.width), static_cast<double>(description.height)},
                        description.width, description.height);
}

// The checksum as gdalinfo -checksum computes it.
int checksum(const RgbaImage& image, int channel) {
    GDALAllRegister();
    GDALDatasetH memory = GDALCreate(GDALGetDriverByName("MEM"), "", image.width, image.height, 1, GDT_Byte, nullptr);
    GDALRasterBandH band = GDALGetRasterBand(memory, 1);
    auto* const first = const_cast<std::uint8_t*>(image.pixels.data()) + channel;
    const CPLErr written = GDALRasterIO(band, GF_Write, 0, 0, image.width, image.height, first, image.width,
                                        image.height, GDT_Byte, 4, 4 * image.width);
    const int sum = written == CE_None ? GDALChecksumImage(band, 0, 0, image.width, image.height) : -1;
    GDALClose(memory);
    return sum;
}

std::array<int, 4> at(const RgbaImage& image, int x, int y) {
    const std::size_t index =
        (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) + static_cast<std::size_t>(x)) * 4;
    return {image.pixels[index], image.pixels[index + 1], image.pixels[index + 2], image.pixels[index + 3]};
}

} // namespace

class DatasetTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    std::string file(const char* name) const { return m_folder.filePath(name).toStdString(); }

private slots:
    void dataset_readsWhatGdalinfoSays_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QString>("format");
        QTest::addColumn<int>("width");
        QTest::addColumn<int>("height");
        QTest::addColumn<int>("bands");
        QTest::addColumn<QString>("crs");
        QTest::addColumn<QList<int>>("checksums"); // of red, green, blue and alpha as shown; -1: not a copy of a band
        // gdalinfo -checksum of GDAL 3.6.2.
        QTest::newRow("NAIP: the fourth band is infrared")
            << "naip_m_3607824_se_17_1_20160620_sub.tif"
            << "GeoTIFF" << 300 << 300 << 4 << "NAD83 / UTM zone 17N" << QList<int>{32555, 5766, 25111, -1};
        QTest::newRow("LINZ: alpha") << "linz_aerial.tif"
                                     << "GeoTIFF" << 426 << 417 << 4
                                     << "NZGD2000 / New Zealand Transverse Mercator 2000"
                                     << QList<int>{46320, 39442, 9685, 17440};
        QTest::newRow("USGS: alpha") << "usgs_hro_colorado_alpha.tif"
                                     << "GeoTIFF" << 383 << 232 << 4 << "NAD83 / UTM zone 13N"
                                     << QList<int>{6109, 56377, 62808, 49765};
        QTest::newRow("Landsat: no-data")
            << "rasterio_RGB.byte.tif"
            << "GeoTIFF" << 791 << 718 << 3 << "WGS 84 / UTM zone 18N" << QList<int>{25420, 29131, 37860, -1};
        QTest::newRow("JPEG in TIFF, alpha")
            << "rasterio_alpha.tif"
            << "GeoTIFF" << 1223 << 1223 << 4 << "WGS 84 / Pseudo-Mercator" << QList<int>{52786, 45726, 41225, 19081};
        QTest::newRow("grey, rotated, no CRS") << "rasterio_rotated.tif"
                                               << "GeoTIFF" << 10 << 15 << 1 << "" << QList<int>{1531, 1531, 1531, -1};
        QTest::newRow("grey, sheared") << "stars_geomatrix.tif"
                                       << "GeoTIFF" << 20 << 20 << 1 << "WGS 84 / UTM zone 11N"
                                       << QList<int>{4672, 4672, 4672, -1};
        QTest::newRow("MBTiles") << "world_l1.mbtiles"
                                 << "MBTiles" << 512 << 510 << 4 << "WGS 84 / Pseudo-Mercator"
                                 << QList<int>{58830, 3706, 29780, 58907};
    }
    void dataset_readsWhatGdalinfoSays() {
        QFETCH(QString, name);
        QFETCH(QString, format);
        QFETCH(int, width);
        QFETCH(int, height);
        QFETCH(int, bands);
        QFETCH(QString, crs);
        QFETCH(QList<int>, checksums);
        const Dataset dataset{imagery(name.toStdString())};
        QCOMPARE(QString::fromStdString(dataset.description().format), format);
        QCOMPARE(dataset.description().width, width);
        QCOMPARE(dataset.description().height, height);
        QCOMPARE(dataset.description().bands.size(), static_cast<std::size_t>(bands));
        QCOMPARE(QString::fromStdString(dataset.description().crs), crs);
        QCOMPARE(dataset.description().georeferenced, !crs.isEmpty());
        const RgbaImage image = wholeOf(dataset);
        for (int channel = 0; channel < 4; ++channel)
            if (checksums[channel] >= 0)
                QCOMPARE(checksum(image, channel), checksums[channel]);
    }

    void dataset_placesTheCornersAsGdalDoes_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<double>("lon"); // of the upper left corner
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("lowerRightLon");
        QTest::addColumn<double>("lowerRightLat");
        QTest::addColumn<double>("pixelSize"); // metres
        // cs2cs of PROJ 9.1.1 with -f %.7f, from the corners that gdalinfo prints; the pixel size by the scale factor
        // of the projection there (proj -S).
        QTest::newRow("UTM") << "naip_m_3607824_se_17_1_20160620_sub.tif" << -78.00006008 << 36.62343504 << -77.99681434
                             << 36.62064978 << 1.0 / 1.00049;
        QTest::newRow("New Zealand, the authority's order is northing first")
            << "linz_aerial.tif" << 175.18908519 << -36.79239679 << 175.19884269 << -36.79973344 << 2.0 / 1.00007;
        QTest::newRow("pixels not square")
            << "usgs_hro_colorado_alpha.tif" << -104.77532699 << 38.95376422 << -104.77466578 << 38.95344935
            << std::sqrt(0.149815529 * 0.149997896) / 0.999605;
        QTest::newRow("Web Mercator: 4 m on the map are 3.08 m on the ground")
            << "rasterio_alpha.tif" << 174.94628906 << -39.50404071 << 174.99023437 << -39.53793975
            << 3.99997531 / std::sqrt(1.29979 * 1.2946);
    }
    void dataset_placesTheCornersAsGdalDoes() {
        QFETCH(QString, name);
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, lowerRightLon);
        QFETCH(double, lowerRightLat);
        QFETCH(double, pixelSize);
        const Dataset dataset{imagery(name.toStdString())};
        const auto& description = dataset.description();
        QCOMPARE(description.corners.size(), std::size_t{4});
        QCOMPARE_LE(std::abs(description.corners[0].lon - lon), 2e-7);
        QCOMPARE_LE(std::abs(description.corners[0].lat - lat), 2e-7);
        QCOMPARE_LE(std::abs(description.corners[2].lon - lowerRightLon), 2e-7);
        QCOMPARE_LE(std::abs(description.corners[2].lat - lowerRightLat), 2e-7);
        QVERIFY(description.pixelSize.has_value());
        QCOMPARE_LE(std::abs(description.pixelSize->inMetres() / pixelSize - 1), 1e-3);
        // There and back again.
        const auto pixels = dataset.toPixels({description.corners[2]});
        QVERIFY(pixels[0].has_value());
        QCOMPARE_LE(std::hypot(pixels[0]->x - description.width, pixels[0]->y - description.height), 1e-4);
    }

    void corners_ofTheWholeWorldRunFromEdgeToEdge() {
        const Dataset dataset{imagery("world_l1.mbtiles")};
        const auto& corners = dataset.description().corners;
        QCOMPARE(corners.size(), std::size_t{4});
        QCOMPARE_LE(std::abs(corners[1].lon - corners[0].lon - 360.0), 1e-6);
        QCOMPARE_LE(std::abs(corners[3].lon - corners[0].lon), 1e-6);
    }

    void dataset_withoutCrsTakesThePersonsWord() {
        QVERIFY(!Dataset{imagery("rasterio_rotated.tif")}.description().georeferenced);
        QVERIFY(Dataset{imagery("rasterio_rotated.tif")}.description().corners.empty());
        const Dataset dataset{imagery("rasterio_rotated.tif"), {.crs = "EPSG:32618"}};
        QVERIFY(dataset.description().georeferenced);
        // The rotated geotransform, as gdalinfo prints it: 17.32.. and -8.66.. metres a pixel, turned by 30 degrees.
        const auto places = dataset.toEarth({{0, 0}, {10, 0}, {0, 15}});
        const double across = geodesy::inverse(*places[0], *places[1]).length.inMetres();
        const double down = geodesy::inverse(*places[0], *places[2]).length.inMetres();
        // proj -S: the scale of UTM here, 500 km west of its meridian, is 1.00269.
        QCOMPARE_LE(std::abs(across * 1.00269 / (10 * std::hypot(17.32050807568877, 9.999999999999998)) - 1), 1e-4);
        QCOMPARE_LE(std::abs(down * 1.00269 / (15 * std::hypot(4.999999999999999, 8.660254037844387)) - 1), 1e-4);
        const auto pixel = dataset.toPixels({*places[2]});
        QCOMPARE_LE(std::hypot(pixel[0]->x - 0, pixel[0]->y - 15), 1e-4);
    }
    void dataset_withItsOwnCrsKeepsIt() {
        const Dataset dataset{imagery("linz_aerial.tif"), {.crs = "EPSG:3857"}};
        QCOMPARE(QString::fromStdString(dataset.description().crs),
                 QStringLiteral("NZGD2000 / New Zealand Transverse Mercator 2000"));
    }
    void crsDefinition_isTheCodeWhereItIsThatOne_data() {
        QTest::addColumn<QString>("path");
        QTest::addColumn<QString>("definition"); // empty: WKT
        const auto real = [](const char* name) { return QString::fromStdString(imagery(name)); };
        // The codes: as gdalinfo of GDAL 3.6.2 prints them, and shared with whoever cut the files.
        QTest::newRow("UTM") << real("naip_m_3607824_se_17_1_20160620_sub.tif") << "EPSG:26917";
        QTest::newRow("northing first") << real("linz_aerial.tif") << "EPSG:2193";
        QTest::newRow("Web Mercator") << real("rasterio_alpha.tif") << "EPSG:3857";
        QTest::newRow("tiles in Web Mercator") << real("world_l1.mbtiles") << "EPSG:3857";
        QTest::newRow("Albers, the code found by its parameters, as gdalsrsinfo -o epsg does")
            << real("stars_lc.tif") << "EPSG:5070";
        // The same parameters as a published system, under another name and without its code; and nearly the same.
        const char* zone29 =
            "PROJCS[\"my grid\",GEOGCS[\"ETRS89\",DATUM[\"European_Terrestrial_Reference_System_1989\","
            "SPHEROID[\"GRS 1980\",6378137,298.257222101]],PRIMEM[\"Greenwich\",0],"
            "UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],"
            "PARAMETER[\"latitude_of_origin\",0],PARAMETER[\"central_meridian\",-9],"
            "PARAMETER[\"scale_factor\",0.9996],PARAMETER[\"false_easting\",%1],"
            "PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";
        for (const auto& [name, easting, definition] :
             {std::tuple{"nameless", 500000, "EPSG:25829"}, {"shifted", 500001, ""}}) {
            test::MadeRaster made;
            made.width = made.height = 8;
            made.crs = QString{zone29}.arg(easting).toStdString();
            made.geotransform = {520000, 0.5, 0, 5117000, 0, -0.5};
            made.value = [](int, int, int) { return 1; };
            const std::string path = m_folder.filePath(QString{name} + ".png").toStdString();
            made.driver = "PNG"; // keeps the text as it is, in the file beside it
            test::make(made, path);
            QTest::newRow(name) << QString::fromStdString(path) << definition;
        }
    }
    void crsDefinition_isTheCodeWhereItIsThatOne() {
        QFETCH(QString, path);
        QFETCH(QString, definition);
        const Dataset dataset{path.toStdString()};
        const std::string& own = dataset.description().crsDefinition;
        if (definition.isEmpty())
            QVERIFY2(own.find('[') != std::string::npos, own.c_str());
        else
            QCOMPARE(QString::fromStdString(own), definition);
        // It is what the raster is placed by.
        const geodesy::CrsTransform transform{own};
        const auto& g = dataset.description().geotransform;
        const auto there = transform.toWgs84(std::vector{geodesy::PlanePoint{g[0], g[3]}});
        const auto corner = dataset.toEarth({{0, 0}});
        QCOMPARE_LE(geodesy::inverse(*there[0], *corner[0]).length.inMetres(), 1e-3);
    }
    void preparedThread_saysOfAFileWhatAnotherSays() {
        for (const char* name :
             {"naip_m_3607824_se_17_1_20160620_sub.tif", "linz_aerial.tif", "rasterio_alpha.tif", "stars_lc.tif"}) {
            std::array<raster::RasterDescription, 2> said;
            for (const bool isPrepared : {false, true})
                std::thread{[&] {
                    if (isPrepared)
                        raster::prepareThread();
                    said[isPrepared ? 1 : 0] = Dataset{imagery(name)}.description();
                }}.join();
            QVERIFY(!said[0].crs.empty());
            QCOMPARE(said[1].crs, said[0].crs);
            QCOMPARE(said[1].crsDefinition, said[0].crsDefinition);
            QVERIFY(said[1].corners == said[0].corners && said[1].corners.size() == 4);
        }
    }
    void dataset_refusesAnUnknownCrs() {
        QVERIFY_EXCEPTION_THROWN((Dataset{imagery("rasterio_rotated.tif"), {.crs = "EPSG:999999"}}), Fault);
    }

    void palette_isLookedUpAsGdalExpandsIt() {
        const Dataset dataset{imagery("stars_lc.tif")};
        QCOMPARE(dataset.description().bands[0].colour, std::string{"Palette"});
        const RgbaImage image = wholeOf(dataset);
        const char* arguments[] = {"-of", "MEM", "-expand", "rgba", nullptr};
        GDALTranslateOptions* options = GDALTranslateOptionsNew(const_cast<char**>(arguments), nullptr);
        GDALDatasetH source = GDALOpen(imagery("stars_lc.tif").c_str(), GA_ReadOnly);
        GDALDatasetH expanded = GDALTranslate("", source, options, nullptr);
        GDALTranslateOptionsFree(options);
        QVERIFY(expanded);
        int noData = 0;
        for (int y = 0; y < 46; ++y)
            for (int x = 0; x < 84; ++x) {
                std::array<std::uint8_t, 4> theirs{};
                QCOMPARE(GDALDatasetRasterIO(expanded, GF_Read, x, y, 1, 1, theirs.data(), 1, 1, GDT_Byte, 4, nullptr,
                                             0, 0, 0),
                         CE_None);
                const auto ours = at(image, x, y);
                if (ours[3] == 0) {
                    ++noData;
                    continue;
                }
                QCOMPARE(ours, (std::array<int, 4>{theirs[0], theirs[1], theirs[2], theirs[3]}));
            }
        QVERIFY(noData < 84 * 46 / 2);
        GDALClose(expanded);
        GDALClose(source);
    }

    void infrared_isNotTakenForAlpha() {
        const RgbaImage image = wholeOf(Dataset{imagery("naip_m_3607824_se_17_1_20160620_sub.tif")});
        for (std::size_t index = 3; index < image.pixels.size(); index += 4)
            QCOMPARE(int{image.pixels[index]}, 255);
    }
    void noData_isTransparentOnlyWhereAllBandsSaySo() {
        // GDAL's own mask of the whole pixel: no-data where all three are 0.
        const Dataset dataset{imagery("rasterio_RGB.byte.tif")};
        QCOMPARE(*dataset.description().bands[0].noData, 0.0);
        const RgbaImage image = wholeOf(dataset);
        int transparent = 0;
        for (std::size_t index = 0; index < image.pixels.size(); index += 4) {
            const bool nothing = !image.pixels[index] && !image.pixels[index + 1] && !image.pixels[index + 2];
            QCOMPARE(image.pixels[index + 3] == 0, nothing);
            transparent += nothing ? 1 : 0;
        }
        QVERIFY(transparent > 100'000 && transparent < 791 * 718);
    }
    void wideAlpha_madeForEightBitsIsOpaque() {
        // Band 4 of this UInt16 file holds 0 and 255 (gdalinfo -stats).
        const RgbaImage image = wholeOf(Dataset{imagery("rasterio_RGBA.uint16.tif")});
        std::array<int, 256> counts{};
        for (std::size_t index = 3; index < image.pixels.size(); index += 4)
            ++counts[image.pixels[index]];
        QVERIFY(counts[255] > 100'000 && counts[0] > 100'000);
    }

    void sixteenBits_areStretchedBetweenPercentiles() {
        // Values 0 to 65535 evenly, so the 2nd percentile is 1310 and the 98th 64224: below is black, above white, and
        // the middle in the middle.
        test::MadeRaster made;
        made.width = made.height = 256;
        made.bands = 1;
        made.type = "UInt16";
        made.value = [](int, int x, int y) { return y * 256 + x; };
        test::make(made, file("even.tif"));
        const RgbaImage image = wholeOf(Dataset{file("even.tif")});
        QCOMPARE(at(image, 0, 0), (std::array<int, 4>{0, 0, 0, 255}));
        QCOMPARE(at(image, 255, 255), (std::array<int, 4>{255, 255, 255, 255}));
        QCOMPARE_LE(std::abs(at(image, 0, 128)[0] - 127.5), 1.0);
        const int quarter = at(image, 0, 64)[0];
        QCOMPARE_LE(std::abs(quarter - (16384 - 1310.7) / (64224.3 - 1310.7) * 255), 1.0);
    }

    void formats_areRead_data() {
        QTest::addColumn<QString>("driver");
        QTest::addColumn<QString>("name");
        QTest::addColumn<QStringList>("options");
        QTest::addColumn<bool>("hasCrs");
        QTest::addColumn<int>("difference"); // levels, of lossy formats
        QTest::newRow("GeoTIFF, tiled") << "GTiff"
                                        << "a.tif" << QStringList{"TILED=YES", "COMPRESS=DEFLATE"} << true << 0;
        QTest::newRow("COG") << "COG"
                             << "b.tif" << QStringList{"COMPRESS=LZW", "BLOCKSIZE=128"} << true << 0;
        QTest::newRow("BigTIFF") << "GTiff"
                                 << "c.tif" << QStringList{"BIGTIFF=YES"} << true << 0;
        QTest::newRow("JPEG 2000") << "JP2OpenJPEG"
                                   << "d.jp2" << QStringList{"REVERSIBLE=YES", "QUALITY=100"} << true << 0;
        QTest::newRow("PNG and world file") << "PNG"
                                            << "e.png" << QStringList{"WORLDFILE=YES"} << false << 0;
        QTest::newRow("JPEG and world file") << "JPEG"
                                             << "f.jpg" << QStringList{"WORLDFILE=YES", "QUALITY=95"} << false << 24;
        QTest::newRow("GeoPackage tiles") << "GPKG"
                                          << "g.gpkg" << QStringList{"TILE_FORMAT=PNG"} << true << 0;
    }
    void formats_areRead() {
        QFETCH(QString, driver);
        QFETCH(QString, name);
        QFETCH(QStringList, options);
        QFETCH(bool, hasCrs);
        QFETCH(int, difference);
        test::MadeRaster made;
        made.driver = driver.toStdString();
        made.width = 300;
        made.height = 200;
        made.crs = "EPSG:25829";
        made.geotransform = {520000, 0.5, 0, 5117000, 0, -0.5};
        made.value = [](int band, int x, int y) { return band == 0 ? x * 255 / 299 : band == 1 ? y : (x + y) / 2; };
        for (const QString& option : options)
            made.options.push_back(option.toStdString());
        const std::string path = m_folder.filePath(name).toStdString();
        test::make(made, path);
        // What the format cannot hold itself GDAL leaves in this file: the world file alone has to do.
        QFile::remove(QString::fromStdString(path) + ".aux.xml");

        const Dataset dataset{path, {.crs = hasCrs ? "" : "EPSG:25829"}};
        const auto& description = dataset.description();
        QCOMPARE(description.width, 300);
        QCOMPARE(description.height, 200);
        QVERIFY(description.georeferenced);
        QCOMPARE(QString::fromStdString(description.crs), QStringLiteral("ETRS89 / UTM zone 29N"));
        QCOMPARE_LE(std::abs(description.geotransform[0] - 520000), 1e-6);
        QCOMPARE_LE(std::abs(description.geotransform[3] - 5117000), 1e-6);
        QCOMPARE_LE(std::abs(description.geotransform[1] - 0.5), 1e-9);
        const RgbaImage image = wholeOf(dataset);
        for (int y = 0; y < 200; y += 7)
            for (int x = 0; x < 300; x += 7) {
                const auto pixel = at(image, x, y);
                for (int band = 0; band < 3; ++band)
                    QCOMPARE_LE(
                        std::abs(pixel[static_cast<std::size_t>(band)] - static_cast<int>(made.value(band, x, y))),
                        difference);
                QCOMPARE(pixel[3], 255);
            }
        if (!hasCrs)
            QVERIFY(!Dataset{path}.description().georeferenced);
        bool known = false;
        for (const raster::RasterFormat& format : raster::rasterFormats())
            for (const std::string& suffix : format.suffixes)
                known = known || name.endsWith(QString::fromStdString("." + suffix));
        QVERIFY(known);
    }

    void mosaic_ofImagesInItsFolderIsRead() {
        QVERIFY(QDir{m_folder.path()}.mkpath("mosaic/tiles"));
        for (int part = 0; part < 2; ++part) {
            test::MadeRaster made;
            made.width = made.height = 50;
            made.crs = "EPSG:25829";
            made.geotransform = {520000.0 + 50 * part, 1, 0, 5117000, 0, -1};
            made.value = [&](int, int, int) { return 100 + part; };
            test::make(made, file(part ? "mosaic/tiles/b.tif" : "mosaic/tiles/a.tif"));
        }
        const std::string inner = file("mosaic/tiles/inner.vrt");
        const std::string outer = file("mosaic/outer.vrt");
        for (const auto& [target, sources] :
             {std::pair{inner, std::vector{file("mosaic/tiles/a.tif"), file("mosaic/tiles/b.tif")}},
              {outer, {inner}}}) {
            std::vector<const char*> names;
            for (const std::string& source : sources)
                names.push_back(source.c_str());
            GDALDatasetH vrt =
                GDALBuildVRT(target.c_str(), static_cast<int>(names.size()), nullptr, names.data(), nullptr, nullptr);
            QVERIFY(vrt);
            GDALClose(vrt);
        }
        const Dataset dataset{outer};
        QCOMPARE(dataset.description().width, 100);
        const RgbaImage image = wholeOf(dataset);
        QCOMPARE(at(image, 10, 10)[0], 100);
        QCOMPARE(at(image, 90, 10)[0], 101);
    }

    void tileFolder_isReadAtEachZoom_data() {
        QTest::addColumn<bool>("rowsFromSouth");
        QTest::newRow("rows from the north") << false;
        QTest::newRow("rows from the south, as the Tile Map Service counts them") << true;
    }
    void tileFolder_isReadAtEachZoom() {
        QFETCH(bool, rowsFromSouth);
        // Red is the column of the tile at its zoom, green its row from the north, blue the zoom. The extent is odd, so
        // the coarser zooms do not begin where the finer ones do.
        const QString folder = m_folder.filePath(rowsFromSouth ? "south" : "north");
        for (const auto& [zoom, minX, maxX, minY, maxY] :
             {std::array{5, 17, 19, 11, 13}, std::array{4, 8, 9, 5, 6}, std::array{3, 4, 4, 2, 3}})
            for (int x = minX; x <= maxX; ++x)
                for (int y = minY; y <= maxY; ++y) {
                    const QString place = folder + QStringLiteral("/%1/%2").arg(zoom).arg(x);
                    QVERIFY(QDir{}.mkpath(place));
                    test::MadeRaster made;
                    made.driver = "PNG";
                    made.width = made.height = 256;
                    made.placed = false;
                    const int level = zoom;
                    made.value = [&](int band, int, int) { return band == 0 ? x : band == 1 ? y : level; };
                    const int row = rowsFromSouth ? (1 << zoom) - 1 - y : y;
                    if (zoom == 5 && x == 18 && y == 12)
                        continue; // a hole in the middle
                    test::make(made, (place + QStringLiteral("/%1.png").arg(row)).toStdString());
                }
        if (rowsFromSouth) {
            QFile resource{folder + "/tilemapresource.xml"};
            QVERIFY(resource.open(QIODevice::WriteOnly));
            resource.write("<TileMap version='1.0.0'/>");
        }
        const Dataset dataset{folder.toStdString()};
        const auto& description = dataset.description();
        QCOMPARE(description.width, 3 * 256);
        QCOMPARE(description.height, 3 * 256);
        // Column 17 of 32 begins at 17/32 of the way round: -180 + 17 * 11.25 degrees.
        QCOMPARE_LE(std::abs(description.corners[0].lon - 11.25), 1e-9);
        // Row 11 of 32: atan(sinh(pi (1 - 2 * 11 / 32))), the inverse of Web Mercator.
        QCOMPARE_LE(std::abs(description.corners[0].lat - std::atan(std::sinh(M_PI * (1 - 22.0 / 32))) * 180 / M_PI),
                    1e-9);
        const RgbaImage whole = wholeOf(dataset);
        QCOMPARE(at(whole, 10, 300), (std::array<int, 4>{17, 12, 5, 255}));
        QCOMPARE(at(whole, 600, 600), (std::array<int, 4>{19, 13, 5, 255}));
        QCOMPARE(at(whole, 400, 400)[3], 0);
        // At half and quarter size the coarser zooms come in, at their own places.
        const RgbaImage half = dataset.read({0, 0, 768, 768}, 384, 384);
        QCOMPARE(at(half, 60, 60), (std::array<int, 4>{8, 5, 4, 255}));
        QCOMPARE(at(half, 200, 200), (std::array<int, 4>{9, 6, 4, 255}));
        QCOMPARE(at(half, 60, 200), (std::array<int, 4>{8, 6, 4, 255}));
        const RgbaImage quarter = dataset.read({0, 0, 768, 768}, 192, 192);
        QCOMPARE(at(quarter, 30, 30), (std::array<int, 4>{4, 2, 3, 255}));
        QCOMPARE(at(quarter, 100, 160), (std::array<int, 4>{4, 3, 3, 255}));
    }

    void read_takesTheOverviewThatIsFineEnough() {
        // The base is 10, the overviews are told apart by their values: written as base, then painted over.
        test::MadeRaster made;
        made.width = made.height = 1024;
        made.bands = 1;
        made.value = [](int, int, int) { return 10; };
        made.options = {"TILED=YES"};
        made.overviews = {2, 4};
        test::make(made, file("pyramid.tif"));
        GDALDatasetH pyramid = GDALOpen(file("pyramid.tif").c_str(), GA_Update);
        for (int index = 0; index < 2; ++index)
            GDALFillRaster(GDALGetOverview(GDALGetRasterBand(pyramid, 1), index), 20.0 + 10 * index, 0);
        GDALClose(pyramid);
        const Dataset dataset{file("pyramid.tif")};
        QCOMPARE(dataset.description().bands[0].overviews.size(), std::size_t{2});
        const auto shown = [&](int size) {
            return at(dataset.read({0, 0, 1024, 1024}, size, size), size / 2, size / 2)[0];
        };
        QCOMPARE(shown(1024), 10);
        QCOMPARE(shown(600), 10);
        QCOMPARE(shown(512), 20);
        QCOMPARE(shown(300), 20);
        QCOMPARE(shown(256), 30);
        QCOMPARE(shown(100), 30);
    }
    void read_outsideIsTransparent() {
        const Dataset dataset{imagery("stars_geomatrix.tif")};
        const RgbaImage image = dataset.read({-10, -10, 40, 40}, 40, 40);
        QCOMPARE(at(image, 5, 5)[3], 0);
        QCOMPARE(at(image, 35, 20)[3], 0);
        QCOMPARE(at(image, 10, 10)[3], 255);
        QCOMPARE(at(image, 29, 29)[3], 255);
        QCOMPARE(at(dataset.read({1e6, 1e6, 40, 40}, 40, 40), 5, 5)[3], 0);
        QCOMPARE(at(dataset.read({-1e15, 0, 40, 40}, 30, 30), 5, 5)[3], 0);
    }
    void read_betweenPixelsIsBilinear() {
        test::MadeRaster made;
        made.width = made.height = 8;
        made.bands = 1;
        made.value = [](int, int x, int y) { return 20 * x + 10 * y; };
        test::make(made, file("slope.tif"));
        const Dataset dataset{file("slope.tif")};
        // On a plane bilinear interpolation is exact: the middle of pixel (x, y) of the picture lies at 1 + (x + 0.5)
        // / 4.
        const RgbaImage image = dataset.read({1, 1, 6, 6}, 24, 24);
        for (int y = 0; y < 24; ++y)
            for (int x = 0; x < 24; ++x) {
                const double exact = 20 * (1 + (x + 0.5) / 4 - 0.5) + 10 * (1 + (y + 0.5) / 4 - 0.5);
                QCOMPARE_LE(std::abs(at(image, x, y)[0] - exact), 1.0);
            }
    }
    void read_refusesWindowsAndSizesThatAreNone() {
        const Dataset dataset{imagery("stars_geomatrix.tif")};
        QVERIFY_EXCEPTION_THROWN((void)dataset.read({0, 0, 0, 5}, 10, 10), Fault);
        QVERIFY_EXCEPTION_THROWN((void)dataset.read({0, 0, std::nan(""), 5}, 10, 10), Fault);
        QVERIFY_EXCEPTION_THROWN((void)dataset.read({0, 0, 5, 5}, 0, 10), Fault);
        QVERIFY_EXCEPTION_THROWN((void)dataset.read({0, 0, 5, 5}, 100'000, 100'000), Fault);
    }
    void read_canBeCancelled() {
        const Dataset dataset{imagery("rasterio_RGB.byte.tif")};
        int calls = 0;
        const Progress progress{[&](double, std::string_view) { return ++calls < 3; }};
        QVERIFY_EXCEPTION_THROWN((void)dataset.read({0, 0, 791, 718}, 200, 200, progress), Cancelled);
        QCOMPARE(calls, 3);
        QCOMPARE(dataset.read({0, 0, 791, 718}, 200, 200).width, 200);
    }
    void dataset_canBeMoved() {
        Dataset first{imagery("stars_geomatrix.tif")};
        Dataset second{std::move(first)};
        first = std::move(second);
        QCOMPARE(checksum(wholeOf(first), 0), 4672);
    }
};

QTEST_GUILESS_MAIN(DatasetTest)
#include "dataset_test.moc"
