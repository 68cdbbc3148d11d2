#pragma once

#include <QDialog>
#include <QKeySequence>

class QAbstractItemModel;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableView;

namespace fencewright::desktop {

class KeyBook;
class KeyField;
struct KeyedCommand;

/// All keys on one page: looked through by words or by key, each changed by pressing another.
class KeysDialog : public QDialog {
    Q_OBJECT

public:
    KeysDialog(KeyBook& book, QWidget* parent);

private:
    class Model;
    class Filter;
    const KeyedCommand* chosen() const;
    void showChosen();
    void consider(const QKeySequence& key);
    void commit();

    KeyBook& m_book;
    Model* m_model;
    Filter* m_filter;
    QLineEdit* m_search;
    QTableView* m_table;
    QLabel* m_what;
    KeyField* m_field;
    QPushButton* m_none;
    QPushButton* m_back;
    QPushButton* m_allBack;
    QLabel* m_clash;
    QPushButton* m_take;
    QPushButton* m_leave;
    QKeySequence m_asked;     ///< pressed, and another's: waits for the choice
    bool m_askedBack = false; ///< what waits is the given key
};

} // namespace fencewright::desktop
