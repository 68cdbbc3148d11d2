#pragma once

#include <QFrame>

class QLabel;
class QLineEdit;

namespace fencewright::desktop {

/// A small input on the map for what is typed while drawing: a distance, a bearing, a radius, coordinates.
class TypedEntry : public QFrame {
    Q_OBJECT

public:
    explicit TypedEntry(QWidget* map);

    /// Opens beside the place, with the first letters typed.
    void open(const QString& prompt, const QString& text, const QPointF& beside);
    /// Closes it, and gives the keyboard back to the map.
    void done();
    bool isOpen() const { return isVisible(); }
    /// What is typed so far means this; empty: nothing yet.
    void echo(const QString& words);
    /// What was entered cannot be taken: it stays, to be mended.
    void refuse(const QString& words);

signals:
    void edited(const QString& text);
    void entered(const QString& text);
    void abandoned();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QLabel* m_prompt;
    QLineEdit* m_line;
    QLabel* m_echo;
};

} // namespace fencewright::desktop
