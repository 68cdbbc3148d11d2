#include "desktop/canvas/reference_layer.h"

#include "support/kept_layer.h"
#include "support/random_geometry.h"

#include <QSignalSpy>
#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr int kSize = ReferenceTile::kPixels;

/// A tiling of squares, all of one size.
std::shared_ptr<const reference::Layer> tiling(const model::Position& corner, double side, int count) {
    exchange::VectorContent content;
    content.fields = {"number"};
    for (int i = 0; i < count; ++i)
        for (int k = 0; k < count; ++k) {
            const double x = corner.lon + i * side, y = corner.lat + k * side;
            exchange::Feature feature;
            feature.attributes = {std::to_string(i) + "/" + std::to_string(k)};
            feature.parts = {model::Polygon{{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}}}, {}}};
            content.features.push_back(feature);
        }
    content.extent = {corner.lon, corner.lat, corner.lon + count * side, corner.lat + count * side};
    return support::keptLayer(content);
}

ReferenceTile tileAround(std::shared_ptr<const reference::Layer> layer, const model::Position& origin, double scale,
                         LineStyle style) {
    return {std::move(layer), {{}, origin}, scale, -scale * kSize / 2, scale * kSize / 2, style, 1.0};
}

/// Parcels of eight corners that share them with their neighbours, so many pixels across, over a whole tile and beyond.
std::shared_ptr<const reference::Layer> roughTiling(const ReferenceTile& tile, const geodesy::MapPlane& plane,
                                                    double across) {
    tests::RandomGeometry random{17};
    const int count = int(1.2 * kSize / across) + 1;
    std::vector<model::Position> places;
    for (int k = 0; k <= 2 * count; ++k)
        for (int i = 0; i <= 2 * count; ++i) {
            const double x = -0.1 * kSize + (i + random.between(-0.2, 0.2)) * across / 2,
                         y = -0.1 * kSize + (k + random.between(-0.2, 0.2)) * across / 2;
            places.push_back(plane.toEarth(
                geodesy::PlanePoint{tile.left + x * tile.metresPerPixel, tile.top - y * tile.metresPerPixel}));
        }
    exchange::VectorContent content;
    for (int k = 0; k < count; ++k)
        for (int i = 0; i < count; ++i) {
            model::Polygon polygon;
            for (const auto& [dx, dy] : {std::pair{0, 0}, {0, 1}, {0, 2}, {1, 2}, {2, 2}, {2, 1}, {2, 0}, {1, 0}})
                polygon.shell.corners.push_back(
                    places[std::size_t(2 * k + dy) * std::size_t(2 * count + 1) + std::size_t(2 * i + dx)]);
            content.features.emplace_back().parts = {polygon};
        }
    return support::keptLayer(content);
}

/// Where the plane itself puts a place on such a tile.
QPointF exactly(const ReferenceTile& tile, const geodesy::MapPlane& plane, const model::Position& place) {
    const geodesy::PlanePoint at = plane.toPlane(place);
    return {(at.x - tile.left) / tile.metresPerPixel, (tile.top - at.y) / tile.metresPerPixel};
}

} // namespace

