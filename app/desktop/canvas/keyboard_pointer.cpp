#include "desktop/canvas/keyboard_pointer.h"

#include "desktop/canvas/map_canvas.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace fencewright::desktop {
namespace {

constexpr int kSize = 41;
constexpr int kGap = 5; // the place itself stays in sight

} // namespace

KeyboardPointer::KeyboardPointer(MapCanvas* map) : QWidget{map}, m_map{map} {
    setObjectName("keyboardPointer");
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setFocusPolicy(Qt::NoFocus);
    setFixedSize(kSize, kSize);
    hide();
    map->installEventFilter(this);
    connect(map, &MapCanvas::stepped, this, [this] {
        begin();
        point();
    });
}

QPointF KeyboardPointer::middle() const { return QRectF{m_map->rect()}.center(); }

void KeyboardPointer::begin() {
    move((middle() - QPointF{kSize, kSize} / 2.0).toPoint());
    show();
    raise();
}

void KeyboardPointer::send(QEvent::Type type, Qt::MouseButton button, Qt::MouseButtons buttons) {
    m_sending = true;
    QMouseEvent mouse{type, middle(), m_map->mapToGlobal(middle()), button, buttons, Qt::NoModifier};
    QCoreApplication::sendEvent(m_map, &mouse);
    m_sending = false;
}

void KeyboardPointer::point() { send(QEvent::MouseMove, Qt::NoButton, Qt::NoButton); }

void KeyboardPointer::click() {
    point();
    send(QEvent::MouseButtonPress, Qt::LeftButton, Qt::LeftButton);
    send(QEvent::MouseButtonRelease, Qt::LeftButton, Qt::NoButton);
}

bool KeyboardPointer::eventFilter(QObject* watched, QEvent* event) {
    switch (event->type()) {
    case QEvent::KeyPress: {
        const auto& key = *static_cast<QKeyEvent*>(event);
        m_spaceAlone = key.key() == Qt::Key_Space && (m_spaceAlone || !key.isAutoRepeat());
        if (m_spaceAlone)
            begin();
        break;
    }
    case QEvent::KeyRelease: {
        const auto& key = *static_cast<QKeyEvent*>(event);
        if (key.isAutoRepeat())
            break;
        if (key.key() == Qt::Key_Space && m_spaceAlone) {
            m_spaceAlone = false;
            // After the map has seen that Space is up: a click, and no drag.
            QMetaObject::invokeMethod(
                this, [this] { click(); }, Qt::QueuedConnection);
        }
        break;
    }
    case QEvent::MouseMove:
    case QEvent::MouseButtonPress:
        if (!m_sending) {
            m_spaceAlone = false;
            hide();
        }
        break;
    case QEvent::Resize:
        if (isVisible())
            begin();
        break;
    case QEvent::FocusOut:
        m_spaceAlone = false;
        hide();
        break;
    default:
        break;
    }
    return QWidget::eventFilter(watched, event);
}

void KeyboardPointer::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    const double at = kSize / 2.0;
    const QLineF arms[] = {{0.5, at, at - kGap, at},
                           {at + kGap, at, kSize - 0.5, at},
                           {at, 0.5, at, at - kGap},
                           {at, at + kGap, at, kSize - 0.5}};
    // Dark within white: readable on any imagery.
    painter.setPen(QPen{Qt::white, 4.0, Qt::SolidLine, Qt::FlatCap});
    painter.drawLines(arms, 4);
    painter.setPen(QPen{QColor{0x1B, 0x24, 0x30}, 1.6, Qt::SolidLine, Qt::FlatCap});
    painter.drawLines(arms, 4);
}

} // namespace fencewright::desktop
