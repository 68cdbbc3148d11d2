#include "app/desktop/window_probe.h"

#include "desktop/tools/tool.h"
#include "desktop/tools/tool_table.h"
#include "geodesy/geodesic.h"

#include <functional>
#include <map>

using namespace fencewright;
using namespace fencewright::desktop;

// Every tool in the window, by real events: once straight, once with a mistake that is taken back, once with all its
// figures typed. A tool that nobody lists here fails the test.

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;
constexpr double kHalf = 0.001;

QString keyOf(const QString& id) {
    for (const ToolDescription& tool : toolTable())
        if (id == tool.id)
            return tool.key;
    return {};
}

/// By the tool's own key, as the column shows it.
void choose(WindowProbe& probe, const QString& id) {
    probe.map().setFocus();
    const QKeySequence key{keyOf(id)};
    QTest::keyClick(&probe.map(), key[0].key(), key[0].keyboardModifiers());
    QCOMPARE(probe.map().toolId(), id);
}

/// Types into the entry that the first character opens beside the pointer; false where the tool takes no figures.
bool typeOnMap(WindowProbe& probe, const QString& text) {
    probe.map().setFocus();
    QTest::keyClicks(&probe.map(), text.left(1));
    auto* edit = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    if (!edit)
        return false;
    QTest::keyClicks(edit, text.mid(1));
    QTest::keyClick(edit, Qt::Key_Return);
    return true;
}

void enter(WindowProbe& probe) { QTest::keyClick(&probe.map(), Qt::Key_Return); }
void back(WindowProbe& probe) { QTest::keyClick(&probe.map(), Qt::Key_Backspace); }
void escape(WindowProbe& probe) { QTest::keyClick(&probe.map(), Qt::Key_Escape); }

/// A drag by the left button through places of the map; it is not let go where `held`.
void drag(WindowProbe& probe, const std::vector<model::Position>& way, bool held = false) {
    const auto pixel = [&](const model::Position& at) { return probe.pixel(at.lon, at.lat); };
    QTest::mouseMove(&probe.map(), pixel(way.front()));
    QTest::mousePress(&probe.map(), Qt::LeftButton, Qt::NoModifier, pixel(way.front()));
    for (std::size_t i = 1; i < way.size(); ++i)
        for (int k = 1; k <= 5; ++k)
            QTest::mouseMove(&probe.map(), pixel(way[i - 1]) + (pixel(way[i]) - pixel(way[i - 1])) * k / 5);
    if (!held)
        QTest::mouseRelease(&probe.map(), Qt::LeftButton, Qt::NoModifier, pixel(way.back()));
}
void letGo(WindowProbe& probe, const model::Position& at) {
    QTest::mouseRelease(&probe.map(), Qt::LeftButton, Qt::NoModifier, probe.pixel(at.lon, at.lat));
}

std::vector<model::Position> around(double half) {
    return {
        {kLon - half, kLat - half}, {kLon + half, kLat - half}, {kLon + half, kLat + half}, {kLon - half, kLat + half}};
}

/// What stands before a run: for most tools nothing.
void layNothing(WindowProbe& probe) { probe.look(kLon, kLat, 0.005); }
void laySquare(WindowProbe& probe) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = "Yard";
    fence.shape = model::DrawnPolygon{{{around(kHalf)}, {}}};
    probe.document().push(model::addFence(probe.set(), fence));
    layNothing(probe);
}
void layParcels(WindowProbe& probe) {
    QFile file{probe.folder.filePath("parcels.geojson")};
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write(R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"parcel":"1"},"geometry":{"type":"Polygon","coordinates":
[[[-8.702,46.198],[-8.7,46.198],[-8.7,46.202],[-8.702,46.202],[-8.702,46.198]]]}},
{"type":"Feature","properties":{"parcel":"2"},"geometry":{"type":"Polygon","coordinates":
[[[-8.7,46.198],[-8.698,46.198],[-8.698,46.202],[-8.7,46.202],[-8.7,46.198]]]}}]})");
    file.close();
    probe.find<QAction>("addReference")->trigger();
    QVERIFY(probe.answerFile(file.fileName()));
    auto* dialog = probe.waitForDialog<QDialog>("importDialog");
    QVERIFY2(dialog, qPrintable(probe.message()));
    probe.clickIn(dialog, "importGo");
    QTRY_VERIFY(probe.message().contains("2 features read"));
    QTRY_VERIFY(!probe.dialog());
    probe.window->activateWindow(); // no window manager does it here
    QVERIFY(QTest::qWaitForWindowActive(probe.window.get()));
    layNothing(probe);
}

