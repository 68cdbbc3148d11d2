#pragma once

#include <QElapsedTimer>
#include <QObject>
#include <QPointer>
#include <QTimer>

#include "audit/audit.h"
#include "session/background_jobs.h"
#include "session/open_document.h"

#include <memory>

namespace fencewright::session {

/// Keeps the audit of the open document current, in the background: after each change, and when the moment changes.
///
/// Each audit remembers for the next, so that one after a small change takes little time. While one runs, further
/// changes wait, and the next one takes them all, also where a person has cancelled the one before; one that runs long
/// and is out of date is given up, though never two in a row. Between two audits as much time passes as the former
/// took, so that the machine stays free for the person.
class LiveAudit : public QObject {
    Q_OBJECT

public:
    LiveAudit(OpenDocument& document, BackgroundJobs& jobs, QObject* parent = nullptr);

    /// The day and height that every computation and the map are about.
    const airspace::Moment& moment() const { return m_moment; }
    void setMoment(const airspace::Moment& moment);

    /// The newest result; null before the first.
    std::shared_ptr<const audit::AuditResult> result() const { return m_result; }
    /// Whether the result is of the set as it is now.
    bool isCurrent() const { return !m_running && !m_stale; }

signals:
    void momentChanged();
    void audited();

private:
    void refresh();
    void start();
    void startWhenRested();

    OpenDocument& m_document;
    BackgroundJobs& m_jobs;
    airspace::Moment m_moment;
    std::shared_ptr<const audit::AuditResult> m_result;
    std::shared_ptr<audit::AuditMemory> m_memory; ///< the running audit's alone
    QPointer<BackgroundJob> m_running;
    QElapsedTimer m_since; ///< the start of the running one
    QTimer m_rest;
    bool m_stale = false;
    bool m_givenUp = false; ///< by us, to begin anew
    bool m_lastWasGivenUp = false;
};

} // namespace fencewright::session
