#include "raster/dataset.h"

#include "fault.h"
#include "raster/block_cache.h"
#include "raster/pyramid.h"
#include "support/made_raster.h"

#include <QtTest>

#include <filesystem>

using namespace fencewright;
namespace fs = std::filesystem;
using raster::Dataset;
using raster::RgbaImage;

namespace {

// Of the whole mosaic's pixel.
double speckle(int band, int x, int y) { return (x * 7 + y * 13 + band * 71 + (x / 64) * 5 + (y / 64) * 3) % 255 + 1; }

// A piece of a mosaic of 0.5 m pixels whose upper left corner is 520,000 / 5,117,000.
test::MadeRaster piece(int column, int row, int width = 300, int height = 200) {
    test::MadeRaster made;
    made.width = width;
    made.height = height;
    made.crs = "EPSG:25829";
    made.geotransform = {520000 + column * 0.5, 0.5, 0, 5117000 - row * 0.5, 0, -0.5};
    made.options = {"TILED=YES", "BLOCKXSIZE=128", "BLOCKYSIZE=128"};
    made.value = [=](int band, int x, int y) { return speckle(band, column + x, row + y); };
    return made;
}

RgbaImage wholeOf(const Dataset& dataset) {
    const auto& description = dataset.description();
    return dataset.read({0, 0, static_cast<double>(description.width), static_cast<double>(description.height)},
                        description.width, description.height);
}

} // namespace

class MosaicFolderTest : public QObject {
    Q_OBJECT

    std::unique_ptr<QTemporaryDir> m_folder;

    std::string file(const QString& name) const { return m_folder->filePath(name).toStdString(); }
    void makeGrid(const QString& folder) const {
        QVERIFY(QDir{}.mkpath(m_folder->filePath(folder)));
        for (int row = 0; row < 2; ++row)
            for (int column = 0; column < 3; ++column)
                test::make(piece(column * 300, row * 200),
                           file(folder + QStringLiteral("/part %1%2.tif").arg(row).arg(column)));
    }
    static QString notesOf(const Dataset& dataset) {
        QStringList notes;
        for (const Wording& note : dataset.description().notes)
            notes << QString::fromStdString(note.english());
        return notes.join('\n');
    }

private slots:
    void init() { m_folder = std::make_unique<QTemporaryDir>(); }

    void folder_isOnePicture() {
        makeGrid("grid");
        const Dataset dataset{file("grid")};
        QCOMPARE(dataset.description().format, std::string{"Folder of GeoTIFFs"});
        QCOMPARE(dataset.description().width, 900);
        QCOMPARE(dataset.description().height, 400);
        QCOMPARE(dataset.description().crsDefinition, std::string{"EPSG:25829"});
        QCOMPARE(dataset.description().geotransform[0], 520000.0);
        QCOMPARE(dataset.description().geotransform[3], 5117000.0);
        QCOMPARE(dataset.description().bands.size(), std::size_t{3});
        QVERIFY2(dataset.description().notes.empty(), qPrintable(notesOf(dataset)));
        const RgbaImage image = wholeOf(dataset);
        for (int y = 0; y < 400; ++y)
            for (int x = 0; x < 900; ++x)
                for (int band = 0; band < 4; ++band)
                    QCOMPARE(int{image.pixels[static_cast<std::size_t>((y * 900 + x) * 4 + band)]},
                             band == 3 ? 255 : static_cast<int>(speckle(band, x, y)));
        QVERIFY(dataset.tile(0, 0, 0).opaque);
    }
    void holes_areTransparent() {
        makeGrid("holes");
        fs::remove(file("holes/part 01.tif"));
        const Dataset dataset{file("holes"), {.blocks = std::make_shared<raster::BlockCache>(std::size_t{8} << 20)}};
        const RgbaImage image = wholeOf(dataset);
        const auto pixel = [&](int x, int y) { return &image.pixels[static_cast<std::size_t>((y * 900 + x) * 4)]; };
        QCOMPARE(int{pixel(450, 100)[3]}, 0);
        QCOMPARE(int{pixel(450, 300)[3]}, 255);
        QCOMPARE(int{pixel(450, 300)[1]}, static_cast<int>(speckle(1, 450, 300)));
        QCOMPARE(int{pixel(100, 100)[3]}, 255);
    }
    void finestPixels_areKept() {
        makeGrid("fine");
        auto coarse = piece(900, 0, 150, 200);
        coarse.geotransform[1] = 1;
        coarse.geotransform[5] = -1;
        test::make(coarse, file("fine/z.tif"));
        const Dataset dataset{file("fine")};
        QCOMPARE(dataset.description().width, 1200);
        QCOMPARE(dataset.description().geotransform[1], 0.5);
    }

