#include "desktop/canvas/tile_board.h"

#include "fault.h"

#include <QSignalSpy>
#include <QtTest>

#include <random>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr int kSize = 64;

/// Tiles of one colour each, 64 pixels a side, in a plane of a metre a pixel.
struct Painted {
    std::map<TileKey, int> made; ///< how often
    std::mutex mutex;
    std::atomic<bool> held = false; ///< nothing but stand-ins is made
    std::atomic<bool> broken = false;

    WantedTile tile(std::uint64_t layer, double metresPerPixel, int x, int y, const ViewTransform& view,
                    bool standIn = false) {
        const double side = kSize * metresPerPixel;
        return {TileKey{layer, view.planeNumber(), 0, metresPerPixel, x, y}, QRectF{x * side, y * side, side, side},
                TileJob::Lane::Local, standIn};
    }
    /// The tiles from -2 to 1 in each direction.
    WantedLayer layer(std::uint64_t number, const QColor& colour, const ViewTransform& view, double opacity = 1.0,
                      double metresPerPixel = 1.0) {
        WantedLayer layer;
        layer.layer = number;
        layer.opacity = opacity;
        for (int x = -2; x < 2; ++x)
            for (int y = -2; y < 2; ++y)
                layer.tiles.push_back(tile(number, metresPerPixel, x, y, view));
        layer.maker = [this, colour](const WantedTile& wanted) {
            return [this, colour, key = wanted.key, standIn = wanted.standIn](TileBench&, const Progress& progress) {
                while (held && !standIn)
                    progress.report(0.0, "");
                if (broken)
                    throw Fault{"Broken.", "place", "Mend it."};
                const std::lock_guard lock{mutex};
                ++made[key];
                QImage image{kSize, kSize, QImage::Format_RGB32};
                image.fill(standIn ? QColor{Qt::yellow} : colour);
                return image;
            };
        };
        return layer;
    }
};

QImage painted(TileBoard& board, const ViewTransform& view) {
    QImage image{view.size().toSize(), QImage::Format_ARGB32_Premultiplied};
    image.fill(Qt::black);
    QPainter painter{&image};
    board.paint(painter, view, QRectF{QPointF{}, view.size()}, TileQuality::Fine);
    return image;
}

} // namespace

class TileBoardTest : public QObject {
    Q_OBJECT

    ViewTransform m_view;

private slots:
    void init() {
        m_view = ViewTransform{};
        m_view.setSize({256, 256});
        m_view.setOrigin({10, 50});
        m_view.setMetresPerPixel(1.0);
    }

    void store_keepsItsBound_andForgetsWhatWasNotUsedForLongest() {
        constexpr qint64 limit = 1'000'000;
        TileStore store{limit};
        std::mt19937_64 random{20261125};
        TileKey kept;
        kept.x = -1;
        store.put(kept, {QImage{64, 64, QImage::Format_RGB32}, {}});
        for (int i = 0; i < 5000; ++i) {
            TileKey key;
            key.x = i;
            const int side = int(random() % 200);
            store.put(key, {side < 20 ? QImage{} : QImage{side, side, QImage::Format_RGB32}, {}});
            QCOMPARE_LE(store.bytes(), limit);
            QVERIFY(store.find(key));
            QVERIFY(store.find(kept)); // used all the time
        }
        TileKey first;
        QVERIFY(!store.find(first));
        qint64 left = 0;
        store.visit(0, [&](const TileKey&, const TileStore::Tile&) { ++left; });
        QVERIFY(left > 3 && left < 5000);
        // Empty ones are bounded as well.
        for (int i = 0; i < 100'000; ++i) {
            first.x = i;
            store.put(first, {});
        }
        left = 0;
        store.visit(0, [&](const TileKey&, const TileStore::Tile&) { ++left; });
        QCOMPARE_LE(left, limit / 512);
        store.dropWhere([](const TileKey&) { return true; });
        QCOMPARE(store.bytes(), qint64{0});
    }

