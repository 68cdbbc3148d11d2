#pragma once

#include <QObject>
#include <QPainter>
#include <QPointF>
#include <QRectF>

#include "audit/audit.h"
#include "desktop/canvas/deferred_layer.h"
#include "desktop/canvas/plane_runs.h"
#include "desktop/canvas/view_transform.h"
#include "geometry/spatial_index.h"
#include "model/polygon.h"

#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

namespace fencewright::desktop {

/// The boundary of the clear area: a row of dots, which no fence has.
///
/// Follows the audit: rings that stay what they were are kept as they are drawn, and what is dear is painted on another
/// thread.
class ClearAreaLine : public QObject {
    Q_OBJECT

public:
    explicit ClearAreaLine(QObject* parent = nullptr);

    /// @param audit  of which result; null, or one without a clear area: nothing is painted.
    void paint(QPainter& painter, const ViewTransform& view, const std::shared_ptr<const audit::AuditResult>& audit,
               bool inMotion);
    /// Whether what was painted last is what there is to see.
    bool isSettled() const { return m_rings->empty() || m_picture.isSettled(); }

signals:
    /// Something that was painted on another thread is there.
    void arrived();

private:
    struct Ring {
        model::LineString corners;
        geometry::Box box; ///< longitude and latitude
    };
    using Rings = std::vector<std::shared_ptr<const Ring>>;

    /// Rings in the plane, thinned for a scale. Used by two threads.
    class Thinned {
    public:
        struct Line {
            std::uint64_t planeNumber = 0;
            int coarseness = 0; ///< the power of two of metres per pixel
            std::vector<QPointF> points;
            QRectF box;
        };
        /// Null where it is not kept for that plane and scale.
        std::shared_ptr<const Line> find(const Ring& ring, const ViewTransform& view) const;
        std::shared_ptr<const Line> get(const std::shared_ptr<const Ring>& ring, const ViewTransform& view,
                                        const Projection& project);
        void keepOnly(const Rings& rings);

    private:
        mutable std::mutex m_mutex;
        std::map<const Ring*, std::pair<std::shared_ptr<const Ring>, std::shared_ptr<const Line>>> m_lines;
    };

    void take(const std::shared_ptr<const audit::AuditResult>& audit, const ViewTransform& view);
    static void paintRings(QPainter& painter, const ViewTransform& view, const Projection& project, const Rings& rings,
                           Thinned& thinned, const QRectF& seen);
    double costOf(const Ring& ring, const ViewTransform& view, const QRectF& seen) const;

    std::shared_ptr<const audit::AuditResult> m_audit;
    std::shared_ptr<const Rings> m_rings = std::make_shared<const Rings>();
    std::shared_ptr<Thinned> m_thinned = std::make_shared<Thinned>();
    DeferredLayer m_picture;
};

} // namespace fencewright::desktop
