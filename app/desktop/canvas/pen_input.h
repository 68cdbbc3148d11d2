#pragma once

#include <QElapsedTimer>
#include <QEvent>
#include <QObject>
#include <QPointF>

class QTabletEvent;

namespace fencewright::desktop {

class MapCanvas;

/// A pen works like a mouse, whatever its pressure: the tip draws, the button at its side opens the menu, and its other
/// end takes back the last step. Stands before the map's events.
class PenInput : public QObject {
    Q_OBJECT

public:
    explicit PenInput(MapCanvas* map);

    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void press(const QTabletEvent& event);
    void pass(QEvent::Type type, const QTabletEvent& event, Qt::MouseButton button, Qt::MouseButtons buttons);

    MapCanvas* m_map;
    QElapsedTimer m_sincePress; ///< two presses soon after each other are a double click
    QPointF m_pressedAt;
    bool m_tipDown = false;
    bool m_tapped = false; ///< the press before was the first of two
};

} // namespace fencewright::desktop
