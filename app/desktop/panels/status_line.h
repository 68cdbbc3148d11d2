#pragma once

#include <QDateTime>
#include <QPointer>
#include <QWidget>

#include "session/background_jobs.h"
#include "session/live_audit.h"
#include "session/open_document.h"
#include "session/settings.h"

class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;

namespace fencewright::desktop {

/// The line at the bottom: where the pointer is, what is running, and whether all is audited and saved.
class StatusLine : public QWidget {
    Q_OBJECT

public:
    StatusLine(session::OpenDocument& document, session::BackgroundJobs& jobs, session::LiveAudit& audit,
               session::Settings& settings, QWidget* parent = nullptr);

    void showPointer(const model::Position& place, bool inside);
    /// The true azimuth that is up on the map.
    void showUp(double trueAzimuthDegrees);

signals:
    /// A true azimuth was typed that shall be up.
    void upTyped(double trueAzimuthDegrees);
    /// The person is done with the field.
    void left();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void enterUp();
    void watch(session::BackgroundJob* job);
    void showJob();
    void restate();

    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    session::LiveAudit& m_audit;
    session::Settings& m_settings;
    QLabel* m_place;
    QLabel* m_grid;
    QLabel* m_home;
    QLabel* m_job;
    QProgressBar* m_progress;
    QPushButton* m_cancel;
    QLabel* m_upWord;
    QLineEdit* m_up;
    QLabel* m_state;
    double m_upAzimuth = 0.0;
    QPointer<session::BackgroundJob> m_shown;
    QDateTime m_saved; ///< the time of the file
};

} // namespace fencewright::desktop
