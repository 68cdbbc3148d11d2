#pragma once

#include <QWidget>

#include "desktop/theme.h"
#include "session/live_audit.h"

class QAbstractListModel;
class QLabel;
class QListView;
class QPushButton;

namespace fencewright::desktop {

/// What the audit reports, live. Choosing a finding shows its place and, where there is a repair, what it would do.
class FindingsPanel : public QWidget {
    Q_OBJECT

public:
    FindingsPanel(session::OpenDocument& document, session::LiveAudit& audit, Appearance& appearance,
                  QWidget* parent = nullptr);

    /// How many there are, for whoever makes the heading.
    QLabel* count() const { return m_count; }
    /// Lets go of the chosen finding.
    void clearChoice();

signals:
    /// A double click, or the menu: the form wants the focus.
    void editRequested();
    /// A person chose it: show the place.
    void chosen(const fencewright::audit::Finding& finding);
    /// What the map is to show as if it were taken; nothing: nothing.
    void previewChanged(const std::optional<fencewright::model::Edit>& edit);
    /// The repair could not be taken.
    void refused(const QString& words);

private:
    class Model;
    void refresh();
    void choose(int row);
    bool chooseStill(const audit::Finding& finding);
    void restate();
    void take();
    void openMenu(const QPoint& at);

    session::OpenDocument& m_document;
    session::LiveAudit& m_audit;
    Model* m_model;
    QListView* m_list;
    QLabel* m_count;
    QLabel* m_none;
    QWidget* m_offer;
    QLabel* m_repair;
    QPushButton* m_take;
    std::optional<audit::Finding> m_chosen;
};

} // namespace fencewright::desktop
