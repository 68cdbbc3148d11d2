#include "desktop/canvas/shown_thing.h"

#include "desktop/tools/new_thing.h"
#include "geometry/spatial_index.h"

#include <QCoreApplication>

namespace fencewright::desktop {
namespace {

constexpr int kMarkPixels = 10; // half of what a site or home is drawn as

QString tr(const char* words) { return QCoreApplication::translate("fencewright::desktop", words); }

/// "%1: %2" with what is said of a locked one.
QString named(const QString& kind, const std::string& name, bool locked) {
    const QString all = tr("%1: %2").arg(kind, QString::fromStdString(name));
    return locked ? tr("%1, locked").arg(all) : all;
}

QString wordsOf(const model::Fence& fence) { return named(kindWords(fence.kind), fence.name, fence.locked); }
QString wordsOf(const model::Site& site) { return named(tr("Site"), site.name, site.locked); }
QString wordsOf(const model::Home& home) {
    return named(home.kind == model::HomeKind::Home ? tr("Home") : tr("Alternate"), home.name, home.locked);
}

std::optional<QRect> boxOf(const geometry::Box& box, const ViewTransform& view) {
    if (box.empty())
        return std::nullopt;
    QPolygonF corners;
    for (const double lon : {box.minX, box.maxX})
        for (const double lat : {box.minY, box.maxY})
            if (const auto at = view.widgetOf({lon, lat}))
                corners << *at;
    if (corners.isEmpty())
        return std::nullopt;
    return corners.boundingRect().toAlignedRect().adjusted(-1, -1, 1, 1);
}
std::optional<QRect> boxOf(const model::Position& place, const ViewTransform& view) {
    const auto at = view.widgetOf(place);
    if (!at)
        return std::nullopt;
    const QPoint middle = at->toPoint();
    return QRect{middle.x() - kMarkPixels, middle.y() - kMarkPixels, 2 * kMarkPixels, 2 * kMarkPixels};
}
std::optional<QRect> boxOf(const model::Site& site, const ViewTransform& view) {
    if (const auto* place = std::get_if<model::Position>(&site.geometry))
        return boxOf(*place, view);
    if (const auto* polygon = std::get_if<model::Polygon>(&site.geometry))
        return boxOf(geometry::boxOf(*polygon), view);
    geometry::Box box;
    for (const model::Position& place : std::get<model::LineString>(site.geometry))
        box.add(place.lon, place.lat);
    return boxOf(box, view);
}

} // namespace

std::optional<ShownThing> shownThing(const ShownOn& on, const Thing& thing) {
    const auto shown = [&](const QString& words, const std::optional<QRect>& box) {
        return box ? std::optional{ShownThing{thing, words, *box}} : std::nullopt;
    };
    if (const auto* id = std::get_if<model::FenceId>(&thing)) {
        for (const auto& one : on.outlined)
            if (one->fence->id == *id)
                return shown(wordsOf(*one->fence), boxOf(one->box, on.view));
    } else if (const auto* siteId = std::get_if<model::SiteId>(&thing)) {
        if (const model::Site* site = on.set.sites.find(*siteId))
            return shown(wordsOf(*site), boxOf(*site, on.view));
    } else if (const model::Home* home = on.set.homes.find(std::get<model::HomeId>(thing))) {
        return shown(wordsOf(*home), boxOf(home->place, on.view));
    }
    return std::nullopt;
}

std::vector<ShownThing> shownThings(const ShownOn& on, const Selection& chosen, std::size_t most) {
    std::vector<ShownThing> things;
    for (const Thing& thing : chosen.things()) {
        if (things.size() >= most)
            return things;
        if (auto shown = shownThing(on, thing))
            things.push_back(std::move(*shown));
    }
    const auto add = [&](Thing thing, const QString& words, const std::optional<QRect>& box) {
        if (things.size() < most && box && box->intersects(on.map) && !chosen.contains(thing))
            things.push_back({std::move(thing), words, *box});
    };
    for (const auto& one : on.outlined)
        if (things.size() < most)
            add(one->fence->id, wordsOf(*one->fence), boxOf(one->box, on.view));
    for (const model::Site& site : on.set.sites)
        add(site.id, wordsOf(site), boxOf(site, on.view));
    for (const model::Home& home : on.set.homes)
        add(home.id, wordsOf(home), boxOf(home.place, on.view));
    return things;
}

} // namespace fencewright::desktop
