#pragma once

#include "fault.h"
#include "model/edit.h"
#include "session/open_document.h"

#include <QString>
#include <QtTest>

#include <algorithm>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

// What long sequences of edits are held against: a replay that knows nothing of edits, and the sets as they were at
// every place of the undo stack.
namespace fencewright::test {

using namespace model;

/// The replay: the set as plain lists, changed in place by the words of what was done.
struct Replay {
    std::string title, notes;
    std::vector<std::shared_ptr<const Fence>> fences;
    std::vector<std::shared_ptr<const Site>> sites;
    std::vector<std::shared_ptr<const Home>> homes;
    std::vector<std::shared_ptr<const Source>> sources;
    std::optional<Margin> margin;

    template <class T> std::vector<std::shared_ptr<const T>>& list() {
        if constexpr (std::is_same_v<T, Fence>)
            return fences;
        else if constexpr (std::is_same_v<T, Site>)
            return sites;
        else if constexpr (std::is_same_v<T, Home>)
            return homes;
        else
            return sources;
    }
    template <class T> void add(const T& thing) { list<T>().push_back(std::make_shared<const T>(thing)); }
    template <class T> void replace(const T& thing) {
        for (auto& one : list<T>())
            if (one->id == thing.id)
                one = std::make_shared<const T>(thing);
    }
    template <class T> void remove(const Id<T>& id) {
        std::erase_if(list<T>(), [&](const auto& one) { return one->id == id; });
        if constexpr (std::is_same_v<T, Site>)
            std::erase_if(fences, [&](const auto& fence) {
                const auto* setback = std::get_if<Setback>(&fence->shape);
                return setback && setback->site == id;
            });
    }
    void move(const SourceId& id, std::size_t to) {
        const auto at = std::find_if(sources.begin(), sources.end(), [&](const auto& one) { return one->id == id; });
        const auto source = *at;
        sources.erase(at);
        sources.insert(sources.begin() + std::ptrdiff_t(std::min(to, sources.size())), source);
    }

    template <class T> static bool same(const std::vector<std::shared_ptr<const T>>& list, const Roster<T>& roster) {
        if (list.size() != roster.size())
            return false;
        for (std::size_t i = 0; i < list.size(); ++i)
            if (!(*list[i] == roster[i]))
                return false;
        return true;
    }
    bool operator==(const FenceSet& set) const {
        return title == set.title && notes == set.notes && margin == set.margin && same(fences, set.fences) &&
               same(sites, set.sites) && same(homes, set.homes) && same(sources, set.sources);
    }
};

/// One thing that a person does: as an edit of the document, and in the words of the replay.
struct Deed {
    Edit edit;
    std::function<void(Replay&)> replayed;
    bool refused = false; ///< it would change what is locked
};

/// The document with its replay, and the set as it was at every place of the undo stack.
class Desk {
public:
    explicit Desk(FenceSet begin) {
        m_document.takeRecovered(std::move(begin), {});
        m_replay = replayOf(set());
        m_sets.push_back(set());
        m_replays.push_back(m_replay);
    }

    static Replay replayOf(const FenceSet& set) {
        Replay replay{set.title, set.notes, {}, {}, {}, {}, set.margin};
        copy(set.fences, replay.fences);
        copy(set.sites, replay.sites);
        copy(set.homes, replay.homes);
        copy(set.sources, replay.sources);
        return replay;
    }

    const FenceSet& set() const { return m_document.set(); }
    int index() { return m_document.undoStack().index(); }
    int steps() { return m_document.undoStack().count(); }

    /// Empty, or what is wrong.
    QString doIt(const Deed& deed) {
        const int before = index(), count = steps();
        try {
            m_document.push(deed.edit);
            if (deed.refused)
                return "what is locked was changed";
        } catch (const Fault& fault) {
            if (!deed.refused)
                return QString{"refused: "} + fault.what();
            return index() == before && steps() == count && m_replay == set() ? QString{}
                                                                              : "a refused edit did something";
        }
        deed.replayed(m_replay);
        if (!(m_replay == set()))
            return "the set is not what the replay gives";
        const bool sameGesture = deed.edit.gesture != 0 && deed.edit.gesture == m_lastGesture;
        m_lastGesture = deed.edit.gesture;
        const auto now = std::size_t(index());
        if (index() == before + 1 && !sameGesture) {
            m_sets.resize(std::size_t(before) + 1); // what was undone is gone
            m_replays.resize(m_sets.size());
            m_sets.push_back(set());
            m_replays.push_back(m_replay);
        } else if (index() == before && sameGesture) {
            m_sets[now] = set();
            m_replays[now] = m_replay;
        } else if (index() == before - 1 && sameGesture) { // a gesture that came back to where it began is no step
            m_sets.resize(now + 1);
            m_replays.resize(now + 1);
            m_lastGesture = 0;
        } else {
            return QString{"the stack went from %1 to %2"}.arg(before).arg(index());
        }
        return isAsItWas();
    }

    QString undo() {
        return arriveBy([this] { m_document.undoStack().undo(); });
    }
    QString redo() {
        return arriveBy([this] { m_document.undoStack().redo(); });
    }
    QString goTo(int step) {
        return arriveBy([this, step] { m_document.goToStep(step); });
    }

private:
    template <class T> static void copy(const Roster<T>& roster, std::vector<std::shared_ptr<const T>>& list) {
        for (const T& one : roster)
            list.push_back(std::make_shared<const T>(one));
    }
    QString isAsItWas() {
        const auto now = std::size_t(index());
        return now < m_sets.size() && m_sets[now] == set() && m_replays[now] == set()
                   ? QString{}
                   : QString{"step %1 is not what it was"}.arg(now);
    }
    template <class Go> QString arriveBy(Go go) {
        try {
            go();
        } catch (const Fault& fault) {
            return QString{"no way there: "} + fault.what();
        }
        m_lastGesture = 0; // whatever is pushed now is a step of its own
        m_replay = m_replays[std::size_t(index())];
        return isAsItWas();
    }

    session::OpenDocument m_document;
    Replay m_replay;
    std::vector<FenceSet> m_sets; ///< they share what did not change
    std::vector<Replay> m_replays;
    std::uint64_t m_lastGesture = 0;
};

} // namespace fencewright::test

#define VERIFY_FINE(done)                                                                                              \
    do {                                                                                                               \
        const QString wrong = (done);                                                                                  \
        QVERIFY2(wrong.isEmpty(), qPrintable(QString{"seed %1: %2"}.arg(seed).arg(wrong)));                            \
    } while (false)
