#include "desktop/canvas/fence_painter.h"

#include "desktop/canvas/deferred_layer.h"
#include "desktop/canvas/plane_line.h"
#include "support/plain_fence.h"

#include <QtTest>

#include <numbers>
#include <random>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr QSize kSize{1000, 800};

/// Fences of many corners, rough as a hedge, in an area that a view of one metre a pixel shows.
std::vector<FencePainter::Item> fences(int count, int corners, double roughness, unsigned seed) {
    std::mt19937 random{seed};
    std::uniform_real_distribution<double> x{-450, 450}, y{-350, 350}, radius{30, 120}, rough{1.0 - roughness, 1.0};
    const double lat = 46.2, metresPerLat = 111'150.0, metresPerLon = 77'200.0; // near enough for a picture
    std::vector<FencePainter::Item> items;
    for (int i = 0; i < count; ++i) {
        const double east = x(random), north = y(random), reach = radius(random);
        model::LineString line;
        for (int c = 0; c < corners; ++c) {
            const double angle = 2.0 * std::numbers::pi * c / corners, r = reach * rough(random);
            line.push_back({-8.7 + (east + r * std::cos(angle)) / metresPerLon,
                            lat + (north + r * std::sin(angle)) / metresPerLat});
        }
        auto fence = std::make_shared<model::Fence>();
        fence->id = model::freshId<model::Fence>();
        fence->kind = i % 3 == 0 ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
        fence->shape = model::DrawnPolygon{{{line}, {}}};
        items.push_back({session::outlinedFence(fence, nullptr), i % 7 == 0 ? FenceLook::Quiet : FenceLook::Active});
    }
    return items;
}

ViewTransform viewAt(double metresPerPixel) {
    ViewTransform view;
    view.setSize(kSize);
    view.setOrigin({-8.7, 46.2});
    view.setMetresPerPixel(metresPerPixel);
    return view;
}

QImage blank() {
    QImage image{kSize, QImage::Format_ARGB32_Premultiplied};
    image.fill(Qt::transparent);
    return image;
}

QImage painted(FencePainter& fencePainter, const ViewTransform& view, const std::vector<FencePainter::Item>& items) {
    QImage image = blank();
    QPainter painter{&image};
    fencePainter.paint(painter, view, items, QRectF{QPointF{}, kSize});
    return image;
}

/// The same style with every corner, by QPainter's own pens.
QImage exact(const ViewTransform& view, const std::vector<FencePainter::Item>& items) {
    std::vector<support::PlainFence> plain;
    for (const FencePainter::Item& item : items) {
        QPolygonF ring;
        for (const QPointF& point : view.planeOf(item.fence->surface.parts.front().shell.corners))
            ring << view.toWidget(point);
        plain.push_back({ring, item.fence->fence->kind, item.look == FenceLook::Quiet});
    }
    return support::plainPicture(plain, kSize, 8);
}

/// The share of pixels covered in either that the eye tells apart.
double differing(const QImage& a, const QImage& b) { return support::differenceOf(a, b).covered; }

} // namespace

class FencePainterTest : public QObject {
    Q_OBJECT

private slots:
    void thinned_isThePictureOfEveryCorner_data() {
        QTest::addColumn<int>("corners");
        QTest::addColumn<double>("roughness");
        QTest::addColumn<double>("metresPerPixel");
        QTest::newRow("smooth") << 1000 << 0.0 << 1.0;
        QTest::newRow("surveyed") << 1000 << 0.004 << 1.0;
        QTest::newRow("surveyed, far off") << 1000 << 0.01 << 3.0;
        QTest::newRow("surveyed, near") << 1000 << 0.01 << 0.3;
        QTest::newRow("few corners") << 30 << 0.2 << 1.0;
    }
    void thinned_isThePictureOfEveryCorner() {
        QFETCH(int, corners);
        QFETCH(double, roughness);
        QFETCH(double, metresPerPixel);
        const auto items = fences(30, corners, roughness, 5);
        const ViewTransform view = viewAt(metresPerPixel);
        FencePainter painter;
        const double share = differing(painted(painter, view, items), exact(view, items));
        QVERIFY2(share < 0.01, qPrintable(QString("%1 of the covered pixels differ").arg(share)));
    }

