#include "raster/pyramid.h"

#include "fault.h"
#include "raster/dataset.h"
#include "support/made_raster.h"

#include <cpl_conv.h>
#include <gdal.h>

#include <QtTest>

#include <csignal>
#include <filesystem>

#include <sys/resource.h>

using namespace fencewright;
namespace fs = std::filesystem;
using raster::Dataset;
using raster::PaintedPixels;

namespace {

double speckle(int band, int x, int y) { return (x * 7 + y * 13 + band * 71 + (x / 64) * 5 + (y / 64) * 3) % 256; }

test::MadeRaster picture(int width, int height) {
    test::MadeRaster made;
    made.width = width;
    made.height = height;
    made.crs = "EPSG:25829";
    made.geotransform = {520000, 0.5, 0, 5117000, 0, -0.5};
    made.options = {"TILED=YES"};
    made.value = speckle;
    return made;
}

QByteArray bytesOf(const std::string& path) {
    QFile file{QString::fromStdString(path)};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

std::array<int, 4> pixel(const PaintedPixels& tile, int x, int y) {
    if (!tile.words)
        return {};
    const std::uint32_t word = tile.words[static_cast<std::size_t>(y * tile.width + x)];
    return {static_cast<int>(word >> 16 & 255), static_cast<int>(word >> 8 & 255), static_cast<int>(word & 255),
            static_cast<int>(word >> 24)};
}

// The mean of the four pixels of the base, as the definition of an average over two by two has it.
double meanOfFour(const test::MadeRaster& made, int band, int x, int y) {
    return (made.value(band, 2 * x, 2 * y) + made.value(band, 2 * x + 1, 2 * y) + made.value(band, 2 * x, 2 * y + 1) +
            made.value(band, 2 * x + 1, 2 * y + 1)) /
           4;
}

} // namespace

class PyramidTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    std::string file(const QString& name) const { return m_folder.filePath(name).toStdString(); }
    std::string built(const std::string& path, const QString& name) const {
        const std::string pyramid = file(name);
        raster::buildPyramid(path, pyramid, {});
        return pyramid;
    }

private slots:
    void pyramid_halvesUntilItIsSmall() {
        test::make(picture(2049, 1000), file("plain.tif"));
        const QByteArray before = bytesOf(file("plain.tif"));
        QCOMPARE(Dataset{file("plain.tif")}.levels().size(), std::size_t{1});
        const std::string pyramid = built(file("plain.tif"), "cache/deep/plain.ovr");
        // The owner's file and its folder are as they were.
        QCOMPARE(bytesOf(file("plain.tif")), before);
        QVERIFY(!fs::exists(file("plain.tif.ovr")) && !fs::exists(file("plain.tif.aux.xml")));
        QCOMPARE(QDir{QString::fromStdString(file("cache/deep"))}.entryList(QDir::AllEntries | QDir::Hidden |
                                                                            QDir::NoDotAndDotDot),
                 QStringList{"plain.ovr"});
        const Dataset dataset{file("plain.tif"), {.pyramid = pyramid}};
        // Half of each, rounded up, as GDAL's overviews are counted: 2049, 1025, 513, 257, 129.
        QCOMPARE(dataset.levels().size(), std::size_t{5});
        QCOMPARE(dataset.levels()[1].width, 1025);
        QCOMPARE(dataset.levels()[4].width, 129);
        QCOMPARE(dataset.levels()[4].height, 63);
        QCOMPARE_LE(std::abs(dataset.levels()[4].scaleX - 2049.0 / 129), 1e-12);
        QCOMPARE(dataset.tilePixels(), 512);
        QVERIFY(dataset.tile(4, 0, 0).opaque);
    }
    void pyramid_besideTheRasterIsWhatAnyReaderOfTheFormatFinds() {
        test::make(picture(1500, 1500), file("beside.tif"));
        const fs::path beside = raster::pyramidBeside(file("beside.tif"));
        QCOMPARE(beside.string(), file("beside.tif.ovr"));
        raster::buildPyramid(file("beside.tif"), beside, {});
        GDALDatasetH opened = GDALOpen(file("beside.tif").c_str(), GA_ReadOnly);
        QCOMPARE(GDALGetOverviewCount(GDALGetRasterBand(opened, 1)), 3);
        GDALClose(opened);
        QCOMPARE(Dataset{file("beside.tif")}.levels().size(), std::size_t{4});
    }

