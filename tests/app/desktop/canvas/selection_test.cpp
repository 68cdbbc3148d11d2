#include "desktop/canvas/selection.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;

class SelectionTest : public QObject {
    Q_OBJECT

    const model::FenceId m_fence{"f1"}, m_other{"f2"};
    const model::SiteId m_site{"f1"}; // the same text, and yet another thing
    const model::HomeId m_home{"h1"};

private slots:
    void things_keepTheirOrder_andAreThereOnce() {
        const Selection selection{std::vector<Thing>{m_home, m_fence, m_site, m_fence}};
        QVERIFY((selection.things() == std::vector<Thing>{m_home, m_fence, m_site}));
        QVERIFY(selection.contains(m_site) && selection.contains(m_fence) && !selection.contains(m_other));
        QVERIFY((selection.fences() == std::vector{m_fence}));
        QVERIFY((selection.with(m_other).fences() == std::vector{m_fence, m_other}));
        QVERIFY((selection.with(m_home) == selection));
    }

    void toggled_twice_isTheSame_butLast() {
        const Selection selection = Selection{m_fence}.with(m_other);
        QVERIFY(selection.toggled(m_fence) == Selection{m_other});
        QVERIFY((selection.toggled(m_fence).toggled(m_fence).things() == std::vector<Thing>{m_other, m_fence}));
        QVERIFY(selection.without(m_fence).without(m_other).empty());
        QVERIFY(selection.without(m_fence).without(m_other) == Selection{});
    }

    void only_answersForOneThingOfThatKind() {
        QVERIFY(Selection{}.only<model::FenceId>() == nullptr);
        const Selection one{m_fence};
        QVERIFY(one.only<model::FenceId>() && *one.only<model::FenceId>() == m_fence);
        QVERIFY(one.only<model::SiteId>() == nullptr);
        QVERIFY(one.with(m_home).only<model::FenceId>() == nullptr);
    }
};

QTEST_APPLESS_MAIN(SelectionTest)
#include "selection_test.moc"
