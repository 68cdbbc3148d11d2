#pragma once

#include <QWidget>

#include "raster/tile_server.h"

class QFormLayout;
class QLabel;
class QLineEdit;

namespace fencewright::desktop {

/// What opens a server's door, to be typed: a key, a name and a password.
class CredentialFields : public QWidget {
    Q_OBJECT

public:
    explicit CredentialFields(QWidget* parent = nullptr);

    raster::Credentials credentials() const;
    void setCredentials(const raster::Credentials& credentials);
    /// The address decides whether a key is asked for, and whether a password would travel for all to read.
    void setAddress(const QString& address);
    /// To the first field that is empty and would be needed.
    void focusFirst();

signals:
    void edited();

private:
    QFormLayout* m_form;
    QLabel* m_keyLabel;
    QLineEdit* m_key;
    QLineEdit* m_user;
    QLineEdit* m_password;
    QLabel* m_words;
};

} // namespace fencewright::desktop
