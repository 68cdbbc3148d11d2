#include "model/lock.h"

#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::model;

namespace {

Fence setbackOf(const SiteId& site) {
    Fence fence;
    fence.id = freshId<Fence>();
    fence.name = "Round the nest";
    fence.shape = Setback{site, {Length::metres(100), "100 m"}};
    return fence;
}

struct Scene {
    FenceSet set;
    Site site;
    Fence setback;
    Home home;

    Scene() {
        site.id = freshId<Site>();
        site.name = "Nest";
        setback = setbackOf(site.id);
        home.id = freshId<Home>();
        home.name = "Crest";
    }
    void fill() {
        set.sites.append(site);
        set.fences.append(setback);
        set.homes.append(home);
    }
};

/// The refusal's words, or nothing.
QString refusal(const FenceSet& set, const Edit& edit) {
    try {
        requireUnlocked(set, edit);
    } catch (const Fault& fault) {
        return fault.what();
    }
    return {};
}

template <class T> T withLock(T thing, bool locked) {
    thing.locked = locked;
    return thing;
}

} // namespace

class LockTest : public QObject {
    Q_OBJECT

private slots:
    void unlockedThings_passEveryEdit() {
        Scene scene;
        scene.fill();
        QCOMPARE(refusal(scene.set, removeSite(scene.set, scene.site.id)), QString{});
        QCOMPARE(refusal(scene.set, replaceHome(scene.set, withLock(scene.home, true), "Lock")), QString{});
    }

    void eachKind_isNamed_withTheRemedy() {
        Scene scene;
        scene.site.locked = scene.setback.locked = scene.home.locked = true;
        scene.fill();
        Home home = scene.home;
        home.place = {3, 4};
        QVERIFY(refusal(scene.set, replaceHome(scene.set, home, "Move")).contains("Crest is locked"));
        QVERIFY(refusal(scene.set, removeHome(scene.set, home.id)).contains("Unlock it first"));
        Site site = scene.site;
        site.geometry = Position{3, 4};
        QVERIFY(refusal(scene.set, replaceSite(scene.set, site, "Move")).contains("Nest is locked"));
        QVERIFY(refusal(scene.set, removeFence(scene.set, scene.setback.id)).contains("Round the nest is locked"));
    }

    void unlocking_isAllowed_butNothingAlongWithIt() {
        Scene scene;
        scene.home.locked = true;
        scene.fill();
        Home home = withLock(scene.home, false);
        QCOMPARE(refusal(scene.set, replaceHome(scene.set, home, "Unlock")), QString{});
        home.name = "Elsewhere";
        QVERIFY(!refusal(scene.set, replaceHome(scene.set, home, "Unlock and rename")).isEmpty());
        const Edit first = replaceHome(scene.set, withLock(scene.home, false), "Unlock");
        const Edit both = inSequence("Both", scene.set, first,
                                     [&](const FenceSet& state) { return replaceHome(state, home, "Rename"); });
        QVERIFY(!refusal(scene.set, both).isEmpty());
    }

    void setback_ofAMovedSite_isNotTouched_butGoesWithItOnlyUnlocked() {
        Scene scene;
        scene.setback.locked = true;
        scene.fill();
        Site site = scene.site;
        site.geometry = Position{3, 4};
        QCOMPARE(refusal(scene.set, replaceSite(scene.set, site, "Move")), QString{});
        QVERIFY(refusal(scene.set, removeSite(scene.set, site.id)).contains("Round the nest is locked"));
    }

    void whatAnEditLeavesAsItWas_isNotTouched() {
        Scene scene;
        scene.setback.locked = true;
        scene.fill();
        Fence other = scene.setback;
        other.name = std::string{"Other"};
        const Edit there = replaceFence(scene.set, other, "There");
        const Edit back = inSequence("There and back", scene.set, there,
                                     [&](const FenceSet& state) { return replaceFence(state, scene.setback, "Back"); });
        QCOMPARE(refusal(scene.set, back), QString{});
    }

    void anEditOfAnotherState_isRefusedAsSuch() {
        Scene scene;
        scene.fill();
        const Edit stale = removeHome(scene.set, scene.home.id);
        scene.set.homes.erase(0);
        QVERIFY(refusal(scene.set, stale).contains("does not fit"));
    }
};

QTEST_APPLESS_MAIN(LockTest)
#include "lock_test.moc"
