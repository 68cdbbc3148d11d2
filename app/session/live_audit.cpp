#include "session/live_audit.h"

#include "session/quiet_thread.h"

#include <QDate>

#include <algorithm>

namespace fencewright::session {
namespace {

constexpr qint64 kPatienceMilliseconds = 1000; // with an audit that is out of date
constexpr qint64 kLongestRestMilliseconds = 3000;
constexpr qint64 kNoRestMilliseconds = 4; // audits that short may follow at once

} // namespace

LiveAudit::LiveAudit(OpenDocument& document, BackgroundJobs& jobs, QObject* parent)
    : QObject{parent}, m_document{document}, m_jobs{jobs}, m_memory{std::make_shared<audit::AuditMemory>()} {
    const QDate today = QDate::currentDate();
    m_moment.date = std::chrono::year(today.year()) / std::chrono::month(unsigned(today.month())) /
                    std::chrono::day(unsigned(today.day()));
    m_rest.setSingleShot(true);
    m_rest.setTimerType(Qt::PreciseTimer);
    connect(&m_rest, &QTimer::timeout, this, &LiveAudit::start);
    connect(&document, &OpenDocument::changed, this, [this](const DocumentChange& change) {
        if (change.fences || change.sites || change.homes || change.margin || change.whole)
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
    if (m_rest.isActive())
        return;
    if (!m_running)
        return start();
    if (!m_lastWasGivenUp && m_since.elapsed() > kPatienceMilliseconds) {
        m_givenUp = true;
        m_running->cancel();
    }
}

void LiveAudit::startWhenRested() {
    const qint64 took = m_since.elapsed();
    if (took <= kNoRestMilliseconds)
        return start();
    m_rest.start(int(std::min(took, kLongestRestMilliseconds)));
}

void LiveAudit::start() {
    m_stale = false;
    m_since.start();
    m_running = m_jobs.start(
        tr("Audit"),
        [set = m_document.set(), moment = m_moment, memory = m_memory](const Progress& progress) {
            audit::AuditResult result;
            runQuietly([&] { result = audit::audit(set, moment, {}, *memory, progress); });
            return result;
        },
        [this](audit::AuditResult done) {
            m_result = std::make_shared<const audit::AuditResult>(std::move(done));
            m_running.clear();
            m_lastWasGivenUp = false;
            emit audited();
            if (m_stale && !m_running)
                startWhenRested();
        },
        [this](const Fault&) {
            // The audit reports what is in the set and does not fail for it; should it, the old result stays, marked
            // stale.
            m_running.clear();
            if (std::exchange(m_stale, true))
                startWhenRested();
        });
    // One that a person has cancelled says nothing else. What was changed since it began is audited all the same.
    connect(m_running, &BackgroundJob::finished, this, [this, job = m_running.data()] {
        if (!job->isCancelled())
            return;
        m_running.clear();
        m_lastWasGivenUp = std::exchange(m_givenUp, false);
        if (std::exchange(m_stale, true))
            startWhenRested();
    });
}

} // namespace fencewright::session
