#include "desktop/canvas/tile_layer.h"

#include "raster/block_cache.h"
#include "support/made_raster.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

#include <cmath>
#include <numbers>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr int kSide = 1536; // pixels of the raster, a metre each
constexpr double kLeft = 480'000, kTop = 5'120'000;
constexpr double kMeridian = -9; // of UTM zone 29
const std::vector<QPoint> kDots{{100, 120}, {700, 650}, {768, 768}, {1400, 300}, {330, 1290}};
constexpr int kDot = 8; // pixels a side: of a coarser level there is still something left

/// Metres in UTM zone 29. Source: Snyder, "Map Projections: A Working Manual", USGS Professional Paper 1395 (1987),
/// equations 3-21, 4-20, 8-9 to 8-15; good to a millimetre in the zone.
QPointF utm29(const model::Position& place) {
    constexpr double a = 6378137.0, f = 1 / 298.257223563, k0 = 0.9996;
    constexpr double e2 = f * (2 - f), ep2 = e2 / (1 - e2);
    const double phi = place.lat * std::numbers::pi / 180;
    const double s = std::sin(phi), c = std::cos(phi), t2 = std::tan(phi) * std::tan(phi), cc = ep2 * c * c;
    const double n = a / std::sqrt(1 - e2 * s * s), A = (place.lon - kMeridian) * std::numbers::pi / 180 * c;
    const double m = a * ((1 - e2 / 4 - 3 * e2 * e2 / 64 - 5 * e2 * e2 * e2 / 256) * phi -
                          (3 * e2 / 8 + 3 * e2 * e2 / 32 + 45 * e2 * e2 * e2 / 1024) * std::sin(2 * phi) +
                          (15 * e2 * e2 / 256 + 45 * e2 * e2 * e2 / 1024) * std::sin(4 * phi) -
                          35 * e2 * e2 * e2 / 3072 * std::sin(6 * phi));
    const double x =
        k0 * n *
        (A + (1 - t2 + cc) * std::pow(A, 3) / 6 + (5 - 18 * t2 + t2 * t2 + 72 * cc - 58 * ep2) * std::pow(A, 5) / 120);
    const double y = k0 * (m + n * std::tan(phi) *
                                   (A * A / 2 + (5 - t2 + 9 * cc + 4 * cc * cc) * std::pow(A, 4) / 24 +
                                    (61 - 58 * t2 + t2 * t2 + 600 * cc - 330 * ep2) * std::pow(A, 6) / 720));
    return {500'000 + x, y};
}

} // namespace

class TileLayerTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    /// White dots on dark grey.
    QString dots(const std::string& name, std::vector<int> overviews, double grey = 40) {
        test::MadeRaster raster;
        raster.width = raster.height = kSide;
        raster.crs = "EPSG:32629";
        raster.geotransform = {kLeft, 1, 0, kTop, 0, -1};
        raster.options = {"TILED=YES"};
        raster.overviews = std::move(overviews);
        raster.value = [grey](int, int x, int y) {
            for (const QPoint& dot : kDots)
                if (x >= dot.x() && x < dot.x() + kDot && y >= dot.y() && y < dot.y() + kDot)
                    return 255.0;
            return grey;
        };
        const QString path = m_folder.filePath(QString::fromStdString(name));
        test::make(raster, path.toStdString());
        return path;
    }
    static ImagerySource source(const QString& id, const QString& path, double opacity = 1.0,
                                raster::OpenOptions options = {}) {
        const raster::Dataset dataset{path.toStdString(), options};
        return {id,
                path,
                options,
                std::make_shared<const raster::RasterDescription>(dataset.description()),
                dataset.levels(),
                dataset.tilePixels(),
                opacity};
    }
    static QImage painted(TileLayer& layer, const ViewTransform& view) {
        QImage image{view.size().toSize(), QImage::Format_ARGB32_Premultiplied};
        image.fill(Qt::transparent);
        QPainter painter{&image};
        layer.paint(painter, view);
        return image;
    }
    static bool complete(TileLayer& layer, const ViewTransform& view) {
        (void)painted(layer, view);
        return layer.isComplete();
    }
    /// The middle of what is bright around there.
    static QPointF brightAround(const QImage& image, const QPointF& about, double reach) {
        double sum = 0, x = 0, y = 0;
        for (int i = int(about.x() - reach); i <= int(about.x() + reach); ++i)
            for (int k = int(about.y() - reach); k <= int(about.y() + reach); ++k)
                if (image.rect().contains(i, k)) {
                    const double weight = std::max(0, qGreen(image.pixel(i, k)) - 44);
                    sum += weight;
                    x += weight * (i + 0.5);
                    y += weight * (k + 0.5);
                }
        return sum > 0 ? QPointF{x / sum, y / sum} : QPointF{};
    }