    void filesThatDoNotFit_areLeftOutAndNamed() {
        makeGrid("odd");
        auto other = piece(900, 0);
        other.crs = "EPSG:25830";
        test::make(other, file("odd/other zone.tif"));
        other = piece(900, 0);
        other.bands = 1;
        test::make(other, file("odd/grey.tif"));
        other = piece(900, 0);
        other.type = "UInt16";
        test::make(other, file("odd/deep.tif"));
        other = piece(900, 0);
        other.geotransform[2] = 0.1;
        test::make(other, file("odd/turned.tif"));
        other = piece(900, 0);
        other.placed = false;
        test::make(other, file("odd/nowhere.tif"));
        other = piece(900, 0);
        other.geotransform = {9e9, 0.5, 0, -9e9, 0, -0.5};
        test::make(other, file("odd/far.tif"));
        other = piece(900, 0);
        other.geotransform = {520000, 1e-6, 0, 5117000, 0, -1e-6};
        test::make(other, file("odd/tiny pixels.tif"));
        other = piece(900, 0);
        other.driver = "PNG";
        other.options = {};
        test::make(other, file("odd/is png.tif"));
        // A mosaic that leads round in a circle, through the folder's own name.
        for (const auto& [name, source] : {std::pair{"odd/ring1.tif", "ring2.tif"}, {"odd/ring2.tif", "ring1.tif"}}) {
            QFile ring{m_folder->filePath(name)};
            QVERIFY(ring.open(QIODevice::WriteOnly));
            ring.write(QStringLiteral("<VRTDataset rasterXSize=\"64\" rasterYSize=\"64\"><VRTRasterBand "
                                      "dataType=\"Byte\" band=\"1\"><SimpleSource><SourceFilename "
                                      "relativeToVRT=\"1\">%1</SourceFilename></SimpleSource></VRTRasterBand>"
                                      "</VRTDataset>")
                           .arg(source)
                           .toUtf8());
        }
        QFile text{m_folder->filePath("odd/text.TIF")};
        QVERIFY(text.open(QIODevice::WriteOnly));
        text.write("This is no picture.\n");
        text.close();
        test::make(piece(900, 0), file("outside.tif"));
        fs::create_symlink(file("outside.tif"), file("odd/link.tif"));
        fs::create_symlink(file("nothing there.tif"), file("odd/dangling.tif"));

        const Dataset dataset{file("odd")};
        QCOMPARE(dataset.description().width, 900);
        QCOMPARE(dataset.description().height, 400);
        const QString notes = notesOf(dataset);
        for (const auto& [name, word] : {std::pair{"other zone.tif", "coordinate reference system"},
                                         {"grey.tif", "bands"},
                                         {"deep.tif", "bands"},
                                         {"turned.tif", "turned"},
                                         {"nowhere.tif", "where it lies"},
                                         {"far.tif", "too far away"},
                                         {"tiny pixels.tif", "larger or smaller"},
                                         {"is png.tif", "no GeoTIFF"},
                                         {"ring1.tif", "contains itself"},
                                         {"ring2.tif", "contains itself"},
                                         {"text.TIF", "no raster"},
                                         {"link.tif", "leads out"},
                                         {"dangling.tif", "No such file"}}) {
            const auto lines = notes.split('\n').filter(QRegularExpression{"^" + QRegularExpression::escape(name)});
            QVERIFY2(lines.size() == 1 && lines[0].contains(word), qPrintable(notes));
        }
        QCOMPARE(dataset.description().notes.size(), std::size_t{13});
        const RgbaImage image = wholeOf(dataset);
        QCOMPARE(int{image.pixels[0]}, static_cast<int>(speckle(0, 0, 0)));
    }
    void oneSystemWrittenInTwoWays_isOne() {
        makeGrid("ways");
        auto other = piece(900, 0);
        other.crs = "PROJCS[\"my grid\",GEOGCS[\"ETRS89\",DATUM[\"European_Terrestrial_Reference_System_1989\","
                    "SPHEROID[\"GRS 1980\",6378137,298.257222101]],PRIMEM[\"Greenwich\",0],"
                    "UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],"
                    "PARAMETER[\"latitude_of_origin\",0],PARAMETER[\"central_meridian\",-9],"
                    "PARAMETER[\"scale_factor\",0.9996],PARAMETER[\"false_easting\",500000],"
                    "PARAMETER[\"false_northing\",0],UNIT[\"metre\",1]]";
        test::make(other, file("ways/z.tif"));
        const Dataset dataset{file("ways")};
        QVERIFY2(dataset.description().notes.empty(), qPrintable(notesOf(dataset)));
        QCOMPARE(dataset.description().width, 1200);
    }
    void memberWhosePixelsAreNotThere_isAFaultWithAPlace() {
        makeGrid("lying");
        QFile part{m_folder->filePath("lying/part 11.tif")};
        QVERIFY(part.resize(part.size() / 2));
        try {
            const Dataset dataset{file("lying")};
            (void)wholeOf(dataset);
            QFAIL("read without a word");
        } catch (const Fault& fault) {
            QVERIFY2(QString{fault.what()}.contains("lying"), fault.what());
            QVERIFY(!fault.remedy().empty());
        }
    }
    void folderOfBadFiles_saysWhy() {
        QVERIFY(QDir{}.mkpath(m_folder->filePath("bad")));
        QFile text{m_folder->filePath("bad/a.tif")};
        QVERIFY(text.open(QIODevice::WriteOnly));
        text.write("no picture");
        text.close();
        try {
            const Dataset dataset{file("bad")};
            QFAIL("opened");
        } catch (const Fault& fault) {
            QVERIFY2(QString{fault.what()}.contains("a.tif is left out"), fault.what());
            QCOMPARE(fault.place(), file("bad"));
        }
    }
    void folderOfTiles_remainsOne() {
        QVERIFY(QDir{}.mkpath(m_folder->filePath("tiles/1/1")));
        test::MadeRaster made;
        made.driver = "PNG";
        made.width = made.height = 256;
        made.placed = false;
        made.value = [](int, int, int) { return 9; };
        test::make(made, file("tiles/1/1/1.png"));
        test::make(piece(0, 0), file("tiles/a.tif"));
        QCOMPARE(Dataset{file("tiles")}.description().format, std::string{"Folder of tiles z/x/y"});
    }

