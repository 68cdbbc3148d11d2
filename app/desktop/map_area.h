#pragma once

#include <QWidget>

class QLabel;

namespace fencewright::desktop {

class MapCanvas;
class MessageBar;

/// The map with what floats over it: the message, what the tool waits for, and the page of an empty document.
class MapArea : public QWidget {
    Q_OBJECT

public:
    explicit MapArea(QWidget* parent);

    void setMap(QWidget* map);
    void setStartPage(QWidget* page);
    MessageBar& messages() { return *m_messages; }
    /// What the next click or key does; empty: nothing to say. It steps aside for the pointer.
    void showHint(const QString& hint);

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void arrange();
    void arrangeHint();

    QWidget* m_map = nullptr;
    QWidget* m_page = nullptr;
    MessageBar* m_messages;
    QLabel* m_hint;
};

} // namespace fencewright::desktop
