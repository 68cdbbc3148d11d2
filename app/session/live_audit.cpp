#include "session/live_audit.h"

#include "geodesy/geodesic.h"

#include <QDate>

namespace fencewright::session {

LiveAudit::LiveAudit(OpenDocument& document, BackgroundJobs& jobs, QObject* parent)
    : QObject{parent}, m_document{document}, m_jobs{jobs} {
    const QDate today = QDate::currentDate();
    m_moment.date = std::chrono::year(today.year()) / std::chrono::month(unsigned(today.month())) /
                    std::chrono::day(unsigned(today.day()));
    connect(&document, &OpenDocument::changed, this, [this](const DocumentChange& change) {
        if (change.fences || change.sites || change.homes || change.whole)
            refresh();
    });
    refresh();
}

void LiveAudit::setMoment(const airspace::Moment& moment) {
    if (moment == m_moment)
        return;
    m_moment = moment;
    emit momentChanged();
    refresh();
}

void LiveAudit::refresh() {
    m_stale = true;
    if (m_running)
        return;
    m_stale = false;
    m_running = true;
    struct Audited {
        audit::AuditResult result;
        Area area;
    };
    BackgroundJob* job = m_jobs.start(
        tr("Audit"),
        [set = m_document.set(), moment = m_moment](const Progress& progress) {
            Audited audited{audit::audit(set, moment, {}, progress), {}};
            audited.area = geodesy::measure(audited.result.operatingArea).area;
            return audited;
        },
        [this](Audited done) {
            m_result = std::make_shared<const audit::AuditResult>(std::move(done.result));
            m_area = done.area;
            m_running = false;
            emit audited();
            if (m_stale)
                refresh();
        },
        [this](const Fault&) {
            // The audit reports what is in the set and does not fail for it; should it, the old result stays, marked
            // stale.
            m_running = false;
            m_stale = true;
        });
    // A cancelled one says nothing else; the next change audits again.
    connect(job, &BackgroundJob::finished, this, [this, job] {
        if (job->isCancelled()) {
            m_running = false;
            m_stale = true;
        }
    });
}

} // namespace fencewright::session
