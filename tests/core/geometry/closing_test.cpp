#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "geometry/overlay.h"
#include "geometry/validity.h"
#include "support/topology_cases.h"

#include <QFile>
#include <QtTest>

#include <cmath>

using namespace fencewright;
using geometry::Side;
using model::MultiPolygon;
using model::Position;

namespace {

std::vector<MultiPolygon> parcelsOf(const char* folder) {
    QFile file{QString{FENCEWRIGHT_TEST_DATA "/%1/parcels.wkt"}.arg(folder)};
    std::vector<MultiPolygon> parcels;
    if (file.open(QIODevice::ReadOnly))
        for (QByteArray line = file.readLine(); !line.isEmpty(); line = file.readLine())
            parcels.push_back(*tests::surfaceFromWkt(line.toStdString()));
    return parcels;
}

/// A surface given in metres round a place.
MultiPolygon onGround(const char* wkt) {
    const geodesy::LocalFrame frame{{21.27, 40.52}};
    auto surface = *tests::surfaceFromWkt(wkt);
    const auto place = [&](model::Ring& ring) {
        for (auto& corner : ring.corners)
            corner = frame.toEarth(geodesy::PlanePoint{corner.lon, corner.lat});
    };
    for (auto& part : surface.parts) {
        place(part.shell);
        for (auto& hole : part.holes)
            place(hole);
    }
    return surface;
}

double squareMetres(const MultiPolygon& surface) { return geodesy::measure(surface).area.inSquareMetres(); }

} // namespace

class ClosingTest : public QObject {
    Q_OBJECT

private slots:
    void unitedClosing_closesWhatLiesBetween_data() {
        QTest::addColumn<QString>("a");
        QTest::addColumn<QString>("b");
        QTest::addColumn<double>("gap"); // square metres that close, by plane geometry; the mouths round off a little
        QTest::newRow("hairline gap") << "POLYGON((0 0, 50 0, 50 50, 0 50, 0 0))"
                                      << "POLYGON((50.05 0, 100 0, 100 50, 50.05 50, 50.05 0))" << 2.5;
        QTest::newRow("gap of two thirds of the tolerance")
            << "POLYGON((0 0, 50 0, 50 50, 0 50, 0 0))"
            << "POLYGON((50.67 0, 100 0, 100 50, 50.67 50, 50.67 0))" << 33.5;
        QTest::newRow("gap wider than the tolerance") << "POLYGON((0 0, 50 0, 50 50, 0 50, 0 0))"
                                                      << "POLYGON((51.2 0, 100 0, 100 50, 51.2 50, 51.2 0))" << 0.0;
        QTest::newRow("wedge that narrows to nothing") << "POLYGON((0 0, 50 0, 50 50, 0 50, 0 0))"
                                                       << "POLYGON((50 0, 100 0, 100 50, 50.5 50, 50 0))" << 12.5;
        QTest::newRow("gap closed all round")
            << "POLYGON((0 0, 50 0, 50 10, 49.8 11, 49.8 30, 50 31, 50 50, 0 50, 0 0))"
            << "POLYGON((50 0, 100 0, 100 50, 50 50, 50 0))" << 4.0;
        QTest::newRow("neighbours with an open corner") // an L: no gap, and its corner stays as it is
            << "POLYGON((0 0, 50 0, 50 50, 0 50, 0 0))"
            << "POLYGON((50 0, 100 0, 100 20, 50 20, 50 0))" << 0.0;
        QTest::newRow("narrow inlet of one parcel") // the land is as it is
            << "POLYGON((0 0, 50 0, 50 50, 25.3 50, 25.3 20, 25 20, 25 50, 0 50, 0 0))"
            << "POLYGON((50 0, 100 0, 100 50, 50 50, 50 0))" << 0.0;
        QTest::newRow("overlap") << "POLYGON((0 0, 50 0, 50 50, 0 50, 0 0))"
                                 << "POLYGON((49.9 0, 100 0, 100 50, 49.9 50, 49.9 0))" << 0.0;
    }
    void unitedClosing_closesWhatLiesBetween() {
        QFETCH(QString, a);
        QFETCH(QString, b);
        QFETCH(double, gap);
        const std::vector<MultiPolygon> parcels{onGround(qPrintable(a)), onGround(qPrintable(b))};
        const auto closed = geometry::unitedClosing(parcels, Length::metres(1));
        const double added = squareMetres(closed.closedGaps);
        // Where the gap opens, an arc of radius 0.5 cuts off less than 0.15 m2 at each of two ends.
        QVERIFY2(added <= gap + 1e-3 && added >= gap - 0.3, qPrintable(QString::number(added)));
        QCOMPARE(geometry::unitedClosing(parcels, Length{}).closedGaps.parts.size(), std::size_t{0});
        if (gap > 0.0) {
            QCOMPARE(closed.surface.parts.size(), std::size_t{1});
            QCOMPARE(closed.surface.parts[0].holes.size(), std::size_t{0});
        }
        for (const auto& parcel : parcels)
            QVERIFY(geometry::difference(parcel, closed.surface).empty());
    }

    // Real land records: neighbours overlap and leave gaps.
    void unitedClosing_ofRealParcels_data() {
        QTest::addColumn<QString>("folder");
        QTest::addColumn<int>("parcels");
        QTest::newRow("kastoria") << "parcels-kastoria" << 493;
        QTest::newRow("overlapping") << "parcels-overlapping" << 1;
    }
    void unitedClosing_ofRealParcels() {
        QFETCH(QString, folder);
        QFETCH(int, parcels);
        const auto given = parcelsOf(qPrintable(folder));
        QCOMPARE(given.size(), static_cast<std::size_t>(parcels));
        const auto plain = geometry::united(given);
        const auto tolerance = Length::metres(0.5);
        const auto closed = geometry::unitedClosing(given, tolerance);
        for (const auto& part : closed.surface.parts)
            QVERIFY(geometry::isValid(part));
        for (const auto& parcel : given)
            QVERIFY(geometry::difference(parcel, closed.surface).empty());
        // Nothing is added beyond half the tolerance from the land.
        const auto reach = geometry::grown(plain, tolerance / 2.0, Side::Grow);
        QVERIFY(geometry::contains(reach, closed.closedGaps));
        // What a second closing would add is not worth a square decimetre: no gap was left.
        const auto again = geometry::unitedClosing(std::vector{closed.surface}, tolerance);
        QVERIFY2(squareMetres(again.closedGaps) < 0.01, qPrintable(QString::number(squareMetres(again.closedGaps))));
        qInfo("parts %zu -> %zu, area %.3f -> %.3f m2, gaps closed %zu with %.3f m2", plain.parts.size(),
              closed.surface.parts.size(), squareMetres(plain), squareMetres(closed.surface),
              closed.closedGaps.parts.size(), squareMetres(closed.closedGaps));
    }
};

QTEST_APPLESS_MAIN(ClosingTest)
#include "closing_test.moc"