template <class Shape> const Shape* shapeOf(WindowProbe& probe) {
    const auto& fences = probe.set().fences;
    return fences.empty() ? nullptr : std::get_if<Shape>(&fences[fences.size() - 1].shape);
}
double metresBetween(const model::Position& a, const model::Position& b) {
    return geodesy::inverse(a, b).length.inMetres();
}
/// A pixel of the map, in metres.
bool isNear(WindowProbe& probe, const model::Position& a, const model::Position& b) {
    return metresBetween(a, b) < 1.5 * probe.map().metresPerPixel();
}
std::size_t cornersOf(WindowProbe& probe) {
    const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
    return drawn ? drawn->polygon.shell.corners.size() : 0;
}

struct Run {
    std::function<void(WindowProbe&)> lay = layNothing;
    std::function<void(WindowProbe&)> straight;        ///< makes what is right
    std::function<void(WindowProbe&)> withMistake;     ///< the same, with a mistake taken back while drawing
    std::function<bool(WindowProbe&)> isRight;         ///< of both
    std::function<void(WindowProbe&)> typed = nullptr; ///< none: the tool takes no figures
    std::function<bool(WindowProbe&)> isTypedRight = nullptr;
    bool changesSet = true;
};

Run polygon(model::FenceKind kind) {
    Run run;
    const auto click = [](WindowProbe& probe, std::size_t i) {
        probe.clickMap(around(kHalf)[i].lon, around(kHalf)[i].lat);
    };
    run.straight = [click](WindowProbe& probe) {
        for (std::size_t i = 0; i < 4; ++i)
            click(probe, i);
        enter(probe);
    };
    run.withMistake = [click](WindowProbe& probe) {
        click(probe, 0);
        click(probe, 1);
        probe.clickMap(kLon + 0.003, kLat + 0.003);
        back(probe);
        click(probe, 2);
        click(probe, 3);
        enter(probe);
    };
    run.isRight = [kind](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        if (!drawn || drawn->polygon.shell.corners.size() != 4 || probe.set().fences[0].kind != kind)
            return false;
        for (std::size_t i = 0; i < 4; ++i)
            if (!isNear(probe, drawn->polygon.shell.corners[i], around(kHalf)[i]))
                return false;
        return true;
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "100 m 90"));
        QVERIFY(typeOnMap(probe, "50 m 90 left"));
        enter(probe);
    };
    run.isTypedRight = [kind](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        return drawn && drawn->polygon.shell.corners.size() == 3 && probe.set().fences[0].kind == kind &&
               std::abs(metresBetween(drawn->polygon.shell.corners[0], drawn->polygon.shell.corners[1]) - 100.0) <
                   1e-6 &&
               std::abs(metresBetween(drawn->polygon.shell.corners[1], drawn->polygon.shell.corners[2]) - 50.0) < 1e-6;
    };
    return run;
}

Run rectangle() {
    Run run;
    run.straight = [](WindowProbe& probe) {
        probe.clickMap(kLon - kHalf, kLat);
        probe.clickMap(kLon + kHalf, kLat);
        probe.clickMap(kLon + kHalf, kLat + kHalf);
    };
    run.withMistake = [](WindowProbe& probe) {
        probe.clickMap(kLon - kHalf, kLat);
        probe.clickMap(kLon, kLat - 0.003);
        back(probe); // its first side once more
        probe.clickMap(kLon + kHalf, kLat);
        probe.clickMap(kLon + kHalf, kLat + kHalf);
    };
    run.isRight = [](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        return drawn && drawn->polygon.shell.corners.size() == 4 &&
               isNear(probe, drawn->polygon.shell.corners[1], {kLon + kHalf, kLat}) &&
               isNear(probe, drawn->polygon.shell.corners[2], {kLon + kHalf, kLat + kHalf});
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "120 x 60 45"));
    };
    run.isTypedRight = [](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        if (!drawn || drawn->polygon.shell.corners.size() != 4)
            return false;
        const auto side = geodesy::inverse(drawn->polygon.shell.corners[0], drawn->polygon.shell.corners[1]);
        return std::abs(side.length.inMetres() - 120.0) < 1e-3 &&
               std::abs(side.azimuthAtStart.inDegrees() - 45.0) < 1e-3;
    };
    return run;
}

