#include "raster/block_cache.h"
#include "raster/dataset.h"

#include "fault.h"
#include "support/made_raster.h"

#include <gdal.h>

#include <QtTest>

#include <filesystem>

using namespace fencewright;
using raster::BlockCache;
using raster::Dataset;
using raster::PaintedPixels;

namespace {

// So large that it is not read as a whole: 49 MB of three bands.
constexpr int kWidth = 4100, kHeight = 4000;

double speckle(int band, int x, int y) { return (x * 7 + y * 13 + band * 71 + (x / 64) * 5 + (y / 64) * 3) % 256; }

test::MadeRaster large(const std::vector<std::string>& options) {
    test::MadeRaster made;
    made.width = kWidth;
    made.height = kHeight;
    made.crs = "EPSG:25829";
    made.geotransform = {520000, 0.5, 0, 5117000, 0, -0.5};
    made.options = options;
    made.value = speckle;
    return made;
}

// The mean of what a pixel covers of the row through its middle, by the numbers that were written.
int meanOfRow(int band, int x, int y, int width, int height) {
    const int row = int((y + 0.5) * kHeight / height), middle = int((x + 0.5) * kWidth / width);
    const int reach = (kWidth / width - 1) / 2;
    int sum = 0, count = 0;
    for (int at = middle - reach; at <= middle + reach; ++at, ++count)
        sum += int(speckle(band, at, row));
    return (sum + count / 2) / count;
}

} // namespace

class GlanceTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    std::string file(const char* name) const { return m_folder.filePath(name).toStdString(); }

private slots:
    void initTestCase() {
        test::make(large({}), file("rows.tif"));
        test::make(large({"INTERLEAVE=BAND"}), file("planes.tif"));
        test::make(large({"COMPRESS=DEFLATE", "ZLEVEL=1"}), file("packed.tif"));
    }

    void pyramid_showsItsCoarsestLevel_andKeepsItForTheTiles() {
        auto made = large({"TILED=YES", "COMPRESS=JPEG", "PHOTOMETRIC=YCBCR", "BLOCKXSIZE=512", "BLOCKYSIZE=512"});
        made.overviews = {4, 16};
        test::make(made, file("pyramid.tif"));
        const auto blocks = std::make_shared<BlockCache>(std::size_t{64} << 20);
        const Dataset dataset{file("pyramid.tif"), {.blocks = blocks}};
        const auto glance = dataset.glance();
        QVERIFY(glance);
        QCOMPARE(glance->width, 257);
        QCOMPARE(glance->height, 250);
        QVERIFY(glance->opaque);
        GDALAllRegister();
        GDALDatasetH raw = GDALOpen(file("pyramid.tif").c_str(), GA_ReadOnly);
        for (int band = 0; band < 3; ++band) {
            std::vector<std::uint8_t> theirs(std::size_t(glance->width) * std::size_t(glance->height));
            QCOMPARE(GDALRasterIO(GDALGetOverview(GDALGetRasterBand(raw, band + 1), 1), GF_Read, 0, 0, glance->width,
                                  glance->height, theirs.data(), glance->width, glance->height, GDT_Byte, 0, 0),
                     CE_None);
            for (std::size_t i = 0; i < theirs.size(); ++i)
                QCOMPARE(glance->words[i] >> (16 - 8 * band) & 255U, unsigned{theirs[i]});
        }
        GDALClose(raw);
        const auto reads = blocks->counts().reads;
        QVERIFY(dataset.tile(dataset.levels().size() - 1, 0, 0).words);
        QCOMPARE(blocks->counts().reads, reads);
    }

    void rowsAsTheyLieInTheFile_areReadHereAndThere() {
        const auto blocks = std::make_shared<BlockCache>(std::size_t{64} << 20);
        const Dataset dataset{file("rows.tif"), {.blocks = blocks}};
        const auto glance = dataset.glance();
        QVERIFY(glance);
        QCOMPARE(glance->width, 512);
        QVERIFY2(glance->height > 60 && glance->height < 200, "some rows, not all");
        QVERIFY(glance->opaque);
        for (int y = 0; y < glance->height; ++y)
            for (int x = 1; x + 1 < glance->width; ++x) // the first and the last see but half of what they cover
                for (int band = 0; band < 3; ++band)
                    QCOMPARE(int(glance->words[std::size_t(y * glance->width + x)] >> (16 - 8 * band) & 255U),
                             meanOfRow(band, x, y, glance->width, glance->height));
        QCOMPARE(blocks->counts().pixels, std::uint64_t(glance->height) * kWidth);
    }

    // The short way to rows of uncompressed pixels must not show anything else than the usual one.
    void shrunken_theyAreTheSame_howeverTheyAreKept() {
        const Dataset rows{file("rows.tif")}, planes{file("planes.tif")}, packed{file("packed.tif")};
        for (const int size : {97, 256, 700}) {
            const auto one = rows.read({0, 0, kWidth, kHeight}, size, size);
            QVERIFY(one.pixels == planes.read({0, 0, kWidth, kHeight}, size, size).pixels);
            QVERIFY(one.pixels == packed.read({0, 0, kWidth, kHeight}, size, size).pixels);
        }
    }

    void whatHasToBeDecoded_isNotGlancedAt() {
        const auto blocks = std::make_shared<BlockCache>(std::size_t{64} << 20);
        for (const char* name : {"packed.tif", "planes.tif"})
            QVERIFY(!(Dataset{file(name), {.blocks = blocks}}.glance()));
        QCOMPARE(blocks->counts().reads, std::uint64_t{0});
    }

    void rowsThatAreNotThere_areEmpty_andThoseCutOffAreSaid() {
        auto sparse = large({"SPARSE_OK=TRUE"});
        sparse.value = [](int, int, int y) { return y < 1000 ? 200 : 0; };
        test::make(sparse, file("sparse.tif"));
        const auto glance = Dataset{file("sparse.tif")}.glance();
        QVERIFY(glance);
        QCOMPARE(glance->words[0], 0xffc8c8c8U);
        QCOMPARE(glance->words[std::size_t(glance->width) * std::size_t(glance->height) - 1], 0xff000000U);

        std::filesystem::copy_file(file("rows.tif"), file("cut.tif"));
        std::filesystem::resize_file(file("cut.tif"), std::filesystem::file_size(file("cut.tif")) / 2);
        try {
            (void)Dataset{file("cut.tif")}.glance();
            QFAIL("taken for whole");
        } catch (const Fault& fault) {
            QVERIFY2(fault.place().find("cut.tif") != std::string::npos, fault.what());
        }
    }

    void itCanBeCancelled() {
        const Dataset dataset{file("rows.tif")};
        const Progress never{[](double, std::string_view) { return false; }};
        QVERIFY_EXCEPTION_THROWN((void)dataset.glance(never), Cancelled);
    }
};

QTEST_APPLESS_MAIN(GlanceTest)
#include "glance_test.moc"
