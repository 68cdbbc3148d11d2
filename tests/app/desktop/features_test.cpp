#include "desktop/canvas/label_layout.h"
#include "desktop/dialogs/features_dialog.h"
#include "desktop/panels/command_search.h"
#include "support/kept_layer.h"
#include "support/reading.h"
#include "window_probe.h"

#include <QTreeWidget>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

// Invented: two parcels side by side, the second in two layers, a road through the first, and a well in it.
QByteArray square(const char* number, const char* owner, double west) {
    return QStringLiteral(R"({"type":"Feature","properties":{"parcel":"%1","Owner name":"%2"},"geometry":)"
                          R"({"type":"Polygon","coordinates":[[[%3,46],[%4,46],[%4,46.01],[%3,46.01],[%3,46]]]}})")
        .arg(QString::fromUtf8(number), QString::fromUtf8(owner))
        .arg(west)
        .arg(west + 0.01)
        .toUtf8();
}

QByteArray collection(const QList<QByteArray>& features) {
    return R"({"type":"FeatureCollection","features":[)" + features.join(',') + "]}";
}

const char* const kRoad = R"({"type":"Feature","properties":{"road":"mill road"},"geometry":{"type":"LineString",)"
                          R"("coordinates":[[-8,46.005],[-7.995,46.005]]}})";

} // namespace

class FeaturesTest : public QObject {
    Q_OBJECT

    static void add(WindowProbe& probe, const QString& name, const QByteArray& content) {
        QFile file{probe.folder.filePath(name + ".geojson")};
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(content);
        file.close();
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.kind = model::SourceKind::Reference;
        source.name = name.toStdString();
        source.path = file.fileName().toStdString();
        source.numberField = "parcel";
        probe.document().push(model::addSource(probe.set(), source));
        QVERIFY(probe.settle());
    }
    static void addAll(WindowProbe& probe) {
        add(probe, "parcels", collection({square("17", "Mill", -8.0), square("18", "Ωmega farm", -7.99)}));
        add(probe, "leases", collection({square("L1", "tenant", -7.99)}));
        add(probe, "roads", collection({kRoad}));
        probe.look(-7.99, 46.005, 0.015);
    }
    static QStringList tops(const FeaturesDialog& dialog) {
        QStringList names;
        auto* tree = dialog.findChild<QTreeWidget*>("featuresTree");
        for (int i = 0; i < tree->topLevelItemCount(); ++i)
            names << tree->topLevelItem(i)->text(0) + " " + tree->topLevelItem(i)->text(1);
        return names;
    }
    static FeaturesDialog* answer(WindowProbe& probe) {
        FeaturesDialog* dialog = nullptr;
        (void)QTest::qWaitFor(
            [&] {
                dialog = probe.window->findChild<FeaturesDialog*>("featuresDialog");
                return dialog && dialog->isVisible();
            },
            5000);
        return dialog;
    }

private slots:
    void initTestCase() { QStandardPaths::setTestModeEnabled(true); }

    void whatIsHere_byTheSecondButton_showsAllLayers_andCopies() {
        WindowProbe probe;
        addAll(probe);
        const QPoint at = probe.pixel(-7.985, 46.005);
        QContextMenuEvent asked{QContextMenuEvent::Mouse, at, probe.map().mapToGlobal(at)};
        QApplication::sendEvent(&probe.map(), &asked);
        QMenu* menu = nullptr;
        QVERIFY(
            QTest::qWaitFor([&] { return (menu = qobject_cast<QMenu*>(QApplication::activePopupWidget())); }, 5000));
        const QList<QAction*> offered = menu->actions();
        const auto ask = std::find_if(offered.begin(), offered.end(),
                                      [](const QAction* action) { return action->text() == "What is here?"; });
        QVERIFY(ask != offered.end());
        QTest::mouseClick(menu, Qt::LeftButton, Qt::NoModifier, menu->actionGeometry(*ask).center());
        FeaturesDialog* dialog = answer(probe);
        QVERIFY(dialog);
        // The uppermost layer first; the road ends before.
        QCOMPARE(tops(*dialog), (QStringList{"Parcel L1 leases", "Parcel 18 parcels"}));
        probe.clickIn(dialog, "featuresCopy");
        QCOMPARE(QGuiApplication::clipboard()->text(),
                 QString::fromUtf8("Parcel L1\tleases\nparcel\tL1\nOwner name\ttenant\n"
                                   "Parcel 18\tparcels\nparcel\t18\nOwner name\tΩmega farm\n"));
        // Of a chosen row only that one.
        auto* tree = dialog->findChild<QTreeWidget*>("featuresTree");
        const QRect row = tree->visualItemRect(tree->topLevelItem(1)->child(1));
        QTest::mouseClick(tree->viewport(), Qt::LeftButton, Qt::NoModifier, row.center());
        probe.clickIn(dialog, "featuresCopy");
        QCOMPARE(QGuiApplication::clipboard()->text(), QString::fromUtf8("Owner name\tΩmega farm\n"));
    }

