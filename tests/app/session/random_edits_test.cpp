#include "session/open_document.h"

#include "app/session/edit_desk.h"
#include "support/random_sets.h"

#include <QtTest>

#include <algorithm>
#include <functional>
#include <optional>

using namespace fencewright;
using namespace fencewright::model;
using test::Deed;
using test::Desk;
using test::Replay;

// Long random sequences of edits, as persons make them over days: every step is held against a replay that knows
// nothing of edits, and undo and redo against the sets as they were.

namespace {

constexpr int kSteps = 10'000;
constexpr std::size_t kMostOfAKind = 14; ///< of things in the set: beyond it, they are removed rather than added

template <class T> bool isLocked(const T& thing) {
    if constexpr (requires { thing.locked; })
        return thing.locked;
    else
        return false;
}

class Person {
public:
    explicit Person(unsigned seed) : m_random{seed} {}

    std::size_t below(std::size_t count) { return std::size_t(m_random() % count); }
    bool chance(int oneIn) { return m_random() % std::uint64_t(oneIn) == 0; }
    FenceSet things(int most) { return test::randomSet(m_random, test::Numbers::Sensible, most); }

    /// What is done next to a set that is not locked against it, or is.
    std::optional<Deed> next(const FenceSet& set) {
        switch (below(13)) {
        case 0:
        case 1:
            return onKind<Fence>(set);
        case 2:
            return onKind<Site>(set);
        case 3:
            return onKind<Home>(set);
        case 4:
            return onKind<Source>(set);
        case 5:
            return change<Fence>(set);
        case 6:
            return change<Site>(set);
        case 7:
            return change<Home>(set);
        case 8:
            return below(2) ? lock<Fence>(set) : below(2) ? lock<Site>(set) : lock<Home>(set);
        case 9: {
            const Heading heading{"Title " + std::to_string(below(5)), "Notes " + std::to_string(below(5))};
            return Deed{replaceHeading(set, heading), [heading](Replay& replay) {
                            replay.title = heading.title;
                            replay.notes = heading.notes;
                        }};
        }
        case 10:
            return moveOne(set);
        case 11: {
            std::optional<Margin> margin;
            if (!chance(4)) {
                margin.emplace();
                margin->allowance = {Length::metres(double(below(40))), ""};
                margin->basis = "Basis " + std::to_string(below(3));
            }
            return Deed{replaceMargin(set, margin), [margin](Replay& replay) { replay.margin = margin; }};
        }
        default:
            return several(set);
        }
    }

    /// The same thing changed again, as a drag does.
    template <class T> std::optional<Deed> change(const FenceSet& set, const Id<T>* wanted = nullptr) {
        const Roster<T>& roster = of<T>(set);
        if (roster.empty())
            return std::nullopt;
        const T before = wanted ? *roster.find(*wanted) : roster[below(roster.size())];
        T after = before;
        alter(after);
        return replaced(set, before, after);
    }
    template <class T> std::optional<Deed> replaced(const FenceSet& set, const T& before, const T& after) {
        const bool refused = isLocked(before) && !(before == after);
        return Deed{replacing(set, after), [after](Replay& replay) { replay.replace(after); }, refused};
    }
    template <class T> static const Roster<T>& of(const FenceSet& set) {
        if constexpr (std::is_same_v<T, Fence>)
            return set.fences;
        else if constexpr (std::is_same_v<T, Site>)
            return set.sites;
        else if constexpr (std::is_same_v<T, Home>)
            return set.homes;
        else
            return set.sources;
    }

private:
    static Edit replacing(const FenceSet& set, const Fence& fence) { return replaceFence(set, fence, "Change"); }
    static Edit replacing(const FenceSet& set, const Site& site) { return replaceSite(set, site, "Change"); }
    static Edit replacing(const FenceSet& set, const Home& home) { return replaceHome(set, home, "Change"); }
    static Edit replacing(const FenceSet& set, const Source& source) { return replaceSource(set, source, "Change"); }
    static Edit adding(const FenceSet& set, const Fence& fence) { return addFence(set, fence); }
    static Edit adding(const FenceSet& set, const Site& site) { return addSite(set, site); }
    static Edit adding(const FenceSet& set, const Home& home) { return addHome(set, home); }
    static Edit adding(const FenceSet& set, const Source& source) { return addSource(set, source); }
    static Edit removing(const FenceSet& set, const FenceId& id) { return removeFence(set, id); }
    static Edit removing(const FenceSet& set, const SiteId& id) { return removeSite(set, id); }
    static Edit removing(const FenceSet& set, const HomeId& id) { return removeHome(set, id); }
    static Edit removing(const FenceSet& set, const SourceId& id) { return removeSource(set, id); }