class ReferenceLayerTest : public QObject {
    Q_OBJECT

private slots:
    void lines_lieWhereTheFramePutsThem_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("scale");
        QTest::addColumn<int>("style");
        for (const double lat : {0.0, 45.0, 70.0, -80.0})
            for (const double lon : {-8.5, 179.999})
                for (const double scale : {0.05, 1.0, 37.0, 900.0})
                    for (const int style : {0, 1, 2})
                        QTest::addRow("%g %g, %g m, style %d", lon, lat, scale, style) << lon << lat << scale << style;
    }
    void lines_lieWhereTheFramePutsThem() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, scale);
        QFETCH(int, style);
        const double side = 60 * scale / 111'320.0;
        const auto layer = tiling({lon - 5.5 * side, lat - 5.5 * side}, side, 11);
        const model::Position origin{lon > 179 ? lon - 360.0 : lon, lat};
        const ReferenceTile tile = tileAround(layer, origin, scale, LineStyle(style));
        const geodesy::MapPlane plane{{{}, origin}};
        const QImage image = drawn(tile, plane, {});
        QVERIFY(!image.isNull());
        int checked = 0;
        for (std::size_t i = 0; i < layer->size(); ++i)
            layer->visitLines(i, [&](const reference::Layer::Line& line) {
                for (const model::Position& corner : line.corners) {
                    const QPointF at = exactly(tile, plane, corner);
                    if (at.x() < 2 || at.y() < 2 || at.x() > kSize - 3 || at.y() > kSize - 3)
                        continue;
                    int strongest = 0;
                    for (int dx = -1; dx <= 1; ++dx)
                        for (int dy = -1; dy <= 1; ++dy)
                            strongest = std::max(strongest, qAlpha(image.pixel(int(std::floor(at.x())) + dx,
                                                                               int(std::floor(at.y())) + dy)));
                    QVERIFY2(strongest >= 60, qPrintable(QString{"%1 %2"}.arg(at.x()).arg(at.y())));
                    ++checked;
                }
            });
        QVERIFY(checked > 20);
        // Inside a square, nothing is drawn.
        const QPointF inside = exactly(tile, plane, {lon, lat});
        QCOMPARE(qAlpha(image.pixel(int(inside.x()), int(inside.y()))), 0);
    }

    void denseLines_areThoseOfThePainter_data() {
        QTest::addColumn<double>("across");
        QTest::addColumn<double>("scale");
        QTest::addColumn<double>("turn");
        for (const double across : {1.3, 1.8, 3.0, 9.0, 40.0, 200.0})
            for (const double scale : {0.5, 37.0, 400.0})
                for (const double turn : {0.0, 31.0})
                    QTest::addRow("%g pixels, %g m, turned by %g", across, scale, turn) << across << scale << turn;
    }
    void denseLines_areThoseOfThePainter() {
        // The outside is QPainter::drawPolygon, not smooth, with the corners where the plane itself puts them.
        QFETCH(double, across);
        QFETCH(double, scale);
        QFETCH(double, turn);
        const geodesy::MapPlane plane{{{}, {-8.5, 52.0}, turn}};
        ReferenceTile tile = tileAround(nullptr, {-8.5, 52.0}, scale, LineStyle::Dense);
        tile.plane = plane.definition();
        tile.layer = roughTiling(tile, plane, across);
        const QImage image = drawn(tile, plane, {});
        QVERIFY(!image.isNull());

        QImage expected{kSize, kSize, QImage::Format_ARGB32_Premultiplied};
        expected.fill(Qt::transparent);
        QPainter painter{&expected};
        painter.setPen(QPen{Qt::white, 0});
        for (std::size_t i = 0; i < tile.layer->size(); ++i) {
            const model::MultiPolygon parcel = tile.layer->surface(i);
            QPolygonF ring;
            for (const model::Position& corner : parcel.parts[0].shell.corners)
                ring << exactly(tile, plane, corner);
            painter.drawPolygon(ring);
        }
        painter.end();

        // A line from pixel to pixel may pass on the other side of a border than one from place to place, but no
        // farther off.
        const auto isNear = [](const QImage& lines, int x, int y) {
            for (int dx = -1; dx <= 1; ++dx)
                for (int dy = -1; dy <= 1; ++dy)
                    if (lines.valid(x + dx, y + dy) && qAlpha(lines.pixel(x + dx, y + dy)) > 0)
                        return true;
            return false;
        };
        int both = 0, differing = 0;
        for (int y = 1; y < kSize - 1; ++y)
            for (int x = 1; x < kSize - 1; ++x) {
                const int shade = qAlpha(image.pixel(x, y));
                const bool ours = shade > 0, theirs = qAlpha(expected.pixel(x, y)) > 0;
                QVERIFY(!ours || shade >= 60);
                both += ours && theirs ? 1 : 0;
                differing += ours != theirs ? 1 : 0;
                QVERIFY2(!ours || isNear(expected, x, y), qPrintable(QString{"drawn at %1 %2"}.arg(x).arg(y)));
                QVERIFY2(!theirs || isNear(image, x, y), qPrintable(QString{"not drawn at %1 %2"}.arg(x).arg(y)));
            }
        QVERIFY(both > 2 * kSize);
        QVERIFY2(differing < 0.6 * both, qPrintable(QString{"%1 of %2"}.arg(differing).arg(both)));
    }

    void emptyGround_isNoImage() {
        const auto layer = tiling({10, 10}, 0.001, 2);
        for (const LineStyle style : {LineStyle::Cased, LineStyle::Fine, LineStyle::Dense})
            QVERIFY(drawn(tileAround(layer, {11, 11}, 1.0, style), geodesy::MapPlane{{{}, {11, 11}}}, {}).isNull());
    }

    void whatIsSmallerThanAPixel_becomesAShade() {
        const auto layer = tiling({-8.5, 42.0}, 0.0001, 100); // squares of some ten metres over a kilometre
        const QImage image = drawn(tileAround(layer, {-8.495, 42.005}, 40.0, LineStyle::Dense),
                                   geodesy::MapPlane{{{}, {-8.495, 42.005}}}, {});
        QVERIFY(!image.isNull());
        const int middle = qAlpha(image.pixel(kSize / 2, kSize / 2));
        QVERIFY(middle > 20 && middle < 150);
        QCOMPARE(qAlpha(image.pixel(20, 20)), 0);
    }

    void hostileGeometry_isDrawnAtEveryScale() {
        // Far corners, poles, antimeridian, lines to and fro: nothing may fail, and a tile asked for stops when told.
        for (unsigned seed = 0; seed < 1000; ++seed) {
            tests::RandomGeometry random{seed};
            exchange::VectorContent content;
            model::Position place = random.place();
            for (int i = 0; i < 5; ++i) {
                exchange::Feature feature;
                feature.parts.emplace_back(random.scribble());
                feature.parts.emplace_back(random.line());
                feature.parts.emplace_back(random.place());
                place = std::get<model::Polygon>(feature.parts[0]).shell.corners.front();
                content.features.push_back(std::move(feature));
            }
            place = {std::remainder(place.lon, 360.0), std::clamp(place.lat, -89.0, 89.0)};
            const auto layer = support::keptLayer(content);
            const ReferenceTile tile =
                tileAround(layer, place, random.magnitude(0.01, 2000.0), LineStyle(random.whole(0, 2)));
            const QImage image = drawn(tile, geodesy::MapPlane{{{}, place}}, {});
            QVERIFY2(image.isNull() || image.width() == kSize, QByteArray::number(seed));
        }
    }

    void drawing_stopsWhenNobodyWantsIt() {
        const auto layer = tiling({-8.5, 42.0}, 0.0001, 60);
        const Progress never{[](double, std::string_view) { return false; }};
        for (const LineStyle style : {LineStyle::Cased, LineStyle::Fine, LineStyle::Dense})
            QVERIFY_EXCEPTION_THROWN((void)drawn(tileAround(layer, {-8.497, 42.003}, 10.0, style),
                                                 geodesy::MapPlane{{{}, {-8.497, 42.003}}}, never),
                                     Cancelled);
    }

    void layer_paintsSoon_standsIn_andForgets() {
        TileQueue queue;
        ReferenceLayer layer{queue};
        ViewTransform view;
        view.setSize({800, 600});
        view.setOrigin({-8.495, 42.005});
        view.setMetresPerPixel(2.0);
        const auto parcels = tiling({-8.5, 42.0}, 0.001, 10);
        layer.setSources({{"a", "Parcels", parcels, std::nullopt, 0, 1.0}});
        const auto paint = [&] {
            QImage image{800, 600, QImage::Format_ARGB32_Premultiplied};
            image.fill(Qt::transparent);
            QPainter painter{&image};
            layer.paint(painter, view);
            painter.end();
            return image;
        };
        const auto anything = [](const QImage& image) {
            for (int y = 0; y < image.height(); ++y)
                for (int x = 0; x < image.width(); ++x)
                    if (qAlpha(image.pixel(x, y)))
                        return true;
            return false;
        };
        QVERIFY(!anything(paint()));
        QVERIFY(!layer.isComplete());
        QTRY_VERIFY((paint(), layer.isComplete()));
        const QImage complete = paint();
        QVERIFY(anything(complete));
        QVERIFY(layer.cachedBytes() > 0);

        // Panned by whole pixels, the very same picture moves along.
        view.panBy({40, 0});
        QTRY_VERIFY((paint(), layer.isComplete()));
        const QImage moved = paint();
        QCOMPARE(moved.copy(40, 0, 760, 600), complete.copy(0, 0, 760, 600));

        // At another scale something is there at once.
        view.zoomAbout({400, 300}, 1.3);
        QVERIFY(anything(paint()));
        QTRY_VERIFY((paint(), layer.isComplete()));

        // Numbers, once their places are worked out.
        QTRY_VERIFY(layer.labels(view).size() >= 40);
        for (const auto& label : layer.labels(view))
            QVERIFY(label.room.width() >= 18.0 && label.text.contains('/'));

        layer.setSources({});
        QCOMPARE(layer.cachedBytes(), qint64{0});
        QVERIFY(!anything(paint()));
    }
};

QTEST_MAIN(ReferenceLayerTest)
#include "reference_layer_test.moc"
