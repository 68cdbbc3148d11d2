#include "desktop/canvas/reference_layer.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/canvas/plane_line.h"
#include "desktop/palette.h"
#include "fault.h"
#include "geometry/containment.h"

#include <QFutureWatcher>
#include <QtConcurrentRun>

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr std::size_t kAtOnceCorners = 50'000; // more are projected on another thread
constexpr std::size_t kWithCasing = 4'000;     // features; more are drawn as plain hairlines
constexpr std::size_t kLabelled = 600;

bool encloses(const model::LineString& ring, const model::Position& place) {
    bool around = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const model::Position &a = ring[i], &b = ring[j];
        const double lon = a.lon + std::remainder(place.lon - a.lon, 360.0);
        if ((a.lat > place.lat) != (b.lat > place.lat) &&
            lon < (b.lon - a.lon) * (place.lat - a.lat) / (b.lat - a.lat) + a.lon)
            around = !around;
    }
    return around;
}

bool encloses(const model::Polygon& polygon, const model::Position& place) {
    return !polygon.shell.corners.empty() && encloses(polygon.shell.corners, place) &&
           std::none_of(polygon.holes.begin(), polygon.holes.end(), [&](const model::Ring& hole) {
               return !hole.corners.empty() && encloses(hole.corners, place);
           });
}

std::string textOf(const ReferenceSource& source, std::size_t feature, std::optional<std::size_t> column) {
    const auto& attributes = source.content->features[feature].attributes;
    return column && *column < attributes.size() ? attributes[*column] : std::string{};
}

model::MultiPolygon surfaceOf(const exchange::Feature& feature) {
    model::MultiPolygon surface;
    for (const exchange::FeatureGeometry& part : feature.parts)
        if (const auto* polygon = std::get_if<model::Polygon>(&part))
            surface.parts.push_back(*polygon);
    return surface;
}

} // namespace

