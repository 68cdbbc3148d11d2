#pragma once

#include <QDialog>
#include <QPointer>

#include "exchange/vector_reader.h"
#include "session/background_jobs.h"

#include <optional>

class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QTreeWidget;

namespace fencewright::desktop {

struct TableChoices {
    std::string address; ///< with the user's name, without the password
    std::string layer;
    std::string crs; ///< empty: the server's own
    std::string labelField;
    std::string numberField;
    std::string where;
};

/// Asks for a database and its table: first the door, then what lies behind it. What was typed wrong is said at its
/// place; only a table that can be read is accepted.
class TableDialog : public QDialog {
    Q_OBJECT

public:
    /// @param readerProgram  fencewright-cli.
    TableDialog(session::BackgroundJobs& jobs, QString readerProgram, QWidget* parent);

    TableChoices choices() const;
    QString password() const;

private:
    void knock();
    void list(const exchange::VectorDescription& description);
    void chooseTable();
    void tryTable();
    void check();
    void refuse(QLabel* at, const QString& words);
    void setBusy(bool busy);
    std::optional<std::string> address();
    const exchange::LayerDescription* chosen() const;

    session::BackgroundJobs& m_jobs;
    QString m_readerProgram;
    exchange::VectorDescription m_description;

    QLineEdit* m_address;
    QLineEdit* m_user;
    QLineEdit* m_password;
    QLabel* m_doorRefusal;
    QPushButton* m_connect;
    QWidget* m_inside; ///< what is to be chosen once the door is open
    QLineEdit* m_find;
    QTreeWidget* m_tables;
    QLabel* m_remark;
    QFormLayout* m_form;
    QLineEdit* m_crs;
    QComboBox* m_label;
    QComboBox* m_number;
    QLineEdit* m_where;
    QLabel* m_whereRefusal;
    QPushButton* m_go;
    bool m_busy = false;
    QPointer<QWidget> m_focus; ///< what had it before the server was asked
};

} // namespace fencewright::desktop
