#include "desktop/canvas/pen_input.h"

#include "desktop/canvas/map_canvas.h"

#include <QApplication>
#include <QContextMenuEvent>
#include <QLineF>
#include <QMouseEvent>
#include <QPointingDevice>
#include <QTabletEvent>

namespace fencewright::desktop {
namespace {

constexpr double kDoubleClickPixels = 12.0; // a pen trembles more than a mouse

} // namespace

PenInput::PenInput(MapCanvas* map) : QObject{map}, m_map{map} { map->installEventFilter(this); }

bool PenInput::eventFilter(QObject* watched, QEvent* event) {
    const auto type = event->type();
    if (type != QEvent::TabletPress && type != QEvent::TabletMove && type != QEvent::TabletRelease)
        return QObject::eventFilter(watched, event);
    // An event that is taken is not made into a mouse's once more by the window system.
    event->accept();
    const auto& pen = *static_cast<QTabletEvent*>(event);
    if (pen.pointerType() == QPointingDevice::PointerType::Eraser) {
        if (type == QEvent::TabletPress)
            m_map->tell(ToolEvent::Kind::StepBack);
        return true;
    }
    if (type == QEvent::TabletPress) {
        press(pen);
    } else if (type == QEvent::TabletMove) {
        pass(QEvent::MouseMove, pen, Qt::NoButton, m_tipDown ? Qt::LeftButton : Qt::NoButton);
    } else if (m_tipDown) {
        m_tipDown = false;
        pass(QEvent::MouseButtonRelease, pen, Qt::LeftButton, Qt::NoButton);
    }
    return true;
}

void PenInput::press(const QTabletEvent& event) {
    if (event.button() == Qt::RightButton || event.buttons().testFlag(Qt::RightButton)) {
        QContextMenuEvent menu{QContextMenuEvent::Mouse, event.position().toPoint(), event.globalPosition().toPoint(),
                               event.modifiers()};
        QCoreApplication::sendEvent(m_map, &menu);
        return;
    }
    const bool second = m_tapped && m_sincePress.isValid() &&
                        m_sincePress.elapsed() < QApplication::doubleClickInterval() &&
                        QLineF{m_pressedAt, event.position()}.length() < kDoubleClickPixels;
    m_tapped = !second;
    m_sincePress.start();
    m_pressedAt = event.position();
    m_tipDown = true;
    // A pen may come down where it was never seen before: the tool has to know of the place first.
    pass(QEvent::MouseMove, event, Qt::NoButton, Qt::NoButton);
    pass(second ? QEvent::MouseButtonDblClick : QEvent::MouseButtonPress, event, Qt::LeftButton, Qt::LeftButton);
}

void PenInput::pass(QEvent::Type type, const QTabletEvent& event, Qt::MouseButton button, Qt::MouseButtons buttons) {
    QMouseEvent mouse{type, event.position(), event.globalPosition(), button, buttons, event.modifiers()};
    QCoreApplication::sendEvent(m_map, &mouse);
}

} // namespace fencewright::desktop