    void whatIsHere_byKey_isAboutThePointer_andLinesWithinReach() {
        WindowProbe probe;
        addAll(probe);
        probe.map().setFocus();
        // Told to the map alone: the screen's own pointer is shared with other programs that run beside this one.
        const QPointF at = probe.pixel(-7.998, 46.005) + QPoint{0, 3};
        QMouseEvent pointed{QEvent::MouseMove, at, probe.map().mapToGlobal(at), Qt::NoButton, {}, {}};
        QCoreApplication::sendEvent(&probe.map(), &pointed);
        probe.key(Qt::Key_I, Qt::ControlModifier);
        FeaturesDialog* dialog = answer(probe);
        QVERIFY(dialog);
        QCOMPARE(tops(*dialog), (QStringList{"roads roads", "Parcel 17 parcels"}));
        delete dialog;
        // Twenty pixels off, the road is not under the pointer.
        QCOMPARE(probe.map().featuresAt(probe.map().toEarth(probe.pixel(-7.998, 46.005) + QPoint{0, 20})).size(),
                 std::size_t{1});
        // A layer that is not shown is not asked.
        model::Source hidden = probe.set().sources[0];
        hidden.visible = false;
        probe.document().push(model::replaceSource(probe.set(), hidden, "hide"));
        QVERIFY(probe.settle());
        QCOMPARE(probe.map().featuresAt({-7.9985, 46.002}).size(), std::size_t{0});
    }

    void doubleClick_onEmptyGround_asks() {
        WindowProbe probe;
        addAll(probe);
        QTest::mouseDClick(&probe.map(), Qt::LeftButton, Qt::NoModifier, probe.pixel(-7.995, 46.002));
        FeaturesDialog* dialog = answer(probe);
        QVERIFY(dialog);
        QCOMPARE(tops(*dialog), QStringList{"Parcel 17 parcels"});
        // The answer to the next question takes its place; where nothing is, nothing opens.
        QTest::mouseDClick(&probe.map(), Qt::LeftButton, Qt::NoModifier, probe.pixel(-7.985, 46.002));
        QVERIFY(QTest::qWaitFor([&] { return answer(probe) && tops(*answer(probe)).size() == 2; }, 5000));
        QCOMPARE(probe.window->findChildren<FeaturesDialog*>().size(), 1);
    }

