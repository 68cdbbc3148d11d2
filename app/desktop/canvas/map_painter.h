#pragma once

#include <QObject>
#include <QPainter>

#include "airspace/activity.h"
#include "audit/audit.h"
#include "desktop/canvas/afterimage.h"
#include "desktop/canvas/clear_area_line.h"
#include "desktop/canvas/deferred_layer.h"
#include "desktop/canvas/fence_painter.h"
#include "desktop/canvas/halo_text.h"
#include "desktop/canvas/label_layout.h"
#include "desktop/canvas/label_places.h"
#include "desktop/canvas/map_grid.h"
#include "desktop/canvas/snap.h"
#include "desktop/canvas/underlay.h"
#include "desktop/canvas/view_transform.h"
#include "desktop/tools/tool.h"
#include "geodesy/coordinate_notation.h"
#include "geometry/changing_index.h"

#include <algorithm>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

namespace fencewright::desktop {

/// All that one picture of the map shows. The references hold while it is painted.
struct MapContents {
    const model::FenceSet& set;
    const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined;
    const geometry::ChangingIndex& places; ///< the boxes of `outlined`, by place in it
    std::uint64_t outlinesNumber = 0;      ///< another number, another list
    Selection selection;
    airspace::Moment moment;
    std::shared_ptr<const audit::AuditResult> audit;                          ///< null before the first
    std::span<const std::shared_ptr<const session::OutlinedFence>> previewed; ///< as a repair would leave them
    ToolPreview tool;
    std::shared_ptr<const session::OutlinedFence> draft; ///< of the tool's preview
    std::optional<Snap> snap;
    std::optional<QPointF> pointer; ///< while it is over the map
    units::System units = units::System::Metric;
    geodesy::Notation notation = geodesy::Notation::DegreesMinutesSeconds;
    session::MapGrid grid = session::MapGrid::None;
    bool clearArea = true; ///< its line is shown, where there is one
    bool dark = false;
    bool inMotion = false; ///< amid a zoom: the last picture, stretched, will do where painting takes long
};

/// Puts the picture together: ground, imagery, reference layers, fences, sites, homes, findings, what the tool makes,
/// names, furniture.
class MapPainter : public QObject {
    Q_OBJECT

public:
    explicit MapPainter(const QFont& font, QObject* parent = nullptr);
    ~MapPainter() override;

    void paint(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    /// Keeps the map as it is now, to be shown until the map has been drawn in another plane.
    void keepPicture(const ViewTransform& view, const MapContents& contents, double pixelRatio);
    /// The kept picture, carried along while the map is being turned.
    void paintCarried(QPainter& painter, const ViewTransform& view, const MapContents& contents,
                      const QTransform& carried, double clockwiseDegrees);

    /// Whether the picture painted last shows all there is, and nothing is being painted on other threads for it. Of
    /// fences and their names only: imagery and reference layers come as they come.
    bool isSettled() const { return m_fencePicture.isSettled() && m_clearArea.isSettled(); }

    Underlay& underlay() { return m_underlay; }
    ReferenceLayer& references() { return m_underlay.references(); }

signals:
    /// Something that was painted or sought on another thread is there.
    void arrived();

private:
    using Outlined = FencePainter::Outlined;

    void paintFurniture(QPainter& painter, const ViewTransform& view, const MapContents& contents, LabelLayout& layout);
    void paintMap(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    /// What the fence picture shows. Never changes: it is looked at on another thread.
    struct Scene {
        std::vector<FencePainter::Item> items; ///< by place in the list; no fence: it is painted by itself
        geometry::ChangingIndex places;
    };

    bool isBare(const ViewTransform& view, const MapContents& contents) const;
    void findSelected(const MapContents& contents);
    bool isSelected(std::size_t number) const {
        return std::binary_search(m_selected.begin(), m_selected.end(), number);
    }
    void updateScene(const ViewTransform& view, const MapContents& contents);
    void paintScene(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void updateMarks(const ViewTransform& view, const MapContents& contents);
    void paintMarks(QPainter& painter);
    /// What `paint` paints around a point, on whole device pixels.
    void stamp(QPainter& painter, const QPointF& at, std::string_view name, const QColor& colour,
               const std::function<void(QPainter&, const QPointF&)>& paint);

    void paintFences(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintSites(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintHandles(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintCorners(QPainter& painter, const ViewTransform& view, const model::Fence& fence,
                      const std::optional<Corner>& active);
    void paintToolLine(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintNames(QPainter& painter, const ViewTransform& view, const MapContents& contents, LabelLayout& layout);
    void paintAtPointer(QPainter& painter, const ViewTransform& view, const MapContents& contents);

    QFont m_font;
    Afterimage m_before;
    GridLines m_grid; ///< of the view that was painted last
    Underlay m_underlay;
    DeferredLayer m_fencePicture;
    ClearAreaLine m_clearArea;
    std::shared_ptr<const Scene> m_scene;
    /// What the scene was made of, by place in the list.
    struct Known {
        Outlined fence;
        bool active = false;
    };
    std::vector<Known> m_known;
    std::optional<std::uint64_t> m_knownNumber;
    airspace::Moment m_knownMoment;
    Selection m_knownSelection;
    std::vector<std::size_t> m_selected; ///< places of the selected fences, ascending
    int m_updates = 0;
    std::shared_ptr<FencePainter> m_fences = std::make_shared<FencePainter>();
    LabelPlaces m_labelPlaces;
    HaloText m_text;

    /// Findings with a place, in the plane of one frame.
    struct Marks {
        std::shared_ptr<const audit::AuditResult> audit;
        std::uint64_t planeNumber = 0;
        std::vector<std::pair<QPointF, audit::Severity>> places; ///< the gravest last
        std::vector<std::pair<QPointF, audit::Severity>> shown;  ///< in the widget, none on another
    } m_marks;
    /// Marks, and handles where there are many, as pictures: by name, colour and pixel ratio.
    std::map<std::tuple<std::string_view, QRgb, qreal>, QImage> m_stamps;

    struct Furniture {
        struct Look {
            double up = 0.0, scale = 0.0;
            units::System units = units::System::Metric;
            QSizeF size;
            qreal pixelRatio = 1.0;

            bool operator==(const Look&) const = default;
        };
        struct Plate {
            QRectF rect;
            QPoint at;
            QImage image;
        };
        std::optional<Look> look; ///< that it was painted for
        std::vector<Plate> plates;
    } m_furniture;

    /// Names and sites that the names of fences tell already.
    struct Told {
        std::optional<std::uint64_t> number;
        std::set<std::string> names, sites;
    } m_told;

    /// Corners of the fence that can be edited, in the plane of one frame.
    struct Editable {
        std::shared_ptr<const model::Fence> fence;
        std::uint64_t planeNumber = 0;
        std::vector<PlaneRuns> lines;
        std::vector<bool> closed;
    } m_editable;
};

} // namespace fencewright::desktop