    void tiles_comeOnce_andArePaintedWhereTheyLie() {
        Painted source;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy arrived{&board, &TileBoard::arrived};
        board.show({source.layer(1, Qt::red, m_view)}, m_view);
        QVERIFY(!board.isComplete());
        QTRY_COMPARE(arrived.count(), 16);
        board.show({source.layer(1, Qt::red, m_view)}, m_view);
        QVERIFY(board.isComplete());
        const QImage image = painted(board, m_view);
        for (int y = 0; y < 256; ++y)
            for (int x = 0; x < 256; ++x)
                QCOMPARE(image.pixelColor(x, y), QColor{Qt::red});
        // Away and back: nothing is made again.
        const ViewTransform before = m_view;
        m_view.panBy({5000, 0});
        board.show({}, m_view);
        board.show({source.layer(1, Qt::red, before)}, before);
        QVERIFY(board.isComplete());
        for (const auto& [key, count] : source.made)
            QCOMPARE(count, 1);
    }

    void aCoarseTile_standsIn_untilTheFineOneIsThere() {
        Painted source;
        source.held = true;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        auto layer = source.layer(1, Qt::red, m_view);
        for (int x = -1; x < 1; ++x)
            for (int y = -1; y < 1; ++y)
                layer.tiles.push_back(source.tile(1, 8.0, x, y, m_view, true));
        QSignalSpy arrived{&board, &TileBoard::arrived};
        board.show({layer}, m_view);
        QTRY_COMPARE(arrived.count(), 4);
        QCOMPARE(painted(board, m_view).pixelColor(10, 200), QColor{Qt::yellow});
        QVERIFY(!board.isComplete());
        source.held = false;
        QTRY_COMPARE(arrived.count(), 20);
        QCOMPARE(painted(board, m_view).pixelColor(10, 200), QColor{Qt::red});

        // Zoomed out, the finer ones stand in.
        source.held = true;
        m_view.setMetresPerPixel(2.0);
        board.show({source.layer(1, Qt::blue, m_view, 1.0, 2.0)}, m_view);
        QCOMPARE(painted(board, m_view).pixelColor(128, 128), QColor{Qt::red});
        source.held = false;
    }

    void translucentStandIns_areNotLaidOverThemselves() {
        Painted source;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy arrived{&board, &TileBoard::arrived};
        board.show({source.layer(1, Qt::white, m_view, 0.5, 2.0), source.layer(1, Qt::white, m_view, 0.5, 4.0)},
                   m_view);
        QTRY_COMPARE(arrived.count(), 32);
        source.held = true;
        board.show({source.layer(1, Qt::white, m_view, 0.5, 1.0)}, m_view);
        const QImage image = painted(board, m_view);
        for (const QPoint& at : {QPoint{5, 5}, QPoint{100, 120}, QPoint{200, 30}, QPoint{64, 64}})
            QCOMPARE_LE(std::abs(image.pixelColor(at).red() - 128), 2);
        source.held = false;
    }

    void twoLayers_areBlendedInOrder() {
        Painted source;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy arrived{&board, &TileBoard::arrived};
        board.show({source.layer(1, Qt::white, m_view), source.layer(2, Qt::black, m_view, 0.25)}, m_view);
        QTRY_COMPARE(arrived.count(), 32);
        QCOMPARE_LE(std::abs(painted(board, m_view).pixelColor(77, 99).green() - 191), 2);
        const std::uint64_t before = board.arrangement();
        board.show({source.layer(2, Qt::black, m_view, 0.25), source.layer(1, Qt::white, m_view)}, m_view);
        QCOMPARE(painted(board, m_view).pixelColor(77, 99).green(), 255);
        QVERIFY(board.arrangement() != before);
    }

