#pragma once

#include <QObject>
#include <QPainter>

#include "airspace/activity.h"
#include "audit/finding.h"
#include "desktop/canvas/afterimage.h"
#include "desktop/canvas/fence_painter.h"
#include "desktop/canvas/halo_text.h"
#include "desktop/canvas/label_layout.h"
#include "desktop/canvas/retained_layer.h"
#include "desktop/canvas/snap.h"
#include "desktop/canvas/underlay.h"
#include "desktop/canvas/view_transform.h"
#include "desktop/tools/tool.h"
#include "geodesy/coordinate_notation.h"

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::desktop {

/// All that one picture of the map shows. The references hold while it is painted.
struct MapContents {
    const model::FenceSet& set;
    const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined;
    Selection selection;
    airspace::Moment moment;
    std::span<const audit::Finding> findings;
    std::span<const std::shared_ptr<const session::OutlinedFence>> previewed; ///< as a repair would leave them
    ToolPreview tool;
    std::shared_ptr<const session::OutlinedFence> draft; ///< of the tool's preview
    std::optional<Snap> snap;
    std::optional<QPointF> pointer; ///< while it is over the map
    units::System units = units::System::Metric;
    geodesy::Notation notation = geodesy::Notation::DegreesMinutesSeconds;
    bool dark = false;
    bool inMotion = false; ///< amid a zoom: the last picture, stretched, will do where painting takes long
};

/// Puts the picture together: ground, imagery, reference layers, fences, sites, homes, findings, what the tool makes,
/// names, furniture.
class MapPainter : public QObject {
    Q_OBJECT

public:
    explicit MapPainter(const QFont& font, QObject* parent = nullptr);

    void paint(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    /// Keeps the map as it is now, to be shown until the map has been drawn in another plane.
    void keepPicture(const ViewTransform& view, const MapContents& contents, double pixelRatio);
    /// The kept picture, carried along while the map is being turned.
    void paintCarried(QPainter& painter, const ViewTransform& view, const MapContents& contents,
                      const QTransform& carried, double clockwiseDegrees);

    Underlay& underlay() { return m_underlay; }
    ReferenceLayer& references() { return m_underlay.references(); }

private:
    using Outlined = FencePainter::Outlined;

    void paintMap(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintFences(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintSites(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintHandles(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintToolLine(QPainter& painter, const ViewTransform& view, const MapContents& contents);
    void paintNames(QPainter& painter, const ViewTransform& view, const MapContents& contents, LabelLayout& layout);
    void paintAtPointer(QPainter& painter, const ViewTransform& view, const MapContents& contents);

    QFont m_font;
    Afterimage m_before;
    Underlay m_underlay;
    RetainedLayer m_fencePicture;
    std::vector<FencePainter::Item> m_pictured; ///< what the fence picture shows
    FencePainter m_fences;
    HaloText m_text;

    /// Corners of the fence that can be edited, in the plane of one frame.
    struct Editable {
        std::shared_ptr<const model::Fence> fence;
        std::uint64_t planeNumber = 0;
        std::vector<std::vector<QPointF>> lines;
        std::vector<bool> closed;
    } m_editable;
};

} // namespace fencewright::desktop