Run circle() {
    Run run;
    run.straight = [](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        probe.clickMap(kLon, kLat + kHalf);
    };
    run.withMistake = [](WindowProbe& probe) {
        probe.clickMap(kLon + 0.002, kLat);
        back(probe);
        probe.clickMap(kLon, kLat);
        probe.clickMap(kLon, kLat + kHalf);
    };
    run.isRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::Circle>(probe);
        return made && isNear(probe, made->centre, {kLon, kLat}) &&
               std::abs(made->radius.length.inMetres() - metresBetween({kLon, kLat}, {kLon, kLat + kHalf})) <
                   2.0 * probe.map().metresPerPixel();
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "150 ft"));
    };
    run.isTypedRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::Circle>(probe);
        return made && made->centre == model::Position{-8.7, 46.2} && made->radius.asWritten == "150 ft" &&
               std::abs(made->radius.length.inMetres() - 45.72) < 1e-9;
    };
    return run;
}

Run rimCircle() {
    Run run;
    const model::Position east{kLon + kHalf, kLat}, north{kLon, kLat + kHalf}, west{kLon - kHalf, kLat};
    run.straight = [=](WindowProbe& probe) {
        for (const auto& place : {east, north, west})
            probe.clickMap(place.lon, place.lat);
    };
    run.withMistake = [=](WindowProbe& probe) {
        probe.clickMap(east.lon, east.lat);
        probe.clickMap(kLon, kLat - 0.003);
        back(probe);
        probe.clickMap(north.lon, north.lat);
        probe.clickMap(west.lon, west.lat);
    };
    run.isRight = [=](WindowProbe& probe) {
        const auto* made = shapeOf<model::Circle>(probe);
        if (!made)
            return false;
        for (const auto& place : {east, north, west})
            if (std::abs(metresBetween(made->centre, place) - made->radius.length.inMetres()) >
                2.0 * probe.map().metresPerPixel())
                return false;
        return true;
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "100 m 90"));
        QVERIFY(typeOnMap(probe, "100 m 90 left"));
    };
    // Thales: the first and the third place are the ends of a diameter.
    run.isTypedRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::Circle>(probe);
        return made && std::abs(made->radius.length.inMetres() - 100.0 / std::sqrt(2.0)) < 1e-3;
    };
    return run;
}

Run corridor() {
    Run run;
    const auto line = [](WindowProbe& probe) {
        probe.clickMap(kLon - 0.002, kLat);
        probe.clickMap(kLon + 0.002, kLat);
        enter(probe);
    };
    run.straight = [line](WindowProbe& probe) {
        line(probe);
        // Shift: the left by itself, then the right.
        const QPoint left = probe.pixel(kLon, kLat + kHalf);
        QTest::mouseMove(&probe.map(), left);
        QTest::mouseClick(&probe.map(), Qt::LeftButton, Qt::ShiftModifier, left);
        QTest::qWait(50);
        probe.clickMap(kLon, kLat - kHalf / 2.0);
    };
    run.withMistake = [line](WindowProbe& probe) {
        line(probe);
        const auto shiftClick = [&](double lat) {
            QTest::mouseMove(&probe.map(), probe.pixel(kLon, lat));
            QTest::mouseClick(&probe.map(), Qt::LeftButton, Qt::ShiftModifier, probe.pixel(kLon, lat));
            QTest::qWait(50);
        };
        shiftClick(kLat + 3.0 * kHalf);
        back(probe);
        shiftClick(kLat + kHalf);
        probe.clickMap(kLon, kLat - kHalf / 2.0);
    };
    run.isRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::Corridor>(probe);
        const double pixel = probe.map().metresPerPixel();
        return made && made->line.size() == 2 &&
               std::abs(made->left.length.inMetres() - metresBetween({kLon, kLat}, {kLon, kLat + kHalf})) <
                   2.0 * pixel &&
               std::abs(made->right.length.inMetres() - metresBetween({kLon, kLat}, {kLon, kLat - kHalf / 2.0})) <
                   2.0 * pixel;
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "200 m 90"));
        enter(probe);
        QVERIFY(typeOnMap(probe, "10 m left 25 m right"));
    };
    run.isTypedRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::Corridor>(probe);
        return made && made->left.asWritten == "10 m" && made->right.asWritten == "25 m" &&
               std::abs(metresBetween(made->line[0], made->line[1]) - 200.0) < 1e-6;
    };
    return run;
}

