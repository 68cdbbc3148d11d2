#include "desktop/dialogs/connect_dialog.h"
#include "desktop/dialogs/server_dialog.h"
#include "support/loopback_server.h"
#include "support/wmts_service.h"
#include "window_probe.h"

#include <cmath>

using namespace fencewright;
using namespace fencewright::desktop;
using test::LoopbackServer;

namespace {

constexpr int kColouredZoom = 14;
constexpr double kLon = -8.1, kLat = 46.5;

QColor colourOf(int column, int row) {
    return {column * 67 % 200 + 30, row * 89 % 200 + 30, (column + row) * 31 % 200 + 30};
}

// Every tile from zoom 14 on has the one colour of the tile of zoom 14 that it lies in; coarser ones are black.
LoopbackServer::Answer coloured(const std::string& path) {
    int zoom = 0, column = 0, row = 0;
    if (std::sscanf(path.c_str(), "/%d/%d/%d.png", &zoom, &column, &row) != 3)
        return {404, "text/plain", "", {}, {}, false};
    QImage tile{256, 256, QImage::Format_RGB32};
    tile.fill(zoom < kColouredZoom ? QColor{Qt::black}
                                   : colourOf(column >> (zoom - kColouredZoom), row >> (zoom - kColouredZoom)));
    QByteArray bytes;
    QBuffer buffer{&bytes};
    buffer.open(QIODevice::WriteOnly);
    tile.save(&buffer, "PNG");
    return {200, "image/png", bytes.toStdString(), {}, {}, false};
}

// Web Mercator, spherical: Snyder, Map Projections: a working manual (USGS Professional Paper 1395), 7-4 and 7-5.
model::Position placeOf(double column, double row) {
    const double side = std::exp2(kColouredZoom);
    return {column / side * 360 - 180, std::atan(std::sinh(M_PI * (1 - 2 * row / side))) * 180 / M_PI};
}

} // namespace

class ServersTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_cache;

    static void typeInto(QWidget* dialog, const char* name, const QString& text) {
        auto* edit = dialog->findChild<QLineEdit*>(name);
        QVERIFY2(edit && edit->isVisible(), name);
        edit->setFocus();
        QTest::keyClick(edit, Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(edit, text);
    }
    static QString stateOf(QWidget* dialog) { return dialog->findChild<QLabel*>("serverState")->text(); }
    static ServerDialog* askedFor(WindowProbe& probe) {
        probe.key(Qt::Key_K, Qt::ControlModifier);
        auto* search = probe.find<QLineEdit>("commandSearch");
        QTest::keyClicks(search, "imagery from a server");
        QTest::keyClick(search, Qt::Key_Return);
        return probe.waitForDialog<ServerDialog>("serverDialog");
    }
    // After a dialog, where no window manager hands the keys back.
    static void backToTheMap(WindowProbe& probe) {
        QTRY_VERIFY(!probe.dialog());
        probe.window->activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(probe.window.get()));
        probe.map().setFocus();
    }
    static bool ready(WindowProbe& probe) {
        return QTest::qWaitFor(
            [&] {
                const auto& sources = probe.set().sources;
                return sources.size() == 1 && probe.window->sources().find(sources[0].id) &&
                       probe.window->sources().find(sources[0].id)->state == session::LoadedSource::State::Ready;
            },
            10'000);
    }
    // How many of the places in the view have the colour of their tile.
    static double shareOfRightPixels(WindowProbe& probe) {
        const QImage picture = probe.map().grab().toImage();
        const double side = std::exp2(kColouredZoom);
        const double angle = kLat * M_PI / 180;
        const double middleColumn = (kLon + 180) / 360 * side;
        const double middleRow = (1 - std::log(std::tan(angle) + 1 / std::cos(angle)) / M_PI) / 2 * side;
        int right = 0, all = 0;
        for (int column = int(middleColumn) - 2; column <= int(middleColumn) + 2; ++column)
            for (int row = int(middleRow) - 2; row <= int(middleRow) + 2; ++row)
                for (const double x : {0.15, 0.5, 0.85})
                    for (const double y : {0.15, 0.5, 0.85}) {
                        const auto place = placeOf(column + x, row + y);
                        const QPoint pixel = probe.pixel(place.lon, place.lat);
                        // The map's own marks lie along its edges.
                        if (!picture.rect().adjusted(60, 90, -60, -90).contains(pixel))
                            continue;
                        ++all;
                        right += picture.pixelColor(pixel) == colourOf(column, row) ? 1 : 0;
                    }
        return all < 40 ? -1.0 : double(right) / all;
    }

private slots:
    void initTestCase() { qputenv("XDG_CACHE_HOME", m_cache.path().toUtf8()); }

    void tiles_areAddedByTheirAddress_andDrawnWhereTheyLie() {
        const LoopbackServer server{[](const auto& request) { return coloured(request.path); }};
        WindowProbe probe;
        auto* dialog = askedFor(probe);
        QVERIFY(dialog);
        QVERIFY(!dialog->findChild<QPushButton*>("serverGo")->isEnabled());
        QVERIFY(dialog->findChild<QLabel*>("serverCaution")->text().contains("beside its true place"));
        typeInto(dialog, "serverAddress", QString::fromStdString(server.address()) + "/{z}/{x}/{y}.png");
        QTest::keyClick(dialog->findChild<QLineEdit*>("serverAddress"), Qt::Key_Return); // asks, and does not add
        QTRY_VERIFY2(stateOf(dialog).contains("answers with tiles"), qPrintable(stateOf(dialog)));
        QCOMPARE(dialog->findChild<QSpinBox*>("serverDeepest")->value(), 19);
        typeInto(dialog, "serverName", "Colours");
        QTest::keyClick(dialog->findChild<QLineEdit*>("serverName"), Qt::Key_Return); // now it adds
        QVERIFY(ready(probe));
        const model::Source& source = probe.set().sources[0];
        QCOMPARE(source.name, std::string{"Colours"});
        QCOMPARE(source.path, server.address() + "/{z}/{x}/{y}.png#zoom=0-19");
        QVERIFY(probe.find<QLabel>("sourceState")->text().contains("XYZ"));

        probe.look(kLon, kLat, 0.02);
        QTRY_COMPARE_WITH_TIMEOUT(shareOfRightPixels(probe), 1.0, 20'000);
        backToTheMap(probe);
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(probe.set().sources.size(), std::size_t{0});
    }

    void secrets_areTakenOutOfTheAddress_andAreNowhere() {
        const std::string secret = "hush-hush-7";
        const LoopbackServer server{[&](const LoopbackServer::Request& request) {
            const auto key = request.query.find("TOKEN");
            if (key == request.query.end() || key->second != secret)
                return LoopbackServer::Answer{403, "text/plain", "no", {}, {}, false};
            return coloured(request.path);
        }};
        WindowProbe probe;
        auto* dialog = askedFor(probe);
        QVERIFY(dialog);
        const QString address = QString::fromStdString(server.address()) + "/{z}/{x}/{y}.png?token=";
        typeInto(dialog, "serverAddress", address + "wrong");
        QVERIFY(!dialog->findChild<QLineEdit*>("serverKey")->isVisible());
        QTest::mouseClick(dialog->findChild<QPushButton*>("serverAsk"), Qt::LeftButton);
        auto* key = dialog->findChild<QLineEdit*>("serverKey");
        QTRY_VERIFY2(stateOf(dialog).contains("does not accept"), qPrintable(stateOf(dialog)));
        QCOMPARE(dialog->findChild<QLineEdit*>("serverAddress")->text(), address + "{key}");
        QVERIFY(key->isVisible());
        QVERIFY(!dialog->findChild<QPushButton*>("serverGo")->isEnabled());
        typeInto(dialog, "serverKey", QString::fromStdString(secret));
        QTest::keyClick(key, Qt::Key_Return);
        QTRY_VERIFY2(stateOf(dialog).contains("answers with tiles"), qPrintable(stateOf(dialog)));
        QTest::mouseClick(dialog->findChild<QPushButton*>("serverGo"), Qt::LeftButton);
        QVERIFY(ready(probe));
        QCOMPARE(probe.set().sources[0].path, server.address() + "/{z}/{x}/{y}.png?token={key}#zoom=0-19");
        probe.look(kLon, kLat, 0.02);
        QTRY_COMPARE_WITH_TIMEOUT(shareOfRightPixels(probe), 1.0, 20'000);

        const QString document = probe.folder.filePath("secret.gpkg");
        backToTheMap(probe);
        QVERIFY(probe.save(document));
        for (const QString& folder : {probe.folder.path(), m_cache.path()}) {
            QDirIterator files{folder, QDir::Files, QDirIterator::Subdirectories};
            while (files.hasNext()) {
                QFile file{files.next()};
                QVERIFY(file.open(QIODevice::ReadOnly));
                QVERIFY2(!file.readAll().contains(secret.c_str()), qPrintable(file.fileName()));
            }
        }
        // Another window does not know the key any more: it says so, blocks nothing, and asks.
        QVERIFY(!probe.document().isModified());
        probe.window->close();
        probe.window.reset();
        probe.show();
        probe.window->open(document);
        QTRY_COMPARE(probe.set().sources.size(), std::size_t{1});
        const auto& id = probe.set().sources[0].id;
        QTRY_COMPARE(probe.window->sources().find(id)->state, session::LoadedSource::State::Failed);
        QVERIFY(probe.window->sources().find(id)->words.contains("wants a key"));
        QTest::mouseClick(probe.find<QWidget>("tabSources"), Qt::LeftButton);
        auto* table = probe.find<QTableView>("ledgerTable");
        QTest::mouseClick(table->viewport(), Qt::LeftButton, {},
                          table->visualRect(table->model()->index(0, 0)).center());
        QVERIFY(!probe.find<QPushButton>("recordLocate")->isVisible());
        QVERIFY(probe.find<QPushButton>("recordConnect")->isVisible());
        probe.find<QPushButton>("recordConnect")->setFocus();
        QTest::keyClick(probe.find<QPushButton>("recordConnect"), Qt::Key_Space);
        auto* connecting = probe.waitForDialog<ConnectDialog>("connectDialog");
        QVERIFY(connecting);
        typeInto(connecting, "serverKey", QString::fromStdString(secret));
        QTest::keyClick(connecting->findChild<QLineEdit*>("serverKey"), Qt::Key_Return);
        QVERIFY(ready(probe));
        QVERIFY(!probe.document().isModified());
    }

    void service_offersItsLayers() {
        std::string own;
        const LoopbackServer server{
            [&](const LoopbackServer::Request& request) { return test::wmtsAnswer(request, own, {}); }};
        own = server.address();
        WindowProbe probe;
        auto* dialog = askedFor(probe);
        QVERIFY(dialog);
        typeInto(dialog, "serverAddress", QString::fromStdString(own) + "/kvp");
        QTest::keyClick(dialog->findChild<QLineEdit*>("serverAddress"), Qt::Key_Return);
        auto* layers = dialog->findChild<QListWidget*>("serverLayers");
        QTRY_COMPARE(layers->count(), 3);
        QVERIFY2(stateOf(dialog).contains("Maps of Alder Reach"), qPrintable(stateOf(dialog)));
        QVERIFY(!(layers->item(1)->flags() & Qt::ItemIsEnabled));
        QVERIFY(layers->item(1)->text().contains("do not double"));
        QTRY_VERIFY(layers->hasFocus());
        QCOMPARE(layers->currentRow(), 0);
        QCOMPARE(dialog->findChild<QLineEdit*>("serverName")->text(), QString{"Orthophoto"});
        auto* style = dialog->findChild<QComboBox*>("serverStyle");
        QVERIFY(style->isVisible());
        QCOMPARE(style->currentText(), QString{"Natural"});
        QTest::keyClick(style, Qt::Key_Down);
        QCOMPARE(style->currentText(), QString{"Faded"});
        QVERIFY(!dialog->findChild<QComboBox*>("serverGrid")->isVisible());
        QTest::keyClick(layers, Qt::Key_Down); // past the one that cannot be shown
        QCOMPARE(layers->currentRow(), 2);
        QVERIFY(dialog->findChild<QComboBox*>("serverGrid")->isVisible());
        QVERIFY(!style->isVisible());
        QVERIFY(!dialog->findChild<QLabel*>("serverElsewhere")->isVisible());
        QTest::keyClick(layers, Qt::Key_Return);
        QVERIFY(ready(probe));
        QCOMPARE(probe.set().sources[0].name, std::string{"Relief"});
        QCOMPARE(probe.set().sources[0].path,
                 own + "/kvp?SERVICE=WMTS&REQUEST=GetCapabilities#layer=relief&set=GoogleMapsCompatible&style=default");
    }

    void tilesFromElsewhere_areSaid() {
        const LoopbackServer tiles{
            [](const LoopbackServer::Request& request) { return test::wmtsAnswer(request, "", {}); }};
        test::WmtsService service;
        service.tileAddress = tiles.address();
        std::string own;
        const LoopbackServer server{
            [&](const LoopbackServer::Request& request) { return test::wmtsAnswer(request, own, service); }};
        own = server.address();
        WindowProbe probe;
        auto* dialog = askedFor(probe);
        QVERIFY(dialog);
        typeInto(dialog, "serverAddress", QString::fromStdString(own) + "/capabilities.xml");
        QTest::keyClick(dialog->findChild<QLineEdit*>("serverAddress"), Qt::Key_Return);
        auto* elsewhere = dialog->findChild<QLabel*>("serverElsewhere");
        QTRY_VERIFY(elsewhere->isVisible());
        QVERIFY(elsewhere->text().contains(QString::fromStdString(tiles.address())));
        QVERIFY(tiles.asked().empty());
        QTest::keyClick(dialog, Qt::Key_Escape);
        QTRY_VERIFY(!probe.dialog());
        QCOMPARE(probe.set().sources.size(), std::size_t{0});
    }

    void documentFromElsewhere_reachesNobodyUnasked() {
        const LoopbackServer server{[](const auto& request) { return coloured(request.path); }};
        WindowProbe maker;
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.name = "Somebody's tiles";
        source.path = server.address() + "/{z}/{x}/{y}.png";
        maker.document().push(model::addSource(maker.set(), source));
        const QString document = maker.folder.filePath("theirs.gpkg");
        QVERIFY(maker.save(document));
        maker.window.reset();

        WindowProbe probe{document};
        QTRY_COMPARE(probe.set().sources.size(), std::size_t{1});
        QTRY_COMPARE(probe.window->sources().find(source.id)->state, session::LoadedSource::State::Failed);
        QVERIFY(probe.window->sources().find(source.id)->words.contains("has not been asked anything yet"));
        probe.look(kLon, kLat, 0.02);
        QTest::qWait(200);
        QVERIFY(server.asked().empty());
        QTest::mouseClick(probe.find<QWidget>("tabSources"), Qt::LeftButton);
        auto* table = probe.find<QTableView>("ledgerTable");
        QTest::mouseClick(table->viewport(), Qt::LeftButton, {},
                          table->visualRect(table->model()->index(0, 0)).center());
        QTest::mouseClick(probe.find<QPushButton>("recordConnect"), Qt::LeftButton);
        auto* connecting = probe.waitForDialog<ConnectDialog>("connectDialog");
        QVERIFY(connecting);
        QVERIFY(connecting->findChild<QLabel*>("connectAddress")
                    ->text()
                    .contains(QString::fromStdString(server.address())));
        QTest::keyClick(connecting, Qt::Key_Return);
        QVERIFY(ready(probe));
        QTRY_COMPARE_WITH_TIMEOUT(shareOfRightPixels(probe), 1.0, 20'000);
        // It is known now, also to the next window.
        probe.window.reset();
        probe.show();
        probe.window->open(document);
        QVERIFY(ready(probe));
    }

    void deadServer_isMissing_andReadAgain() {
        auto server = std::make_unique<LoopbackServer>([](const auto& request) { return coloured(request.path); });
        WindowProbe probe;
        const std::string own = server->address();
        session::Settings{probe.options.settingsFile}.addKnownServer(QString::fromStdString(own));
        probe.window.reset();
        probe.show();
        server->stop();
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.name = "Gone";
        source.path = own + "/{z}/{x}/{y}.png";
        probe.document().push(model::addSource(probe.set(), source));
        QTRY_COMPARE(probe.window->sources().find(source.id)->state, session::LoadedSource::State::Failed);
        QVERIFY(probe.window->sources().find(source.id)->words.contains("cannot be reached"));
        QVERIFY(probe.map().isVisible());
        QTest::mouseClick(probe.find<QWidget>("tabSources"), Qt::LeftButton);
        auto* table = probe.find<QTableView>("ledgerTable");
        QTest::mouseClick(table->viewport(), Qt::LeftButton, {},
                          table->visualRect(table->model()->index(0, 0)).center());
        QTest::mouseClick(probe.find<QPushButton>("recordRetry"), Qt::LeftButton);
        QTRY_COMPARE(probe.window->sources().find(source.id)->state, session::LoadedSource::State::Failed);
        QVERIFY(probe.settle());
    }

    void refusedTiles_areSaidAtTheLayer_untilTheyComeAgain() {
        std::atomic<bool> refuses = false;
        const LoopbackServer server{[&](const auto& request) {
            return refuses ? LoopbackServer::Answer{403, "text/plain", "no", {}, {}, false} : coloured(request.path);
        }};
        WindowProbe probe;
        session::Settings{probe.options.settingsFile}.addKnownServer(QString::fromStdString(server.address()));
        probe.window.reset();
        probe.show();
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.name = "Fickle";
        source.path = server.address() + "/{z}/{x}/{y}.png";
        probe.document().push(model::addSource(probe.set(), source));
        QVERIFY(ready(probe));
        QTest::mouseClick(probe.find<QWidget>("tabSources"), Qt::LeftButton);
        auto* table = probe.find<QTableView>("ledgerTable");
        QTest::mouseClick(table->viewport(), Qt::LeftButton, {},
                          table->visualRect(table->model()->index(0, 0)).center());
        const auto state = [&] { return probe.find<QLabel>("sourceState")->text(); };
        const auto row = [&] { return table->model()->index(0, 2).data().toString(); };
        QVERIFY2(!state().startsWith("Refused"), qPrintable(state()));
        QVERIFY(!probe.find<QPushButton>("recordRetry")->isVisible());

        refuses = true;
        probe.look(kLon, kLat, 0.02);
        QTRY_VERIFY2_WITH_TIMEOUT(state().startsWith("Refused: "), qPrintable(state()), 10'000);
        QVERIFY2(state().contains("HTTP status 403") && state().contains("Connect to it"), qPrintable(state()));
        QVERIFY2(!state().contains(QString::fromStdString(server.address())), qPrintable(state())); // it has no room
        QCOMPARE(row(), QString{"refused"});
        QVERIFY(table->model()->index(0, 2).data(Qt::ToolTipRole).toString().contains("HTTP status 403"));
        QVERIFY(probe.find<QPushButton>("recordRetry")->isVisible());
        QVERIFY(probe.find<QPushButton>("recordConnect")->isVisible());
        const auto* form = probe.find<QLineEdit>("sourceName");
        QTRY_COMPARE(form->visibleRegion().boundingRect().width(), form->width()); // no row is wider than the panel

        refuses = false;
        QTest::mouseClick(probe.find<QPushButton>("recordRetry"), Qt::LeftButton);
        QTRY_COMPARE_WITH_TIMEOUT(shareOfRightPixels(probe), 1.0, 20'000);
        QVERIFY2(!state().startsWith("Refused"), qPrintable(state()));
        QCOMPARE(row(), QString{"shown"});
        QVERIFY(!probe.find<QPushButton>("recordRetry")->isVisible());
        QCOMPARE(probe.set().sources.size(), std::size_t{1});
    }

    void dialog_isClosedWhileTheServerThinks() {
        const LoopbackServer server{[](const auto& request) {
            auto answer = coloured(request.path);
            answer.wait = std::chrono::milliseconds{20'000};
            return answer;
        }};
        WindowProbe probe;
        auto* dialog = askedFor(probe);
        QVERIFY(dialog);
        typeInto(dialog, "serverAddress", QString::fromStdString(server.address()) + "/{z}/{x}/{y}.png");
        QTest::keyClick(dialog->findChild<QLineEdit*>("serverAddress"), Qt::Key_Return);
        QTRY_VERIFY(!server.asked().empty());
        QTest::keyClick(dialog, Qt::Key_Escape);
        QTRY_VERIFY(!probe.dialog());
        QElapsedTimer time;
        time.start();
        probe.window.reset();
        QCOMPARE_LT(time.elapsed(), 3000);
    }
};

QTEST_MAIN(ServersTest)
#include "servers_test.moc"
