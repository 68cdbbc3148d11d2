#pragma once

#include <QWidget>

#include "desktop/theme.h"

class QAction;
class QToolButton;

namespace fencewright::desktop {

/// The tools at the left edge: icon and key.
class ToolColumn : public QWidget {
    Q_OBJECT

public:
    /// @param actions  one for each tool, checkable, in the order of the column.
    ToolColumn(const std::vector<QAction*>& actions, Appearance& appearance, QWidget* parent = nullptr);
};

} // namespace fencewright::desktop
