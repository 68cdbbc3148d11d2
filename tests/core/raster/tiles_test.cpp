#include "raster/block_cache.h"
#include "raster/dataset.h"

#include "fault.h"
#include "support/made_raster.h"

#include <gdal.h>

#include <QtTest>

using namespace fencewright;
using raster::BlockCache;
using raster::Dataset;
using raster::PaintedPixels;

namespace {

std::string imagery(const std::string& name) {
    return QStringLiteral(FENCEWRIGHT_TEST_DATA "/imagery/%1").arg(QString::fromStdString(name)).toStdString();
}

// A picture in which every pixel differs from its neighbours, and blocks from each other.
double speckle(int band, int x, int y) { return (x * 7 + y * 13 + band * 71 + (x / 64) * 5 + (y / 64) * 3) % 256; }

test::MadeRaster plain(int width, int height, const std::vector<std::string>& options) {
    test::MadeRaster made;
    made.width = width;
    made.height = height;
    made.crs = "EPSG:25829";
    made.geotransform = {520000, 0.5, 0, 5117000, 0, -0.5};
    made.options = options;
    made.value = speckle;
    return made;
}

// The bands of a window as the library itself reads them, at an overview of the file.
std::vector<std::uint8_t> raw(const std::string& path, int overview, int band, int x, int y, int width, int height) {
    GDALAllRegister();
    GDALDatasetH file = GDALOpen(path.c_str(), GA_ReadOnly);
    GDALRasterBandH from = GDALGetRasterBand(file, band);
    if (overview >= 0)
        from = GDALGetOverview(from, overview);
    std::vector<std::uint8_t> bytes(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    if (GDALRasterIO(from, GF_Read, x, y, width, height, bytes.data(), width, height, GDT_Byte, 0, 0) != CE_None)
        bytes.clear();
    GDALClose(file);
    return bytes;
}

} // namespace

class TilesTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    std::string file(const char* name) const { return m_folder.filePath(name).toStdString(); }

private slots:
    void tiles_areWhatTheLibraryReads_data() {
        QTest::addColumn<QString>("path");
        QTest::addColumn<int>("size");
        QTest::addColumn<QList<int>>("bands"); // red, green, blue
        QTest::addColumn<bool>("cached");
        const std::vector<int> overviews{2, 4, 8};
        for (const auto& [name, size, options] : std::vector<std::tuple<const char*, int, std::vector<std::string>>>{
                 {"tiled.tif", 512, {"TILED=YES"}},
                 {"planes.tif", 512, {"TILED=YES", "INTERLEAVE=BAND", "COMPRESS=LZW"}},
                 {"strips.tif", 512, {"COMPRESS=DEFLATE"}},
                 {"jpeg.tif",
                  512,
                  {"TILED=YES", "COMPRESS=JPEG", "PHOTOMETRIC=YCBCR", "BLOCKXSIZE=512", "BLOCKYSIZE=512"}},
                 {"large blocks.tif", 1024, {"TILED=YES", "BLOCKXSIZE=1024", "BLOCKYSIZE=1024"}},
                 {"uneven blocks.tif", 480, {"TILED=YES", "BLOCKXSIZE=240", "BLOCKYSIZE=48"}}}) {
            auto made = plain(1300, 1100, options);
            made.overviews = overviews;
            test::make(made, file(name));
            for (const bool cached : {false, true})
                QTest::addRow("%s, %s", name, cached ? "cached" : "not cached")
                    << QString::fromStdString(file(name)) << size << QList<int>{1, 2, 3} << cached;
        }
        auto grey = plain(700, 600, {"TILED=YES"});
        grey.bands = 1;
        test::make(grey, file("grey.tif"));
        QTest::addRow("grey") << QString::fromStdString(file("grey.tif")) << 512 << QList<int>{1, 1, 1} << true;
        QTest::addRow("a real orthophoto, infrared left out")
            << QString::fromStdString(imagery("naip_m_3607824_se_17_1_20160620_sub.tif")) << 512 << QList<int>{1, 2, 3}
            << true;
    }
    void tiles_areWhatTheLibraryReads() {
        QFETCH(QString, path);
        QFETCH(int, size);
        QFETCH(QList<int>, bands);
        QFETCH(bool, cached);
        const auto cache = cached ? std::make_shared<BlockCache>(std::size_t{64} << 20) : nullptr;
        const Dataset dataset{path.toStdString(), {.blocks = cache}};
        QCOMPARE(dataset.tilePixels(), size);
        for (std::size_t level = 0; level < dataset.levels().size(); ++level) {
            const auto& all = dataset.levels()[level];
            std::uint64_t delivered = 0;
            for (int row = 0; row * size < all.height; ++row)
                for (int column = 0; column * size < all.width; ++column) {
                    const PaintedPixels tile = dataset.tile(level, column, row);
                    QCOMPARE(tile.width, std::min(size, all.width - column * size));
                    QCOMPARE(tile.height, std::min(size, all.height - row * size));
                    QVERIFY(tile.opaque);
                    delivered += static_cast<std::uint64_t>(tile.width) * static_cast<std::uint64_t>(tile.height);
                    for (int band = 0; band < 3; ++band) {
                        const auto theirs = raw(path.toStdString(), static_cast<int>(level) - 1, bands[band],
                                                column * size, row * size, tile.width, tile.height);
                        for (std::size_t index = 0; index < theirs.size(); ++index)
                            if ((tile.words[index] >> (16 - 8 * band) & 255U) != theirs[index])
                                QFAIL(qPrintable(QStringLiteral("level %1, tile %2 %3, band %4, pixel %5")
                                                     .arg(level)
                                                     .arg(column)
                                                     .arg(row)
                                                     .arg(band)
                                                     .arg(index)));
                    }
                    QCOMPARE(tile.words[0] >> 24, 255U);
                }
            QCOMPARE(delivered, static_cast<std::uint64_t>(all.width) * static_cast<std::uint64_t>(all.height));
        }
        if (path.endsWith("naip_m_3607824_se_17_1_20160620_sub.tif") || path.endsWith("grey.tif"))
            QCOMPARE(dataset.levels().size(), std::size_t{1});
        else
            QCOMPARE(dataset.levels().size(), std::size_t{4});
    }

