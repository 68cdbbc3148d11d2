#include "model/edit.h"

#include "fault.h"

#include <QtTest>
#include <random>

using namespace fencewright;
using namespace fencewright::model;

namespace {

Fence someFence(std::mt19937_64& random) {
    Fence fence;
    fence.id = freshId<Fence>();
    fence.name = "Fence " + std::to_string(random() % 1000);
    fence.kind = random() % 2 ? FenceKind::KeepIn : FenceKind::KeepOut;
    fence.shape = Circle{{double(random() % 360) - 180, double(random() % 180) - 90},
                         {Length::metres(double(random() % 1000)), ""}};
    return fence;
}

Edit someEdit(std::mt19937_64& random, const FenceSet& set) {
    const auto pick = [&](std::size_t size) { return std::size_t(random() % size); };
    switch (random() % 12) {
    case 0:
    case 1:
        return addFence(set, someFence(random));
    case 2:
        if (!set.fences.empty()) {
            Fence fence = set.fences[pick(set.fences.size())];
            fence.name += "'";
            fence.enabled = !fence.enabled;
            return replaceFence(set, fence, "Rename");
        }
        break;
    case 3:
        if (!set.fences.empty())
            return removeFence(set, set.fences[pick(set.fences.size())].id);
        break;
    case 4:
        if (!set.sites.empty())
            return removeSite(set, set.sites[pick(set.sites.size())].id);
        break;
    case 5:
        if (!set.sites.empty()) {
            Fence fence = someFence(random);
            fence.shape = Setback{set.sites[pick(set.sites.size())].id, {Length::metres(100), "100 m"}};
            return addFence(set, fence);
        }
        break;
    case 6:
        return addHome(set, Home{freshId<Home>(), "Home", HomeKind::Home, {1, 2}, {}, ""});
    case 7:
        if (set.sources.size() > 1)
            return moveSource(set, set.sources[pick(set.sources.size())].id, pick(set.sources.size()));
        {
            Source source;
            source.id = freshId<Source>();
            source.name = "Ortho";
            source.path = "a.tif";
            return addSource(set, source);
        }
    case 8:
        return replaceHeading(set, {"Title " + std::to_string(random() % 100), set.notes});
    case 9: {
        Margin margin;
        margin.speed = {Speed::metresPerSecond(double(random() % 20)), ""};
        return replaceMargin(set, margin);
    }
    case 10:
        return replaceMargin(set, std::nullopt);
    default:
        break;
    }
    return addSite(set, Site{freshId<Site>(), "Site", "nest", Position{1, 1}, {}, "", false, ""});
}

} // namespace

class EditTest : public QObject {
    Q_OBJECT

private slots:
    void undo_ofAnySequence_restoresTheVerySameSet() {
        constexpr int kCases = 1000;
        for (int seed = 0; seed < kCases; ++seed) {
            std::mt19937_64 random{std::uint64_t(seed)};
            FenceSet set;
            std::vector<FenceSet> states{set};
            std::vector<Edit> edits;
            const int steps = 1 + int(random() % 30);
            for (int step = 0; step < steps; ++step) {
                edits.push_back(someEdit(random, set));
                set = applied(set, edits.back());
                states.push_back(set);
            }
            for (std::size_t step = edits.size(); step-- > 0;) {
                set = applied(set, inverse(edits[step]));
                QVERIFY2(set == states[step], qPrintable(QString("seed %1, undo of step %2").arg(seed).arg(step)));
            }
            for (std::size_t step = 0; step < edits.size(); ++step) {
                set = applied(set, edits[step]);
                QVERIFY2(set == states[step + 1], qPrintable(QString("seed %1, redo of step %2").arg(seed).arg(step)));
            }
            // Merged, all edits are still one exact step.
            Edit all = edits.front();
            for (std::size_t step = 1; step < edits.size(); ++step)
                all = merged(all, edits[step]);
            QVERIFY(applied(FenceSet{}, all) == set);
            QVERIFY(applied(set, inverse(all)) == FenceSet{});
        }
    }

    void applied_refusesAnEditOfAnotherState() {
        std::mt19937_64 random{1};
        FenceSet set;
        set = applied(set, addFence(set, someFence(random)));
        Fence changed = set.fences[0];
        changed.name = "Other";
        const Edit edit = replaceFence(set, changed, "Rename");
        const FenceSet after = applied(set, edit);
        QVERIFY_EXCEPTION_THROWN((void)applied(after, edit), Fault);
        QCOMPARE(after.fences[0].name, "Other");
    }

    void merged_ofOneDrag_isOneChange() {
        std::mt19937_64 random{2};
        FenceSet set;
        set = applied(set, addFence(set, someFence(random)));
        Fence fence = set.fences[0];
        fence.name = "1";
        const Edit first = replaceFence(set, fence, "Drag");
        const FenceSet middle = applied(set, first);
        fence.name = "2";
        const Edit both = merged(first, replaceFence(middle, fence, "Drag"));
        QCOMPARE(both.changes.size(), 1u);
        QCOMPARE(applied(set, both).fences[0].name, "2");
        QVERIFY(applied(applied(set, both), inverse(both)) == set);
    }

    void replaceMargin_isUndoneExactly_andRefusesAnotherState() {
        FenceSet set;
        Margin margin;
        margin.positionError = {Length::feet(10), "10 ft"};
        margin.basis = "The maker's manual";
        const Edit stated = replaceMargin(set, margin);
        QCOMPARE(stated.title.english(), "State the margin");
        const FenceSet with = applied(set, stated);
        QVERIFY(with.margin == margin);
        QVERIFY(applied(with, inverse(stated)) == set);
        QVERIFY_EXCEPTION_THROWN((void)applied(with, stated), Fault);
        Margin other = margin;
        other.reaction = std::chrono::duration<double>{2.0};
        const Edit both = merged(stated, replaceMargin(with, other));
        QCOMPARE(both.changes.size(), 1u);
        QVERIFY(applied(set, both).margin == other);
        const Edit back = replaceMargin(with, std::nullopt);
        QCOMPARE(back.title.english(), "Take the margin back");
        QVERIFY(applied(with, back) == set);
        QVERIFY(applied(set, inverse(back)) == with);
    }

    void removeSite_takesItsSetbackFencesAlong() {
        FenceSet set;
        const Site site{freshId<Site>(), "Nest", "nest", Position{1, 1}, {}, "", false, ""};
        set = applied(set, addSite(set, site));
        Fence fence;
        fence.id = freshId<Fence>();
        fence.shape = Setback{site.id, {Length::metres(100), "100 m"}};
        set = applied(set, addFence(set, fence));
        const Edit edit = removeSite(set, site.id);
        QVERIFY(applied(set, edit).fences.empty());
        QVERIFY(applied(applied(set, edit), inverse(edit)) == set);
    }
};

QTEST_APPLESS_MAIN(EditTest)
#include "edit_test.moc"