Run freehand() {
    Run run;
    auto way = around(kHalf);
    way.push_back(way.front());
    run.straight = [way](WindowProbe& probe) { drag(probe, way); };
    run.withMistake = [way](WindowProbe& probe) {
        drag(probe, {{kLon, kLat}, {kLon + 0.003, kLat}, {kLon + 0.003, kLat + 0.003}}, true);
        escape(probe);
        letGo(probe, {kLon + 0.003, kLat + 0.003});
        QVERIFY(probe.set().fences.empty());
        drag(probe, way);
    };
    run.isRight = [](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        // A keep-out grows: it holds what was drawn around, and hardly more.
        return drawn && cornersOf(probe) >= 4 && cornersOf(probe) <= 12;
    };
    return run;
}

Run hole() {
    Run run;
    run.lay = laySquare;
    const double in = kHalf / 2.0;
    run.straight = [in](WindowProbe& probe) {
        for (std::size_t i = 0; i < 4; ++i)
            probe.clickMap(around(in)[i].lon, around(in)[i].lat);
        enter(probe);
    };
    run.withMistake = [in](WindowProbe& probe) {
        probe.clickMap(around(in)[0].lon, around(in)[0].lat);
        probe.clickMap(kLon + 0.003, kLat - 0.003); // outside
        back(probe);
        for (std::size_t i = 1; i < 4; ++i)
            probe.clickMap(around(in)[i].lon, around(in)[i].lat);
        enter(probe);
    };
    run.isRight = [](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        return drawn && drawn->polygon.holes.size() == 1 && drawn->polygon.holes[0].corners.size() == 4;
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "20 m 90"));
        QVERIFY(typeOnMap(probe, "20 m 90 left"));
        enter(probe);
    };
    run.isTypedRight = [](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        return drawn && drawn->polygon.holes.size() == 1 && drawn->polygon.holes[0].corners.size() == 3;
    };
    return run;
}

Run parcels() {
    Run run;
    run.lay = layParcels;
    run.straight = [](WindowProbe& probe) {
        probe.clickMap(kLon - kHalf, kLat);
        probe.clickMap(kLon + kHalf, kLat);
        enter(probe);
    };
    run.withMistake = [](WindowProbe& probe) {
        probe.clickMap(kLon - kHalf, kLat);
        probe.clickMap(kLon + kHalf, kLat);
        back(probe);
        probe.clickMap(kLon + kHalf, kLat + kHalf);
        enter(probe);
    };
    run.isRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::ParcelUnion>(probe);
        return made && made->parcels.size() == 2 && made->parcels[0].number == "1" && made->parcels[1].number == "2";
    };
    return run;
}

Run setback() {
    Run run;
    run.straight = [](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        QVERIFY(typeOnMap(probe, "200 m"));
    };
    run.withMistake = [](WindowProbe& probe) {
        probe.clickMap(kLon + 0.002, kLat);
        back(probe);
        probe.clickMap(kLon, kLat);
        QVERIFY(typeOnMap(probe, "200 m"));
    };
    run.isRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::Setback>(probe);
        return made && made->distance.asWritten == "200 m" && probe.set().sites.size() == 1 &&
               isNear(probe, std::get<model::Position>(probe.set().sites[0].geometry), {kLon, kLat});
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "1/4 mi"));
    };
    run.isTypedRight = [](WindowProbe& probe) {
        const auto* made = shapeOf<model::Setback>(probe);
        return made && std::abs(made->distance.length.inMetres() - 402.336) < 1e-9 &&
               std::get<model::Position>(probe.set().sites[0].geometry) == model::Position{-8.7, 46.2};
    };
    return run;
}

Run home() {
    Run run;
    run.straight = [](WindowProbe& probe) { probe.clickMap(kLon, kLat); };
    run.withMistake = [](WindowProbe& probe) {
        probe.clickMap(kLon + 0.003, kLat);
        QTest::keyClick(&probe.map(), Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set().homes.empty());
        probe.clickMap(kLon, kLat);
    };
    run.isRight = [](WindowProbe& probe) {
        return probe.set().homes.size() == 1 && isNear(probe, probe.set().homes[0].place, {kLon, kLat}) &&
               probe.set().homes[0].kind == model::HomeKind::Home;
    };
    run.typed = [](WindowProbe& probe) {
        QTest::keyClick(&probe.map(), Qt::Key_K); // an alternate
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
    };
    run.isTypedRight = [](WindowProbe& probe) {
        return probe.set().homes.size() == 1 && probe.set().homes[0].place == model::Position{-8.7, 46.2} &&
               probe.set().homes[0].kind == model::HomeKind::Alternate;
    };
    return run;
}

