#include "desktop/canvas/underlay.h"

#include "support/kept_layer.h"
#include "support/made_raster.h"

#include <QTemporaryDir>
#include <QtTest>

#include <random>

using namespace fencewright;
using namespace fencewright::desktop;

class UnderlayTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;
    std::shared_ptr<const reference::Layer> m_parcels;
    QString m_path;

    ImagerySource imagery(double opacity = 1.0) const {
        const raster::Dataset dataset{m_path.toStdString()};
        return {"a",
                m_path,
                {},
                std::make_shared<const raster::RasterDescription>(dataset.description()),
                dataset.levels(),
                dataset.tilePixels(),
                opacity};
    }
    static constexpr QRgb kGround = 0xFF008000;

    /// @param laid  the ground is told to the underlay, and is painted by nobody else
    static QImage painted(Underlay& underlay, const ViewTransform& view, TileQuality quality = TileQuality::Fine,
                          bool laid = false) {
        QImage image{view.size().toSize(), QImage::Format_RGB32};
        image.fill(laid ? QColor{Qt::red} : QColor{kGround});
        QPainter painter{&image};
        underlay.paint(painter, view, quality, laid ? std::optional{QColor{kGround}} : std::nullopt);
        return image;
    }
    static bool settled(Underlay& underlay, const ViewTransform& view) {
        const QImage before = painted(underlay, view);
        return underlay.tiles().isComplete() && underlay.references().isComplete() && underlay.isFine() &&
               before == painted(underlay, view);
    }
    /// Painted by one that has shown nothing else before.
    QImage fresh(const ViewTransform& view, double opacity, bool withParcels = true) const {
        Underlay underlay;
        underlay.setImagery({imagery(opacity)});
        if (withParcels)
            underlay.setReferences({{"p", "Parcels", m_parcels, std::nullopt, std::nullopt, 0.8}});
        for (int i = 0; i < 500 && !settled(underlay, view); ++i)
            QTest::qWait(10);
        return painted(underlay, view);
    }
    static int different(const QImage& a, const QImage& b) {
        int count = 0;
        for (int y = 0; y < a.height(); ++y)
            for (int x = 0; x < a.width(); ++x)
                count += std::abs(qRed(a.pixel(x, y)) - qRed(b.pixel(x, y))) > 3;
        return count;
    }

