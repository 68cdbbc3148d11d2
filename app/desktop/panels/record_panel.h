#pragma once

#include <QWidget>

#include "desktop/panels/form_grid.h"
#include "desktop/panels/ledger_model.h"
#include "desktop/theme.h"

class QLabel;
class QMenu;
class QPushButton;
class QScrollArea;

namespace fencewright::desktop {

class ElidedLabel;

/// The form of what is chosen: of one thing all its fields, of several what can be said of them together.
class RecordPanel : public QWidget {
    Q_OBJECT

public:
    RecordPanel(session::OpenDocument& document, session::SourceLibrary& sources, session::Settings& settings,
                Appearance& appearance, QWidget* parent = nullptr);

    void showChosen(const Chosen& chosen);
    void focusForm();

    /// A line for each button that the form shows now, and what it does.
    void addOffers(QMenu& menu);

signals:
    void zoomRequested();
    void removeRequested();
    void cornersRequested();
    void formLeft();
    void locateRequested(const fencewright::model::SourceId& id);
    void connectRequested(const fencewright::model::SourceId& id);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void rebuild();
    void refresh();
    void restate();
    void shareHeading();
    bool isThere() const;
    /// What is shown, where it is one thing.
    LedgerKey key() const;
    const Selection* several() const;
    std::vector<FormField> severalFields() const;
    std::size_t shapeIndex() const;
    void moveSource(int step);

    session::OpenDocument& m_document;
    session::SourceLibrary& m_sources;
    session::Settings& m_settings;
    Appearance& m_appearance;
    Chosen m_chosen;
    std::size_t m_shape = 0;
    ElidedLabel* m_title;
    ElidedLabel* m_sort;
    QLabel* m_none;
    FormGrid* m_form;
    QScrollArea* m_scroll;
    QPushButton* m_zoom;
    QPushButton* m_remove;
    QPushButton* m_raise;
    QPushButton* m_lower;
    QPushButton* m_locate;
    QPushButton* m_connect;
    QPushButton* m_retry;
};

} // namespace fencewright::desktop
