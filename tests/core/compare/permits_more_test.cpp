#include "compare/permits_more.h"

#include <QtTest>

#include <cmath>
#include <random>

using namespace fencewright;
using compare::Difference;
using compare::DifferenceKind;
using compare::HeldFence;
using model::FenceKind;
using model::HeightReference;

namespace {

model::Polygon rectangle(double west, double south, double east, double north) {
    return {{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}};
}

HeldFence fence(const std::string& id, FenceKind kind, const model::Polygon& polygon) {
    HeldFence result;
    result.id = id;
    result.name = "Fence " + id;
    result.kind = kind;
    result.surface.parts = {polygon};
    return result;
}

model::HeightLimit limit(double metres, HeightReference reference) { return {{Length::metres(metres), ""}, reference}; }

std::vector<Difference> differences(const std::vector<HeldFence>& approved, const std::vector<HeldFence>& held) {
    return compare::differences(approved, held);
}

const HeldFence kArea = fence("a", FenceKind::KeepIn, rectangle(10, 50, 10.1, 50.1));
const HeldFence kNest = fence("b", FenceKind::KeepOut, rectangle(10.02, 50.02, 10.04, 50.04));

} // namespace

// The expected verdicts follow from the words alone: a keep-out forbids its inside, a keep-in all outside.
class PermitsMoreTest : public QObject {
    Q_OBJECT

private slots:
    void sameFences_haveNoDifference() {
        QVERIFY(differences({kArea, kNest}, {kArea, kNest}).empty());
        QVERIFY(differences({kArea, kNest}, {kNest, kArea}).empty());
        QVERIFY(differences({}, {}).empty());
    }

    void sameSurfaceWrittenOtherwise_isNoDifference() {
        HeldFence turned = kNest; // starts elsewhere, goes the other way round, has a corner more on an edge
        turned.surface.parts = {
            {{{{10.04, 50.04}, {10.04, 50.02}, {10.03, 50.02}, {10.02, 50.02}, {10.02, 50.04}}}, {}}};
        QVERIFY(differences({kArea, kNest}, {kArea, turned}).empty());
    }

    void oneUnitInLastPlace_isSeen_data() {
        QTest::addColumn<bool>("keepIn");
        QTest::addColumn<bool>("outward");
        QTest::addColumn<bool>("permits");
        QTest::newRow("keep-in outward") << true << true << true;
        QTest::newRow("keep-in inward") << true << false << false;
        QTest::newRow("keep-out outward") << false << true << false;
        QTest::newRow("keep-out inward") << false << false << true;
    }
    void oneUnitInLastPlace_isSeen() {
        QFETCH(bool, keepIn);
        QFETCH(bool, outward);
        QFETCH(bool, permits);
        HeldFence approved = keepIn ? kArea : kNest;
        HeldFence held = approved;
        double& east = held.surface.parts[0].shell.corners[1].lon;
        east = std::nextafter(east, outward ? 180 : -180);
        const auto found = differences({approved}, {held});
        QCOMPARE(found.size(), 1U);
        QCOMPARE(found[0].kind, outward ? DifferenceKind::Larger : DifferenceKind::Smaller);
        QCOMPARE(found[0].permitsMore, permits);
        QCOMPARE(compare::permitsMore(found), permits);
    }

    void movedFence_isBothLargerAndSmaller() {
        HeldFence moved = kNest;
        moved.surface.parts = {rectangle(10.03, 50.02, 10.05, 50.04)};
        const auto found = differences({kArea, kNest}, {kArea, moved});
        QCOMPARE(found.size(), 2U);
        QVERIFY(found[0].kind == DifferenceKind::Larger && !found[0].permitsMore);
        QVERIFY(found[1].kind == DifferenceKind::Smaller && found[1].permitsMore);
        // A cell of 0.01 by 0.02 degrees at 50.03 N: 716.5 m by 2224.6 m by the usual series for the length of a degree
        // on WGS 84 (111 412.84 cos lat - 93.5 cos 3 lat, 111 132.92 - 559.82 cos 2 lat metres; written down from
        // memory).
        QVERIFY2(std::abs(found[1].area.inSquareMetres() / (716.55 * 2224.6) - 1) < 1e-3,
                 qPrintable(QString::number(found[1].area.inSquareMetres())));
    }

    void missing_permitsMoreForKeepOuts() {
        const auto found = differences({kArea, kNest}, {kArea});
        QCOMPARE(found.size(), 1U);
        QCOMPARE(found[0].kind, DifferenceKind::Missing);
        QVERIFY(found[0].permitsMore);
        QCOMPARE(found[0].fence, "Fence b");
        QVERIFY(found[0].area.inSquareMetres() > 0);
    }

