#pragma once

#include "model/fence_set.h"
#include "wording.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace fencewright::model {

/// One thing of a set before and after. No `before`: it is added; no `after`: it is removed.
template <class T> struct Replacement {
    std::size_t index = 0; ///< where in the roster it stands, before and after
    std::shared_ptr<const T> before;
    std::shared_ptr<const T> after;
};

/// Title and notes of the set.
struct Heading {
    std::string title;
    std::string notes;

    bool operator==(const Heading&) const = default;
};
struct HeadingReplacement {
    Heading before;
    Heading after;
};

/// Of the set's margin: stated, changed, or taken back.
struct MarginReplacement {
    std::optional<Margin> before;
    std::optional<Margin> after;
};

using Change = std::variant<Replacement<Fence>, Replacement<Site>, Replacement<Home>, Replacement<Source>,
                            HeadingReplacement, MarginReplacement>;

/// Whether a kind of change is of the set itself, and of none of its things.
template <class One>
inline constexpr bool isOfSetItself = std::is_same_v<One, HeadingReplacement> || std::is_same_v<One, MarginReplacement>;

/// One step that a person can undo: a name for the list of edits, and changes that apply one after the other.
struct Edit {
    Wording title; ///< in the imperative: "Move corner of Utility land"
    std::vector<Change> changes;
    /// Edits of one and the same non-zero gesture (a drag) merge into one step.
    std::uint64_t gesture = 0;
};

/// The set with the edit applied. Many edits in a row are given the set that is theirs to change: a copy each time
/// would take longer than the edits.
/// @throws Fault  a `before` is not what stands there: the edit belongs to another state of the set.
[[nodiscard]] FenceSet applied(FenceSet set, const Edit& edit);

/// The edit that undoes this one, exactly: changes in reverse order, before and after swapped.
[[nodiscard]] Edit inverse(const Edit& edit);

/// Two edits in a row as one, with the title of the first. Where every change of `second` continues one of `first`
/// on the same thing, the result keeps the first before and the last after; else the changes follow one another.
[[nodiscard]] Edit merged(const Edit& first, const Edit& second);

/// The thing, under a fresh identity where the roster has one of its identity already: what is imported twice is twice
/// there.
template <class T> [[nodiscard]] T withOwnId(const Roster<T>& roster, T thing) {
    if (thing.id.empty() || roster.find(thing.id))
        thing.id = freshId<T>();
    return thing;
}

// Edits of one thing. They look up what stands in `set` now, and carry it.
// @throws Fault  no such thing in the set, or an id that is there already.
[[nodiscard]] Edit addFence(const FenceSet& set, Fence fence);
[[nodiscard]] Edit replaceFence(const FenceSet& set, Fence fence, Wording title);
[[nodiscard]] Edit removeFence(const FenceSet& set, const FenceId& id);
[[nodiscard]] Edit addSite(const FenceSet& set, Site site);
[[nodiscard]] Edit replaceSite(const FenceSet& set, Site site, Wording title);
/// Removes the site together with the setback fences that follow it.
[[nodiscard]] Edit removeSite(const FenceSet& set, const SiteId& id);
[[nodiscard]] Edit addHome(const FenceSet& set, Home home);
[[nodiscard]] Edit replaceHome(const FenceSet& set, Home home, Wording title);
[[nodiscard]] Edit removeHome(const FenceSet& set, const HomeId& id);
[[nodiscard]] Edit addSource(const FenceSet& set, Source source);
[[nodiscard]] Edit replaceSource(const FenceSet& set, Source source, Wording title);
[[nodiscard]] Edit removeSource(const FenceSet& set, const SourceId& id);
/// Moves a source to another place in the drawing order.
[[nodiscard]] Edit moveSource(const FenceSet& set, const SourceId& id, std::size_t index);
[[nodiscard]] Edit replaceHeading(const FenceSet& set, Heading heading);
[[nodiscard]] Edit replaceMargin(const FenceSet& set, std::optional<Margin> margin);

/// The set after several edits in a row, as one edit: `second` is made against the set after `first`.
template <class... Following>
[[nodiscard]] Edit inSequence(Wording title, const FenceSet& set, Edit first, Following... following) {
    FenceSet state = applied(set, first);
    const auto add = [&](auto makeEdit) {
        Edit next = makeEdit(std::as_const(state));
        state = applied(std::move(state), next);
        first.changes.insert(first.changes.end(), next.changes.begin(), next.changes.end());
    };
    (add(following), ...);
    first.title = std::move(title);
    return first;
}

} // namespace fencewright::model