    void mosaic_isSharedThroughTheCache() {
        makeGrid("cached");
        const auto cache = std::make_shared<raster::BlockCache>(std::size_t{64} << 20);
        const Dataset one{file("cached"), {.blocks = cache}};
        (void)one.tile(0, 0, 0);
        const auto reads = cache->counts().reads;
        const Dataset two{file("cached"), {.blocks = cache}};
        (void)two.tile(0, 0, 0);
        QCOMPARE(cache->counts().reads, reads);
        fs::last_write_time(file("cached/part 00.tif"),
                            fs::last_write_time(file("cached/part 00.tif")) + std::chrono::seconds{5});
        const Dataset changed{file("cached"), {.blocks = cache}};
        (void)changed.tile(0, 0, 0);
        QVERIFY(cache->counts().reads > reads);
    }
    void pyramidOfAMosaic_isBuiltOnAllOfIt() {
        makeGrid("high");
        fs::remove(file("high/part 01.tif"));
        raster::buildPyramid(file("high"), raster::pyramidBeside(file("high")), {});
        QCOMPARE(raster::pyramidBeside(file("high") + "/").string(), file("high.ovr"));
        QCOMPARE(fs::directory_iterator{file("high")} == fs::directory_iterator{}, false);
        QCOMPARE(QDir{m_folder->filePath("high")}.entryList(QDir::Files).size(), 5);
        for (const bool asked : {false, true}) {
            const Dataset dataset{file("high"), {.pyramid = asked ? file("high.ovr") : ""}};
            QVERIFY2(dataset.description().notes.empty(), qPrintable(notesOf(dataset)));
            QCOMPARE(dataset.levels().size(), std::size_t{3}); // 900, 450, 225
            const auto tile = dataset.tile(1, 0, 0);
            for (const auto& [x, y] : {std::pair{50, 50}, {400, 50}, {200, 150}, {440, 190}}) {
                double mean = 0;
                for (int dy = 0; dy < 2; ++dy)
                    for (int dx = 0; dx < 2; ++dx)
                        mean += speckle(1, 2 * x + dx, 2 * y + dy) / 4;
                const std::uint32_t word = tile.words[static_cast<std::size_t>(y * tile.width + x)];
                QCOMPARE(word >> 24, 255U);
                QCOMPARE_LE(std::abs((word >> 8 & 255U) - mean), 1.0);
            }
            QCOMPARE(tile.words[static_cast<std::size_t>(50 * tile.width + 225)], 0U); // the hole
        }
        // One that was made of an earlier state would show what is no longer there.
        fs::last_write_time(file("high/part 00.tif"), fs::last_write_time(file("high.ovr")) + std::chrono::seconds{5});
        const Dataset stale{file("high")};
        QCOMPARE(stale.levels().size(), std::size_t{1});
        QVERIFY2(notesOf(stale).contains("older"), qPrintable(notesOf(stale)));
        // And one that belongs to another folder.
        makeGrid("whole");
        fs::copy_file(file("high.ovr"), file("whole.ovr"));
        fs::last_write_time(file("whole.ovr"), fs::file_time_type::clock::now() + std::chrono::seconds{5});
        test::make(piece(900, 0), file("whole/z.tif"));
        const Dataset foreign{file("whole")};
        QCOMPARE(foreign.levels().size(), std::size_t{1});
        QVERIFY2(notesOf(foreign).contains("cannot be used"), qPrintable(notesOf(foreign)));
    }
    void membersOverviews_areLevels() {
        QVERIFY(QDir{}.mkpath(m_folder->filePath("with levels")));
        for (int column = 0; column < 2; ++column) {
            auto made = piece(column * 512, 0, 512, 512);
            made.overviews = {2, 4};
            made.value = [](int, int, int) { return 90; };
            test::make(made, file(QStringLiteral("with levels/%1.tif").arg(column)));
        }
        const Dataset dataset{file("with levels")};
        QCOMPARE(dataset.levels().size(), std::size_t{3});
        QCOMPARE(dataset.levels()[1].width, 512);
        QCOMPARE(dataset.tile(2, 0, 0).words[7], 0xff5a5a5aU);
    }
};

QTEST_GUILESS_MAIN(MosaicFolderTest)
#include "mosaic_folder_test.moc"
