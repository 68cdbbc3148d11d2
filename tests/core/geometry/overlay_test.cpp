#include "geometry/overlay.h"

#include "geometry/containment.h"

#include <QtTest>

using namespace fencewright;
using model::MultiPolygon;
using model::Polygon;

namespace {

MultiPolygon box(double west, double south, double east, double north) {
    return {{Polygon{{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}}}};
}

} // namespace

class OverlayTest : public QObject {
    Q_OBJECT

private slots:
    void overlay_ofBoxes() {
        const auto a = box(0, 0, 2, 2), b = box(1, 1, 3, 3);
        QVERIFY(geometry::sameArea(geometry::intersection(a, b), box(1, 1, 2, 2)));
        const std::vector<MultiPolygon> both{a, b};
        const auto whole = geometry::united(both);
        QVERIFY(geometry::contains(whole, a));
        QVERIFY(geometry::contains(whole, b));
        QVERIFY(geometry::sameArea(geometry::difference(whole, b), geometry::difference(a, b)));
        QVERIFY(geometry::intersection(geometry::difference(a, b), b).empty());
    }

    void overlay_bringsTurnsTogether() {
        const auto east = box(179, 0, 181, 1), west = box(-180.5, 0, -179.5, 1);
        QVERIFY(geometry::sameArea(geometry::intersection(east, west), box(179.5, 0, 180.5, 1)));
    }

    // RFC 7946 section 3.1.9: the rectangle 40-50 N, 170 E - 170 W.
    void cutAtAntimeridian_cutsAsTheStandardShows() {
        const auto cut = geometry::cutAtAntimeridian(box(170, 40, 190, 50));
        QCOMPARE(cut.parts.size(), std::size_t{2});
        QVERIFY(geometry::sameArea({{cut.parts[0]}}, box(170, 40, 180, 50)));
        QVERIFY(geometry::sameArea({{cut.parts[1]}}, box(-180, 40, -170, 50)));
        for (const auto& part : cut.parts)
            for (const auto& corner : part.shell.corners)
                QVERIFY(std::abs(corner.lon) <= 180.0);
    }
};

QTEST_APPLESS_MAIN(OverlayTest)
#include "overlay_test.moc"
