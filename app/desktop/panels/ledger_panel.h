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
    const Chosen& chosen() const { return m_chosen; }
    /// Marks the rows; turns to the page of the thing chosen last, where the page shown has none of them.
    void choose(const Chosen& chosen);

signals:
    /// A person chose other rows, or something that was chosen is gone.
    void chosenChanged();
    void pageChanged();
    /// A double click, or Enter on a row.
    void opened();
    /// A source was dragged to that row, or moved there by Alt and an arrow key.
    void moved(const fencewright::model::SourceId& id, int row);
    /// The space bar on a source: shown or hidden.
    void toggled(const fencewright::model::SourceId& id);

protected:
    /// Keeps the marked row in sight when the form takes room from the table; keys and drags that order sources.
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void takeRows();
    bool followKey(const QKeyEvent& key);
    void followDrag(const QMouseEvent& mouse);
    void markRows();
    void turnTo(LedgerPage page);
    int rowOf(const Thing& thing) const;
    int lastChosenRow() const;
    void relabel();

    LedgerModel& m_model;
    QTableView* m_table;
    QWidget* m_host; ///< keeps the margins at the table's sides
    QLabel* m_count;
    QLabel* m_none;
    std::vector<QPushButton*> m_tabs;
    Chosen m_chosen;
    bool m_marking = false;
    std::optional<QPoint> m_pressed; ///< on a source, with the left button
    bool m_dragging = false;
};

} // namespace fencewright::desktop