/// What was measured, as Ctrl+C takes it.
QString measured(WindowProbe& probe) {
    QGuiApplication::clipboard()->clear();
    QTest::keyClick(&probe.map(), Qt::Key_C, Qt::ControlModifier);
    return QGuiApplication::clipboard()->text();
}

Run measure() {
    Run run;
    run.changesSet = false;
    run.straight = [](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        probe.clickMap(kLon, kLat + kHalf);
        enter(probe);
    };
    run.withMistake = [](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        probe.clickMap(kLon + 0.003, kLat);
        back(probe);
        probe.clickMap(kLon, kLat + kHalf);
        enter(probe);
    };
    run.isRight = [](WindowProbe& probe) {
        const double metres = measured(probe).section(" m", 0, 0).toDouble();
        return std::abs(metres - metresBetween({kLon, kLat}, {kLon, kLat + kHalf})) <
               2.0 * probe.map().metresPerPixel();
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.7"));
        QVERIFY(typeOnMap(probe, "123.4 m 45"));
        enter(probe);
    };
    run.isTypedRight = [](WindowProbe& probe) { return measured(probe).startsWith("123.4 m · 45.0°"); };
    return run;
}

Run select() {
    Run run;
    run.lay = laySquare;
    const model::Position corner = around(kHalf)[2], there{kLon + 2.0 * kHalf, kLat + 2.0 * kHalf};
    run.straight = [=](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        drag(probe, {corner, there});
    };
    run.withMistake = [=](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        drag(probe, {corner, {kLon + 3.0 * kHalf, kLat}}, true);
        escape(probe); // puts it back
        letGo(probe, {kLon + 3.0 * kHalf, kLat});
        drag(probe, {corner, there});
    };
    run.isRight = [=](WindowProbe& probe) {
        const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
        return drawn && drawn->polygon.shell.corners.size() == 4 &&
               isNear(probe, drawn->polygon.shell.corners[2], there);
    };
    // Figures of what is selected are typed in its form.
    run.typed = [](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        probe.typeAndEnter("fenceCeiling", "400 ft");
    };
    run.isTypedRight = [](WindowProbe& probe) {
        const auto& ceiling = probe.set().fences[0].band.ceiling;
        return ceiling && ceiling->value.asWritten == "400 ft";
    };
    return run;
}

Run loop() {
    Run run;
    run.changesSet = false;
    run.lay = laySquare;
    auto way = around(1.6 * kHalf);
    way.push_back(way.front());
    run.straight = [way](WindowProbe& probe) { drag(probe, way); };
    run.withMistake = [way](WindowProbe& probe) {
        drag(probe, {{kLon, kLat}, {kLon + 0.003, kLat}}, true);
        escape(probe);
        letGo(probe, {kLon + 0.003, kLat});
        QVERIFY(probe.map().selection().empty());
        drag(probe, way);
    };
    run.isRight = [](WindowProbe& probe) { return probe.map().selection() == Selection{probe.set().fences[0].id}; };
    return run;
}

/// How far the first corner of the yard has turned about its middle, clockwise.
double degreesTurned(WindowProbe& probe) {
    const auto* drawn = shapeOf<model::DrawnPolygon>(probe);
    const auto azimuth = [](const model::Position& corner) {
        return geodesy::inverse({kLon, kLat}, corner).azimuthAtStart.inDegrees();
    };
    return drawn && !drawn->polygon.shell.corners.empty()
               ? std::remainder(azimuth(drawn->polygon.shell.corners[0]) - azimuth(around(kHalf)[0]), 360.0)
               : NAN;
}

Run turn() {
    Run run;
    run.lay = laySquare;
    // On the ring, which is as large on the screen at any scale: from due east of the middle clockwise.
    const auto onRing = [](WindowProbe& probe, double degrees) {
        const double angle = degrees * M_PI / 180.0;
        return probe.map().toEarth(probe.map().toWidget({kLon, kLat}) +
                                   Dial::kRingPixels * QPointF{std::cos(angle), std::sin(angle)});
    };
    run.straight = [=](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        drag(probe, {onRing(probe, 0), onRing(probe, 20), onRing(probe, 40), onRing(probe, 60)});
    };
    run.withMistake = [=](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        drag(probe, {onRing(probe, 0), onRing(probe, -30)}, true);
        escape(probe); // puts it back
        letGo(probe, onRing(probe, -30));
        drag(probe, {onRing(probe, 0), onRing(probe, 20), onRing(probe, 40), onRing(probe, 60)});
    };
    run.isRight = [](WindowProbe& probe) { return std::abs(degreesTurned(probe) - 60.0) < 3.0; };
    run.typed = [](WindowProbe& probe) {
        probe.clickMap(kLon, kLat);
        QVERIFY(typeOnMap(probe, "30 right"));
    };
    run.isTypedRight = [](WindowProbe& probe) { return std::abs(degreesTurned(probe) - 30.0) < 0.05; };
    return run;
}

