#pragma once

#include <QWidget>

namespace fencewright::desktop {

class MapCanvas;

/// A cross in the middle of the map, for those who work it by keys: the keys that move the map move it below it, Space
/// clicks where it stands, and the tool sees it as it sees a pointer. It comes with the first such key and goes with
/// the mouse.
class KeyboardPointer : public QWidget {
    Q_OBJECT

public:
    explicit KeyboardPointer(MapCanvas* map);

    bool eventFilter(QObject* watched, QEvent* event) override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QPointF middle() const;
    void begin();
    void point();
    void click();
    void send(QEvent::Type type, Qt::MouseButton button, Qt::MouseButtons buttons);

    MapCanvas* m_map;
    bool m_sending = false;
    bool m_spaceAlone = false; ///< Space went down, and nothing was dragged since
};

} // namespace fencewright::desktop
