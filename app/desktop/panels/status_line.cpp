#include "desktop/panels/status_line.h"

#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"
#include "session/translated.h"
#include "units/number_notation.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

/// Work that is done sooner is not worth a flicker.
constexpr int kPatienceMilliseconds = 350;

QString text(const std::string& words) { return QString::fromStdString(words); }

} // namespace

StatusLine::StatusLine(session::OpenDocument& document, session::BackgroundJobs& jobs, session::LiveAudit& audit,
                       session::Settings& settings, QWidget* parent)
    : QWidget{parent}, m_document{document}, m_jobs{jobs}, m_audit{audit}, m_settings{settings},
      m_place{new QLabel{this}}, m_grid{new QLabel{this}}, m_home{new QLabel{this}}, m_job{new QLabel{this}},
      m_progress{new QProgressBar{this}}, m_cancel{new QPushButton{tr("Cancel"), this}},
      m_upWord{new QLabel{tr("Up"), this}}, m_up{new QLineEdit{this}}, m_state{new QLabel{this}} {
    setObjectName("statusLine");
    setAttribute(Qt::WA_StyledBackground);
    setFixedHeight(28);
    m_place->setObjectName("statusPlace");
    m_grid->setObjectName("statusGrid");
    m_home->setObjectName("statusHome");
    m_job->setObjectName("statusJob");
    m_cancel->setObjectName("statusCancel");
    m_state->setObjectName("statusState");
    m_up->setObjectName("statusUp");
    m_up->setAccessibleName(tr("True azimuth that is up on the map"));
    m_up->setToolTip(tr("The true azimuth that is up on the map. Type another, and Enter."));
    m_up->setFixedWidth(56);
    m_up->setFixedHeight(22);
    m_up->setTextMargins(0, 0, 0, 0);
    m_up->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_up->installEventFilter(this);
    m_upWord->setBuddy(m_up);
    for (QLabel* label : {m_grid, m_home, m_job, m_upWord, m_state})
        label->setProperty("quiet", true);
    m_cancel->setProperty("link", true);
    m_progress->setTextVisible(false);
    m_progress->setRange(0, 1000);
    m_progress->setFixedWidth(120);
    m_progress->setAccessibleName(tr("Progress"));
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(16, 0, 16, 0);
    row->setSpacing(24);
    row->addWidget(m_place);
    row->addWidget(m_grid);
    row->addWidget(m_home);
    row->addStretch(1);
    auto* job = new QHBoxLayout;
    job->setSpacing(8);
    job->addWidget(m_job);
    job->addWidget(m_progress, 0, Qt::AlignVCenter);
    job->addWidget(m_cancel);
    row->addLayout(job);
    auto* up = new QHBoxLayout;
    up->setSpacing(6);
    up->addWidget(m_upWord);
    up->addWidget(m_up, 0, Qt::AlignVCenter);
    row->addLayout(up);
    row->addWidget(m_state);

    connect(m_up, &QLineEdit::returnPressed, this, &StatusLine::enterUp);
    connect(&jobs, &session::BackgroundJobs::started, this, &StatusLine::watch);
    connect(m_cancel, &QPushButton::clicked, this, [this] {
        if (m_shown)
            m_shown->cancel();
    });
    connect(&document, &session::OpenDocument::changed, this, &StatusLine::restate);
    connect(&document, &session::OpenDocument::stateChanged, this, [this] {
        m_saved = m_document.path().isEmpty() ? QDateTime{} : QFileInfo{m_document.path()}.lastModified();
        restate();
    });
    connect(&audit, &session::LiveAudit::audited, this, &StatusLine::restate);
    connect(&audit, &session::LiveAudit::momentChanged, this, &StatusLine::restate);
    showJob();
    showUp(0.0);
    showPointer({}, false);
    restate();
}

