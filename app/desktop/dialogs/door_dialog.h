#pragma once

#include <QDialog>

class QLineEdit;

namespace fencewright::desktop {

/// Asks whether the database that a document names is to be spoken to, and as whom.
class DoorDialog : public QDialog {
    Q_OBJECT

public:
    /// @param address  of the database (see exchange/database_address.h).
    /// @param words  why its table is not read now.
    DoorDialog(const QString& address, const QString& words, QWidget* parent);

    /// With the name that was typed.
    QString address() const;
    QString password() const;

private:
    QString m_address;
    QLineEdit* m_user;
    QLineEdit* m_password;
};

} // namespace fencewright::desktop
