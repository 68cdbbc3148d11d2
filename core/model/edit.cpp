#include "model/edit.h"

#include "fault.h"

#include <algorithm>
#include <utility>

namespace fencewright::model {
namespace {

template <class T> Roster<T>& rosterOf(FenceSet& set) {
    if constexpr (std::is_same_v<T, Fence>)
        return set.fences;
    else if constexpr (std::is_same_v<T, Site>)
        return set.sites;
    else if constexpr (std::is_same_v<T, Home>)
        return set.homes;
    else
        return set.sources;
}
template <class T> const Roster<T>& rosterOf(const FenceSet& set) { return rosterOf<T>(const_cast<FenceSet&>(set)); }

[[noreturn]] void refuseStale() {
    throw Fault{phrase("core", "The edit does not fit the set as it is now."), "",
                phrase("core", "Nothing was changed. Undo or redo step by step.")};
}

template <class T> void apply(FenceSet& set, const Replacement<T>& change) {
    Roster<T>& roster = rosterOf<T>(set);
    if (change.before) {
        if (change.index >= roster.size())
            refuseStale();
        const auto& there = roster.pointer(change.index);
        if (there != change.before && *there != *change.before)
            refuseStale();
        if (change.after && change.after->id != change.before->id)
            refuseStale();
        if (change.after)
            roster.replace(change.index, change.after);
        else
            roster.erase(change.index);
    } else if (change.after) {
        if (change.index > roster.size() || roster.find(change.after->id))
            refuseStale();
        roster.insert(change.index, change.after);
    }
}

void apply(FenceSet& set, const HeadingReplacement& change) {
    if (Heading{set.title, set.notes} != change.before)
        refuseStale();
    set.title = change.after.title;
    set.notes = change.after.notes;
}

void apply(FenceSet& set, const MarginReplacement& change) {
    if (set.margin != change.before)
        refuseStale();
    set.margin = change.after;
}

template <class T> Replacement<T> inverse(const Replacement<T>& change) {
    return {change.index, change.after, change.before};
}
HeadingReplacement inverse(const HeadingReplacement& change) { return {change.after, change.before}; }
MarginReplacement inverse(const MarginReplacement& change) { return {change.after, change.before}; }

/// `second` continues `first` on the same thing: the change from the first before to the second after.
struct Continuation {
    template <class T>
    std::optional<Change> operator()(const Replacement<T>& first, const Replacement<T>& second) const {
        if (!first.after || !second.before || !second.after || first.index != second.index ||
            first.after->id != second.before->id)
            return std::nullopt;
        return Replacement<T>{first.index, first.before, second.after};
    }
    std::optional<Change> operator()(const HeadingReplacement& first, const HeadingReplacement& second) const {
        return HeadingReplacement{first.before, second.after};
    }
    std::optional<Change> operator()(const MarginReplacement& first, const MarginReplacement& second) const {
        return MarginReplacement{first.before, second.after};
    }
    template <class A, class B> std::optional<Change> operator()(const A&, const B&) const { return std::nullopt; }
};

/// What is said about one kind of thing.
struct KindWords {
    Phrase missing;
    Phrase withoutIdentity;
};
constexpr KindWords kFence{phrase("core", "There is no such fence in the set."),
                           phrase("core", "The fence has no identity of its own.")};
constexpr KindWords kSite{phrase("core", "There is no such site in the set."),
                          phrase("core", "The site has no identity of its own.")};
constexpr KindWords kHome{phrase("core", "There is no such home in the set."),
                          phrase("core", "The home has no identity of its own.")};
constexpr KindWords kSource{phrase("core", "There is no such source in the set."),
                            phrase("core", "The source has no identity of its own.")};

[[noreturn]] void refuseMissing(const KindWords& kind, const std::string& id) {
    throw Fault{kind.missing, id, phrase("core", "It may have been deleted meanwhile.")};
}

template <class T> Edit add(const FenceSet& set, T item, const KindWords& kind) {
    const Roster<T>& roster = rosterOf<T>(set);
    if (item.id.empty() || roster.find(item.id))
        throw Fault{kind.withoutIdentity, item.name, phrase("core", "Give it a fresh one.")};
    Wording title = phrase("core", "Add %1")(item.name);
    return {std::move(title), {Replacement<T>{roster.size(), nullptr, std::make_shared<const T>(std::move(item))}}};
}

template <class T> Edit replace(const FenceSet& set, T item, Wording title, const KindWords& kind) {
    const Roster<T>& roster = rosterOf<T>(set);
    const std::size_t index = roster.indexOf(item.id);
    if (index == roster.size())
        refuseMissing(kind, item.id.value);
    return {std::move(title),
            {Replacement<T>{index, roster.pointer(index), std::make_shared<const T>(std::move(item))}}};
}

template <class T> Edit remove(const FenceSet& set, const Id<T>& id, const KindWords& kind) {
    const Roster<T>& roster = rosterOf<T>(set);
    const std::size_t index = roster.indexOf(id);
    if (index == roster.size())
        refuseMissing(kind, id.value);
    return {phrase("core", "Delete %1")(roster[index].name), {Replacement<T>{index, roster.pointer(index), nullptr}}};
}

} // namespace

FenceSet applied(FenceSet set, const Edit& edit) {
    for (const Change& change : edit.changes)
        std::visit([&](const auto& one) { apply(set, one); }, change);
    return set;
}

Edit inverse(const Edit& edit) {
    Edit result{edit.title, {}, edit.gesture};
    for (auto change = edit.changes.rbegin(); change != edit.changes.rend(); ++change)
        result.changes.push_back(std::visit([](const auto& one) -> Change { return inverse(one); }, *change));
    return result;
}

Edit merged(const Edit& first, const Edit& second) {
    Edit result = first;
    if (first.changes.size() == second.changes.size()) {
        std::vector<Change> continued;
        for (std::size_t i = 0; i < first.changes.size(); ++i)
            if (auto change = std::visit(Continuation{}, first.changes[i], second.changes[i]))
                continued.push_back(std::move(*change));
        if (continued.size() == first.changes.size()) {
            result.changes = std::move(continued);
            return result;
        }
    }
    result.changes.insert(result.changes.end(), second.changes.begin(), second.changes.end());
    return result;
}

Edit addFence(const FenceSet& set, Fence fence) { return add(set, std::move(fence), kFence); }
Edit replaceFence(const FenceSet& set, Fence fence, Wording title) {
    return replace(set, std::move(fence), std::move(title), kFence);
}
Edit removeFence(const FenceSet& set, const FenceId& id) { return remove(set, id, kFence); }

Edit addSite(const FenceSet& set, Site site) { return add(set, std::move(site), kSite); }
Edit replaceSite(const FenceSet& set, Site site, Wording title) {
    return replace(set, std::move(site), std::move(title), kSite);
}
Edit removeSite(const FenceSet& set, const SiteId& id) {
    Edit edit = remove(set, id, kSite);
    // From the back, so that the indices of the earlier ones still hold.
    for (std::size_t index = set.fences.size(); index-- > 0;)
        if (const auto* setback = std::get_if<Setback>(&set.fences[index].shape); setback && setback->site == id)
            edit.changes.push_back(Replacement<Fence>{index, set.fences.pointer(index), nullptr});
    return edit;
}

Edit addHome(const FenceSet& set, Home home) { return add(set, std::move(home), kHome); }
Edit replaceHome(const FenceSet& set, Home home, Wording title) {
    return replace(set, std::move(home), std::move(title), kHome);
}
Edit removeHome(const FenceSet& set, const HomeId& id) { return remove(set, id, kHome); }

Edit addSource(const FenceSet& set, Source source) { return add(set, std::move(source), kSource); }
Edit replaceSource(const FenceSet& set, Source source, Wording title) {
    return replace(set, std::move(source), std::move(title), kSource);
}
Edit removeSource(const FenceSet& set, const SourceId& id) { return remove(set, id, kSource); }
Edit moveSource(const FenceSet& set, const SourceId& id, std::size_t index) {
    Edit edit = removeSource(set, id);
    const auto source = set.sources.findPointer(id);
    edit.title = phrase("core", "Reorder %1")(source->name);
    edit.changes.push_back(Replacement<Source>{std::min(index, set.sources.size() - 1), nullptr, source});
    return edit;
}

Edit replaceHeading(const FenceSet& set, Heading heading) {
    return {phrase("core", "Change title and notes"), {HeadingReplacement{{set.title, set.notes}, std::move(heading)}}};
}

Edit replaceMargin(const FenceSet& set, std::optional<Margin> margin) {
    const Phrase title = !set.margin ? phrase("core", "State the margin")
                         : !margin   ? phrase("core", "Take the margin back")
                                     : phrase("core", "Change the margin");
    return {title, {MarginReplacement{set.margin, std::move(margin)}}};
}

} // namespace fencewright::model
