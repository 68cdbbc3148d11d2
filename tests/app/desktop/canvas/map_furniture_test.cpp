#include "desktop/canvas/map_furniture.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;

class MapFurnitureTest : public QObject {
    Q_OBJECT

private slots:
    void scaleBar_staysInItsRoom_atEveryScale() {
        const QRectF widget{0, 0, 800, 600};
        for (const units::System system : {units::System::Metric, units::System::Us})
            for (double metres = 0.01; metres < 50'000.0; metres *= 1.3) {
                const ScaleBar bar = scaleBar(metres, kWidestScaleBar, system);
                const QRectF plate = scaleBarPlate(widget, bar, QFont{});
                QVERIFY2(plate.right() <= kScaleBarRoom && plate.right() > 100, qPrintable(bar.words));
            }
    }

    void scaleBar_isRound_andAsLongAsItSays_data() {
        QTest::addColumn<double>("metresPerPixel");
        QTest::addColumn<bool>("metric");
        QTest::addColumn<QString>("words");
        // Figures by definition of the units: 200 m = 656.17 ft, 500 ft = 152.4 m, 1 mi = 1.609344 km.
        QTest::newRow("metric") << 1.6 << true << "200 m · 656 ft";
        QTest::newRow("metric, near") << 0.02 << true << "2 m · 6.6 ft";
        QTest::newRow("metric, far") << 30.0 << true << "2 km · 1.2 mi";
        QTest::newRow("us") << 1.2 << false << "500 ft · 152 m";
        QTest::newRow("us, far") << 15.0 << false << "1 mi · 1.6 km";
    }
    void scaleBar_isRound_andAsLongAsItSays() {
        QFETCH(double, metresPerPixel);
        QFETCH(bool, metric);
        QFETCH(QString, words);
        const ScaleBar bar = scaleBar(metresPerPixel, 140.0, metric ? units::System::Metric : units::System::Us);
        QCOMPARE(bar.words, words);
        QCOMPARE_LE(bar.pixels, 140.0 + 1e-9);
        QCOMPARE_GE(bar.pixels, 140.0 / 2.5 - 1e-9);
        QCOMPARE_LE(std::abs(bar.pixels * metresPerPixel - bar.length.inMetres()), 1e-9);
    }

    void niceDegrees_areWholePartsOfADegree() {
        QCOMPARE(niceDegrees(0.0021, geodesy::Notation::DegreesMinutesSeconds), 10.0 / 3600.0);
        QCOMPARE(niceDegrees(0.3, geodesy::Notation::DegreesMinutesSeconds), 0.5);
        QCOMPARE(niceDegrees(0.0021, geodesy::Notation::DecimalDegrees), 0.005);
        QCOMPARE(niceDegrees(1e-9, geodesy::Notation::DegreesMinutesSeconds), 0.01 / 3600.0);
        QCOMPARE(niceDegrees(500.0, geodesy::Notation::DegreesMinutesSeconds), 30.0);
    }

    void numbersOfThePapersLines_standNowhereThatIsCovered() {
        ViewTransform view;
        view.setSize({900, 600});
        view.setOrigin({-8.73, 46.21});
        view.setMetresPerPixel(5.0);
        const GridLines lines = gridLines(view, session::MapGrid::Degrees, geodesy::Notation::DegreesMinutesSeconds);
        const auto painted = [&](const std::vector<QRectF>& covered) {
            QImage image{900, 600, QImage::Format_RGB32};
            QPainter painter{&image};
            paintGround(painter, view, false, lines, QFont{}, covered);
            return image;
        };
        const QImage bare = painted({}), none = painted({QRectF{0, 0, 900, 600}});
        const QRect left{0, 0, 250, 600};
        QVERIFY(bare.copy(left) != none.copy(left)); // numbers stand there
        const QImage half = painted({QRectF{left}});
        QVERIFY(half.copy(left.adjusted(0, 0, -1, 0)) == none.copy(left.adjusted(0, 0, -1, 0)));
        QVERIFY(half != none); // and elsewhere they still do
    }
};

QTEST_MAIN(MapFurnitureTest)
#include "map_furniture_test.moc"
