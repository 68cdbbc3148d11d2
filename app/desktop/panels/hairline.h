#pragma once

#include <QFrame>

namespace fencewright::desktop {

/// A line of one pixel between two parts of the window.
inline QFrame* hairline(Qt::Orientation orientation, QWidget* parent) {
    auto* line = new QFrame{parent};
    line->setProperty("hairline", true);
    if (orientation == Qt::Horizontal)
        line->setFixedHeight(1);
    else
        line->setFixedWidth(1);
    return line;
}

} // namespace fencewright::desktop
