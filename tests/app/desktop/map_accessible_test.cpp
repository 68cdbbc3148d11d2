// What those who do not see the map are told of it.
#include "app/desktop/window_probe.h"

#include <QAccessible>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7, kLat = 46.2;

/// The interface of a part of the map by the words it bears.
QAccessibleInterface* partNamed(QAccessibleInterface& map, const QString& words) {
    for (int i = 0; i < map.childCount(); ++i)
        if (QAccessibleInterface* part = map.child(i); part && part->text(QAccessible::Name) == words)
            return part;
    return nullptr;
}

} // namespace

class MapAccessibleTest : public QObject {
    Q_OBJECT

private slots:
    void init() {
        m_probe = std::make_unique<WindowProbe>();
        m_probe->look(kLon, kLat, 0.01);
        m_probe->square("tool_keepout", kLon, kLat, 0.004);
        m_probe->square("tool_keepin", kLon, kLat, 0.008);
        model::Home home;
        home.id = model::freshId<model::Home>();
        home.name = "Dam";
        home.locked = true;
        home.place = {kLon + 0.006, kLat};
        m_probe->document().push(model::addHome(m_probe->set(), home));
        m_probe->key(Qt::Key_S);
        m_probe->map().select({});
        m_told.clear();
        connect(&m_probe->map(), &MapCanvas::announced, this, [this](QAccessible::Event kind) { m_told << kind; });
    }
    void cleanup() { m_probe.reset(); }

    void roleAndDescription_sayToolHintScaleAndPlace() {
        QAccessibleInterface& map = accessible();
        QVERIFY(map.role() == QAccessible::Canvas);
        QCOMPARE(map.text(QAccessible::Name), QString{"Map"});
        const QString said = map.text(QAccessible::Description);
        QVERIFY2(said.contains("Tool: Select and edit."), qPrintable(said));
        QVERIFY2(said.contains("Nothing is chosen."), qPrintable(said));
        QVERIFY2(said.contains(m_probe->find<QLabel>("mapHint")->text()), qPrintable(said));
        // 0.02 degrees of latitude, and the margins, are in the height of the map.
        const QString view = map.text(QAccessible::Value);
        QVERIFY2(view.contains(QRegularExpression{"^The map is 3\\.\\d+ km across, about 46°12′00\\.00″ N "
                                                  "8°42′00\\.00″ W, north up\\.$"}),
                 qPrintable(view));
        QVERIFY(said.endsWith(view));
        m_probe->map().turnBy(-30);
        QVERIFY2(map.text(QAccessible::Value).endsWith("with 30° up."), qPrintable(map.text(QAccessible::Value)));
    }

    void whatIsInView_areParts_withPlaceAndState() {
        QAccessibleInterface& map = accessible();
        QAccessibleInterface* inner = partNamed(map, "Keep-out: Keep-out 1");
        QVERIFY(inner);
        QVERIFY(inner->role() == QAccessible::ListItem);
        QCOMPARE(inner->parent(), &map);
        QCOMPARE(map.child(map.indexOfChild(inner)), inner);
        const QRect box = inner->rect();
        const QPoint corner = m_probe->map().mapToGlobal(m_probe->pixel(kLon - 0.004, kLat + 0.004));
        QVERIFY((box.topLeft() - corner).manhattanLength() <= 4);
        QVERIFY(partNamed(map, "Keep-in: Keep-in 1"));
        QVERIFY(partNamed(map, "Home: Dam, locked"));
        // The inner one is meant where both are.
        QCOMPARE(map.childAt(box.center().x(), box.center().y()), inner);
        // Out of view it is no part any more, unless it is chosen.
        const int before = map.childCount();
        m_probe->look(kLon + 1, kLat, 0.01);
        QCOMPARE(map.childCount(), before - 3);
        m_probe->map().select(m_probe->set().fences[0].id);
        inner = partNamed(map, "Keep-out: Keep-out 1");
        QVERIFY(inner && inner->state().offscreen && inner->state().selected);
    }

    void aPart_isChosenByItsAction_andTheMapTellsIt() {
        QAccessibleInterface& map = accessible();
        QAccessibleInterface* part = partNamed(map, "Keep-in: Keep-in 1");
        QVERIFY(part && !part->state().selected && part->actionInterface());
        part->actionInterface()->doAction(QAccessibleActionInterface::pressAction());
        QVERIFY(m_probe->map().selection() == Selection{m_probe->set().fences[1].id});
        QVERIFY(part->state().selected);
        QVERIFY(m_told.contains(QAccessible::SelectionWithin));
        QVERIFY(map.text(QAccessible::Description).contains("Chosen: Keep-in 1."));
        // What is gone is no valid part, and says nothing.
        m_probe->map().deleteSelected();
        QVERIFY(!part->isValid());
        QVERIFY(part->text(QAccessible::Name).isEmpty());
    }

    void anotherHint_andAnotherView_areTold() {
        m_probe->key(Qt::Key_M);
        QVERIFY(accessible().text(QAccessible::Description).contains("Click where to measure from."));
        QTest::qWait(500);
        m_told.clear();
        m_probe->map().step(Qt::LeftArrow);
        QVERIFY(!m_told.contains(QAccessible::DescriptionChanged)); // not with each step
        QTRY_VERIFY(m_told.contains(QAccessible::DescriptionChanged));
    }

private:
    QAccessibleInterface& accessible() { return *QAccessible::queryAccessibleInterface(&m_probe->map()); }

    std::unique_ptr<WindowProbe> m_probe;
    QList<QAccessible::Event> m_told;
};

QTEST_MAIN(MapAccessibleTest)
#include "map_accessible_test.moc"
