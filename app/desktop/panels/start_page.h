#pragma once

#include <QFrame>

#include "desktop/theme.h"

class QAction;

namespace fencewright::desktop {

/// What one can do with an empty document: three next steps, and a sample.
class StartPage : public QFrame {
    Q_OBJECT

public:
    /// @param steps   each with the property "icon path" and a sentence as what's-this text.
    StartPage(const std::vector<QAction*>& steps, QAction* sample, QAction* open, Appearance& appearance,
              QWidget* parent);
};

} // namespace fencewright::desktop
