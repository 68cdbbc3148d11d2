#pragma once

#include <QDialog>

class QAction;

namespace fencewright::desktop {

/// A page of words to read: keys, about.
class WordsDialog : public QDialog {
    Q_OBJECT

public:
    WordsDialog(const QString& title, const QString& html, QWidget* parent);
};

/// All keys of the window, from the actions themselves.
[[nodiscard]] QString keysPage(const QList<QAction*>& actions);
/// What the program is, what it does not replace, and what it is built from.
[[nodiscard]] QString aboutPage();

} // namespace fencewright::desktop
