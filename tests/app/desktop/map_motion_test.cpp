#include "app/desktop/window_probe.h"

#include <QWheelEvent>

using namespace fencewright;
using namespace fencewright::desktop;

/// The window over the demo, panned and zoomed for some seconds: whatever was on its way meanwhile, what stays is what
/// a window shows that was never moved. How fast that goes is measured by tests/bench.
class MapMotionTest : public QObject {
    Q_OBJECT

    static QString demo() { return QStringLiteral(FENCEWRIGHT_BUILD "/samples/alder-reach/alder-reach.gpkg"); }

    static QImage picture(WindowProbe& probe) { return probe.map().grab().toImage(); }

    /// The picture once all sources are read and it has stayed the same for a while; null: it never did.
    static QImage settled(WindowProbe& probe) {
        QImage last;
        QElapsedTimer still;
        const bool rested = QTest::qWaitFor(
            [&] {
                const QImage now = picture(probe);
                const bool busy = !probe.window->jobs().running().empty() || !probe.window->audit().isCurrent();
                if (busy || now != last) {
                    last = now;
                    still.start();
                }
                return still.elapsed() > 700;
            },
            60'000);
        return rested ? last : QImage{};
    }

    static void wheel(MapCanvas& map, const QPointF& at, int notches) {
        for (int i = 0; i < std::abs(notches); ++i) {
            QWheelEvent event{at, map.mapToGlobal(at), {},   {0, notches > 0 ? 120 : -120}, {},
                              {}, Qt::NoScrollPhase,   false};
            QApplication::sendEvent(&map, &event);
            QTest::qWait(30);
        }
    }

    static void drag(MapCanvas& map, const QPoint& from, const QPoint& way) {
        QTest::mouseMove(&map, from);
        QTest::mousePress(&map, Qt::MiddleButton, {}, from);
        for (int step = 1; step <= 12; ++step) {
            const QPointF to = from + QPointF{way} * (step / 12.0);
            QMouseEvent event{QEvent::MouseMove, to, map.mapToGlobal(to), Qt::NoButton, Qt::MiddleButton, {}};
            QApplication::sendEvent(&map, &event);
            QTest::qWait(12);
        }
        QTest::mouseRelease(&map, Qt::MiddleButton, {}, from + way);
    }

    /// About four seconds, now near, now far, and back over ground that was seen.
    static void wander(WindowProbe& probe) {
        MapCanvas& map = probe.map();
        const QPoint middle = map.rect().center();
        constexpr int notches[] = {4, 3, -5, 6, -4, -6};
        for (int turn = 0; turn < 12; ++turn) {
            const double angle = 2.4 * turn;
            const QPoint way{int(260 * std::cos(angle)), int(200 * std::sin(angle))};
            drag(map, middle - way / 2, way);
            wheel(map, middle + way / 3, notches[turn % 6]);
        }
        // The last zoom runs out by itself.
        double scale = 0.0;
        (void)QTest::qWaitFor(
            [&] {
                QTest::qWait(100);
                return std::exchange(scale, map.metresPerPixel()) == map.metresPerPixel();
            },
            5000);
    }

    /// Ground has a colour or two.
    static bool showsImagery(const QImage& map) {
        QSet<QRgb> colours;
        for (int x = 0; x < map.width(); x += 7)
            colours.insert(map.pixel(x, map.height() / 2));
        return colours.size() > 40;
    }

    /// The same but for letters, which are kept as they were drawn first, a part of a pixel off: a few pixels, hardly.
    bool areAlike(const QImage& one, const QImage& other) {
        int differing = 0, most = 0;
        for (int y = 0; y < one.height() && one.size() == other.size(); ++y)
            for (int x = 0; x < one.width(); ++x) {
                const QRgb a = one.pixel(x, y), b = other.pixel(x, y);
                const int far = std::max(
                    {std::abs(qRed(a) - qRed(b)), std::abs(qGreen(a) - qGreen(b)), std::abs(qBlue(a) - qBlue(b))});
                differing += far != 0;
                most = std::max(most, far);
            }
        m_difference = QString{"%1 pixels differ, by up to %2"}.arg(differing).arg(most);
        return one.size() == other.size() && differing * 100 < one.width() * one.height() && most <= 48;
    }

    QString m_difference;

    static geometry::Box sight() { return {-8.742, 46.204, -8.727, 46.214}; }

private slots:
    void initTestCase() { QVERIFY2(QFile::exists(demo()), "build the target samples"); }

    void afterAWander_thePictureIsThatOfAWindowNeverMoved() {
        WindowProbe moved{demo()};
        QVERIFY(!settled(moved).isNull());
        moved.map().zoomTo(sight());
        QTest::qWait(50);
        wander(moved);
        moved.map().zoomTo(sight());
        const QImage after = settled(moved);
        QVERIFY(!after.isNull());
        moved.window.reset();

        WindowProbe fresh{demo()};
        QVERIFY(!settled(fresh).isNull());
        fresh.map().zoomTo(sight());
        const QImage wanted = settled(fresh);
        QVERIFY(!wanted.isNull());
        QVERIFY(showsImagery(wanted));
        QVERIFY2(areAlike(after, wanted), qPrintable(m_difference));
    }

    void afterAWander_nothingOfThePictureIsLeftFromBefore() {
        WindowProbe probe{demo()};
        QVERIFY(!settled(probe).isNull());
        probe.map().zoomTo(sight());
        wander(probe);
        const QImage kept = settled(probe);
        QVERIFY(!kept.isNull());
        QVERIFY(showsImagery(kept));
        // Another size: all pictures that were kept are painted anew.
        const QSize size = probe.window->size();
        probe.window->resize(size - QSize{40, 60});
        QTest::qWait(50);
        probe.window->resize(size);
        QVERIFY2(areAlike(settled(probe), kept), qPrintable(m_difference));
    }
};

QTEST_MAIN(MapMotionTest)
#include "map_motion_test.moc"