private slots:
    void pixels_lieAtTheirTruePlace_data() {
        QTest::addColumn<bool>("native");
        QTest::addColumn<double>("scale");
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        for (const bool native : {true, false})
            for (const double scale : {0.31, 0.5, 1.0, 1.27, 2.0, 2.9})
                for (const QPointF& off : {QPointF{0.0, 0.0}, QPointF{0.0011, -0.0007}})
                    QTest::addRow("%s, %g m, %g", native ? "native" : "warped", scale, off.x())
                        << native << scale << -9.2501 + off.x() << 46.2237 + off.y();
    }
    void pixels_lieAtTheirTruePlace() {
        QFETCH(bool, native);
        QFETCH(double, scale);
        QFETCH(double, lon);
        QFETCH(double, lat);
        const QString path = dots("dots.tif", {2, 4});
        TileQueue queue;
        TileLayer layer{queue};
        ImagerySource dotted = source("a", path);
        layer.setSources({dotted});
        ViewTransform view;
        view.setSize({801, 600});
        if (native)
            view.setPreferredCrs("EPSG:32629", {-9.3, 46.2, -9.2, 46.3});
        view.setOrigin({lon, lat});
        QCOMPARE(!view.plane().definition().crs.empty(), native);
        view.setMetresPerPixel(scale);
        int all = 0;
        for (const QPointF& pan : {QPointF{0, 0}, QPointF{37, -211}, QPointF{-0.4, 0.3}}) {
            view.panBy(pan);
            QTRY_VERIFY(complete(layer, view));
            const QImage image = painted(layer, view);
            // The map's scale is that of the plane; in a local frame it is true, in the CRS that of the CRS.
            const model::Position middle = view.earthAt({400.5, 300});
            const QPointF utm = utm29(middle);
            const double k = native ? 1.0 : 1 / 0.9996;
            const double turn = native ? 0.0
                                       : (middle.lon - kMeridian) * std::numbers::pi / 180 *
                                             std::sin(middle.lat * std::numbers::pi / 180);
            int seen = 0;
            for (const QPoint& dot : kDots) {
                const double dx = (kLeft + dot.x() + kDot / 2.0 - utm.x()) * k / scale,
                             dy = (utm.y() - (kTop - dot.y() - kDot / 2.0)) * k / scale;
                const QPointF expected{400.5 + dx * std::cos(turn) - dy * std::sin(turn),
                                       300 + dx * std::sin(turn) + dy * std::cos(turn)};
                const double reach = kDot / scale + 3;
                if (!QRectF{image.rect()}.adjusted(reach, reach, -reach, -reach).contains(expected))
                    continue;
                ++seen;
                const QPointF found = brightAround(image, expected, reach);
                const QByteArray words = QString{"%1 %2, expected %3 %4"}
                                             .arg(found.x())
                                             .arg(found.y())
                                             .arg(expected.x())
                                             .arg(expected.y())
                                             .toUtf8();
                QVERIFY2(std::abs(found.x() - expected.x()) <= 0.55 && std::abs(found.y() - expected.y()) <= 0.55,
                         words);
            }
            all += seen;
        }
        QVERIFY(all >= 1 || scale <= 1.0); // from so near there may be none in sight
    }

    void twoSources_areBlended() {
        const QString white = dots("white.tif", {}, 255), dark = dots("dark.tif", {}, 0);
        TileQueue queue;
        TileLayer layer{queue};
        layer.setSources({source("a", white), source("b", dark, 0.5)});
        ViewTransform view;
        view.setSize({300, 300});
        view.setOrigin({-9.2501, 46.2237});
        QTRY_VERIFY(complete(layer, view));
        QCOMPARE_LE(std::abs(qGreen(painted(layer, view).pixel(150, 290)) - 128), 2);
        layer.setSources({source("a", white)});
        QTRY_VERIFY(complete(layer, view));
        QCOMPARE(qGreen(painted(layer, view).pixel(150, 290)), 255);
        layer.setSources({});
        QCOMPARE(layer.cachedBytes(), qint64{0});
        QCOMPARE(qAlpha(painted(layer, view).pixel(150, 290)), 0);
    }

    void aMissingFile_isSaidOnce_andHoldsUpNothing() {
        const QString there = dots("there.tif", {}), gone = dots("gone.tif", {});
        TileQueue queue;
        TileLayer layer{queue};
        QSignalSpy failed{&layer, &TileLayer::sourceFailed};
        layer.setSources({source("gone", gone), source("there", there)});
        QVERIFY(QFile::remove(gone));
        ViewTransform view;
        view.setSize({900, 700});
        view.setOrigin({-9.2501, 46.2237});
        view.setMetresPerPixel(0.3);
        QTRY_VERIFY(complete(layer, view));
        view.panBy({700, 0});
        QTRY_VERIFY(complete(layer, view));
        QTRY_COMPARE(failed.count(), 1);
        QCOMPARE(failed.front().at(0).toString(), QString{"gone"});
        QVERIFY(failed.front().at(1).toString().contains("gone.tif"));
        QVERIFY(qAlpha(painted(layer, view).pixel(450, 350)) == 255);
    }

    void aVisitedArea_isNotReadAgain() {
        const auto blocks = std::make_shared<raster::BlockCache>(std::size_t{1} << 20);
        TileQueue queue;
        TileLayer layer{queue};
        layer.setSources({source("a", dots("dots.tif", {2, 4}), 1.0, {.blocks = blocks})});
        for (const bool native : {true, false}) {
            ViewTransform view;
            view.setSize({600, 400});
            if (native)
                view.setPreferredCrs("EPSG:32629", {-9.3, 46.2, -9.2, 46.3});
            view.setOrigin({-9.2501, 46.2237});
            view.setMetresPerPixel(0.9);
            const std::vector<QPointF> way{{300, 0}, {0, 200}, {-300, 0}, {0, -200}};
            for (const QPointF& step : way) {
                view.panBy(step);
                QTRY_VERIFY(complete(layer, view));
            }
            const auto before = blocks->counts();
            QVERIFY(before.reads > 0);
            for (int round = 0; round < 3; ++round)
                for (const QPointF& step : way) {
                    view.panBy(step);
                    QVERIFY(complete(layer, view));
                }
            QTest::qWait(20);
            QCOMPARE(blocks->counts().reads, before.reads);
        }
    }

    void anotherLook_isAnotherPicture_butAnotherOpacityIsNot() {
        const QString path = dots("dots.tif", {});
        TileQueue queue;
        TileLayer layer{queue};
        ViewTransform view;
        view.setSize({300, 300});
        view.setOrigin({-9.2501, 46.2237});
        ImagerySource one = source("a", path);
        layer.setSources({one});
        QTRY_VERIFY(complete(layer, view));
        one.opacity = 0.4;
        layer.setSources({one});
        QVERIFY(complete(layer, view));
        one.opening.appearance.bands = {3, 2, 1};
        layer.setSources({one});
        QVERIFY(!complete(layer, view));
    }

    void aGreatScreen_withManySources_staysWithinTheCache() {
        const QString path = dots("dots.tif", {});
        std::vector<ImagerySource> sources;
        for (int i = 0; i < 8; ++i)
            sources.push_back(source(QString::number(i), path));
        TileQueue queue;
        TileLayer layer{queue};
        layer.setSources(sources);
        ViewTransform view;
        view.setSize({3840, 2160});
        view.setOrigin({-9.2501, 46.2237});
        view.setMetresPerPixel(0.25);
        QTRY_VERIFY_WITH_TIMEOUT(complete(layer, view), 30'000);
        QVERIFY(complete(layer, view));
        QCOMPARE_LE(layer.cachedBytes(), TileLayer::kCacheBytes);
    }
};

QTEST_MAIN(TileLayerTest)
#include "tile_layer_test.moc"
