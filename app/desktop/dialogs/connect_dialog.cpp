#include "desktop/dialogs/connect_dialog.h"

#include "desktop/dialogs/dialog_rows.h"

#include <QtWidgets>

namespace fencewright::desktop {

ConnectDialog::ConnectDialog(const QString& address, const raster::Credentials& known, const QString& words,
                             QWidget* parent)
    : QDialog{parent}, m_fields{new CredentialFields{this}} {
    setObjectName("connectDialog");
    setWindowTitle(tr("Connect to a server"));
    setMinimumWidth(520);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* heading = new QLabel{QString::fromStdString(raster::serverOf(address.toStdString())), this};
    heading->setProperty("heading", true);
    heading->setTextFormat(Qt::PlainText);
    column->addWidget(heading);
    auto* whole = new QLabel{address, this};
    whole->setObjectName("connectAddress");
    whole->setTextFormat(Qt::PlainText);
    whole->setWordWrap(true);
    whole->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column->addWidget(whole);
    auto* why = new QLabel{words, this};
    why->setObjectName("connectWords");
    why->setTextFormat(Qt::PlainText);
    why->setProperty("quiet", true);
    why->setWordWrap(true);
    why->setVisible(!words.isEmpty());
    column->addWidget(why);
    m_fields->setAddress(address);
    m_fields->setCredentials(known);
    column->addWidget(m_fields);
    column->addStretch(1);
    auto* go = new QPushButton{tr("Connect"), this};
    go->setObjectName("connectGo");
    go->setDefault(true);
    addButtons(*this, *column, *go);
    connect(go, &QPushButton::clicked, this, &QDialog::accept);
    m_fields->focusFirst();
}

} // namespace fencewright::desktop