    void tiles_areMultipliedByAlpha() {
        auto made = plain(300, 200, {});
        made.bands = 4;
        made.colours = {"Red", "Green", "Blue", "Alpha"};
        test::make(made, file("alpha.tif"));
        const Dataset dataset{file("alpha.tif")};
        const PaintedPixels tile = dataset.tile(0, 0, 0);
        std::array<std::vector<std::uint8_t>, 4> bands;
        for (int band = 0; band < 4; ++band)
            bands[static_cast<std::size_t>(band)] = raw(file("alpha.tif"), -1, band + 1, 0, 0, tile.width, tile.height);
        QVERIFY(!tile.opaque);
        for (std::size_t index = 0; index < bands[0].size(); ++index) {
            const unsigned alpha = bands[3][index];
            QCOMPARE(tile.words[index] >> 24, alpha);
            for (std::size_t band = 0; band < 3; ++band)
                QCOMPARE(tile.words[index] >> (16 - 8 * band) & 255U, (bands[band][index] * alpha + 127) / 255);
        }
    }

    void tilesThatHoldNothing_haveNoWords() {
        auto made = plain(1100, 600, {"TILED=YES"});
        made.noData = 0;
        made.value = [](int, int x, int) { return x < 512 ? 0 : 9; };
        test::make(made, file("half.tif"));
        const Dataset dataset{file("half.tif"), {.blocks = std::make_shared<BlockCache>(std::size_t{8} << 20)}};
        QVERIFY(dataset.tile(0, 0, 0).words == nullptr);
        QVERIFY(dataset.tile(0, 1, 0).words != nullptr);
        QVERIFY(dataset.tile(0, 1, 0).opaque);
    }

    void tilesOutside_areRefused() {
        const Dataset dataset{imagery("linz_aerial.tif")};
        QVERIFY_EXCEPTION_THROWN((void)dataset.tile(0, 1, 0), Fault);
        QVERIFY_EXCEPTION_THROWN((void)dataset.tile(0, 0, -1), Fault);
        QVERIFY_EXCEPTION_THROWN((void)dataset.tile(7, 0, 0), Fault);
        QVERIFY_EXCEPTION_THROWN((void)dataset.tile(0, 2'000'000'000, 2'000'000'000), Fault);
    }

