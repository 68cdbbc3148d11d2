#pragma once

#include <QObject>
#include <QPainter>

#include "desktop/canvas/view_transform.h"
#include "desktop/tools/tool.h"
#include "exchange/vector_content.h"
#include "geometry/spatial_index.h"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A reference layer as the map shows it.
struct ReferenceSource {
    QString id;
    QString name;
    std::shared_ptr<const exchange::VectorContent> content;
    std::shared_ptr<const geometry::SpatialIndex> index; ///< over the features, in longitude and latitude
    std::optional<std::size_t> labelColumn;
    std::optional<std::size_t> numberColumn;
    double opacity = 1.0;
};

/// Features of the source that meet the box, on whatever turn its longitudes are.
std::vector<std::size_t> featuresMeeting(const ReferenceSource& source, const geometry::Box& box);
/// "Parcel 17", or the layer's name where the feature has no number.
QString nameOf(const ReferenceSource& source, std::size_t feature);
/// The parcels at a place, the uppermost layer first.
std::vector<PickableParcel> parcelsAt(const std::vector<ReferenceSource>& sources, const model::Position& place);

/// Reference layers as hairlines with a casing, over imagery and under the fences.
class ReferenceLayer : public QObject {
    Q_OBJECT

public:
    struct Label {
        QPointF centre; ///< widget pixels
        QSizeF room;
        QString text;
    };

    explicit ReferenceLayer(QObject* parent = nullptr);
    ~ReferenceLayer() override;

    /// In drawing order.
    void setSources(std::vector<ReferenceSource> sources);
    const std::vector<ReferenceSource>& sources() const { return m_sources; }

    void paint(QPainter& painter, const ViewTransform& view, const QRectF& seen);
    /// Numbers of parcels, where there is room; none where too many are seen.
    std::vector<Label> labels(const ViewTransform& view);

signals:
    /// Coordinates are ready: paint again.
    void ready();

private:
    /// The features of a source in the plane of one frame.
    struct PlaneFeatures {
        struct Line {
            std::size_t first = 0;
            std::size_t count = 0; ///< one: a point
            bool closed = false;
        };
        std::vector<QPointF> points;
        std::vector<Line> lines;
        std::vector<std::size_t> firstLine; ///< of each feature, and one past the last
        std::vector<QRectF> bounds;         ///< of each feature
    };
    struct Projected {
        std::shared_ptr<const exchange::VectorContent> content; ///< what it was made of
        std::uint64_t frameNumber = 0;
        std::shared_ptr<const PlaneFeatures> features; ///< null while it is being worked out
        std::map<std::size_t, std::optional<model::Position>> labelPlaces;
    };

    static std::shared_ptr<const PlaneFeatures> project(const exchange::VectorContent& content,
                                                        const geodesy::LocalFrame& frame);
    const PlaneFeatures* featuresOf(const ReferenceSource& source, const ViewTransform& view);
    void paintSource(QPainter& painter, const ViewTransform& view, const ReferenceSource& source,
                     const PlaneFeatures& features, const QRectF& seen);

    std::vector<ReferenceSource> m_sources;
    std::map<QString, Projected> m_projected;
};

} // namespace fencewright::desktop
