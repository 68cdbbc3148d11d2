#include "desktop/canvas/identify.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fencewright::desktop {
namespace {

constexpr double kMetresPerDegree = 111'320.0; // of a meridian, within a hundredth: enough for a pointer
constexpr double kLeastCosine = 0.01;

/// From the place at the origin to the segment, in metres.
double distanceTo(double ax, double ay, double bx, double by) {
    const double dx = bx - ax, dy = by - ay;
    const double square = dx * dx + dy * dy;
    const double along = square > 0.0 ? std::clamp(-(ax * dx + ay * dy) / square, 0.0, 1.0) : 0.0;
    return std::hypot(ax + along * dx, ay + along * dy);
}

bool isNear(const reference::Layer& layer, std::size_t feature, const model::Position& place, double metres) {
    const double across = kMetresPerDegree * std::cos(place.lat * (std::numbers::pi / 180.0));
    bool near = false;
    layer.visitLines(feature, [&](const reference::Layer::Line& line) {
        if (near || line.closed || line.corners.empty())
            return;
        const auto x = [&](const model::Position& corner) {
            return std::remainder(corner.lon - place.lon, 360.0) * across;
        };
        const auto y = [&](const model::Position& corner) { return (corner.lat - place.lat) * kMetresPerDegree; };
        for (std::size_t i = 0; i < line.corners.size() && !near; ++i) {
            const model::Position& from = line.corners[i];
            const model::Position& to = line.corners[std::min(i + 1, line.corners.size() - 1)];
            near = distanceTo(x(from), y(from), x(to), y(to)) <= metres;
        }
    });
    return near;
}

std::optional<std::size_t> columnOf(const reference::Layer& layer, const QString& name) {
    const auto& fields = layer.about().fields;
    std::optional<std::size_t> beginning;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const QString field = QString::fromStdString(fields[i]);
        if (field.compare(name, Qt::CaseInsensitive) == 0)
            return layer.column(fields[i]);
        if (!beginning && field.startsWith(name, Qt::CaseInsensitive))
            beginning = layer.column(fields[i]);
    }
    return beginning;
}

FoundFeature found(const ReferenceSource& source, std::size_t feature) {
    return {source.name, nameOf(source, feature), source.layer, feature};
}

} // namespace

std::vector<FoundFeature> featuresAt(const std::vector<ReferenceSource>& sources, const model::Position& place,
                                     Length tolerance) {
    const double metres = tolerance.inMetres();
    const double up = metres / kMetresPerDegree;
    const double across = up / std::max(kLeastCosine, std::cos(place.lat * (std::numbers::pi / 180.0)));
    std::vector<FoundFeature> all;
    for (auto source = sources.rbegin(); source != sources.rend(); ++source) {
        if (!source->isWhole)
            continue;
        const reference::Layer& layer = *source->layer;
        std::vector<std::size_t> under =
            layer.meeting({place.lon - across, place.lat - up, place.lon + across, place.lat + up});
        std::erase_if(under, [&](std::size_t feature) {
            return !layer.encloses(feature, place) && !isNear(layer, feature, place, metres);
        });
        std::sort(under.begin(), under.end(),
                  [&](std::size_t a, std::size_t b) { return layer.fileNumber(a) > layer.fileNumber(b); });
        for (const std::size_t feature : under)
            all.push_back(found(*source, feature));
    }
    return all;
}

std::optional<ColumnSearch> columnSearch(const QString& typed) {
    const auto colon = typed.indexOf(':');
    const QString column = typed.left(colon).trimmed();
    const QString words = typed.mid(colon + 1).trimmed();
    if (colon <= 0 || column.isEmpty() || words.isEmpty())
        return std::nullopt;
    return ColumnSearch{column, words};
}

std::vector<FoundFeature> featuresWhere(const std::vector<ReferenceSource>& sources, const ColumnSearch& search,
                                        std::size_t limit) {
    std::vector<FoundFeature> all;
    for (auto source = sources.rbegin(); source != sources.rend() && all.size() < limit; ++source)
        if (const auto column = columnOf(*source->layer, search.column))
            for (const std::size_t feature : source->layer->search(*column, search.words.toStdString(), limit))
                if (all.size() < limit)
                    all.push_back(found(*source, feature));
    return all;
}

} // namespace fencewright::desktop
