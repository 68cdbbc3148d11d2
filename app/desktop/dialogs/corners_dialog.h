#pragma once

#include <QDialog>
#include <QPointer>

#include "desktop/clipboard_text.h"
#include "desktop/panels/corner_model.h"
#include "desktop/tools/corner_rows.h"
#include "geodesy/place_rows.h"
#include "session/background_jobs.h"

class QLabel;
class QPushButton;
class QTableView;

namespace fencewright::desktop {

/// The corners of a fence as a table that stays beside the map: typed over, added, deleted, copied and pasted.
class CornersDialog : public QDialog {
    Q_OBJECT

public:
    /// @param clipboard  lives on when this is closed: what was copied still gets there.
    CornersDialog(session::OpenDocument& document, const session::Settings& settings, session::BackgroundJobs& jobs,
                  ClipboardText& clipboard, QWidget* parent);

    ~CornersDialog() override;

    /// Of that fence; none: there is nothing to show.
    void showFence(const std::optional<model::FenceId>& fence);
    /// Marks its row; of one that is not there, none.
    void markCorner(const std::optional<Corner>& corner);

signals:
    /// A row was chosen here.
    void cornerChosen(const std::optional<fencewright::desktop::Corner>& corner);

private:
    void restate();
    void restoreRow();
    void say(const QString& words);
    std::vector<int> chosenRows() const;
    std::optional<CornerRun> chosenRun() const;
    void insert();
    void remove();
    void copy();
    void paste();
    void ask(const model::FenceId& of, geodesy::PlaceRows rows);
    void take(const model::FenceId& of, const CornerRun& run, const model::LineString& places);
    const model::Fence* stillShown(const model::FenceId& of);
    void push(model::Fence fence, const QString& title);

    session::OpenDocument& m_document;
    const session::Settings& m_settings;
    session::BackgroundJobs& m_jobs;
    ClipboardText& m_clipboard;
    CornerModel* m_model;
    QTableView* m_table;
    QLabel* m_heading;
    QLabel* m_words;
    std::vector<QPushButton*> m_buttons;
    std::optional<Corner> m_current; ///< kept while the rows are made anew
    bool m_marking = false;
    QPointer<session::BackgroundJob> m_reading; ///< of many rows that were pasted
};

} // namespace fencewright::desktop
