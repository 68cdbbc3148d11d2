#include "model/lock.h"

#include "fault.h"

namespace fencewright::model {
namespace {

[[noreturn]] void refuse(const std::string& name) {
    throw Fault{phrase("core", "%1 is locked.")(name), "",
                phrase("core", "Unlock it first: Edit, Unlock, or its form.")};
}

template <class T> void requireKept(const Roster<T>& before, const Roster<T>& after, const Id<T>& id) {
    const T* const was = before.find(id);
    if (!was || !was->locked)
        return;
    if (const T* const is = after.find(id)) {
        T unlocked = *was;
        unlocked.locked = false;
        if (*is == *was || *is == unlocked)
            return;
    }
    refuse(was->name);
}

/// What is left of a thing after the whole edit counts, not what happens to it on the way.
struct Kept {
    const FenceSet& before;
    const FenceSet& after;

    template <class T> void check(const Replacement<T>& change, const Roster<T> FenceSet::*roster) const {
        if (change.before)
            requireKept(before.*roster, after.*roster, change.before->id);
    }
    void operator()(const Replacement<Fence>& change) const { check(change, &FenceSet::fences); }
    void operator()(const Replacement<Site>& change) const { check(change, &FenceSet::sites); }
    void operator()(const Replacement<Home>& change) const { check(change, &FenceSet::homes); }
    void operator()(const Replacement<Source>&) const {}
    void operator()(const HeadingReplacement&) const {}
    void operator()(const MarginReplacement&) const {}
};

} // namespace

void requireUnlocked(const FenceSet& set, const Edit& edit) {
    const FenceSet after = applied(set, edit);
    for (const Change& change : edit.changes)
        std::visit(Kept{set, after}, change);
}

void requireUnlocked(const FenceSet& set, const FenceId& id) {
    const Fence* const fence = set.fences.find(id);
    if (fence && fence->locked)
        refuse(fence->name);
}

} // namespace fencewright::model
