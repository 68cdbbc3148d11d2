#pragma once

#include <QDialog>

namespace fencewright::desktop {

/// A page of words to read.
class WordsDialog : public QDialog {
    Q_OBJECT

public:
    WordsDialog(const QString& title, const QString& html, QWidget* parent);
};

/// What the program is, what it does not replace, and what it is built from.
[[nodiscard]] QString aboutPage();

} // namespace fencewright::desktop