    void photographs_areAveraged() {
        auto made = picture(1200, 1000);
        made.value = [](int band, int x, int y) { return 40 + x / 10 + y / 20 + band * 10; }; // smooth: JPEG keeps it
        test::make(made, file("photo.tif"));
        const Dataset dataset{file("photo.tif"), {.pyramid = built(file("photo.tif"), "photo.ovr")}};
        const PaintedPixels tile = dataset.tile(1, 0, 0);
        for (int y = 0; y < 500; y += 7)
            for (int x = 0; x < 500; x += 7)
                for (int band = 0; band < 3; ++band)
                    QCOMPARE_LE(
                        std::abs(pixel(tile, x, y)[static_cast<std::size_t>(band)] - meanOfFour(made, band, x, y)),
                        4.0);
    }
    void noData_isNotAveragedIn() {
        auto made = picture(1200, 1000);
        made.noData = 0;
        made.value = [](int, int x, int) { return x < 301 ? 0 : 200; };
        test::make(made, file("nothing.tif"));
        const Dataset dataset{file("nothing.tif"), {.pyramid = built(file("nothing.tif"), "nothing.ovr")}};
        for (std::size_t level = 1; level < dataset.levels().size(); ++level) {
            const PaintedPixels tile = dataset.tile(level, 0, 0);
            for (int x = 0; x < tile.width; ++x) {
                const auto [red, green, blue, alpha] = pixel(tile, x, 50);
                const bool any = (x + 1) * dataset.levels()[level].scaleX > 301;
                QCOMPARE(alpha, any ? 255 : 0);
                QCOMPARE(red, any ? 200 : 0);
                QCOMPARE(blue, any ? 200 : 0);
            }
        }
    }
    void alpha_keepsTheColoursOfWhatIsThere() {
        auto made = picture(1200, 1000);
        made.bands = 4;
        made.colours = {"Red", "Green", "Blue", "Alpha"};
        made.value = [](int band, int x, int) { return band == 3 ? (x < 301 ? 0 : 255) : x < 301 ? 0 : 180; };
        test::make(made, file("alpha.tif"));
        const Dataset dataset{file("alpha.tif"), {.pyramid = built(file("alpha.tif"), "alpha.ovr")}};
        const PaintedPixels tile = dataset.tile(1, 0, 0);
        QCOMPARE(pixel(tile, 149, 9)[3], 0);
        QCOMPARE(pixel(tile, 151, 9), (std::array{180, 180, 180, 255}));
        // Half of it is there: half as opaque at the most, and not darker for that.
        const auto [red, green, blue, alpha] = pixel(tile, 150, 9);
        QVERIFY(alpha > 100 && alpha <= 255);
        QCOMPARE_LE(std::abs(red * 255.0 / alpha - 180), 2.0);
    }
    void mask_isKeptAsABandMore() {
        auto made = picture(1200, 1000);
        made.value = [](int, int x, int) { return x < 600 ? 30 : 210; };
        test::make(made, file("masked.tif"));
        GDALDatasetH opened = GDALOpen(file("masked.tif").c_str(), GA_Update);
        CPLSetConfigOption("GDAL_TIFF_INTERNAL_MASK", "YES");
        QCOMPARE(GDALCreateDatasetMaskBand(opened, GMF_PER_DATASET), CE_None);
        CPLSetConfigOption("GDAL_TIFF_INTERNAL_MASK", nullptr);
        std::vector<std::uint8_t> row(1200);
        std::fill(row.begin() + 600, row.end(), std::uint8_t{255});
        for (int y = 0; y < 1000; ++y)
            QCOMPARE(GDALRasterIO(GDALGetMaskBand(GDALGetRasterBand(opened, 1)), GF_Write, 0, y, 1200, 1, row.data(),
                                  1200, 1, GDT_Byte, 0, 0),
                     CE_None);
        GDALClose(opened);
        const Dataset dataset{file("masked.tif"), {.pyramid = built(file("masked.tif"), "masked.ovr")}};
        QVERIFY(dataset.levels().size() > 2);
        for (std::size_t level = 0; level < 3; ++level) {
            const PaintedPixels tile = dataset.tile(level, level == 0 ? 1 : 0, 0);
            const int border = level == 0 ? 600 - 512 : 600 >> level;
            QCOMPARE(pixel(tile, border - 2, 5)[3], 0);
            QCOMPARE(pixel(tile, border + 2, 5), (std::array{210, 210, 210, 255}));
        }
    }
    void palette_keepsItsEntries() {
        auto made = picture(1200, 1000);
        made.bands = 1;
        made.value = [](int, int x, int y) { return (x / 40 + y / 40) % 2 ? 1 : 200; };
        test::make(made, file("names.tif"));
        GDALDatasetH opened = GDALOpen(file("names.tif").c_str(), GA_Update);
        GDALColorTableH table = GDALCreateColorTable(GPI_RGB);
        const GDALColorEntry red{255, 0, 0, 255};
        const GDALColorEntry blue{0, 0, 255, 255};
        GDALSetColorEntry(table, 1, &red);
        GDALSetColorEntry(table, 200, &blue);
        QCOMPARE(GDALSetRasterColorTable(GDALGetRasterBand(opened, 1), table), CE_None);
        GDALDestroyColorTable(table);
        GDALClose(opened);
        const Dataset dataset{file("names.tif"), {.pyramid = built(file("names.tif"), "names.ovr")}};
        for (std::size_t level = 1; level < dataset.levels().size(); ++level) {
            const PaintedPixels tile = dataset.tile(level, 0, 0);
            for (int y = 0; y < tile.height; ++y)
                for (int x = 0; x < tile.width; ++x) {
                    const auto colour = pixel(tile, x, y);
                    QVERIFY(colour == (std::array{255, 0, 0, 255}) || colour == (std::array{0, 0, 255, 255}));
                }
        }
    }
    void sixteenBits_stayExact() {
        auto made = picture(1200, 1000);
        made.bands = 1;
        made.type = "UInt16";
        made.value = [](int, int x, int y) { return 1000 + x * 16 + y * 8; };
        test::make(made, file("deep.tif"));
        (void)built(file("deep.tif"), "deep.ovr");
        GDALDatasetH opened = GDALOpen(file("deep.ovr").c_str(), GA_ReadOnly);
        std::vector<std::uint16_t> values(600 * 500);
        QCOMPARE(GDALRasterIO(GDALGetRasterBand(opened, 1), GF_Read, 0, 0, 600, 500, values.data(), 600, 500,
                              GDT_UInt16, 0, 0),
                 CE_None);
        GDALClose(opened);
        for (int y = 0; y < 500; ++y)
            for (int x = 0; x < 600; ++x)
                QCOMPARE_LE(std::abs(values[static_cast<std::size_t>(y * 600 + x)] - meanOfFour(made, 0, x, y)), 0.51);
        const Dataset dataset{file("deep.tif"),
                              {.appearance = {.stretch = std::array{1000.0, 21000.0}}, .pyramid = file("deep.ovr")}};
        const PaintedPixels tile = dataset.tile(1, 0, 0);
        QCOMPARE_LE(std::abs(pixel(tile, 300, 100)[0] - (meanOfFour(made, 0, 300, 100) - 1000) / 20000 * 255), 0.51);
    }
    void rasterWithSomeOverviews_getsTheRest() {
        auto made = picture(3000, 2000);
        made.overviews = {2, 4};
        test::make(made, file("some.tif"));
        const QByteArray before = bytesOf(file("some.tif"));
        const Dataset dataset{file("some.tif"), {.pyramid = built(file("some.tif"), "some.ovr")}};
        QCOMPARE(bytesOf(file("some.tif")), before);
        QCOMPARE(dataset.levels().size(), std::size_t{5});
        QCOMPARE(dataset.levels()[3].width, 375);
        QVERIFY(dataset.tile(4, 0, 0).opaque);
        QVERIFY_EXCEPTION_THROWN(
            raster::buildPyramid(FENCEWRIGHT_TEST_DATA "/imagery/world_l1.mbtiles", file("none.ovr"), {}), Fault);
        QVERIFY(!fs::exists(file("none.ovr")));
    }