    void search_inAnyColumn_listsAndZooms() {
        WindowProbe probe;
        addAll(probe);
        probe.look(0, 0, 1);
        probe.key(Qt::Key_K, Qt::ControlModifier);
        auto* search = probe.find<CommandSearch>("commandSearch");
        QTest::keyClicks(search, "owner: ");
        QCOMPARE(search->offered().filter("Parcel").size(), 0);
        QGuiApplication::clipboard()->setText(QString::fromUtf8("ωMEGA"));
        QTest::keyClick(search, Qt::Key_V, Qt::ControlModifier);
        QVERIFY2(search->offered().first().startsWith("Parcel 18"), qPrintable(search->offered().join(" | ")));
        QTest::keyClick(search, Qt::Key_Return);
        const auto middle = probe.map().toEarth(QPointF(probe.map().width() / 2.0, probe.map().height() / 2.0));
        QVERIFY(std::abs(middle.lon - -7.985) < 1e-3 && std::abs(middle.lat - 46.005) < 1e-3);

        probe.key(Qt::Key_K, Qt::ControlModifier);
        QTest::keyClicks(search, "parcel: 1");
        QCOMPARE(search->offered().filter("Parcel").size(), 3); // 17, 18 and L1
        const int list = int(search->offered().indexOf("List all 3"));
        QVERIFY2(list >= 0, qPrintable(search->offered().join(" | ")));
        for (int i = 0; i < list; ++i)
            QTest::keyClick(search, Qt::Key_Down);
        QTest::keyClick(search, Qt::Key_Return);
        FeaturesDialog* dialog = answer(probe);
        QVERIFY(dialog);
        QCOMPARE(tops(*dialog).size(), 3);
        auto* tree = dialog->findChild<QTreeWidget*>("featuresTree");
        for (int i = 0; i < 3; ++i)
            if (tree->topLevelItem(i)->text(0) == "Parcel 17")
                tree->setCurrentItem(tree->topLevelItem(i));
        probe.clickIn(dialog, "featuresShow");
        const auto now = probe.map().toEarth(QPointF(probe.map().width() / 2.0, probe.map().height() / 2.0));
        QVERIFY(std::abs(now.lon - -7.995) < 1e-3);
    }

    void labels_ofRealParcels_doNotOverlap_data() {
        QTest::addColumn<double>("metresPerPixel");
        for (const double scale : {0.1, 0.2, 0.3, 0.5, 0.8})
            QTest::addRow("%g m", scale) << scale;
    }
    void labels_ofRealParcels_doNotOverlap() {
        QFETCH(double, metresPerPixel);
        // 493 parcels of a published cadastral map, tests/data/parcels.
        const auto layer = support::keptLayer(support::read(support::dataPath("parcels/kastoria_cad1925.shp")));
        QCOMPARE(layer->size(), std::size_t{493});
        TileQueue queue;
        ReferenceLayer references{queue};
        ReferenceSource source;
        source.layer = layer;
        source.labelColumn = layer->column("KAK");
        QVERIFY(source.labelColumn);
        references.setSources({source});
        const geometry::Box& extent = layer->about().extent;
        ViewTransform view;
        view.setSize({1900, 1000});
        view.setOrigin({(extent.minX + extent.maxX) / 2, (extent.minY + extent.maxY) / 2});
        view.showBox(extent, 0.0);
        view.zoomAbout({950, 500}, view.metresPerPixel() / metresPerPixel);
        std::vector<ReferenceLayer::Label> labels;
        // Places are sought a few in each painting, until one asks for no further painting.
        QSignalSpy ready{&references, &ReferenceLayer::ready};
        const auto atRest = [&] {
            ready.clear();
            labels = references.labels(view);
            QCoreApplication::processEvents();
            return ready.isEmpty();
        };
        QVERIFY(QTest::qWaitFor(atRest, 60'000));
        // Large ones, so that without a layout many would overlap.
        QFont font;
        font.setPixelSize(24);
        const QFontMetricsF metrics{font};
        LabelLayout layout{{0, 0, 1900, 1000}};
        std::vector<QRectF> wanted;
        std::vector<QRectF> placed;
        for (const auto& label : labels) {
            const QSizeF size{metrics.horizontalAdvance(label.text), metrics.height()};
            const auto rectangle = [&](const QPointF& centre) {
                return QRectF{centre - QPointF{size.width() / 2, size.height() / 2}, size};
            };
            wanted.push_back(rectangle(label.centre));
            const std::vector<QPointF> centres{label.centre};
            if (const auto at = layout.place(size, centres, [](const QRectF&) { return false; }))
                placed.push_back(rectangle(*at));
        }
        const auto overlaps = [](const std::vector<QRectF>& all) {
            int count = 0;
            for (std::size_t i = 0; i < all.size(); ++i)
                for (std::size_t k = i + 1; k < all.size(); ++k)
                    count += all[i].intersects(all[k]) ? 1 : 0;
            return count;
        };
        QVERIFY(placed.size() > 10);
        QCOMPARE(overlaps(placed), 0);
        if (metresPerPixel >= 0.3)
            QVERIFY2(overlaps(wanted) > 0, "nothing would have overlapped anyway");
    }
};

QTEST_MAIN(FeaturesTest)
#include "features_test.moc"
