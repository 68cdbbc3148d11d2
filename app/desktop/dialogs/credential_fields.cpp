#include "desktop/dialogs/credential_fields.h"

#include <QtWidgets>

namespace fencewright::desktop {

CredentialFields::CredentialFields(QWidget* parent)
    : QWidget{parent}, m_form{new QFormLayout{this}}, m_keyLabel{new QLabel{tr("Key"), this}},
      m_key{new QLineEdit{this}}, m_user{new QLineEdit{this}}, m_password{new QLineEdit{this}}, m_words{
                                                                                                    new QLabel{this}} {
    m_form->setContentsMargins(0, 0, 0, 0);
    m_form->setSpacing(8);
    m_form->setLabelAlignment(Qt::AlignLeft);
    m_key->setObjectName("serverKey");
    m_key->setEchoMode(QLineEdit::PasswordEchoOnEdit);
    m_key->setAccessibleName(tr("Key"));
    m_user->setObjectName("serverUser");
    m_user->setAccessibleName(tr("Name, if it asks for one"));
    m_user->setPlaceholderText(tr("if it asks for one"));
    m_password->setObjectName("serverPassword");
    m_password->setEchoMode(QLineEdit::Password);
    m_password->setAccessibleName(tr("Password"));
    const auto row = [this](QLabel* label, QWidget* field) {
        label->setProperty("quiet", true);
        label->setMinimumWidth(104);
        label->setBuddy(field);
        m_form->addRow(label, field);
    };
    row(m_keyLabel, m_key);
    row(new QLabel{tr("Your name there"), this}, m_user);
    row(new QLabel{tr("Password"), this}, m_password);
    m_words->setObjectName("serverSecrecy");
    m_words->setProperty("quiet", true);
    m_words->setWordWrap(true);
    m_form->addRow(m_words);
    for (QLineEdit* edit : {m_key, m_user, m_password})
        connect(edit, &QLineEdit::textEdited, this, &CredentialFields::edited);
    setAddress({});
}

raster::Credentials CredentialFields::credentials() const {
    return {m_user->text().trimmed().toStdString(), m_password->text().toStdString(),
            m_key->isVisibleTo(this) ? m_key->text().trimmed().toStdString() : std::string{}};
}

void CredentialFields::setCredentials(const raster::Credentials& credentials) {
    m_user->setText(QString::fromStdString(credentials.user));
    m_password->setText(QString::fromStdString(credentials.password));
    m_key->setText(QString::fromStdString(credentials.key));
}

void CredentialFields::setAddress(const QString& address) {
    const bool key = raster::wantsKey(address.toStdString());
    m_key->setVisible(key);
    m_keyLabel->setVisible(key);
    QString words =
        tr("Key, name and password are kept in memory until the window is closed, and written down nowhere.");
    const QString lower = address.trimmed().toLower();
    if (lower.startsWith("http://") && !lower.startsWith("http://127.") && !lower.startsWith("http://localhost"))
        words += " " + tr("This address begins with http: on the way there, anybody can read them.");
    m_words->setText(words);
}

void CredentialFields::focusFirst() {
    QLineEdit* first = m_key->isVisibleTo(this) && m_key->text().isEmpty() ? m_key : m_user;
    if (first == m_user && !m_user->text().isEmpty())
        first = m_password;
    first->setFocus(Qt::OtherFocusReason);
    first->selectAll();
}

} // namespace fencewright::desktop