    void anotherPlane_voidsWhatLiesInTheOld() {
        Painted source;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy arrived{&board, &TileBoard::arrived};
        auto layer = source.layer(1, Qt::red, m_view);
        layer.crsOrigin = QPointF{500'000, 5'000'000};
        // One of the raster's own pyramid, which lies in its CRS whatever the plane.
        WantedTile own{TileKey{1, 0, 3, 1.0, 0, 0}, QRectF{500'000, 5'000'000, 64, 64}};
        layer.tiles.push_back(own);
        board.show({layer}, m_view);
        QTRY_COMPARE(arrived.count(), 17);
        const qint64 before = board.bytes();
        m_view.setOrigin({10.5, 50});
        board.show({}, m_view);
        QVERIFY(board.bytes() > 0 && board.bytes() < before / 8);
    }

    void whatCannotBeMade_isSaid_andNotTriedAtEachPainting() {
        Painted source;
        source.broken = true;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy failed{&board, &TileBoard::failed};
        board.show({source.layer(1, Qt::red, m_view)}, m_view);
        QTRY_COMPARE(failed.count(), 16);
        board.show({source.layer(1, Qt::red, m_view)}, m_view);
        QVERIFY(board.isComplete());
        QTest::qWait(30);
        QCOMPARE(failed.count(), 16);
    }

    void whatIsMadeWhenTheViewHasMovedOn_isThereWhenItComesBack() {
        std::atomic<bool> go = false;
        std::atomic<int> made = 0, begun = 0;
        Painted source;
        WantedLayer here;
        here.layer = 1;
        here.tiles = {source.tile(1, 1.0, 0, 0, m_view)};
        here.maker = [&](const WantedTile&) {
            return [&](TileBench&, const Progress&) { // cannot be stopped on its way
                ++begun;
                while (!go)
                    QThread::msleep(1);
                ++made;
                QImage image{kSize, kSize, QImage::Format_RGB32};
                image.fill(Qt::red);
                return image;
            };
        };
        WantedLayer elsewhere = here;
        elsewhere.tiles.clear();
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy arrived{&board, &TileBoard::arrived};
        board.show({here}, m_view);
        QTRY_COMPARE(begun.load(), 1);
        board.show({elsewhere}, m_view);
        go = true;
        QTRY_VERIFY(board.bytes() > 0);
        QCOMPARE(arrived.count(), 0); // nothing is seen of it
        board.show({here}, m_view);
        QVERIFY(board.isComplete());
        QCOMPARE(painted(board, m_view).pixelColor(140, 100), QColor{Qt::red});
        QCOMPARE(made.load(), 1);
        // Of another plane it would lie elsewhere.
        go = false;
        board.keepOnly({});
        board.show({here}, m_view);
        QTRY_COMPARE(begun.load(), 2);
        m_view.setOrigin({10.5, 50});
        board.show({elsewhere}, m_view);
        go = true;
        QTRY_COMPARE(made.load(), 2);
        QTest::qWait(30);
        QCOMPARE(board.bytes(), qint64{0});
    }

    // A tile that was in a corner of sight for a moment is made all the same: on the way back it is there.
    void whatLeftSightBeforeItWasMade_isMadeAfterAllElse_whileItIsNear() {
        Painted source;
        source.held = true; // nothing is done before the view has moved on
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        const auto shown = [&](int fromX, double metresPerPixel = 1.0) {
            WantedLayer layer = source.layer(1, Qt::red, m_view, 1.0, metresPerPixel);
            std::erase_if(layer.tiles, [&](const WantedTile& tile) { return tile.key.x < fromX; });
            return layer;
        };
        board.show({shown(-2)}, m_view);
        board.show({shown(0)}, m_view);
        board.show({shown(0)}, m_view); // and is not forgotten by the view after
        source.held = false;
        QTRY_COMPARE(board.bytes() / (kSize * kSize * 4), 16);
        board.show({shown(-2)}, m_view);
        QVERIFY(board.isComplete());
        QTest::qWait(30);
        for (const auto& [key, count] : source.made)
            QCOMPARE(count, 1);

        // Far away, or at another fineness, it is dropped.
        for (const bool far : {true, false}) {
            board.keepOnly({});
            source.made.clear();
            source.held = true;
            board.show({shown(-2)}, m_view);
            ViewTransform away = m_view;
            away.panBy({far ? -900.0 : 0.0, 0.0});
            board.show({far ? shown(1) : shown(1, 2.0)}, away);
            QTest::qWait(50); // what was under way hears that it is to stop
            source.held = false;
            QTRY_VERIFY(board.bytes() > 0);
            QTest::qWait(60);
            const auto left = std::count_if(source.made.begin(), source.made.end(), [](const auto& one) {
                return one.first.metresPerPixel == 1.0 && one.first.x < 1;
            });
            QCOMPARE(left, 0);
        }
    }

    void whatIsLent_standsIn_andSparesTheCoarseTile() {
        Painted source;
        source.held = true;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        WantedLayer layer = source.layer(1, Qt::red, m_view);
        layer.crsOrigin = QPointF{1000.0, 2000.0};
        layer.lent = TileKey{1, 0, -1, 8.0, 0, 0};
        layer.tiles.push_back(source.tile(1, 8.0, 0, 0, m_view, true));
        // Its lower half is green, its upper half blue.
        QImage lent{32, 8, QImage::Format_RGB32};
        lent.fill(Qt::blue);
        for (int y = 4; y < 8; ++y)
            for (int x = 0; x < 32; ++x)
                lent.setPixelColor(x, y, Qt::green);
        board.lend(*layer.lent, lent, QRectF{1000.0 - 128.0, 2000.0 - 128.0, 256.0, 256.0});
        board.show({layer}, m_view);
        QVERIFY(!board.isComplete());
        const QImage before = painted(board, m_view);
        QCOMPARE(before.pixelColor(20, 40), QColor{Qt::blue});
        QCOMPARE(before.pixelColor(230, 220), QColor{Qt::green});
        source.held = false;
        QTRY_VERIFY((board.show({layer}, m_view), board.isComplete()));
        QCOMPARE(painted(board, m_view).pixelColor(20, 40), QColor{Qt::red});
        QVERIFY(!source.made.contains(source.tile(1, 8.0, 0, 0, m_view, true).key));
    }

    void troubleIsOver_whenAllInSightIsThere() {
        Painted source;
        source.broken = true;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy failed{&board, &TileBoard::failed}, whole{&board, &TileBoard::whole};
        board.show({source.layer(1, Qt::red, m_view)}, m_view);
        QTRY_COMPARE(failed.count(), 16);
        source.broken = false;
        // One more comes, but the others are still missing.
        WantedLayer more = source.layer(1, Qt::red, m_view);
        more.tiles.push_back(source.tile(1, 1.0, 2, 0, m_view));
        board.show({more}, m_view);
        QTRY_VERIFY(board.bytes() > 0);
        QTest::qWait(30);
        QCOMPARE(whole.count(), 0);
        WantedLayer elsewhere = source.layer(1, Qt::red, m_view);
        elsewhere.tiles = {source.tile(1, 1.0, 2, 0, m_view), source.tile(1, 1.0, 2, 1, m_view)};
        board.show({elsewhere}, m_view);
        QTRY_COMPARE(whole.count(), 1);
        QCOMPARE(whole[0][0].toULongLong(), 1ULL);
        board.show({elsewhere}, m_view);
        QTest::qWait(30);
        QCOMPARE(whole.count(), 1);
    }

    void gonelayers_areForgotten() {
        Painted source;
        TileQueue queue;
        TileBoard board{queue, 10'000'000};
        QSignalSpy arrived{&board, &TileBoard::arrived};
        board.show({source.layer(1, Qt::red, m_view), source.layer(2, Qt::red, m_view)}, m_view);
        QTRY_COMPARE(arrived.count(), 32);
        const qint64 both = board.bytes();
        board.keepOnly({2});
        QCOMPARE(board.bytes(), both / 2);
        board.keepOnly({});
        QCOMPARE(board.bytes(), qint64{0});
    }
};

QTEST_MAIN(TileBoardTest)
#include "tile_board_test.moc"