    void pan_decodesEachPixelOnce_data() {
        QTest::addColumn<QString>("options");
        for (const char* options : {"TILED=YES", "COMPRESS=DEFLATE", "TILED=YES BLOCKXSIZE=128 BLOCKYSIZE=128",
                                    "TILED=YES BLOCKXSIZE=1024 BLOCKYSIZE=1024"})
            QTest::newRow(options) << options;
    }
    void pan_decodesEachPixelOnce() {
        QFETCH(QString, options);
        std::vector<std::string> words;
        for (const QString& word : options.split(' '))
            words.push_back(word.toStdString());
        test::make(plain(3000, 2000, words), file("pan.tif"));
        const auto cache = std::make_shared<BlockCache>(std::size_t{64} << 20);
        const Dataset dataset{file("pan.tif"), {.blocks = cache}};
        // Windows of a map that lie anywhere, one pixel of the picture for one of the raster.
        const auto pan = [&] {
            for (int step = 0; step < 12; ++step)
                (void)dataset.read({step * 170.3, step * 90.7, 1000, 900}, 999, 899);
        };
        pan();
        const auto once = cache->counts();
        QVERIFY(once.reads > 0);
        // No pixel of the raster is decoded twice, whatever lies in what block.
        QCOMPARE_LE(once.pixels, std::uint64_t{3000} * 2000);
        pan();
        QCOMPARE(cache->counts().reads, once.reads);
        QCOMPARE(cache->counts().pixels, once.pixels);
    }
    void tilesOfAllThreads_areDecodedOnce() {
        test::make(plain(3000, 2000, {"TILED=YES"}), file("shared.tif"));
        const auto cache = std::make_shared<BlockCache>(std::size_t{64} << 20);
        const auto work = [&] {
            const Dataset dataset{file("shared.tif"), {.blocks = cache}};
            for (int row = 0; row < 4; ++row)
                for (int column = 0; column < 6; ++column)
                    (void)dataset.tile(0, column, row);
        };
        std::thread other{work};
        work();
        other.join();
        QCOMPARE(cache->counts().pixels, std::uint64_t{3000} * 2000);
        QCOMPARE(cache->counts().reads, std::uint64_t{24});
    }
    void otherAppearances_doNotShareBlocks() {
        const auto cache = std::make_shared<BlockCache>(std::size_t{64} << 20);
        const std::string path = imagery("naip_m_3607824_se_17_1_20160620_sub.tif");
        const Dataset natural{path, {.blocks = cache}};
        const Dataset infrared{path, {.appearance = {.bands = std::array{4, 1, 2}}, .blocks = cache}};
        const Dataset stretched{path, {.appearance = {.stretch = std::array{50.0, 150.0}}, .blocks = cache}};
        const auto one = natural.tile(0, 0, 0);
        const auto two = infrared.tile(0, 0, 0);
        const auto three = stretched.tile(0, 0, 0);
        const auto band4 = raw(path, -1, 4, 0, 0, 300, 300);
        const auto band1 = raw(path, -1, 1, 0, 0, 300, 300);
        for (std::size_t index = 0; index < band4.size(); ++index) {
            QCOMPARE(one.words[index] >> 16 & 255U, unsigned{band1[index]});
            QCOMPARE(two.words[index] >> 16 & 255U, unsigned{band4[index]});
            QCOMPARE(two.words[index] >> 8 & 255U, unsigned{band1[index]});
            // Linear between the two values.
            const double share = std::clamp((band1[index] - 50.0) / 100.0, 0.0, 1.0);
            QCOMPARE_LE(std::abs((three.words[index] >> 16 & 255U) - 255 * share), 0.51);
        }
    }

    // Of more than is averaged as a whole, rows are left out, but not what lies between the pixels of a row.
    void muchShrunkRows_areMeansOfWhatIsRead() {
        test::MadeRaster stripes = plain(30'000, 1'700, {});
        stripes.bands = 1;
        stripes.value = [](int, int x, int) { return x % 2 ? 200 : 0; };
        test::make(stripes, file("stripes.tif"));
        const auto picture = Dataset{file("stripes.tif")}.read({0, 0, 30'000, 1'700}, 1500, 85);
        for (int x = 3; x < 1497; ++x) {
            const int value = picture.pixels[(40UL * 1500 + std::size_t(x)) * 4];
            // Of twenty pixels nineteen or more, half of them 0.
            QVERIFY2(value > 90 && value < 110, qPrintable(QString{"column %1: %2"}.arg(x).arg(value)));
        }
        // What stands for nothing is no colour to be mixed with others.
        stripes.noData = 0;
        test::make(stripes, file("gaps.tif"));
        const auto gaps = Dataset{file("gaps.tif")}.read({0, 0, 30'000, 1'700}, 1500, 85);
        for (std::size_t at = 0; at < gaps.pixels.size(); at += 4)
            QVERIFY(gaps.pixels[at + 3] == 0 || gaps.pixels[at] == 200);
    }
};

QTEST_GUILESS_MAIN(TilesTest)
#include "tiles_test.moc"