private slots:
    void initTestCase() {
        test::MadeRaster raster;
        raster.width = raster.height = 1200;
        raster.crs = "EPSG:32629";
        raster.geotransform = {480'000, 1, 0, 5'120'000, 0, -1};
        raster.options = {"TILED=YES"};
        raster.value = [](int band, int x, int y) { return (x / 9 * 31 + y / 7 * 17 + band * 50) % 256; };
        m_path = m_folder.filePath("picture.tif");
        test::make(raster, m_path.toStdString());

        exchange::VectorContent content;
        for (int i = 0; i < 12; ++i)
            for (int k = 0; k < 12; ++k) {
                const double x = -9.262 + i * 0.002, y = 46.215 + k * 0.0013;
                exchange::Feature feature;
                feature.parts = {
                    model::Polygon{{{{x, y}, {x + 0.0017, y}, {x + 0.0016, y + 0.0012}, {x, y + 0.0011}}}, {}}};
                content.features.push_back(feature);
            }
        content.extent = {-9.262, 46.215, -9.238, 46.2306};
        m_parcels = support::keptLayer(content);
    }

    void afterPansAndZooms_thePictureIsTheSameAsAFreshOne() {
        Underlay underlay;
        underlay.setImagery({imagery()});
        underlay.setReferences({{"p", "Parcels", m_parcels, std::nullopt, std::nullopt, 0.8}});
        ViewTransform view;
        view.setSize({701, 500});
        view.setOrigin({-9.2505, 46.2235});
        view.setMetresPerPixel(1.13);
        (void)painted(underlay, view); // and on at once, while tiles come in
        for (const QPointF& way : {QPointF{37, 11}, QPointF{-190, 145}, QPointF{12, -170}, QPointF{-300, 2}}) {
            view.panBy(way);
            QTest::qWait(3);
            (void)painted(underlay, view);
        }
        view.zoomAbout({300, 200}, 1.4);
        (void)painted(underlay, view, TileQuality::Fast);
        view.panBy({50, 60});
        QTRY_VERIFY(settled(underlay, view));
        QCOMPARE(different(painted(underlay, view), fresh(view, 1.0)), 0);

        // Another opacity is seen at once.
        underlay.setImagery({imagery(0.3)});
        QTRY_VERIFY(settled(underlay, view));
        QCOMPARE(different(painted(underlay, view), fresh(view, 0.3)), 0);
        underlay.setImagery({});
        underlay.setReferences({});
        const QImage empty = painted(underlay, view);
        QCOMPARE(empty.pixelColor(350, 250), QColor{kGround});
    }

    void aGroundThatIsTold_isThePicturesOwn_alsoWhereItIsToldNowAndThen() {
        Underlay underlay;
        underlay.setImagery({imagery(0.6)});
        underlay.setReferences({{"p", "Parcels", m_parcels, std::nullopt, std::nullopt, 0.8}});
        ViewTransform view;
        view.setSize({701, 500});
        view.setOrigin({-9.2505, 46.2235});
        view.setMetresPerPixel(1.13);
        std::mt19937 random{7};
        for (int i = 0; i < 60; ++i) { // more than once around the picture, in every direction
            if (i % 20 == 19)
                view.zoomAbout({300, 200}, i == 19 ? 1.2 : 0.9);
            view.panBy({double(random() % 301) - 150.0, double(random() % 241) - 120.0});
            const bool laid = i % 7 != 3;
            const QImage image = painted(underlay, view, i % 11 == 5 ? TileQuality::Fast : TileQuality::Fine, laid);
            if (laid)
                for (int y = 0; y < image.height(); y += 10)
                    for (int x = 0; x < image.width(); x += 10)
                        QVERIFY2(image.pixelColor(x, y) != QColor{Qt::red},
                                 qPrintable(QString("%1 of %2").arg(x).arg(i)));
        }
        view.panBy(view.toWidget(QPointF{}) * -1.0 + QPointF{350, 250}); // back to the image
        QTRY_VERIFY(settled(underlay, view));
        const QImage expected = fresh(view, 0.6);
        QCOMPARE(different(painted(underlay, view), expected), 0);
        QCOMPARE(different(painted(underlay, view, TileQuality::Fine, true), expected), 0);
        view.panBy({-333, 222});
        QTRY_VERIFY(settled(underlay, view));
        QCOMPARE(different(painted(underlay, view, TileQuality::Fine, true), fresh(view, 0.6)), 0);
    }

    void anotherScale_isThereAtOnce_andFineSoonAfter_alsoWhenItIsMovedMeanwhile() {
        Underlay underlay; // of imagery alone: no tile comes in that would have its place painted anew
        underlay.setImagery({imagery()});
        ViewTransform view;
        view.setSize({1801, 1200}); // more than one frame paints
        view.setOrigin({-9.2505, 46.2235});
        view.setMetresPerPixel(0.62);
        QTRY_VERIFY(settled(underlay, view));
        view.zoomAbout({900, 600}, 1.2);
        const QImage first = painted(underlay, view);
        QVERIFY(!underlay.isFine());
        for (int y = 430; y < 770; y += 20) // the image lies there
            for (int x = 460; x < 1340; x += 20)
                QVERIFY2(first.pixelColor(x, y) != QColor{kGround}, qPrintable(QString("%1, %2").arg(x).arg(y)));
        for (const QPointF& way : {QPointF{30, -20}, QPointF{-11, 45}}) {
            view.panBy(way);
            (void)painted(underlay, view);
        }
        QTRY_VERIFY(settled(underlay, view));
        QCOMPARE(different(painted(underlay, view), fresh(view, 1.0, false)), 0);
    }

    void amidAMotion_somethingIsThereAtOnce() {
        Underlay underlay;
        underlay.setImagery({imagery()});
        ViewTransform view;
        view.setSize({400, 300});
        view.setOrigin({-9.2505, 46.2235});
        QTRY_VERIFY(settled(underlay, view));
        for (const double factor : {1.3, 1.7, 2.5, 0.2}) {
            view.zoomAbout({200, 150}, factor);
            QVERIFY(painted(underlay, view, TileQuality::Fast).pixelColor(200, 150) != QColor{kGround});
        }
    }
};

QTEST_MAIN(UnderlayTest)
#include "underlay_test.moc"
