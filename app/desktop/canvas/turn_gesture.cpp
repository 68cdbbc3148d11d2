#include "desktop/canvas/turn_gesture.h"

#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr double kNearNorthDegrees = 3.0;

} // namespace

void TurnGesture::carry(const QPointF& about, double clockwiseDegrees, double factor, const QPointF& shift) {
    m_underWay = true;
    m_clockwise += clockwiseDegrees;
    m_factor *= factor;
    QTransform step;
    step.translate(about.x() + shift.x(), about.y() + shift.y());
    step.rotate(clockwiseDegrees);
    step.scale(factor, factor);
    step.translate(-about.x(), -about.y());
    m_carried = m_carried * step;
}

void TurnGesture::settle(ViewTransform& view) {
    if (!m_underWay)
        return;
    const QPointF middle{view.size().width() / 2.0, view.size().height() / 2.0};
    const model::Position place = view.earthAt(m_carried.inverted().map(middle));
    // What was up has gone to the right, so what is up now lies to the left of it.
    double up = view.upAzimuthDegrees() - m_clockwise;
    if (std::abs(std::remainder(up, 360.0)) < kNearNorthDegrees)
        up = 0.0;
    view.setMetresPerPixel(view.metresPerPixel() / m_factor);
    view.setUpAzimuth(up);
    if (const auto at = view.planeOf(place))
        view.setCentre(*at);
    view.settlePlane();
    *this = {};
}

} // namespace fencewright::desktop
