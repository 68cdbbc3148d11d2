#include "app/desktop/window_probe.h"

#include "airspace/outline.h"
#include "geodesy/geodesic.h"

using namespace fencewright;
using namespace fencewright::desktop;
using model::LineString;

namespace {

constexpr double kLon = -8.7, kLat = 46.2;

/// A field whose northern side runs in a bow.
const LineString kField{{kLon - 0.002, kLat},          {kLon - 0.002, kLat - 0.001},   {kLon + 0.002, kLat - 0.001},
                        {kLon + 0.002, kLat},          {kLon + 0.0011, kLat + 0.0003}, {kLon + 0.0002, kLat + 0.0004},
                        {kLon - 0.0009, kLat + 0.0003}};
const model::Position kNorth{kLon, kLat + 0.0015};

void addField(WindowProbe& probe) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = "Mill field";
    fence.shape = model::DrawnPolygon{{{kField}, {}}};
    probe.document().push(model::addFence(probe.set(), fence));
    probe.look(kLon, kLat, 0.003);
}
void addParcel(WindowProbe& probe) {
    QByteArray corners;
    for (std::size_t i = 0; i <= kField.size(); ++i) {
        const model::Position& at = kField[i % kField.size()];
        corners +=
            (i ? ",[" : "[") + QByteArray::number(at.lon, 'g', 17) + ',' + QByteArray::number(at.lat, 'g', 17) + ']';
    }
    QFile file{probe.folder.filePath("parcels.geojson")};
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write(R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"parcel":"17"},)"
               R"("geometry":{"type":"Polygon","coordinates":[[)" +
               corners + "]]}}]}");
    file.close();
    model::Source source;
    source.id = model::freshId<model::Source>();
    source.kind = model::SourceKind::Reference;
    source.name = "Parcels";
    source.path = file.fileName().toStdString();
    source.numberField = "parcel";
    probe.document().push(model::addSource(probe.set(), source));
    QVERIFY(probe.settle());
    probe.look(kLon, kLat, 0.003);
}
model::Fence addStore(WindowProbe& probe) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = "Store";
    fence.shape = model::Circle{{kLon, kLat}, {Length::metres(80), "80 m"}};
    probe.document().push(model::addFence(probe.set(), fence));
    probe.look(kLon, kLat, 0.003);
    return fence;
}
void type(const char* text) {
    QTest::keyClick(QApplication::focusWidget(), text[0]);
    QTest::keyClicks(QApplication::focusWidget(), text + 1);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
}
QString hint(WindowProbe& probe) { return probe.find<QLabel>("mapHint")->text(); }
const LineString& drawn(WindowProbe& probe) {
    return std::get<model::DrawnPolygon>(probe.set().fences[probe.set().fences.size() - 1].shape).polygon.shell.corners;
}
LineString withBow() { return {kField[0], kField[6], kField[5], kField[4], kField[3], kNorth}; }
/// Which are the corners of the other, to the last bit, but for the last one, which was clicked on open ground.
bool isSame(const LineString& a, const LineString& b) {
    return a.size() == b.size() && std::equal(a.begin(), a.end() - 1, b.begin());
}

} // namespace

/// Following a boundary while drawing, with mouse and keys.
class FollowingTest : public QObject {
    Q_OBJECT

private slots:
    void initTestCase() { QApplication::setDoubleClickInterval(60); }

    void key_followsAFence_andTheHintSaysSo() {
        WindowProbe probe;
        addField(probe);
        QTest::mouseClick(probe.find<QWidget>("tool_keepout"), Qt::LeftButton);
        probe.clickMap(kField[0].lon, kField[0].lat);
        QVERIFY2(hint(probe).startsWith("W follows Mill field"), qPrintable(hint(probe)));
        QTest::keyClick(&probe.map(), Qt::Key_W);
        QVERIFY2(hint(probe).startsWith("Along Mill field"), qPrintable(hint(probe)));
        probe.clickMap(kField[3].lon, kField[3].lat);
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        QVERIFY(isSame(drawn(probe), withBow()));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
    }

