// Published topology cases: tests/data/jts-testxml, see SOURCE.md there.
#include "geometry/containment.h"
#include "geometry/overlay.h"
#include "geometry/validity.h"
#include "support/topology_cases.h"

#include <QtTest>

#include <algorithm>
#include <cmath>

using namespace fencewright;

namespace {

double planeArea(const model::Ring& ring) {
    double twice = 0.0;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
        twice += a.lon * b.lat - b.lon * a.lat;
    }
    return std::abs(twice) / 2.0;
}
double planeArea(const model::MultiPolygon& surface) {
    double area = 0.0;
    for (const auto& part : surface.parts) {
        area += planeArea(part.shell);
        for (const auto& hole : part.holes)
            area -= planeArea(hole);
    }
    return area;
}

const std::string kFolder = FENCEWRIGHT_TEST_DATA "/jts-testxml/";

} // namespace

class TopologySuiteTest : public QObject {
    Q_OBJECT

private slots:
    void isValid_agreesWithTheSuite_data() {
        QTest::addColumn<QString>("wkt");
        QTest::addColumn<bool>("valid");
        int polygons = 0;
        for (const char* file : {"TestValid.xml", "TestValid2.xml"})
            for (const auto& one : tests::topologyCases(kFolder + file)) {
                const auto surface = tests::surfaceFromWkt(one.a);
                if (one.operation != "isValid" || !surface || surface->parts.size() != 1)
                    continue;
                ++polygons;
                QTest::addRow("%s: %s (%d)", file, one.description.c_str(), polygons)
                    << QString::fromStdString(one.a) << (one.expected == "true");
            }
        QVERIFY2(polygons > 250, qPrintable(QString::number(polygons)));
    }
    void isValid_agreesWithTheSuite() {
        QFETCH(QString, wkt);
        QFETCH(bool, valid);
        const auto polygon = tests::surfaceFromWkt(wkt.toStdString())->parts.front();
        QCOMPARE(geometry::isValid(polygon), valid);
        auto faults = geometry::faults(polygon);
        std::erase_if(faults, [](const auto& fault) {
            return fault.kind == geometry::FaultKind::RepeatedCorner ||
                   fault.kind == geometry::FaultKind::ClosureAssumed;
        });
        QCOMPARE(faults.empty(), valid);
    }

    void overlay_agreesWithTheSuite_data() {
        QTest::addColumn<QString>("operation");
        QTest::addColumn<QString>("a");
        QTest::addColumn<QString>("b");
        QTest::addColumn<QString>("expected");
        int number = 0;
        for (const auto& one : tests::topologyCases(kFolder + "TestOverlayAA.xml"))
            if (one.operation != "symdifference")
                QTest::addRow("%s, %s (%d)", one.description.c_str(), one.operation.c_str(), ++number)
                    << QString::fromStdString(one.operation) << QString::fromStdString(one.a)
                    << QString::fromStdString(one.b) << QString::fromStdString(one.expected);
    }
    void overlay_agreesWithTheSuite() {
        QFETCH(QString, operation);
        QFETCH(QString, a);
        QFETCH(QString, b);
        QFETCH(QString, expected);
        const auto first = *tests::surfaceFromWkt(a.toStdString());
        const auto second = *tests::surfaceFromWkt(b.toStdString());
        model::MultiPolygon result;
        if (operation == "intersection")
            result = geometry::intersection(first, second);
        else if (operation == "difference")
            result = geometry::difference(first, second);
        else
            result = geometry::united(std::vector{first, second});
        // A result without surface stands in the suite as points or lines.
        const auto wanted = tests::surfaceFromWkt(expected.toStdString()).value_or(model::MultiPolygon{});
        const double apart =
            planeArea(geometry::difference(result, wanted)) + planeArea(geometry::difference(wanted, result));
        QVERIFY2(apart <= 1e-12 * (planeArea(first) + planeArea(second)), qPrintable(QString::number(apart)));
        for (const auto& part : result.parts)
            QVERIFY(geometry::isValid(part));
    }
};

QTEST_APPLESS_MAIN(TopologySuiteTest)
#include "topology_suite_test.moc"
