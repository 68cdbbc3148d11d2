#include "desktop/panels/elided_label.h"

#include <QHelpEvent>
#include <QPainter>
#include <QStyle>
#include <QToolTip>

namespace fencewright::desktop {

QSize ElidedLabel::minimumSizeHint() const {
    return {fontMetrics().horizontalAdvance(QStringLiteral("MM…")), QLabel::minimumSizeHint().height()};
}

int ElidedLabel::wholeWidth() const {
    const QMargins margins = contentsMargins();
    return fontMetrics().horizontalAdvance(text()) + margins.left() + margins.right() + 1;
}

void ElidedLabel::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    const QRect room = contentsRect();
    style()->drawItemText(&painter, room, int(alignment()), palette(), isEnabled(),
                          fontMetrics().elidedText(text(), Qt::ElideRight, room.width()), foregroundRole());
}

bool ElidedLabel::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip || wholeWidth() <= width())
        return QLabel::event(event);
    QToolTip::showText(static_cast<QHelpEvent*>(event)->globalPos(), text(), this);
    return true;
}

} // namespace fencewright::desktop
