#pragma once

#include <QWidget>

#include "desktop/panels/ledger_model.h"
#include "desktop/theme.h"

class QLabel;
class QPushButton;
class QTableView;

namespace fencewright::desktop {

/// The list at the right: fences, sites, homes or sources, one page at a time.
class LedgerPanel : public QWidget {
    Q_OBJECT

public:
    LedgerPanel(LedgerModel& model, Appearance& appearance, QWidget* parent = nullptr);

    LedgerPage page() const { return m_model.page(); }
    void showPage(LedgerPage page);
    const LedgerKey& chosen() const { return m_chosen; }
    /// Turns to its page and marks its row; nothing chosen: no row is marked.
    void choose(const LedgerKey& key);

signals:
    /// A person chose another row, or the chosen thing is gone.
    void chosenChanged();
    void pageChanged();
    /// A double click, or Enter on a row.
    void opened();

protected:
    /// Keeps the marked row in sight when the form takes room from the table.
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void takeRow(int row);
    void markRow();
    void relabel();

    LedgerModel& m_model;
    QTableView* m_table;
    QWidget* m_host; ///< keeps the margins at the table's sides
    QLabel* m_count;
    QLabel* m_none;
    std::vector<QPushButton*> m_tabs;
    LedgerKey m_chosen;
    bool m_marking = false;
};

} // namespace fencewright::desktop