    void movedCorner_isPaintedAsByAFreshPainter() {
        const ViewTransform view = viewAt(1.0);
        FencePainter painter;
        auto items = fences(3, 3000, 0.01, 9);
        (void)painted(painter, view, items);
        std::mt19937 random{4};
        for (int step = 0; step < 40; ++step) {
            model::Fence moved = *items[1].fence->fence;
            auto& corners = std::get<model::DrawnPolygon>(moved.shape).polygon.shell.corners;
            const std::size_t at = random() % corners.size();
            corners[at].lon += (double(random() % 200) - 100.0) * 1e-6;
            if (step % 10 == 9)
                corners.insert(corners.begin() + std::ptrdiff_t(at), corners[at]);
            items[1].fence = session::outlinedFence(std::make_shared<const model::Fence>(moved), nullptr);
            FencePainter fresh;
            QVERIFY2(painted(painter, view, items) == painted(fresh, view, items),
                     qPrintable(QString("step %1").arg(step)));
        }
    }

    void onAnotherThread_theSamePictureComes() {
        const auto items = fences(40, 200, 0.1, 3);
        const ViewTransform view = viewAt(1.0);
        FencePainter here, shared;
        const QImage expected = painted(here, view, items);
        QImage image = blank();
        QThreadPool pool;
        pool.start([&] {
            const geodesy::MapPlane plane{view.plane().definition()};
            QPainter painter{&image};
            shared.paint(
                painter, view,
                [&](std::span<const model::Position> places) {
                    std::vector<QPointF> points;
                    for (const auto& point : plane.toPlane(places))
                        points.emplace_back(point.x, point.y);
                    return points;
                },
                items, QRectF{QPointF{}, kSize});
        });
        for (int i = 0; i < 5; ++i)
            QVERIFY(painted(shared, view, items) == expected);
        pool.waitForDone();
        QVERIFY(image == expected);
    }

    void bounds_holdAllThatIsPainted() {
        for (unsigned seed = 1; seed <= 20; ++seed) {
            const auto items = fences(1, 40, 0.5, seed);
            const ViewTransform view = viewAt(0.7);
            FencePainter painter;
            const QImage image = painted(painter, view, items);
            const QRectF bounds = painter.boundsOf(items[0].fence, view);
            for (int y = 0; y < image.height(); ++y)
                for (int x = 0; x < image.width(); ++x)
                    if (qAlpha(image.pixel(x, y)) > 0)
                        QVERIFY2(bounds.contains(QPointF(x + 0.5, y + 0.5)), qPrintable(QString("seed %1").arg(seed)));
        }
    }