Run cut() {
    Run run;
    run.lay = laySquare;
    run.straight = [](WindowProbe& probe) {
        probe.clickMap(kLon - 0.002, kLat);
        probe.clickMap(kLon + 0.002, kLat);
        enter(probe);
    };
    run.withMistake = [](WindowProbe& probe) {
        probe.clickMap(kLon - 0.002, kLat);
        probe.clickMap(kLon, kLat + 0.003);
        back(probe);
        probe.clickMap(kLon + 0.002, kLat);
        enter(probe);
    };
    run.isRight = [](WindowProbe& probe) {
        return probe.set().fences.size() == 2 && probe.map().selection().size() == 2;
    };
    run.typed = [](WindowProbe& probe) {
        QVERIFY(typeOnMap(probe, "46.2 -8.702"));
        QVERIFY(typeOnMap(probe, "300 m 90"));
        enter(probe);
    };
    run.isTypedRight = run.isRight;
    return run;
}

const std::map<QString, Run>& runs() {
    static const std::map<QString, Run> all{{"select", select()},
                                            {"loop", loop()},
                                            {"turn", turn()},
                                            {"cut", cut()},
                                            {"keepout", polygon(model::FenceKind::KeepOut)},
                                            {"keepin", polygon(model::FenceKind::KeepIn)},
                                            {"rectangle", rectangle()},
                                            {"circle", circle()},
                                            {"rimcircle", rimCircle()},
                                            {"corridor", corridor()},
                                            {"freehand", freehand()},
                                            {"hole", hole()},
                                            {"parcels", parcels()},
                                            {"setback", setback()},
                                            {"home", home()},
                                            {"measure", measure()}};
    return all;
}

} // namespace

class ToolRunsTest : public QObject {
    Q_OBJECT

    static void everyTool() {
        QTest::addColumn<QString>("id");
        for (const ToolDescription& tool : toolTable())
            QTest::newRow(tool.id) << QString{tool.id};
    }

private slots:
    void straight_data() { everyTool(); }
    void straight() {
        QFETCH(QString, id);
        QVERIFY2(runs().contains(id), "this tool has no run here");
        const Run& run = runs().at(id);
        WindowProbe probe;
        run.lay(probe);
        const model::FenceSet before = probe.set();
        const int steps = probe.document().undoStack().count();
        choose(probe, id);
        run.straight(probe);
        QVERIFY(run.isRight(probe));
        QCOMPARE(probe.document().undoStack().count(), steps + (run.changesSet ? 1 : 0));
        if (!run.changesSet) {
            QVERIFY(probe.set() == before);
            return;
        }
        const model::FenceSet after = probe.set();
        QTest::keyClick(&probe.map(), Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
        QTest::keyClick(&probe.map(), Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(probe.set() == after);
    }

    void aMistake_isTakenBack_data() { everyTool(); }
    void aMistake_isTakenBack() {
        QFETCH(QString, id);
        QVERIFY2(runs().contains(id), "this tool has no run here");
        const Run& run = runs().at(id);
        WindowProbe probe;
        run.lay(probe);
        choose(probe, id);
        run.withMistake(probe);
        QVERIFY(run.isRight(probe));
    }

    void typed_data() { everyTool(); }
    void typed() {
        QFETCH(QString, id);
        QVERIFY2(runs().contains(id), "this tool has no run here");
        const Run& run = runs().at(id);
        WindowProbe probe;
        run.lay(probe);
        choose(probe, id);
        if (!run.typed) { // then it offers nothing that could be typed
            QVERIFY(!typeOnMap(probe, "1"));
            return;
        }
        run.typed(probe);
        QVERIFY(run.isTypedRight(probe));
        QTest::keyClick(&probe.map(), Qt::Key_Z, Qt::ControlModifier);
        if (run.changesSet)
            QVERIFY(probe.document().undoStack().canRedo());
    }
};

QTEST_MAIN(ToolRunsTest)
#include "tool_runs_test.moc"
