#pragma once

#include <QObject>

#include "audit/audit.h"
#include "session/background_jobs.h"
#include "session/open_document.h"
#include "units/area.h"

#include <memory>

namespace fencewright::session {

/// Keeps the audit of the open document current, in the background: after each change, and when the moment changes.
/// While one audit runs, further changes wait; the next one takes them all.
class LiveAudit : public QObject {
    Q_OBJECT

public:
    LiveAudit(OpenDocument& document, BackgroundJobs& jobs, QObject* parent = nullptr);

    /// The day and height that every computation and the map are about.
    const airspace::Moment& moment() const { return m_moment; }
    void setMoment(const airspace::Moment& moment);

    /// The newest result; null before the first.
    std::shared_ptr<const audit::AuditResult> result() const { return m_result; }
    /// Of the newest result's operating area, by geodesics.
    Area operatingArea() const { return m_area; }
    /// Whether the result is of the set as it is now.
    bool isCurrent() const { return !m_running && !m_stale; }

signals:
    void momentChanged();
    void audited();

private:
    void refresh();

    OpenDocument& m_document;
    BackgroundJobs& m_jobs;
    airspace::Moment m_moment;
    std::shared_ptr<const audit::AuditResult> m_result;
    Area m_area;
    bool m_running = false;
    bool m_stale = false;
};

} // namespace fencewright::session
