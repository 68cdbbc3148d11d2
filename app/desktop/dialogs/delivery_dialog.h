#pragma once

#include <QDialog>

#include "exchange/delivery.h"

#include <optional>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QSpinBox;

namespace fencewright::desktop {

/// What is to be handed out, and where to.
class DeliveryDialog : public QDialog {
    Q_OBJECT

public:
    /// @param proposal  path without suffix.
    /// @param errors    that the audit reports of the set; none: it has not finished.
    DeliveryDialog(const QString& proposal, std::size_t enabledFences, std::optional<std::size_t> errors,
                   QWidget* parent);

    void showErrors(std::optional<std::size_t> errors);
    /// Says, or no longer, that the document has been changed since: what is handed out is the set as it was.
    void showOlder(bool older);

    QString path() const;
    exchange::DeliveryOptions options() const;

private:
    void followFormat();
    void browse();
    void check();

    QComboBox* m_format;
    QLineEdit* m_path;
    QSpinBox* m_decimals;
    QLabel* m_decimalsWords;
    QLabel* m_caution;
    QLabel* m_older;
    QSpinBox* m_corners;
    QCheckBox* m_sites;
    QCheckBox* m_homes;
    QLabel* m_refusal;
    QPushButton* m_go;
    std::size_t m_fences;
};

} // namespace fencewright::desktop