    void missingKeepIn_permitsMoreOnlyWhereItWasTheLast() {
        const HeldFence other = fence("c", FenceKind::KeepIn, rectangle(11, 50, 11.1, 50.1));
        const auto oneLeft = differences({kArea, other}, {other});
        QCOMPARE(oneLeft.size(), 1U);
        QVERIFY(!oneLeft[0].permitsMore);
        const auto noneLeft = differences({kArea, kNest}, {kNest});
        QCOMPARE(noneLeft.size(), 1U);
        QVERIFY(noneLeft[0].permitsMore);
    }

    void added_permitsMoreForKeepIns() {
        const auto keepIn = differences({kNest}, {kNest, kArea});
        QCOMPARE(keepIn.size(), 1U);
        QCOMPARE(keepIn[0].kind, DifferenceKind::Added);
        QVERIFY(keepIn[0].permitsMore);
        const auto keepOut = differences({kArea}, {kArea, kNest});
        QCOMPARE(keepOut.size(), 1U);
        QVERIFY(!keepOut[0].permitsMore);
    }

    void kindChanged_permitsMore() {
        HeldFence swapped = kNest;
        swapped.kind = FenceKind::KeepIn;
        const auto found = differences({kArea, kNest}, {kArea, swapped});
        QCOMPARE(found.size(), 1U);
        QCOMPARE(found[0].kind, DifferenceKind::KindChanged);
        QVERIFY(found[0].permitsMore);

        HeldFence closed = kArea;
        closed.kind = FenceKind::KeepOut;
        QVERIFY(differences({kArea}, {closed}).at(0).permitsMore); // nothing bounds the flight any more
    }

    void bands_data() {
        QTest::addColumn<bool>("keepIn");
        QTest::addColumn<bool>("isCeiling");
        QTest::addColumn<double>("approved"); // metres above ground; NaN: no limit
        QTest::addColumn<double>("held");
        QTest::addColumn<bool>("differs");
        QTest::addColumn<bool>("permits");
        const double none = std::nan("");
        QTest::newRow("keep-in, ceiling raised") << true << true << 120.0 << 121.0 << true << true;
        QTest::newRow("keep-in, ceiling lowered") << true << true << 120.0 << 119.0 << true << false;
        QTest::newRow("keep-in, ceiling lost") << true << true << 120.0 << none << true << true;
        QTest::newRow("keep-in, ceiling gained") << true << true << none << 120.0 << true << false;
        QTest::newRow("keep-out, ceiling raised") << false << true << 120.0 << 121.0 << true << false;
        QTest::newRow("keep-out, ceiling lowered") << false << true << 120.0 << 119.0 << true << true;
        QTest::newRow("keep-out, ceiling lost") << false << true << 120.0 << none << true << false;
        QTest::newRow("keep-out, ceiling gained") << false << true << none << 120.0 << true << true;
        QTest::newRow("keep-in, floor lowered") << true << false << 30.0 << 20.0 << true << true;
        QTest::newRow("keep-in, floor raised") << true << false << 30.0 << 40.0 << true << false;
        QTest::newRow("keep-in, floor lost") << true << false << 30.0 << none << true << true;
        QTest::newRow("keep-out, floor raised") << false << false << 30.0 << 40.0 << true << true;
        QTest::newRow("keep-out, floor gained") << false << false << none << 10.0 << true << true;
        QTest::newRow("keep-out, floor on the ground") << false << false << none << 0.0 << false << false;
        QTest::newRow("keep-in, floor on the ground lost") << true << false << 0.0 << none << false << false;
        QTest::newRow("same ceiling") << true << true << 120.0 << 120.0 << false << false;
    }
    void bands() {
        QFETCH(bool, keepIn);
        QFETCH(bool, isCeiling);
        QFETCH(double, approved);
        QFETCH(double, held);
        QFETCH(bool, differs);
        QFETCH(bool, permits);
        HeldFence a = keepIn ? kArea : kNest;
        HeldFence h = a;
        const auto set = [&](HeldFence& each, double metres) {
            if (!std::isnan(metres))
                (isCeiling ? each.ceiling : each.floor) = limit(metres, HeightReference::Ground);
        };
        set(a, approved);
        set(h, held);
        const auto found = differences({a}, {h});
        QCOMPARE(found.size(), differs ? 1U : 0U);
        QCOMPARE(compare::permitsMore(found), permits);
        if (differs)
            QCOMPARE(found[0].kind, DifferenceKind::BandChanged);
    }

    void bandsWithOtherReferences_cannotBeCompared() {
        HeldFence a = kArea;
        HeldFence h = kArea;
        a.ceiling = limit(120, HeightReference::Ground);
        h.ceiling = limit(1, HeightReference::MeanSeaLevel);
        const auto found = differences({a}, {h});
        QCOMPARE(found.size(), 1U);
        QVERIFY(found[0].permitsMore);
        QVERIFY(found[0].words.english().find("cannot be compared") != std::string::npos);
    }

