#pragma once

#include <QDialog>
#include <QPointer>

#include "desktop/dialogs/credential_fields.h"
#include "session/background_jobs.h"

#include <memory>
#include <optional>

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QSpinBox;

namespace fencewright::desktop {

/// Asks for a server of imagery: its address, who asks, and which of its layers. It asks the server before it is done,
/// so that what is added is known to be there.
class ServerDialog : public QDialog {
    Q_OBJECT

public:
    ServerDialog(session::BackgroundJobs& jobs, std::shared_ptr<raster::ServerAccess> servers, QWidget* parent);
    ~ServerDialog() override;

    /// As the document keeps it.
    QString address() const;
    QString name() const;

private:
    /// Tells which question an answer belongs to; gone with the dialog.
    struct Asking {
        int number = 0;
    };

    void ask();
    void takeTemplate();
    void takeService(const raster::ServerDescription& found);
    void refuse(const Fault& fault);
    void forget();
    void chooseLayer();
    void check();
    const raster::ServerLayer* layer() const;

    session::BackgroundJobs& m_jobs;
    std::shared_ptr<raster::ServerAccess> m_servers;
    std::shared_ptr<Asking> m_asking;
    QPointer<session::BackgroundJob> m_job;
    std::string m_asked; ///< the address, with nothing secret in it, that the answer is of; empty: none yet
    std::optional<raster::ServerDescription> m_found; ///< of a service; nothing: tiles by a template

    QLineEdit* m_address;
    CredentialFields* m_credentials;
    QPushButton* m_ask;
    QLabel* m_state;
    QWidget* m_choices;
    QListWidget* m_layers;
    QLabel* m_styleLabel;
    QComboBox* m_style;
    QLabel* m_gridLabel;
    QComboBox* m_grid;
    QLabel* m_deepestLabel;
    QSpinBox* m_deepest;
    QLineEdit* m_name;
    QLabel* m_elsewhere;
    QPushButton* m_go;
};

} // namespace fencewright::desktop
