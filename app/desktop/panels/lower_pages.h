#pragma once

#include <QWidget>

class QPushButton;
class QStackedWidget;

namespace fencewright::desktop {

class EditsPanel;
class FindingsPanel;

/// The foot of the right column: what the audit found, or what was done.
class LowerPages : public QWidget {
    Q_OBJECT

public:
    LowerPages(FindingsPanel* findings, EditsPanel* edits, QWidget* parent);

    void showFindings();
    void showEdits();

private:
    QStackedWidget* m_pages;
    QPushButton* m_findingsTab;
    QPushButton* m_editsTab;
};

} // namespace fencewright::desktop
