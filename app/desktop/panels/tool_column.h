#pragma once

#include <QWidget>

#include "desktop/theme.h"

class QAction;
class QToolButton;

namespace fencewright::desktop {

/// The tools at the left edge: icon and key. In more columns where the window is low.
class ToolColumn : public QWidget {
    Q_OBJECT

public:
    /// @param actions  one for each tool, checkable, in the order of the column.
    ToolColumn(const std::vector<QAction*>& actions, Appearance& appearance, QWidget* parent = nullptr);

    QSize minimumSizeHint() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void arrange();

    std::vector<QToolButton*> m_buttons;
};

} // namespace fencewright::desktop
