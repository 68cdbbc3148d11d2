#pragma once

#include <QDialog>

#include "desktop/flows/thing_filter.h"

#include <functional>

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace fencewright::desktop {

/// Asks by what fences, sites and homes are to be chosen; says how many they are while it is asked.
class SelectWhereDialog : public QDialog {
    Q_OBJECT

public:
    /// @param day  as it is to be shown.
    SelectWhereDialog(const QString& day, std::function<std::size_t(const ThingFilter&)> count, QWidget* parent);

    ThingFilter filter() const;

private:
    void recount();

    std::function<std::size_t(const ThingFilter&)> m_countOf;
    QComboBox* m_kind;
    QLineEdit* m_name;
    QLineEdit* m_basis;
    QComboBox* m_enabled;
    QComboBox* m_period;
    QComboBox* m_findings;
    QLabel* m_count;
    QPushButton* m_go;
};

} // namespace fencewright::desktop