    void key_followsAParcelOfAReferenceLayer_atFullPrecision() {
        WindowProbe probe;
        addParcel(probe);
        QTest::mouseClick(probe.find<QWidget>("tool_keepin"), Qt::LeftButton);
        probe.clickMap(kField[0].lon, kField[0].lat);
        QVERIFY2(hint(probe).startsWith("W follows Parcel 17"), qPrintable(hint(probe)));
        QTest::keyClick(&probe.map(), Qt::Key_W);
        probe.clickMap(kField[3].lon, kField[3].lat);
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_Return);
        QVERIFY(isSame(drawn(probe), withBow()));
    }

    void wrongWay_isTakenBack_andGoneTheOther() {
        WindowProbe probe;
        addField(probe);
        QTest::mouseClick(probe.find<QWidget>("tool_keepout"), Qt::LeftButton);
        probe.clickMap(kField[0].lon, kField[0].lat);
        QTest::keyClick(&probe.map(), Qt::Key_W);
        QTest::keyClick(&probe.map(), Qt::Key_W); // the other way round: a mistake
        probe.clickMap(kField[3].lon, kField[3].lat);
        QTest::keyClick(&probe.map(), Qt::Key_Backspace);
        QTest::keyClick(&probe.map(), Qt::Key_W);
        probe.clickMap(kField[3].lon, kField[3].lat);
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_Return);
        QVERIFY(isSame(drawn(probe), withBow()));
    }

    void typedLength_leadsAlong() {
        WindowProbe probe;
        addField(probe);
        QTest::mouseClick(probe.find<QWidget>("tool_keepout"), Qt::LeftButton);
        probe.clickMap(kField[0].lon, kField[0].lat);
        const QPoint towards = probe.pixel(kField[3].lon, kField[3].lat);
        QTest::mouseMove(&probe.map(), towards);
        // The screen says later that the pointer has moved; which way round is meant depends on it.
        QTRY_VERIFY((probe.map().toWidget(probe.map().pointedAt()).toPoint() - towards).manhattanLength() <= 2);
        QTest::keyClick(&probe.map(), Qt::Key_W);
        type("100 m");
        probe.map().setFocus();
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        const LineString corners = drawn(probe);
        QCOMPARE(corners.size(), std::size_t{4});
        QVERIFY(corners[1] == kField[6]);
        const double metres = geodesy::lengthOf({corners[0], corners[1], corners[2]}).inMetres();
        QVERIFY2(std::abs(metres - 100.0) < 1e-4, qPrintable(QString::number(metres, 'f', 6)));
    }

    void circle_isFollowed_corner_byCorner() {
        WindowProbe probe;
        const LineString ring = airspace::outline(addStore(probe), probe.set().sites).parts.front().shell.corners;
        const std::size_t first = ring.size() / 8, last = ring.size() / 3;
        // A keep-in along a keep-out: its corners are those of the circle's outline, which holds the circle.
        QTest::mouseClick(probe.find<QWidget>("tool_keepin"), Qt::LeftButton);
        probe.clickMap(ring[first].lon, ring[first].lat);
        QVERIFY2(hint(probe).startsWith("W follows Store"), qPrintable(hint(probe)));
        QTest::keyClick(&probe.map(), Qt::Key_W);
        QTest::keyClick(&probe.map(), Qt::Key_W); // the other way round: a mistake
        probe.clickMap(ring[last].lon, ring[last].lat);
        QTest::keyClick(&probe.map(), Qt::Key_Backspace);
        QTest::keyClick(&probe.map(), Qt::Key_W);
        probe.clickMap(ring[last].lon, ring[last].lat);
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        LineString expected{ring.begin() + std::ptrdiff_t(first), ring.begin() + std::ptrdiff_t(last) + 1};
        expected.push_back(kNorth);
        QVERIFY(isSame(drawn(probe), expected));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
    }

    void circle_isFollowedByALengthThatIsTyped() {
        WindowProbe probe;
        const LineString ring = airspace::outline(addStore(probe), probe.set().sites).parts.front().shell.corners;
        QTest::mouseClick(probe.find<QWidget>("tool_keepout"), Qt::LeftButton);
        probe.clickMap(ring[0].lon, ring[0].lat);
        QTest::keyClick(&probe.map(), Qt::Key_W);
        type("100 m");
        probe.map().setFocus();
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        LineString along = drawn(probe);
        along.pop_back();
        const double metres = geodesy::lengthOf(along).inMetres();
        QVERIFY2(std::abs(metres - 100.0) < 1e-4, qPrintable(QString::number(metres, 'f', 6)));
    }

    void neighbours_areFollowedFromOneToTheNext() {
        WindowProbe probe;
        addField(probe);
        model::Fence other;
        other.id = model::freshId<model::Fence>();
        other.name = "Wood";
        const LineString wood{kField[2], {kLon + 0.0035, kLat - 0.001}, {kLon + 0.0035, kLat + 0.0002}, kField[3]};
        other.shape = model::DrawnPolygon{{{wood}, {}}};
        probe.document().push(model::addFence(probe.set(), other));
        probe.look(kLon, kLat, 0.004);
        QTest::mouseClick(probe.find<QWidget>("tool_keepout"), Qt::LeftButton);
        probe.clickMap(kField[0].lon, kField[0].lat);
        QTest::keyClick(&probe.map(), Qt::Key_W);
        probe.clickMap(wood[2].lon, wood[2].lat);
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{3});
        QVERIFY(isSame(drawn(probe), {kField[0], kField[6], kField[5], kField[4], kField[3], wood[2], kNorth}));
    }

    void key_offABoundary_saysWhy() {
        WindowProbe probe;
        addField(probe);
        QTest::mouseClick(probe.find<QWidget>("tool_keepout"), Qt::LeftButton);
        probe.clickMap(kNorth.lon, kNorth.lat);
        QTest::keyClick(&probe.map(), Qt::Key_W);
        QTRY_VERIFY2(probe.message().contains("no boundary that could be followed"), qPrintable(probe.message()));
    }
};

QTEST_MAIN(FollowingTest)
#include "following_test.moc"