    void matchingIsByIdThenByName() {
        HeldFence renamed = kNest;
        renamed.name = "Other";
        const auto byId = differences({kArea, kNest}, {kArea, renamed});
        QCOMPARE(byId.size(), 1U);
        QVERIFY(byId[0].kind == DifferenceKind::NameChanged && !byId[0].permitsMore);

        HeldFence withoutId = kNest;
        withoutId.id = "9";
        QVERIFY(differences({kArea, kNest}, {kArea, withoutId}).empty());
    }

    void amongFencesOfOneName_theMostAlikeIsMatched() {
        std::vector<HeldFence> approved;
        for (int i = 0; i < 5; ++i) {
            approved.push_back(fence(std::to_string(i), FenceKind::KeepOut, rectangle(10 + i, 50, 10.5 + i, 51)));
            approved.back().name = "Area";
        }
        std::vector<HeldFence> held{approved.rbegin(), approved.rend()};
        for (HeldFence& each : held)
            each.id.clear();
        QVERIFY(differences(approved, held).empty());
    }

    void antimeridian_cutPartsCountAsOneSurface() {
        const HeldFence approved = fence("a", FenceKind::KeepOut, rectangle(179.5, -17, 180.5, -16));
        HeldFence held = approved;
        held.surface.parts = {rectangle(179.5, -17, 180, -16), rectangle(-180, -17, -179.5, -16)};
        QVERIFY(differences({approved}, {held}).empty());
        held.surface.parts[1] = rectangle(-180, -17, -179.6, -16);
        QVERIFY(compare::permitsMore(differences({approved}, {held})));
        held.surface.parts.pop_back();
        QVERIFY(compare::permitsMore(differences({approved}, {held})));
    }

    void emptyHeldSurface_isSmaller() {
        HeldFence held = kNest;
        held.surface.parts.clear();
        QVERIFY(compare::permitsMore(differences({kNest}, {held})));
    }

    void crossedRings_areReadTheWayThatPermitsMost() {
        HeldFence held = kNest; // a bow tie over the same four corners covers half of them, however it is read
        std::swap(held.surface.parts[0].shell.corners[2], held.surface.parts[0].shell.corners[3]);
        QVERIFY(compare::permitsMore(differences({kNest}, {held})));
    }

    void filledHole_ofAKeepIn_permitsMore() {
        HeldFence approved = kArea;
        approved.surface.parts[0].holes = {rectangle(10.04, 50.04, 10.06, 50.06).shell};
        HeldFence held = approved;
        held.surface.parts[0].holes.clear();
        const auto found = differences({approved}, {held});
        QCOMPARE(found.size(), 1U);
        QVERIFY(found[0].kind == DifferenceKind::Larger && found[0].permitsMore);
    }

    // Rectangles on a lattice: containment there is a matter of four comparisons, and permission of cells.
    void randomRectangles_agreeWithCells() {
        constexpr unsigned kSeed = 20261125;
        std::mt19937 random{kSeed};
        const auto number = [&](int low, int high) { return std::uniform_int_distribution<int>{low, high}(random); };
        constexpr int kSide = 6;
        struct Cells {
            int west, south, east, north;
            bool has(int x, int y) const { return x >= west && x < east && y >= south && y < north; }
        };
        for (int run = 0; run < 1000; ++run) {
            const auto cells = [&] {
                const int west = number(0, kSide - 1), south = number(0, kSide - 1);
                return Cells{west, south, number(west + 1, kSide), number(south + 1, kSide)};
            };
            const Cells approved = cells();
            const Cells held = cells();
            const FenceKind kind = number(0, 1) ? FenceKind::KeepIn : FenceKind::KeepOut;
            const auto asFence = [&](const Cells& c) {
                return fence("x", kind,
                             rectangle(7 + c.west * 0.1, 60 + c.south * 0.1, 7 + c.east * 0.1, 60 + c.north * 0.1));
            };
            bool opened = false;
            for (int x = 0; x < kSide; ++x)
                for (int y = 0; y < kSide; ++y)
                    opened |= kind == FenceKind::KeepIn ? held.has(x, y) && !approved.has(x, y)
                                                        : approved.has(x, y) && !held.has(x, y);
            const bool permits = compare::permitsMore(differences({asFence(approved)}, {asFence(held)}));
            QVERIFY2(permits == opened, qPrintable(QString{"seed %1, run %2"}.arg(kSeed).arg(run)));
        }
    }
};

QTEST_APPLESS_MAIN(PermitsMoreTest)
#include "permits_more_test.moc"