std::vector<std::size_t> featuresMeeting(const ReferenceSource& source, const geometry::Box& box) {
    std::vector<std::size_t> found;
    const geometry::Box& extent = source.content->extent;
    const int first = extent.empty() ? 0 : int(std::floor((extent.minX - box.maxX) / 360.0));
    const int last = extent.empty() ? 0 : int(std::ceil((extent.maxX - box.minX) / 360.0));
    for (int turn = std::max(first, -2); turn <= std::min(last, 2); ++turn) {
        geometry::Box turned = box;
        turned.minX += 360.0 * turn;
        turned.maxX += 360.0 * turn;
        if (!extent.empty() && !turned.meets(extent))
            continue;
        const std::vector<std::size_t> meeting = source.index->meeting(turned);
        found.insert(found.end(), meeting.begin(), meeting.end());
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

QString nameOf(const ReferenceSource& source, std::size_t feature) {
    const std::string number = textOf(source, feature, source.numberColumn);
    return number.empty() ? source.name : ReferenceLayer::tr("Parcel %1").arg(QString::fromStdString(number));
}

std::vector<PickableParcel> parcelsAt(const std::vector<ReferenceSource>& sources, const model::Position& place) {
    std::vector<PickableParcel> parcels;
    for (auto source = sources.rbegin(); source != sources.rend(); ++source) {
        const std::vector<std::size_t> near = featuresMeeting(*source, {place.lon, place.lat, place.lon, place.lat});
        for (auto feature = near.rbegin(); feature != near.rend(); ++feature) {
            model::MultiPolygon surface = surfaceOf(source->content->features[*feature]);
            if (std::any_of(surface.parts.begin(), surface.parts.end(),
                            [&](const model::Polygon& part) { return encloses(part, place); }))
                parcels.push_back({source->id.toStdString() + '/' + std::to_string(*feature),
                                   {textOf(*source, *feature, source->numberColumn), std::move(surface)}});
        }
    }
    return parcels;
}

ReferenceLayer::ReferenceLayer(QObject* parent) : QObject{parent} {}
ReferenceLayer::~ReferenceLayer() = default;

void ReferenceLayer::setSources(std::vector<ReferenceSource> sources) {
    m_sources = std::move(sources);
    std::erase_if(m_projected, [&](const auto& entry) {
        return std::none_of(m_sources.begin(), m_sources.end(), [&](const ReferenceSource& source) {
            return source.id == entry.first && source.content == entry.second.content;
        });
    });
}

std::shared_ptr<const ReferenceLayer::PlaneFeatures> ReferenceLayer::project(const exchange::VectorContent& content,
                                                                             const geodesy::LocalFrame& frame) {
    auto features = std::make_shared<PlaneFeatures>();
    features->bounds.reserve(content.features.size());
    features->firstLine.reserve(content.features.size() + 1);
    const auto addLine = [&](std::span<const model::Position> places, bool closed) {
        if (places.empty())
            return;
        try {
            const std::vector<geodesy::PlanePoint> plane = frame.toPlane(places);
            features->lines.push_back({features->points.size(), plane.size(), closed});
            for (const geodesy::PlanePoint& point : plane)
                features->points.emplace_back(point.x, point.y);
        } catch (const Fault&) {
            // A line that leaves the earth has no place on the map; the import has spoken of it.
        }
    };
    for (const exchange::Feature& feature : content.features) {
        const std::size_t firstPoint = features->points.size();
        features->firstLine.push_back(features->lines.size());
        for (const exchange::FeatureGeometry& part : feature.parts) {
            if (const auto* place = std::get_if<model::Position>(&part)) {
                addLine({place, 1}, false);
            } else if (const auto* line = std::get_if<model::LineString>(&part)) {
                addLine(*line, false);
            } else {
                const auto& polygon = std::get<model::Polygon>(part);
                addLine(polygon.shell.corners, true);
                for (const model::Ring& hole : polygon.holes)
                    addLine(hole.corners, true);
            }
        }
        features->bounds.push_back(boundsOf(std::span{features->points}.subspan(firstPoint)));
    }
    features->firstLine.push_back(features->lines.size());
    return features;
}

const ReferenceLayer::PlaneFeatures* ReferenceLayer::featuresOf(const ReferenceSource& source,
                                                                const ViewTransform& view) {
    Projected& projected = m_projected[source.id];
    if (projected.content == source.content && projected.frameNumber == view.frameNumber())
        return projected.features.get();
    projected = {source.content, view.frameNumber(), nullptr, {}};
    std::size_t corners = 0;
    for (const exchange::Feature& feature : source.content->features)
        for (const exchange::FeatureGeometry& part : feature.parts)
            if (const auto* polygon = std::get_if<model::Polygon>(&part))
                corners += polygon->shell.corners.size();
            else if (const auto* line = std::get_if<model::LineString>(&part))
                corners += line->size();
    if (corners <= kAtOnceCorners) {
        projected.features = project(*source.content, view.frame());
        return projected.features.get();
    }
    auto* watcher = new QFutureWatcher<std::shared_ptr<const PlaneFeatures>>{this};
    connect(watcher, &QFutureWatcherBase::finished, this,
            [this, watcher, id = source.id, content = source.content, frame = view.frameNumber()] {
                const auto at = m_projected.find(id);
                if (at != m_projected.end() && at->second.content == content && at->second.frameNumber == frame) {
                    at->second.features = watcher->result();
                    emit ready();
                }
                watcher->deleteLater();
            });
    // A frame of its own: one is not to be used from two threads.
    watcher->setFuture(QtConcurrent::run([content = source.content, origin = view.frame().origin()] {
        return project(*content, geodesy::LocalFrame{origin});
    }));
    return nullptr;
}

void ReferenceLayer::paint(QPainter& painter, const ViewTransform& view, const QRectF& seen) {
    for (const ReferenceSource& source : m_sources)
        if (const PlaneFeatures* features = featuresOf(source, view)) {
            painter.save();
            painter.setOpacity(source.opacity);
            paintSource(painter, view, source, *features, seen);
            painter.restore();
        }
}

void ReferenceLayer::paintSource(QPainter& painter, const ViewTransform& view, const ReferenceSource& source,
                                 const PlaneFeatures& features, const QRectF& seen) {
    geometry::Box box;
    for (const QPointF& corner : {seen.topLeft(), seen.topRight(), seen.bottomLeft(), seen.bottomRight(), seen.center(),
                                  QPointF{seen.center().x(), seen.top()}, QPointF{seen.center().x(), seen.bottom()}}) {
        const model::Position place = view.earthAt(corner);
        box.minX = std::min(box.minX, place.lon);
        box.maxX = std::max(box.maxX, place.lon);
        box.minY = std::min(box.minY, place.lat);
        box.maxY = std::max(box.maxY, place.lat);
    }
    const std::vector<std::size_t> visible = featuresMeeting(source, box);
    const bool casing = visible.size() <= kWithCasing;
    const double scale = view.metresPerPixel();
    const QRectF room = seen.adjusted(-4, -4, 4, 4);

    std::vector<QPolygonF> rings, lines;
    QPolygonF points, specks;
    for (const std::size_t feature : visible) {
        const QRectF& bounds = features.bounds[feature];
        if (features.firstLine[feature] == features.firstLine[feature + 1])
            continue;
        if (std::max(bounds.width(), bounds.height()) < 1.5 * scale && bounds.width() + bounds.height() > 0.0) {
            specks << view.toWidget(bounds.center());
            continue;
        }
        for (std::size_t i = features.firstLine[feature]; i < features.firstLine[feature + 1]; ++i) {
            const PlaneFeatures::Line& line = features.lines[i];
            if (line.count == 1) {
                points << view.toWidget(features.points[line.first]);
                continue;
            }
            QPolygonF onScreen;
            onScreen.reserve(qsizetype(line.count));
            for (std::size_t k = 0; k < line.count; ++k) {
                const QPointF point = view.toWidget(features.points[line.first + k]);
                // What moves by less than half a pixel is not seen.
                if (onScreen.isEmpty() || k + 1 == line.count || distanceBetween(onScreen.last(), point) > 0.5)
                    onScreen << point;
            }
            if (line.closed)
                rings.push_back(clippedRing(onScreen, room));
            else
                for (QPolygonF& piece : clippedLine(onScreen, room))
                    lines.push_back(std::move(piece));
        }
    }
    const auto stroke = [&](const QPen& pen) {
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        for (const QPolygonF& ring : rings)
            painter.drawPolygon(ring);
        for (const QPolygonF& line : lines)
            painter.drawPolyline(line);
    };
    QColor dark = QColor::fromRgba(kMapInk), white = QColor::fromRgba(kMapCasing);
    dark.setAlpha(95);
    white.setAlpha(225);
    painter.setRenderHint(QPainter::Antialiasing, casing);
    if (casing) {
        stroke(QPen{dark, 2.6, Qt::SolidLine, Qt::FlatCap, Qt::BevelJoin});
        stroke(QPen{white, 1.1, Qt::SolidLine, Qt::FlatCap, Qt::BevelJoin});
    } else {
        white.setAlpha(150);
        stroke(QPen{white, 0.0});
    }
    painter.setPen(QPen{white, 1.0});
    painter.drawPoints(specks);
    painter.setPen(QPen{dark, 1.2});
    painter.setBrush(white);
    for (const QPointF& point : points)
        painter.drawEllipse(point, 2.6, 2.6);
}

std::vector<ReferenceLayer::Label> ReferenceLayer::labels(const ViewTransform& view) {
    std::vector<Label> labels;
    for (const ReferenceSource& source : m_sources) {
        const std::optional<std::size_t> column = source.labelColumn ? source.labelColumn : source.numberColumn;
        const PlaneFeatures* features = column ? featuresOf(source, view) : nullptr;
        if (!features)
            continue;
        const std::vector<std::size_t> visible = featuresMeeting(source, view.visibleLonLat());
        if (visible.size() > kLabelled)
            continue;
        for (const std::size_t feature : visible) {
            const QSizeF room = features->bounds[feature].size() / view.metresPerPixel();
            constexpr double fewest = 18.0; // pixels: less, and no number fits
            if (room.width() < fewest || room.height() < fewest)
                continue;
            const std::string text = textOf(source, feature, column);
            if (text.empty())
                continue;
            auto& places = m_projected[source.id].labelPlaces;
            auto known = places.find(feature);
            if (known == places.end()) {
                std::optional<model::Position> place;
                try {
                    place = geometry::labelPlace(surfaceOf(source.content->features[feature]));
                } catch (const Fault&) {
                    // No number on a parcel that cannot be computed with.
                }
                known = places.emplace(feature, place).first;
            }
            if (const auto at = known->second ? view.widgetOf(*known->second) : std::nullopt)
                labels.push_back({*at, room, QString::fromStdString(text)});
        }
    }
    return labels;
}

} // namespace fencewright::desktop