    void alter(Fence& fence) {
        switch (below(4)) {
        case 0:
            fence.name += "'";
            fence.name.resize(std::min<std::size_t>(fence.name.size(), 40));
            break;
        case 1:
            fence.enabled = !fence.enabled;
            break;
        default:
            // Another shape altogether, or a corner elsewhere.
            if (auto* drawn = std::get_if<DrawnPolygon>(&fence.shape); drawn && !drawn->polygon.shell.corners.empty()) {
                auto& corners = drawn->polygon.shell.corners;
                corners[below(corners.size())].lat += 1e-5 * double(1 + below(9));
            } else if (auto* circle = std::get_if<Circle>(&fence.shape)) {
                circle->centre.lon += 1e-5 * double(1 + below(9));
            } else if (auto* corridor = std::get_if<Corridor>(&fence.shape)) {
                std::swap(corridor->left, corridor->right);
            } else if (auto* setback = std::get_if<Setback>(&fence.shape)) {
                setback->distance = {Length::metres(double(1 + below(500))), ""};
            } else {
                fence.shape = Circle{{-8.7, 46.2}, {Length::metres(double(1 + below(500))), ""}};
            }
        }
    }
    void alter(Site& site) {
        if (auto* place = std::get_if<Position>(&site.geometry))
            place->lat += 1e-5 * double(1 + below(9));
        else
            site.confidential = !site.confidential;
    }
    void alter(Home& home) { home.place.lon += 1e-5 * double(1 + below(9)); }
    void alter(Source& source) { source.opacity = double(below(101)) / 100.0; }

    template <class T> std::optional<Deed> onKind(const FenceSet& set) {
        const Roster<T>& roster = of<T>(set);
        if (roster.size() < 2 || (roster.size() < kMostOfAKind && below(2)))
            return add<T>(set);
        return remove<T>(set);
    }
    template <class T> std::optional<Deed> add(const FenceSet& set) {
        const FenceSet made = things(3);
        if (of<T>(made).empty())
            return std::nullopt;
        T thing = of<T>(made)[0];
        if constexpr (std::is_same_v<T, Fence>)
            if (auto* setback = std::get_if<Setback>(&thing.shape); setback && !set.sites.empty())
                setback->site = set.sites[below(set.sites.size())].id;
        return Deed{adding(set, thing), [thing](Replay& replay) { replay.add(thing); }};
    }
    template <class T> std::optional<Deed> remove(const FenceSet& set) {
        const Roster<T>& roster = of<T>(set);
        const T& thing = roster[below(roster.size())];
        bool refused = isLocked(thing);
        if constexpr (std::is_same_v<T, Site>)
            for (const Fence& fence : set.fences)
                if (const auto* setback = std::get_if<Setback>(&fence.shape))
                    refused = refused || (setback->site == thing.id && fence.locked);
        return Deed{removing(set, thing.id), [id = thing.id](Replay& replay) { replay.remove(id); }, refused};
    }
    template <class T> std::optional<Deed> lock(const FenceSet& set) {
        const Roster<T>& roster = of<T>(set);
        if (roster.empty())
            return std::nullopt;
        T thing = roster[below(roster.size())];
        thing.locked = !thing.locked;
        return Deed{replacing(set, thing), [thing](Replay& replay) { replay.replace(thing); }};
    }
    std::optional<Deed> moveOne(const FenceSet& set) {
        if (set.sources.size() < 2)
            return std::nullopt;
        const SourceId id = set.sources[below(set.sources.size())].id;
        const std::size_t to = below(set.sources.size() + 1);
        return Deed{moveSource(set, id, to), [id, to](Replay& replay) { replay.move(id, to); }};
    }
    /// Several deeds as one edit, each against the set after the last. Without locked things: a whole edit is refused,
    /// and whether it is depends on what is left in the end.
    std::optional<Deed> several(const FenceSet& set) {
        FenceSet state = set;
        Deed all;
        std::vector<std::function<void(Replay&)>> steps;
        for (std::size_t i = 2 + below(4); i > 0; --i) {
            const auto one = below(3) == 0 ? onKind<Fence>(state)
                             : below(2)    ? change<Site>(state)
                                           : onKind<Home>(state);
            if (!one || one->refused)
                continue;
            state = applied(state, one->edit);
            all.edit.changes.insert(all.edit.changes.end(), one->edit.changes.begin(), one->edit.changes.end());
            steps.push_back(one->replayed);
        }
        all.edit.title = "Several";
        all.replayed = [steps](Replay& replay) {
            for (const auto& step : steps)
                step(replay);
        };
        return all;
    }

