#pragma once

#include <QWidget>

namespace fencewright::desktop {

class MapCanvas;
class MessageBar;

/// The map with what floats over it: the message, and the page of an empty document.
class MapArea : public QWidget {
    Q_OBJECT

public:
    explicit MapArea(QWidget* parent);

    void setMap(QWidget* map);
    void setStartPage(QWidget* page);
    MessageBar& messages() { return *m_messages; }

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void arrange();

    QWidget* m_map = nullptr;
    QWidget* m_page = nullptr;
    MessageBar* m_messages;
};

} // namespace fencewright::desktop
