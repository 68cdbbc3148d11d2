#pragma once

#include <QDialog>

#include "desktop/dialogs/credential_fields.h"

namespace fencewright::desktop {

/// Asks whether a server that a document names is known, and as whom it is to be asked.
class ConnectDialog : public QDialog {
    Q_OBJECT

public:
    /// @param words  why it is not read now.
    ConnectDialog(const QString& address, const raster::Credentials& known, const QString& words, QWidget* parent);

    raster::Credentials credentials() const { return m_fields->credentials(); }

private:
    CredentialFields* m_fields;
};

} // namespace fencewright::desktop
