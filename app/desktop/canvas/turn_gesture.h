#pragma once

#include <QPointF>
#include <QTransform>

#include "desktop/canvas/view_transform.h"

namespace fencewright::desktop {

/// A turn of the map under way. The view stays as it was until the gesture rests; until then its picture is carried
/// along.
class TurnGesture {
public:
    bool isUnderWay() const { return m_underWay; }
    /// What lies under `about` moves by `shift`; all turns and grows about it.
    void carry(const QPointF& about, double clockwiseDegrees, double factor = 1.0, const QPointF& shift = {});
    double clockwiseDegrees() const { return m_clockwise; }
    /// Where the picture's pixels are now.
    const QTransform& carried() const { return m_carried; }
    /// The view becomes what the picture shows. A turn that comes to lie near north comes to lie on it.
    void settle(ViewTransform& view);

private:
    bool m_underWay = false;
    double m_clockwise = 0.0;
    double m_factor = 1.0;
    QTransform m_carried;
};

} // namespace fencewright::desktop
