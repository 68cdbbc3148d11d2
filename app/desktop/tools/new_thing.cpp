#include "desktop/tools/new_thing.h"

#include <QCoreApplication>

#include <algorithm>
#include <charconv>
#include <cmath>

namespace fencewright::desktop {
namespace {

/// The highest n of the names "<word> n"; the bare word counts as 1; zero where there is none.
template <class Roster> int highestNumber(const Roster& roster, const std::string& word) {
    int highest = 0;
    for (const auto& thing : roster) {
        if (!thing.name.starts_with(word))
            continue;
        if (thing.name == word) {
            highest = std::max(highest, 1);
            continue;
        }
        int number = 0;
        const char* end = thing.name.data() + thing.name.size();
        const char* begin = thing.name.data() + std::min(word.size() + 1, thing.name.size());
        const auto [rest, error] = std::from_chars(begin, end, number);
        if (error == std::errc{} && rest == end && number < 1'000'000)
            highest = std::max(highest, number);
    }
    return highest;
}

std::string word(const char* text) { return QCoreApplication::translate("NewThing", text).toStdString(); }

} // namespace

std::string defaultFenceName(const model::FenceSet& set, model::FenceKind kind) {
    const std::string name = word(kind == model::FenceKind::KeepIn ? QT_TRANSLATE_NOOP("NewThing", "Keep-in")
                                                                   : QT_TRANSLATE_NOOP("NewThing", "Keep-out"));
    return name + " " + std::to_string(highestNumber(set.fences, name) + 1);
}

std::string defaultHomeName(const model::FenceSet& set, model::HomeKind kind) {
    const bool isHome = kind == model::HomeKind::Home;
    const std::string name =
        word(isHome ? QT_TRANSLATE_NOOP("NewThing", "Home") : QT_TRANSLATE_NOOP("NewThing", "Alternate"));
    const int highest = highestNumber(set.homes, name);
    return isHome && highest == 0 ? name : name + " " + std::to_string(highest + 1);
}

std::string defaultSiteName(const model::FenceSet& set) {
    const std::string name = word(QT_TRANSLATE_NOOP("NewThing", "Site"));
    return name + " " + std::to_string(highestNumber(set.sites, name) + 1);
}

model::FenceKind otherKind(model::FenceKind kind) {
    return kind == model::FenceKind::KeepOut ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
}

QString kindWords(model::FenceKind kind) {
    return kind == model::FenceKind::KeepIn ? QCoreApplication::translate("NewThing", "Keep-in")
                                            : QCoreApplication::translate("NewThing", "Keep-out");
}

QString otherKindWords(model::FenceKind kind, const ToolKeys& keys) {
    if (keys.otherKind.isEmpty())
        return {};
    return (kind == model::FenceKind::KeepIn ? QCoreApplication::translate("NewThing", "%1 makes it a keep-out.")
                                             : QCoreApplication::translate("NewThing", "%1 makes it a keep-in."))
        .arg(keys.otherKind);
}

ToolAnswer addedFence(const ToolScene& scene, model::FenceKind kind, model::Shape shape) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.kind = kind;
    fence.name = defaultFenceName(scene.set, kind);
    fence.shape = std::move(shape);
    const model::FenceId id = fence.id;
    return {.edit = model::addFence(scene.set, std::move(fence)), .select = Selection{id}};
}

model::Position continued(const model::Position& place, const model::Position& former) {
    // Left alone where it is continuous already, so that a snapped longitude stays the very same number.
    if (std::abs(place.lon - former.lon) <= 180.0)
        return place;
    return {former.lon + std::remainder(place.lon - former.lon, 360.0), place.lat};
}

model::Position onFirstTurn(const model::Position& place) {
    if (std::abs(place.lon) <= 180.0)
        return place;
    return {std::remainder(place.lon, 360.0), place.lat};
}

model::LineString onFirstTurn(model::LineString places) {
    if (places.empty() || std::abs(places.front().lon) <= 180.0)
        return places;
    const double turns = std::remainder(places.front().lon, 360.0) - places.front().lon;
    for (model::Position& place : places)
        place.lon += turns;
    return places;
}

} // namespace fencewright::desktop
