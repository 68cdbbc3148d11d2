#include "desktop/canvas/typed_entry.h"

#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include <algorithm>

namespace fencewright::desktop {

TypedEntry::TypedEntry(QWidget* map)
    : QFrame{map}, m_prompt{new QLabel{this}}, m_line{new QLineEdit{this}}, m_echo{new QLabel{this}} {
    setFrameShape(QFrame::StyledPanel);
    setAutoFillBackground(true);
    m_line->setAccessibleName(tr("Typed figures"));
    m_line->setMinimumWidth(210);
    m_line->installEventFilter(this);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(8, 6, 8, 8);
    column->setSpacing(4);
    column->addWidget(m_prompt);
    column->addWidget(m_line);
    m_echo->setProperty("quiet", true);
    m_echo->hide();
    column->addWidget(m_echo);
    connect(m_line, &QLineEdit::textEdited, this, &TypedEntry::edited);
    hide();
}

void TypedEntry::open(const QString& prompt, const QString& text, const QPointF& beside) {
    m_prompt->setWordWrap(false);
    m_prompt->setText(prompt);
    m_line->setText(text);
    m_echo->hide();
    adjustSize();
    const QRect map = parentWidget()->rect();
    QPoint at = beside.toPoint() + QPoint{18, 22};
    at.setX(std::clamp(at.x(), 8, std::max(8, map.width() - width() - 8)));
    at.setY(std::clamp(at.y(), 8, std::max(8, map.height() - height() - 8)));
    move(at);
    show();
    raise();
    m_line->setFocus(Qt::OtherFocusReason);
    m_line->deselect();
    m_line->setCursorPosition(int(text.size()));
    emit edited(text);
}

void TypedEntry::done() {
    if (!isVisible())
        return;
    hide();
    parentWidget()->setFocus(Qt::OtherFocusReason);
}

void TypedEntry::echo(const QString& words) {
    m_echo->setText(words);
    m_echo->setVisible(!words.isEmpty());
    adjustSize();
}

void TypedEntry::refuse(const QString& words) {
    m_prompt->setWordWrap(true);
    m_prompt->setText(words);
    adjustSize();
    m_line->selectAll();
}

bool TypedEntry::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_line && event->type() == QEvent::KeyPress) {
        switch (static_cast<QKeyEvent*>(event)->key()) {
        case Qt::Key_Escape:
            done();
            emit abandoned();
            return true;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            emit entered(m_line->text());
            return true;
        default:
            break;
        }
    }
    return QFrame::eventFilter(watched, event);
}

} // namespace fencewright::desktop