    /// A layer that is dear paints elsewhere and ends with the picture that one paints at once.
    void deferredLayer_dearOrCheap_endsWithTheSamePicture() {
        const auto items = fences(60, 60, 0.2, 8);
        FencePainter fencePainter;
        const auto contents = [&](double cost) {
            DeferredLayer::Contents made;
            made.here = [&](QPainter& painter, const ViewTransform& view, const QRectF& seen) {
                fencePainter.paint(painter, view, items, seen);
            };
            made.elsewhere = [&]() -> DeferredLayer::Render {
                return [&](QPainter& painter, const ViewTransform& view, const QRectF& seen) {
                    const geodesy::MapPlane plane{view.plane().definition()};
                    fencePainter.paint(
                        painter, view,
                        [&](std::span<const model::Position> places) {
                            std::vector<QPointF> points;
                            for (const auto& point : plane.toPlane(places))
                                points.emplace_back(point.x, point.y);
                            return points;
                        },
                        items, seen);
                };
            };
            made.cost = [cost](const QRectF&) { return cost; };
            return made;
        };
        DeferredLayer dear, cheap;
        const auto show = [&](DeferredLayer& layer, double cost, const ViewTransform& view, bool inMotion = false) {
            QImage image = blank();
            QPainter painter{&image};
            layer.paint(painter, view, contents(cost), inMotion);
            return image;
        };
        const auto settled = [&](const ViewTransform& view) {
            QImage image;
            (void)QTest::qWaitFor(
                [&] {
                    image = show(dear, 1e9, view);
                    return dear.isSettled();
                },
                20'000);
            return image;
        };
        ViewTransform view = viewAt(1.0);
        QVERIFY(show(dear, 1e9, view) == blank()); // nothing yet, and nobody waited for it
        QCOMPARE_LE(differing(settled(view), show(cheap, 1.0, view)), 0.005);
        for (const QPointF way : {QPointF{40, 0}, QPointF{-300, 120}, QPointF{900, 0}, QPointF{3, -500}}) {
            view.panBy(way);
            const QImage a = settled(view), b = show(cheap, 1.0, view);
            QVERIFY(dear.isSettled() && cheap.isSettled());
            QCOMPARE_LE(differing(a, b), 0.005);
        }
        // Amid a zoom the last picture is stretched, and no other is begun.
        view = viewAt(1.0);
        view.zoomAbout({480, 410}, 1.3);
        QVERIFY(show(dear, 1e9, view, true) != blank());
        QVERIFY(!dear.isSettled());
        QCOMPARE_LE(differing(settled(view), show(cheap, 1.0, view)), 0.005);
    }

    /// Where painting costs nothing there is nothing, until something comes near.
    void deferredLayer_withoutAnythingNear_showsNothing_andThenWhatCameNear() {
        DeferredLayer layer;
        int painted = 0;
        const QRectF mark{460, 390, 40, 40};
        bool isNear = false;
        const auto render = [&](QPainter& painter, const ViewTransform&, const QRectF&) {
            ++painted;
            painter.fillRect(mark, Qt::red);
        };
        const auto picture = [&] {
            QImage image = blank();
            QPainter painter{&image};
            layer.paint(painter, viewAt(1.0),
                        {render, [&]() -> DeferredLayer::Render { return render; },
                         [&](const QRectF&) { return isNear ? 1.0 : 0.0; }},
                        false);
            return image;
        };
        QVERIFY(picture() == blank());
        QVERIFY(layer.isSettled());
        QCOMPARE(painted, 0);
        isNear = true;
        QCOMPARE(qRed(picture().pixel(mark.center().toPoint())), 255);
        QVERIFY(layer.isSettled());
        // Gone again: the picture is painted where it was.
        isNear = false;
        layer.invalidate();
        QVERIFY(picture() == blank());
    }

    void deferredLayer_changes_arePaintedWhereTheyAre() {
        std::vector<QPointF> marks{{-200, 0}};
        const auto render = [](std::vector<QPointF> at) {
            return [at](QPainter& painter, const ViewTransform& view, const QRectF&) {
                for (const QPointF& mark : at)
                    painter.fillRect(QRectF{view.toWidget(mark) - QPointF{5, 5}, QSizeF{10, 10}}, Qt::red);
            };
        };
        ViewTransform view = viewAt(1.0);
        for (const double cost : {1.0, 1e9}) {
            DeferredLayer layer;
            const auto picture = [&] {
                QImage image;
                (void)QTest::qWaitFor(
                    [&] {
                        image = blank();
                        QPainter painter{&image};
                        layer.paint(painter, view,
                                    {render(marks), [&] { return render(marks); }, [&](const QRectF&) { return cost; }},
                                    false);
                        return layer.isSettled();
                    },
                    20'000);
                return image;
            };
            marks = {{-200, 0}};
            QVERIFY(qRed(picture().pixel(view.toWidget(marks[0]).toPoint())) == 255);
            const QPointF old = marks[0];
            marks[0] = {100, 50};
            layer.invalidatePlane(QRectF{old - QPointF{6, 6}, QSizeF{12, 12}});
            layer.invalidatePlane(QRectF{marks[0] - QPointF{6, 6}, QSizeF{12, 12}});
            const QImage after = picture();
            QVERIFY(qAlpha(after.pixel(view.toWidget(old).toPoint())) == 0);
            QVERIFY(qRed(after.pixel(view.toWidget(marks[0]).toPoint())) == 255);
        }
    }
};

QTEST_MAIN(FencePainterTest)
#include "fence_painter_test.moc"
