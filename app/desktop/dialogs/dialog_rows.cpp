#include "desktop/dialogs/dialog_rows.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QLabel* quietLabel(const QString& words, QWidget* field) {
    auto* label = new QLabel{words};
    label->setProperty("quiet", true);
    label->setBuddy(field);
    return label;
}

} // namespace

void addRow(QFormLayout& form, const QString& words, QWidget* field) { form.addRow(quietLabel(words, field), field); }

void addRow(QFormLayout& form, const QString& words, QLayout* row) {
    QWidget* first = nullptr;
    for (int i = 0; i < row->count() && !first; ++i)
        if (QWidget* one = row->itemAt(i)->widget(); one && (one->focusPolicy() & Qt::TabFocus))
            first = one;
    form.addRow(quietLabel(words, first), row);
}

void addButtons(QDialog& dialog, QVBoxLayout& column, QPushButton& go) {
    auto* cancel = new QPushButton{QCoreApplication::translate("DialogButtons", "Cancel"), &dialog};
    cancel->setAutoDefault(false);
    QObject::connect(cancel, &QPushButton::clicked, &dialog, &QDialog::reject);
    auto* row = new QHBoxLayout;
    row->addStretch(1);
    row->addWidget(cancel);
    row->addWidget(&go);
    column.addLayout(row);
}

} // namespace fencewright::desktop
