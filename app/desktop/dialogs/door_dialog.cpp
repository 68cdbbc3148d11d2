#include "desktop/dialogs/door_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "exchange/database_address.h"
#include "fault.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

/// Nothing where the document names no address that can be read; the reading will say so.
exchange::DatabaseAddress partsOf(const QString& address) {
    try {
        return exchange::parseDatabaseAddress(address.toStdString());
    } catch (const Fault&) {
        return {};
    }
}

} // namespace

DoorDialog::DoorDialog(const QString& address, const QString& words, QWidget* parent)
    : QDialog{parent}, m_address{address}, m_user{new QLineEdit{this}}, m_password{new QLineEdit{this}} {
    setObjectName("doorDialog");
    setWindowTitle(tr("Connect to a server"));
    setMinimumWidth(520);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    const auto say = [this, column](const QString& said, const char* property) {
        auto* label = new QLabel{said, this};
        label->setProperty(property, true);
        label->setTextFormat(Qt::PlainText);
        label->setWordWrap(true);
        label->setVisible(!said.isEmpty());
        column->addWidget(label);
        return label;
    };
    exchange::DatabaseAddress parts = partsOf(address);
    m_user->setText(QString::fromStdString(parts.user));
    parts.user.clear();
    say(QString::fromStdString(exchange::text(parts)), "heading")->setObjectName("doorAddress");
    say(words, "quiet")->setObjectName("doorWords");
    auto* form = new QFormLayout;
    form->setSpacing(8);
    form->setLabelAlignment(Qt::AlignLeft);
    const auto row = [&](const QString& said, QLineEdit* edit, const char* name) {
        edit->setObjectName(name);
        edit->setAccessibleName(said);
        addRow(*form, said, edit);
    };
    row(tr("Your name there"), m_user, "doorUser");
    row(tr("Password"), m_password, "doorPassword");
    m_user->setPlaceholderText(tr("if another than on this machine"));
    m_password->setPlaceholderText(tr("if the server asks for one"));
    m_password->setEchoMode(QLineEdit::Password);
    column->addLayout(form);
    say(tr("The password is kept in memory until the window is closed, and written down nowhere."), "quiet");
    column->addStretch(1);
    auto* go = new QPushButton{tr("Connect"), this};
    go->setObjectName("doorGo");
    go->setDefault(true);
    addButtons(*this, *column, *go);
    connect(go, &QPushButton::clicked, this, &QDialog::accept);
    (m_user->text().isEmpty() ? m_user : m_password)->setFocus(Qt::OtherFocusReason);
}

QString DoorDialog::address() const {
    exchange::DatabaseAddress parts = partsOf(m_address);
    if (parts == exchange::DatabaseAddress{})
        return m_address;
    parts.user = m_user->text().trimmed().toStdString();
    return QString::fromStdString(exchange::text(parts));
}

QString DoorDialog::password() const { return m_password->text(); }

} // namespace fencewright::desktop
