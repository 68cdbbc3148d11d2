#include "raster/appearance_proposal.h"

#include "fault.h"
#include "support/made_raster.h"

#include <gdal.h>

#include <QtTest>

using namespace fencewright;
using raster::Appearance;
using raster::AppearanceProposal;
using raster::Dataset;

namespace {

std::string imagery(const std::string& name) {
    return QStringLiteral(FENCEWRIGHT_TEST_DATA "/imagery/%1").arg(QString::fromStdString(name)).toStdString();
}

} // namespace

class AppearanceTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    std::string file(const char* name) const { return m_folder.filePath(name).toStdString(); }

private slots:
    void bands_areShownAsChosen() {
        test::MadeRaster made;
        made.width = 60;
        made.height = 50;
        made.bands = 6;
        made.type = "UInt16";
        made.value = [](int band, int x, int y) { return 1000 * (band + 1) + x + y; };
        test::make(made, file("six.tif"));
        const Dataset dataset{file("six.tif"),
                              {.appearance = {.bands = std::array{5, 2, 6}, .stretch = std::array{1000.0, 7000.0}}}};
        const auto image = dataset.read({0, 0, 60, 50}, 60, 50);
        const auto tile = dataset.tile(0, 0, 0);
        for (int y = 0; y < 50; ++y)
            for (int x = 0; x < 60; ++x)
                for (int channel = 0; channel < 3; ++channel) {
                    const int band = std::array{5, 2, 6}[static_cast<std::size_t>(channel)];
                    const double exact = (made.value(band - 1, x, y) - 1000) / 6000 * 255;
                    const auto index = static_cast<std::size_t>(y * 60 + x);
                    QCOMPARE_LE(
                        std::abs(image.pixels[index * 4 + static_cast<std::size_t>(channel)] - std::min(exact, 255.0)),
                        0.51);
                    QCOMPARE(tile.words[index] >> (16 - 8 * channel) & 255U,
                             unsigned{image.pixels[index * 4 + static_cast<std::size_t>(channel)]});
                }
    }
    void bandsThatAreNotThere_areRefusedWithWords_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QList<int>>("bands");
        QTest::addColumn<QString>("words");
        QTest::newRow("fifth of four") << "naip_m_3607824_se_17_1_20160620_sub.tif" << QList<int>{4, 1, 5}
                                       << "There is no band 5: the raster has 4 bands.";
        QTest::newRow("none") << "naip_m_3607824_se_17_1_20160620_sub.tif" << QList<int>{0, 1, 2}
                              << "There is no band 0";
        QTest::newRow("under none") << "naip_m_3607824_se_17_1_20160620_sub.tif" << QList<int>{1, -7, 2}
                                    << "There is no band -7";
        QTest::newRow("second of one") << "stars_geomatrix.tif" << QList<int>{1, 2, 1}
                                       << "There is no band 2: the raster has one band.";
    }
    void bandsThatAreNotThere_areRefusedWithWords() {
        QFETCH(QString, name);
        QFETCH(QList<int>, bands);
        QFETCH(QString, words);
        try {
            const Dataset dataset{imagery(name.toStdString()),
                                  {.appearance = {.bands = std::array{bands[0], bands[1], bands[2]}}}};
            QFAIL("opened");
        } catch (const Fault& fault) {
            QVERIFY2(QString::fromStdString(fault.problem()).startsWith(words), fault.what());
            QVERIFY(QString::fromStdString(fault.place()).endsWith(name));
            QVERIFY(!fault.remedy().empty());
        }
    }
    void stretchThatIsNone_isRefused() {
        for (const auto& stretch : {std::array{5.0, 5.0}, {9.0, 1.0}, {std::nan(""), 1.0}, {0.0, HUGE_VAL}})
            QVERIFY_EXCEPTION_THROWN((Dataset{imagery("stars_geomatrix.tif"), {.appearance = {.stretch = stretch}}}),
                                     Fault);
    }
    void stretchedBytes_keepWhatIsNoData() {
        // 0 is no data here: it stays transparent though 0 is far below what becomes black.
        const Dataset dataset{imagery("rasterio_RGB.byte.tif"), {.appearance = {.stretch = std::array{20.0, 120.0}}}};
        const Dataset plain{imagery("rasterio_RGB.byte.tif")};
        const auto stretched = dataset.read({0, 0, 791, 718}, 791, 718);
        const auto own = plain.read({0, 0, 791, 718}, 791, 718);
        for (std::size_t index = 0; index < own.pixels.size(); index += 4) {
            QCOMPARE(stretched.pixels[index + 3], own.pixels[index + 3]);
            if (own.pixels[index + 3])
                for (std::size_t band = 0; band < 3; ++band)
                    QCOMPARE_LE(std::abs(stretched.pixels[index + band] -
                                         255 * std::clamp((own.pixels[index + band] - 20.0) / 100, 0.0, 1.0)),
                                0.51);
        }
    }
    void paletteShownByBands_isItsNumbers() {
        const Dataset dataset{imagery("stars_lc.tif"), {.appearance = {.bands = std::array{1, 1, 1}}}};
        const auto image = dataset.read({0, 0, 84, 46}, 84, 46);
        GDALAllRegister();
        GDALDatasetH opened = GDALOpen(imagery("stars_lc.tif").c_str(), GA_ReadOnly);
        std::vector<std::uint8_t> numbers(84 * 46);
        QCOMPARE(
            GDALRasterIO(GDALGetRasterBand(opened, 1), GF_Read, 0, 0, 84, 46, numbers.data(), 84, 46, GDT_Byte, 0, 0),
            CE_None);
        GDALClose(opened);
        for (std::size_t index = 0; index < numbers.size(); ++index)
            QCOMPARE(image.pixels[index * 4 + 1], numbers[index]);
    }

    void proposal_knowsTheInfraredOfAnAerialPicture() {
        // The fourth band of this programme's pictures is near infrared: USDA, "NAIP imagery", four-band (RGB + NIR).
        const Dataset dataset{imagery("naip_m_3607824_se_17_1_20160620_sub.tif")};
        const AppearanceProposal proposal = raster::proposeAppearance(dataset);
        QCOMPARE(proposal.bands.size(), std::size_t{4});
        QCOMPARE(proposal.bands[0].name.english(), std::string{"Red"});
        QCOMPARE(proposal.bands[3].name.english(), std::string{"Near infrared"});
        QCOMPARE(proposal.infrared, std::optional{4});
        QVERIFY(!proposal.infraredIsNamed);
        QCOMPARE(proposal.usual, (std::array{1, 2, 3}));
        QCOMPARE(*proposal.falseColour, (std::array{4, 1, 2}));
        QVERIFY(!proposal.palette);
        // The values: from GDAL's histogram of the whole band, which the coarse view nearly is (300 x 300 of 256 x
        // 256).
        // The library leaves it in a file beside the raster.
        QVERIFY(QFile::copy(QString::fromStdString(imagery("naip_m_3607824_se_17_1_20160620_sub.tif")),
                            m_folder.filePath("counted.tif")));
        GDALDatasetH opened = GDALOpen(file("counted.tif").c_str(), GA_ReadOnly);
        for (int band = 0; band < 4; ++band) {
            GUIntBig counts[256];
            QCOMPARE(GDALGetRasterHistogramEx(GDALGetRasterBand(opened, band + 1), -0.5, 255.5, 256, counts, TRUE,
                                              FALSE, nullptr, nullptr),
                     CE_None);
            const auto percentile = [&](double share) {
                double sum = 0;
                int value = 0;
                while ((sum += static_cast<double>(counts[value])) < share * 300 * 300)
                    ++value;
                return value;
            };
            const auto& offered = proposal.bands[static_cast<std::size_t>(band)];
            QCOMPARE_LE(std::abs(offered.low - percentile(0.02)), 6.0);
            QCOMPARE_LE(std::abs(offered.high - percentile(0.98)), 6.0);
            QVERIFY(offered.darkest <= offered.low && offered.high <= offered.lightest);
        }
        GDALClose(opened);
        // The choice of others does not change what is offered.
        const Dataset other{imagery("naip_m_3607824_se_17_1_20160620_sub.tif"),
                            {.appearance = {.bands = std::array{4, 4, 4}}}};
        QCOMPARE(raster::proposeAppearance(other).usual, (std::array{1, 2, 3}));
    }
    void proposal_readsTheNamesOfBands_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<bool>("infrared");
        for (const char* name : {"NIR", "Near infrared", "near-infrared", "nir_1", "NIR2", "IR"})
            QTest::newRow(name) << name << true;
        for (const char* name : {"Red", "SWIR 1", "Shortwave infrared", "Thermal infrared", "Souvenir", "First", ""})
            QTest::addRow("'%s'", name) << name << false;
    }
    void proposal_readsTheNamesOfBands() {
        QFETCH(QString, name);
        QFETCH(bool, infrared);
        test::MadeRaster made;
        made.width = made.height = 20;
        made.bands = 5;
        made.value = [](int, int, int) { return 5; };
        test::make(made, file("named.tif"));
        GDALDatasetH opened = GDALOpen(file("named.tif").c_str(), GA_Update);
        GDALSetDescription(GDALGetRasterBand(opened, 5), name.toUtf8().constData());
        GDALClose(opened);
        const AppearanceProposal proposal = raster::proposeAppearance(Dataset{file("named.tif")});
        QCOMPARE(proposal.infrared, infrared ? std::optional{5} : std::nullopt);
        QCOMPARE(proposal.infraredIsNamed, infrared);
        QCOMPARE(proposal.falseColour.has_value(), infrared);
        QCOMPARE(QString::fromStdString(proposal.bands[4].name.english()),
                 name.isEmpty() ? QStringLiteral("Band 5") : name);
    }
    void proposal_leavesOutWhatStandsForNothing() {
        test::MadeRaster made;
        made.width = made.height = 200;
        made.bands = 1;
        made.type = "Float32";
        made.noData = 60'000;
        made.value = [](int, int x, int y) { return x < 100 ? 60'000 : 10 + y / 10.0; };
        test::make(made, file("half.tif"));
        const auto proposal = raster::proposeAppearance(Dataset{file("half.tif")});
        QCOMPARE_LE(std::abs(proposal.bands[0].darkest - 10), 0.01);
        QCOMPARE_LE(std::abs(proposal.bands[0].lightest - 29.9), 0.01);
        QCOMPARE_LE(std::abs(proposal.bands[0].low - 10.4), 0.11);
        QCOMPARE_LE(std::abs(proposal.bands[0].high - 29.5), 0.11);
        QCOMPARE(proposal.usual, (std::array{1, 1, 1}));
    }
    void proposal_ofPaletteAndAlpha() {
        QVERIFY(raster::proposeAppearance(Dataset{imagery("stars_lc.tif")}).palette);
        const auto proposal = raster::proposeAppearance(Dataset{imagery("linz_aerial.tif")});
        QVERIFY(!proposal.infrared);
        QVERIFY(!proposal.bands[3].shown);
        QCOMPARE(proposal.bands[3].name.english(), std::string{"Alpha"});
        QCOMPARE(proposal.usual, (std::array{1, 2, 3}));
        // Band order blue, green, red, as gdalinfo prints it.
        QCOMPARE(raster::proposeAppearance(Dataset{imagery("rasterio_RGBA.uint16.tif")}).usual, (std::array{3, 2, 1}));
    }
};

QTEST_GUILESS_MAIN(AppearanceTest)
#include "appearance_test.moc"