    void wantsPyramid_whereAllOfItMustBeReadForALook() {
        // Sparse: no byte of it is written.
        auto made = picture(4096, 4096);
        made.options = {"TILED=YES", "SPARSE_OK=YES"};
        made.value = [](int, int, int) { return 0; };
        test::make(made, file("limit.tif"));
        QVERIFY(!raster::wantsPyramid(Dataset{file("limit.tif")}));
        made.width = 4400;
        test::make(made, file("beyond.tif"));
        QVERIFY(raster::wantsPyramid(Dataset{file("beyond.tif")}));
        QVERIFY(!raster::wantsPyramid(Dataset{file("beyond.tif"), {.pyramid = built(file("beyond.tif"), "b.ovr")}}));
    }
    void pyramidPath_isAnotherForAnotherState() {
        const fs::path cache = file("kept");
        QVERIFY_EXCEPTION_THROWN((void)raster::pyramidPath(cache, file("not there.tif")), Fault);
        test::make(picture(100, 100), file("state.tif"));
        const fs::path first = raster::pyramidPath(cache, file("state.tif"));
        QCOMPARE(first.parent_path(), cache);
        QCOMPARE(raster::pyramidPath(cache, file("state.tif")), first);
        QCOMPARE(
            raster::pyramidPath(cache, file("../") + m_folder.path().section('/', -1).toStdString() + "/state.tif"),
            first);
        fs::last_write_time(file("state.tif"), fs::last_write_time(file("state.tif")) + std::chrono::seconds{5});
        QVERIFY(raster::pyramidPath(cache, file("state.tif")) != first);
        // Of a folder, what is in it.
        fs::create_directory(file("parts"));
        test::make(picture(100, 100), file("parts/a.tif"));
        const fs::path ofFolder = raster::pyramidPath(cache, file("parts"));
        fs::last_write_time(file("parts/a.tif"), fs::last_write_time(file("parts/a.tif")) + std::chrono::seconds{5});
        QVERIFY(raster::pyramidPath(cache, file("parts")) != ofFolder);
    }