void StatusLine::showPointer(const model::Position& place, bool inside) {
    if (!inside) {
        m_place->setText(tr("Point at the map to read coordinates"));
        m_place->setEnabled(false);
        m_grid->clear();
        m_home->clear();
        return;
    }
    m_place->setEnabled(true);
    try {
        const auto notation = m_settings.notation();
        m_place->setText(text(geodesy::format(place, notation)));
        m_grid->setText(notation == geodesy::Notation::Mgrs ? text(geodesy::format(place, geodesy::Notation::Utm))
                                                            : text(geodesy::format(place, geodesy::Notation::Mgrs)));
        const model::Home* home = nullptr;
        for (const model::Home& one : m_document.set().homes)
            if (!home || (home->kind != model::HomeKind::Home && one.kind == model::HomeKind::Home))
                home = &one;
        if (home) {
            const auto way = geodesy::inverse(home->place, place);
            m_home->setText(tr("from home %1, %2°")
                                .arg(text(units::formatLength(way.length, m_settings.unitSystem())),
                                     text(units::fixed(way.azimuthAtStart.inDegrees(), 1))));
        } else {
            m_home->clear();
        }
    } catch (const Fault& fault) {
        m_place->setText(session::translated(fault.words().problem));
        m_grid->clear();
        m_home->clear();
    }
}

void StatusLine::showUp(double trueAzimuthDegrees) {
    m_upAzimuth = trueAzimuthDegrees;
    if (!m_up->hasFocus()) {
        const std::string words = units::fixed(trueAzimuthDegrees, 1);
        m_up->setText(text(words == "360.0" ? "0.0" : words) + QChar{0x00B0});
    }
}

void StatusLine::enterUp() {
    QString typed = m_up->text().trimmed();
    if (typed.endsWith(QChar{0x00B0}))
        typed.chop(1);
    bool isNumber = false;
    const double degrees = QLocale::c().toDouble(typed.replace(',', '.').trimmed(), &isNumber);
    if (!isNumber || !(std::abs(degrees) <= 360.0)) {
        m_up->selectAll();
        QToolTip::showText(m_up->mapToGlobal(QPoint{0, -40}), tr("An azimuth is a number from 0 to 360."), m_up);
        return;
    }
    emit upTyped(degrees);
    emit left();
}

bool StatusLine::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_up) {
        if (event->type() == QEvent::FocusIn)
            QTimer::singleShot(0, m_up, &QLineEdit::selectAll);
        else if (event->type() == QEvent::FocusOut)
            QTimer::singleShot(0, this, [this] { showUp(m_upAzimuth); });
        else if (event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
            emit left();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void StatusLine::watch(session::BackgroundJob* job) {
    const QPointer<session::BackgroundJob> watched{job};
    connect(job, &session::BackgroundJob::progressed, this, [this, watched](double fraction, const QString& doing) {
        if (watched != m_shown)
            return;
        m_progress->setRange(0, 1000);
        m_progress->setValue(int(fraction * 1000));
        m_job->setToolTip(doing);
    });
    connect(job, &session::BackgroundJob::finished, this, [this, watched] {
        if (watched == m_shown) {
            m_shown = nullptr;
            QTimer::singleShot(0, this, &StatusLine::showJob);
        }
    });
    QTimer::singleShot(kPatienceMilliseconds, this, &StatusLine::showJob);
    restate();
}

void StatusLine::showJob() {
    if (!m_shown && !m_jobs.running().empty()) {
        m_shown = m_jobs.running().front();
        m_job->setText(m_shown->title());
        m_progress->setRange(0, 0); // until it says how far it is
    }
    const bool busy = m_shown;
    m_job->setVisible(busy);
    m_progress->setVisible(busy);
    m_cancel->setVisible(busy);
}

void StatusLine::restate() {
    QStringList parts;
    parts << (m_audit.isCurrent() ? tr("audited") : tr("auditing …"));
    if (m_document.isReadOnly())
        parts << tr("read-only");
    if (m_document.isModified())
        parts << tr("not saved");
    else if (m_saved.isValid())
        parts << tr("saved %1")
                     .arg(m_saved.date() == QDate::currentDate() ? m_saved.toString("HH:mm")
                                                                 : m_saved.toString("yyyy-MM-dd"));
    m_state->setText(parts.join(QStringLiteral(" · ")));
}

} // namespace fencewright::desktop
