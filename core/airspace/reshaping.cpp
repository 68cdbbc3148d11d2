#include "airspace/reshaping.h"

#include "airspace/detail/made_parts.h"
#include "airspace/detail/set_steps.h"
#include "airspace/outline.h"
#include "geometry/containment.h"
#include "geometry/cutting.h"
#include "geometry/sided_overlay.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

namespace fencewright::airspace {
namespace {

using detail::fenceIn;
using detail::SetSteps;
using model::Fence;
using model::FenceId;
using model::FenceSet;
using model::MultiPolygon;

model::FenceKind opposite(model::FenceKind kind) {
    return kind == model::FenceKind::KeepOut ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
}

/// The outline, which is not empty.
MultiPolygon enclosedBy(const Fence& fence, const FenceSet& set) {
    auto surface = outline(fence, set.sites);
    if (surface.empty())
        throw Fault{phrase("core", "The fence encloses nothing."), fence.name,
                    phrase("core", "Correct its shape, or leave it out.")};
    return surface;
}

/// Without those named twice.
std::vector<FenceId> distinct(std::span<const FenceId> ids) {
    std::vector<FenceId> result;
    for (const auto& id : ids)
        if (std::find(result.begin(), result.end(), id) == result.end())
            result.push_back(id);
    return result;
}

/// At least two fences that one can stand for.
std::vector<const Fence*> alike(const FenceSet& set, std::span<const FenceId> ids) {
    std::vector<const Fence*> fences;
    for (const auto& id : distinct(ids))
        fences.push_back(&fenceIn(set, id));
    if (fences.size() < 2)
        throw Fault{phrase("core", "This needs two fences or more."), "",
                    phrase("core", "Choose the others as well: click them with Shift held.")};
    const Fence& first = *fences.front();
    for (const Fence* other : fences) {
        if (other->kind != first.kind)
            throw Fault{phrase("core", "Keep-ins and keep-outs cannot become one fence."), other->name,
                        phrase("core", "Choose fences of one kind, or take one out of another.")};
        if (other->band != first.band || other->period != first.period || other->enabled != first.enabled)
            throw Fault{phrase("core", "It applies at other heights or times than %1, and one fence cannot say both.")(
                            first.name),
                        other->name, phrase("core", "Give both the same heights, times and switch first.")};
    }
    return fences;
}

/// Those of the notes that say which fences stop following their sites.
void noteLeftSites(std::vector<Wording>& notes, const Fence& fence) {
    if (std::holds_alternative<model::Setback>(fence.shape))
        notes.push_back(phrase("core", "%1 follows its site no more.")(fence.name));
}

/// All of them become the first, with that surface.
Reshaped merged(const FenceSet& set, const std::vector<const Fence*>& fences, const MultiPolygon& surface,
                Wording title) {
    Reshaped result;
    SetSteps steps{set};
    for (const Fence* fence : fences) {
        noteLeftSites(result.notes, *fence);
        if (fence != fences.front())
            steps.remove(fence->id);
    }
    result.fences = detail::becomes(steps, *fences.front(), detail::partsOf(surface));
    if (result.fences.size() > 1)
        result.notes.push_back(phrase("core", "The result lies in %1 parts: each is a fence.")(result.fences.size()));
    result.edit = std::move(steps).edit(std::move(title));
    return result;
}

/// Each of the fences for which `parts(fence, notes)` gives some becomes these; the others stay.
/// @throws Fault  `none`, where it is none of them.
template <class Parts>
Reshaped eachBecoming(const FenceSet& set, std::span<const FenceId> ids, Parts parts, const Phrase& one,
                      const Phrase& several, const FaultWords& none) {
    Reshaped result;
    SetSteps steps{set};
    Wording title;
    std::size_t count = 0;
    for (const auto& id : distinct(ids)) {
        const Fence& fence = fenceIn(set, id);
        std::vector<Wording> notes;
        const std::optional<std::vector<model::Polygon>> becomes = parts(fence, notes);
        if (!becomes)
            continue;
        noteLeftSites(result.notes, fence);
        std::move(notes.begin(), notes.end(), std::back_inserter(result.notes));
        const auto made = detail::becomes(steps, fence, *becomes);
        result.fences.insert(result.fences.end(), made.begin(), made.end());
        title = ++count == 1 ? one(fence.name) : several(count);
    }
    if (count == 0)
        throw Fault{none};
    result.edit = std::move(steps).edit(std::move(title));
    return result;
}

Wording titleOf(const std::vector<const Fence*>& fences, const Phrase& two, const Phrase& more) {
    return fences.size() == 2 ? two(fences[0]->name, fences[1]->name) : more(fences[0]->name, fences.size() - 1);
}

} // namespace

Reshaped united(const FenceSet& set, std::span<const FenceId> ids) {
    const auto fences = alike(set, ids);
    std::vector<MultiPolygon> surfaces;
    for (const Fence* fence : fences)
        surfaces.push_back(enclosedBy(*fence, set));
    return merged(set, fences, geometry::united(surfaces, safeSide(fences.front()->kind)),
                  titleOf(fences, phrase("core", "Unite %1 and %2"), phrase("core", "Unite %1 and %2 other fences")));
}

Reshaped intersected(const FenceSet& set, std::span<const FenceId> ids) {
    const auto fences = alike(set, ids);
    auto common = enclosedBy(*fences.front(), set);
    for (std::size_t i = 1; i < fences.size(); ++i)
        common = geometry::intersection(common, enclosedBy(*fences[i], set), safeSide(fences.front()->kind));
    if (common.empty())
        throw Fault{phrase("core", "The fences share nothing."), "", phrase("core", "Choose fences that overlap.")};
    return merged(set, fences, common,
                  titleOf(fences, phrase("core", "Keep what %1 and %2 share"),
                          phrase("core", "Keep what %1 and %2 other fences share")));
}

Reshaped subtracted(const FenceSet& set, const FenceId& from, std::span<const FenceId> removed) {
    const Fence& fence = fenceIn(set, from);
    auto others = distinct(removed);
    std::erase(others, from);
    if (others.empty())
        throw Fault{phrase("core", "There is nothing to take out of %1.")(fence.name), "",
                    phrase("core", "Choose the others as well: click them with Shift held.")};
    const auto whole = enclosedBy(fence, set);
    auto rest = whole;
    for (const auto& id : others) {
        // What is taken out errs to the other side.
        Fence taken = fenceIn(set, id);
        taken.kind = opposite(fence.kind);
        if (const auto surface = outline(taken, set.sites); geometry::touches(rest, surface))
            rest = geometry::difference(rest, surface, safeSide(fence.kind));
    }
    if (rest.empty())
        throw Fault{phrase("core", "Nothing would be left of %1.")(fence.name), "",
                    phrase("core", "Delete it instead, if that is meant.")};
    if (geometry::sameArea(rest, whole))
        throw Fault{phrase("core", "The other fences do not overlap %1.")(fence.name), "",
                    phrase("core", "Choose fences that overlap.")};
    Reshaped result;
    noteLeftSites(result.notes, fence);
    SetSteps steps{set};
    result.fences = detail::becomes(steps, fence, detail::partsOf(rest));
    if (result.fences.size() > 1)
        result.notes.push_back(phrase("core", "The result lies in %1 parts: each is a fence.")(result.fences.size()));
    const std::string& first = fenceIn(set, others.front()).name;
    result.edit = std::move(steps).edit(others.size() == 1
                                            ? phrase("core", "Take %1 out of %2")(first, fence.name)
                                            : phrase("core", "Take %1 fences out of %2")(others.size(), fence.name));
    return result;
}

Reshaped cutAlong(const FenceSet& set, std::span<const FenceId> ids, const model::LineString& line) {
    return eachBecoming(set, ids,
                        [&](const Fence& fence, std::vector<Wording>&) -> std::optional<std::vector<model::Polygon>> {
                            const auto surface = enclosedBy(fence, set);
                            try {
                                return geometry::cutAlong(surface, line, safeSide(fence.kind));
                            } catch (const geometry::NotCut&) {
                                return std::nullopt;
                            } catch (const Fault& fault) {
                                throw Fault{fault.words().problem, fence.name, fault.words().remedy};
                            }
                        },
                        phrase("core", "Cut %1"), phrase("core", "Cut %1 fences"),
                        {phrase("core", "The line cuts no fence in two."), "",
                         phrase("core", "Let it cross from one side of a fence to the other.")});
}

Reshaped holesFilled(const FenceSet& set, std::span<const FenceId> ids) {
    return eachBecoming(
        set, ids,
        [&](const Fence& fence, std::vector<Wording>& notes) -> std::optional<std::vector<model::Polygon>> {
            const auto surface = enclosedBy(fence, set);
            std::vector<MultiPolygon> shells;
            bool has = false;
            for (const auto& part : surface.parts) {
                has = has || !part.holes.empty();
                shells.push_back({{{part.shell, {}}}});
            }
            if (!has)
                return std::nullopt;
            if (fence.kind == model::FenceKind::KeepIn)
                notes.push_back(phrase("core", "What lay in the holes of %1 is open to flight now.")(fence.name));
            // What lay in a hole is in the filled shell.
            return detail::partsOf(geometry::united(shells, safeSide(fence.kind)));
        },
        phrase("core", "Fill the holes of %1"), phrase("core", "Fill the holes of %1 fences"),
        {phrase("core", "There is no hole to fill."), "", phrase("core", "Choose a fence that has holes.")});
}

Reshaped asPolygons(const FenceSet& set, std::span<const FenceId> ids) {
    return eachBecoming(set, ids,
                        [&](const Fence& fence, std::vector<Wording>&) -> std::optional<std::vector<model::Polygon>> {
                            if (std::holds_alternative<model::DrawnPolygon>(fence.shape))
                                return std::nullopt;
                            return detail::partsOf(enclosedBy(fence, set));
                        },
                        phrase("core", "Make a polygon of %1"), phrase("core", "Make polygons of %1 fences"),
                        {phrase("core", "It is a drawn polygon already."), "",
                         phrase("core", "Choose a circle, a corridor, a setback or a fence of parcels.")});
}

} // namespace fencewright::airspace