    void cancelled_leavesNothing_data() {
        QTest::addColumn<double>("at");
        for (const double at : {0.0, 0.2, 0.6, 0.99})
            QTest::addRow("%g", at) << at;
    }
    void cancelled_leavesNothing() {
        QFETCH(double, at);
        auto made = picture(4000, 3000);
        if (!fs::exists(file("long.tif")))
            test::make(made, file("long.tif"));
        const std::string folder = file("cancelled");
        QElapsedTimer since;
        const Progress progress{[&](double fraction, std::string_view) {
            if (fraction < at)
                return true;
            if (!since.isValid())
                since.start();
            return false;
        }};
        QVERIFY_EXCEPTION_THROWN(raster::buildPyramid(file("long.tif"), folder + "/long.ovr", progress), Cancelled);
        QCOMPARE_LE(since.elapsed(), 250);
        QVERIFY(!fs::exists(folder) || fs::is_empty(folder));
    }
    void fullDisk_isSaidAndLeavesNothing() {
        auto made = picture(3000, 3000);
        std::mt19937 random{11};
        made.value = [&](int, int, int) { return static_cast<double>(random() % 256); };
        made.noData = 0;
        test::make(made, file("noise.tif"));
        fs::create_directory(file("full"));
        // A limit on the size of files stands for a disk that fills up: writing stops in the middle either way.
        rlimit before{};
        QCOMPARE(getrlimit(RLIMIT_FSIZE, &before), 0);
        const auto ignored = std::signal(SIGXFSZ, SIG_IGN);
        const rlimit small{1'000'000, before.rlim_max};
        QCOMPARE(setrlimit(RLIMIT_FSIZE, &small), 0);
        std::string said;
        try {
            raster::buildPyramid(file("noise.tif"), file("full/noise.ovr"), {});
        } catch (const Fault& fault) {
            said = fault.what();
        }
        setrlimit(RLIMIT_FSIZE, &before);
        std::signal(SIGXFSZ, ignored);
        QVERIFY2(said.find("MB free") != std::string::npos && said.find("Make room") != std::string::npos &&
                     said.find("noise.tif") != std::string::npos,
                 said.c_str());
        QVERIFY(fs::is_empty(file("full")));
    }
    void folderThatCannotBeWritten_isNamed() {
        test::make(picture(600, 600), file("small.tif"));
        QFile blocking{m_folder.filePath("blocking")};
        QVERIFY(blocking.open(QIODevice::WriteOnly));
        try {
            raster::buildPyramid(file("small.tif"), file("blocking/small.ovr"), {});
            QFAIL("was built");
        } catch (const Fault& fault) {
            QVERIFY2(fault.place().find("blocking") != std::string::npos, fault.what());
        }
    }
    void brokenRaster_leavesNothing() {
        test::make(picture(1500, 1500), file("whole.tif"));
        const QByteArray whole = bytesOf(file("whole.tif"));
        QFile cut{m_folder.filePath("cut.tif")};
        QVERIFY(cut.open(QIODevice::WriteOnly));
        cut.write(whole.left(whole.size() / 2));
        cut.close();
        QVERIFY_EXCEPTION_THROWN(raster::buildPyramid(file("cut.tif"), file("cuts/cut.ovr"), {}), Fault);
        QVERIFY(!fs::exists(file("cuts")) || fs::is_empty(file("cuts")));
    }
    void pyramidOfAnotherRaster_isRefused() {
        test::make(picture(1500, 1500), file("one.tif"));
        auto other = picture(1400, 1500);
        test::make(other, file("other.tif"));
        other = picture(1500, 1500);
        other.bands = 1;
        test::make(other, file("grey.tif"));
        other = picture(1500, 1500);
        other.type = "UInt16";
        test::make(other, file("wide.tif"));
        for (const char* name : {"other", "grey", "wide"}) {
            const std::string pyramid = built(file(QString{name} + ".tif"), QString{name} + ".ovr");
            try {
                (void)Dataset{file("one.tif"), {.pyramid = pyramid}};
                QFAIL(name);
            } catch (const Fault& fault) {
                QVERIFY2(fault.problem().find("cannot be used with") != std::string::npos, fault.what());
                QCOMPARE(fault.place(), pyramid);
            }
        }
        QVERIFY_EXCEPTION_THROWN((Dataset{file("one.tif"), {.pyramid = file("not there.ovr")}}), Fault);
    }
    void truncatedPyramid_isRefusedOrNamedWhereItEnds() {
        std::mt19937 random{5};
        auto made = picture(1500, 1500);
        made.value = [&](int, int, int) { return static_cast<double>(random() % 256); };
        test::make(made, file("cut off.tif"));
        const QByteArray whole = bytesOf(built(file("cut off.tif"), "cut off.ovr"));
        for (const double share : {0.0, 0.01, 0.1, 0.4, 0.7, 0.95}) {
            QFile cut{m_folder.filePath("shorter.ovr")};
            QVERIFY(cut.open(QIODevice::WriteOnly));
            cut.write(whole.left(static_cast<qsizetype>(share * static_cast<double>(whole.size()))));
            cut.close();
            bool refused = false;
            try {
                const Dataset dataset{file("cut off.tif"), {.pyramid = file("shorter.ovr")}};
                for (std::size_t level = 1; level < dataset.levels().size(); ++level)
                    for (int row = 0; row * 512 < dataset.levels()[level].height; ++row)
                        for (int column = 0; column * 512 < dataset.levels()[level].width; ++column)
                            (void)dataset.tile(level, column, row);
            } catch (const Fault& fault) {
                refused = true;
                QVERIFY2(fault.place().find("shorter.ovr") != std::string::npos, fault.what());
            }
            QVERIFY2(refused, qPrintable(QString::number(share)));
        }
    }
};

QTEST_GUILESS_MAIN(PyramidTest)
#include "pyramid_test.moc"