    std::mt19937_64 m_random;
};

} // namespace

class RandomEditsTest : public QObject {
    Q_OBJECT

private slots:
    void tenThousandSteps_areUndoneAndRedone_equalAtEveryStep_data() {
        QTest::addColumn<unsigned>("seed");
        for (const unsigned seed : {20261130U, 7U, 4711U})
            QTest::addRow("seed %u", seed) << seed;
    }
    void tenThousandSteps_areUndoneAndRedone_equalAtEveryStep() {
        QFETCH(unsigned, seed);
        Person person{seed};
        Desk desk{person.things(8)};
        std::uint64_t gesture = 0;
        int pushed = 0, refused = 0, merged = 0, dropped = 0;
        const auto push = [&](std::optional<Deed> deed) -> QString {
            if (!deed)
                return {};
            const int before = desk.index();
            const QString words = desk.doIt(*deed);
            ++pushed;
            refused += deed->refused ? 1 : 0;
            merged += !deed->refused && desk.index() == before ? 1 : 0;
            dropped += desk.index() < before ? 1 : 0;
            return words;
        };
        // Sequences of a person: single edits, drags, and now and then a stretch of undo that other edits follow.
        while (desk.steps() < kSteps) {
            if (person.chance(8) && !desk.set().fences.empty()) {
                const Fence first = desk.set().fences[person.below(desk.set().fences.size())];
                ++gesture;
                for (std::size_t drags = 1 + person.below(6); drags > 0; --drags)
                    if (auto deed = person.change<Fence>(desk.set(), &first.id)) {
                        deed->edit.gesture = gesture;
                        VERIFY_FINE(push(std::move(deed)));
                    }
                if (person.chance(3)) { // Escape: back to where it was
                    auto back = person.replaced(desk.set(), *desk.set().fences.find(first.id), first);
                    back->edit.gesture = gesture;
                    VERIFY_FINE(push(std::move(back)));
                }
            } else if (person.chance(60)) {
                const int back = int(person.below(12));
                for (int i = 0; i < back && desk.index() > 0; ++i)
                    VERIFY_FINE(desk.undo());
                for (int i = int(person.below(std::size_t(back) + 1)); i > 0 && desk.index() < desk.steps(); --i)
                    VERIFY_FINE(desk.redo());
            } else {
                VERIFY_FINE(push(person.next(desk.set())));
            }
        }
        while (desk.index() > 0)
            VERIFY_FINE(desk.undo());
        while (desk.index() < desk.steps())
            VERIFY_FINE(desk.redo());
        for (int i = 0; i < 20; ++i)
            VERIFY_FINE(desk.goTo(int(person.below(std::size_t(desk.steps()) + 1))));
        QVERIFY(refused > 200 && merged > 500 && dropped > 20); // all of it has happened
        qInfo("%d edits pushed, %d refused, %d merged, %d gestures dropped, %d steps", pushed, refused, merged, dropped,
              desk.steps());
    }
};

QTEST_GUILESS_MAIN(RandomEditsTest)
#include "random_edits_test.moc"
