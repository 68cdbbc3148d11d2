#pragma once

#include <QString>

class QPushButton;
class QWidget;

namespace fencewright::desktop {

/// A word that turns to a page; as wide when it is chosen, and bold, as when it is not.
[[nodiscard]] QPushButton* tabButton(const char* name, const QString& words, QWidget* parent);

} // namespace fencewright::desktop
