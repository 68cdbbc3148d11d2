#include "raster/detail/stoppable_dataset.h"

#include "support/made_raster.h"

#include <gdal_priv.h>

#include <QtTest>

using namespace fencewright;
using raster::detail::GdalProgress;
using raster::detail::stoppable;

namespace {

double speckle(int band, int x, int y) { return (x * 7 + y * 13 + band * 71 + x * y % 31) % 256; }

test::MadeRaster picture(const std::vector<std::string>& options) {
    test::MadeRaster made;
    made.width = 3001;
    made.height = 1203;
    made.options = options;
    made.value = speckle;
    return made;
}

/// Single rows, pixel by pixel all bands; counts how often one of a band is decoded.
struct Strips : GDALDataset {
    int decoded = 0;

    Strips() {
        nRasterXSize = 5000;
        nRasterYSize = 1200;
        SetMetadataItem("INTERLEAVE", "PIXEL", "IMAGE_STRUCTURE");
        for (int number = 1; number <= 3; ++number)
            SetBand(number, new Row{*this, number});
    }

private:
    struct Row : GDALRasterBand {
        Strips& strips;

        Row(Strips& of, int number) : strips{of} {
            poDS = &of;
            nBand = number;
            eDataType = GDT_Byte;
            nBlockXSize = 5000;
            nBlockYSize = 1;
        }
        CPLErr IReadBlock(int, int y, void* block) override {
            ++strips.decoded;
            std::fill_n(static_cast<std::uint8_t*>(block), 5000, std::uint8_t(y % 251 + nBand));
            return CE_None;
        }
    };
};

} // namespace

class StoppableDatasetTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    GDALDatasetUniquePtr made(const test::MadeRaster& raster) const {
        const std::string path = m_folder.filePath("raster.tif").toStdString();
        test::make(raster, path);
        return GDALDatasetUniquePtr{GDALDataset::Open(path.c_str())};
    }

private slots:
    void reading_isThatOfTheRaster_data() {
        QTest::addColumn<std::vector<std::string>>("options");
        QTest::newRow("single rows") << std::vector<std::string>{"BLOCKYSIZE=1"};
        QTest::newRow("strips of 37 rows") << std::vector<std::string>{"BLOCKYSIZE=37", "COMPRESS=DEFLATE"};
        QTest::newRow("tiles") << std::vector<std::string>{"TILED=YES", "BLOCKXSIZE=256", "BLOCKYSIZE=256"};
        QTest::newRow("one strip") << std::vector<std::string>{"BLOCKYSIZE=1203"};
    }
    void reading_isThatOfTheRaster() {
        QFETCH(std::vector<std::string>, options);
        const auto raster = made(picture(options));
        const Progress progress;
        GdalProgress listening{&progress, "Reading"};
        const auto guarded = stoppable(*raster, listening);
        GDALDataset& watched = *guarded;
        QCOMPARE(watched.GetRasterCount(), 3);
        std::mt19937 random{3};
        for (int round = 0; round < 60; ++round) {
            const bool whole = round == 0;
            const int x = whole ? 0 : int(random() % 3001), y = whole ? 0 : int(random() % 1203);
            const int width = whole ? 3001 : 1 + int(random() % unsigned(3001 - x));
            const int height = whole ? 1203 : 1 + int(random() % unsigned(1203 - y));
            const bool shrunk = round % 5 == 4;
            const int toWidth = shrunk ? (width + 1) / 2 : width, toHeight = shrunk ? (height + 2) / 3 : height;
            const int band = 1 + round % 3;
            const auto count = std::size_t(toWidth) * std::size_t(toHeight);
            std::vector<std::uint8_t> wanted(count), got(count);
            const auto read = [&](GDALDataset& from, std::vector<std::uint8_t>& into) {
                return from.GetRasterBand(band)->RasterIO(GF_Read, x, y, width, height, into.data(), toWidth, toHeight,
                                                          GDT_Byte, 0, 0, nullptr);
            };
            QCOMPARE(read(*raster, wanted), CE_None);
            QCOMPARE(read(watched, got), CE_None);
            QVERIFY2(got == wanted, qPrintable(QString{"round %1"}.arg(round)));
        }
    }

    void oneCall_isStoppedOnItsWay_data() {
        QTest::addColumn<std::vector<std::string>>("options");
        QTest::newRow("strips") << std::vector<std::string>{"BLOCKYSIZE=1"};
        QTest::newRow("tiles") << std::vector<std::string>{"TILED=YES"};
    }
    void oneCall_isStoppedOnItsWay() {
        QFETCH(std::vector<std::string>, options);
        const auto raster = made(picture(options));
        int asked = 0;
        const Progress progress{[&](double, std::string_view) { return ++asked < 3; }};
        GdalProgress listening{&progress, "Reading"};
        const auto guarded = stoppable(*raster, listening);
        GDALDataset& watched = *guarded;
        std::vector<std::uint8_t> pixels(3001 * 1203, 0);
        const auto read = [&](int band, int width, int height) {
            return watched.GetRasterBand(band)->RasterIO(GF_Read, 0, 0, width, height, pixels.data(), width, height,
                                                         GDT_Byte, 0, 0, nullptr);
        };
        QCOMPARE(read(2, 3001, 1203), CE_Failure);
        QCOMPARE(asked, 3);
        QVERIFY(listening.thrown);
        QVERIFY_EXCEPTION_THROWN(std::rethrow_exception(listening.thrown), Cancelled);
        // A million pixels at a time: the last of the rows were not read.
        QVERIFY(std::all_of(pixels.end() - 3001 * 500, pixels.end(), [](std::uint8_t byte) { return byte == 0; }));
        // Nobody is asked again, and nothing is read any more.
        QCOMPARE(read(1, 1, 1), CE_Failure);
        QCOMPARE(asked, 3);
    }

    void strip_isDecodedOnceForAllBandsAndPieces() {
        const GIntBig before = GDALGetCacheMax64();
        GDALSetCacheMax64(4 << 20); // less than the rows that are asked for
        Strips strips;
        const Progress progress;
        GdalProgress listening{&progress, "Reading"};
        const auto guarded = stoppable(strips, listening);
        GDALDataset& watched = *guarded;
        std::vector<std::uint8_t> pixels(1000 * 600);
        for (int y = 0; y < 1200; y += 600)
            for (int x = 0; x < 5000; x += 1000)
                for (int band = 1; band <= 3; ++band) {
                    QCOMPARE(watched.GetRasterBand(band)->RasterIO(GF_Read, x, y, 1000, 600, pixels.data(), 1000, 600,
                                                                   GDT_Byte, 0, 0, nullptr),
                             CE_None);
                    QCOMPARE(int(pixels[1000 * 599]), (y + 599) % 251 + band);
                }
        GDALSetCacheMax64(before);
        QCOMPARE(strips.decoded, 3 * 1200);
    }
};

QTEST_GUILESS_MAIN(StoppableDatasetTest)
#include "stoppable_dataset_test.moc"
