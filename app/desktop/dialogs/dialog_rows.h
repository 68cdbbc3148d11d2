#pragma once

#include <QString>

class QDialog;
class QFormLayout;
class QLayout;
class QPushButton;
class QVBoxLayout;
class QWidget;

namespace fencewright::desktop {

/// The foot of a dialog: Cancel, which leaves it, and at its right what goes ahead, which the dialog connects itself.
void addButtons(QDialog& dialog, QVBoxLayout& column, QPushButton& go);

/// A row of a form. The words at its left, quietly, are the name of the field, or of the first in the row.
void addRow(QFormLayout& form, const QString& words, QWidget* field);
void addRow(QFormLayout& form, const QString& words, QLayout* row);

} // namespace fencewright::desktop
