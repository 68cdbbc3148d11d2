#include "desktop/panels/calendar_strip.h"

#include "airspace/activity.h"
#include "desktop/panels/entry_notation.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kLeastNameWidth = 148;
constexpr int kHeadHeight = 24;
constexpr int kRowHeight = 16;
constexpr int kFewestRows = 4;
constexpr int kMostRows = 6;
constexpr int kRight = 8;

using std::chrono::sys_days;

model::Date dayOf(std::chrono::year year, unsigned month, unsigned day) {
    return year / std::chrono::month{month} / std::chrono::day{day};
}

int daysIn(std::chrono::year year) { return year.is_leap() ? 366 : 365; }

int dayNumber(model::Date date) { return int((sys_days{date} - sys_days{dayOf(date.year(), 1, 1)}).count()); }

/// The stretches of a year in which the fence is in its period: first and last day, from 0.
std::vector<std::pair<int, int>> stretches(const model::Fence& fence, std::chrono::year year) {
    std::vector<std::pair<int, int>> found;
    if (!fence.enabled)
        return found;
    const sys_days first{dayOf(year, 1, 1)};
    const int days = daysIn(year);
    int begun = -1;
    for (int day = 0; day <= days; ++day) {
        const bool on = day < days && airspace::inPeriod(fence.period, model::Date{first + std::chrono::days{day}});
        if (on && begun < 0)
            begun = day;
        if (!on && begun >= 0) {
            found.emplace_back(begun, day - 1);
            begun = -1;
        }
    }
    return found;
}

model::Date shifted(model::Date date, int months) {
    model::Date moved = date + std::chrono::months{months};
    if (!moved.ok())
        moved = moved.year() / moved.month() / std::chrono::last;
    return moved;
}

} // namespace

CalendarBars::CalendarBars(session::OpenDocument& document, session::LiveAudit& audit, Appearance& appearance,
                           QWidget* parent)
    : QAbstractScrollArea{parent}, m_document{document}, m_audit{audit}, m_appearance{appearance} {
    setObjectName("calendarBars");
    setAccessibleName(tr("Calendar"));
    setAccessibleDescription(tr("Arrow keys move the date by a day, page keys by a month."));
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::StrongFocus);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    viewport()->setCursor(Qt::SizeHorCursor);
    setToolTip(tr("Drag the date; arrow keys move it by a day, page keys by a month."));
    connect(&document, &session::OpenDocument::changed, this, &CalendarBars::fitRows);
    connect(&audit, &session::LiveAudit::momentChanged, viewport(), qOverload<>(&QWidget::update));
    connect(&appearance, &Appearance::changed, viewport(), qOverload<>(&QWidget::update));
    fitRows();
}

int CalendarBars::nameWidth() const { return std::max(kLeastNameWidth, viewport()->width() / 7); }

int CalendarBars::fittingHeight() const {
    const int rows = std::clamp(int(m_document.set().fences.size()), kFewestRows, kMostRows);
    return kHeadHeight + rows * kRowHeight + 8;
}

void CalendarBars::fitRows() {
    const int rows = int(m_document.set().fences.size());
    const int room = std::max(0, viewport()->height() - kHeadHeight - 4);
    verticalScrollBar()->setRange(0, std::max(0, rows * kRowHeight - room));
    verticalScrollBar()->setPageStep(std::max(1, room));
    verticalScrollBar()->setSingleStep(kRowHeight);
    viewport()->update();
}

void CalendarBars::resizeEvent(QResizeEvent* event) {
    QAbstractScrollArea::resizeEvent(event);
    fitRows();
}

double CalendarBars::xOf(model::Date date) const {
    const double width = viewport()->width() - nameWidth() - kRight;
    return nameWidth() + width * dayNumber(date) / daysIn(date.year());
}

model::Date CalendarBars::dateAt(double x) const {
    const auto year = m_audit.moment().date.year();
    const double width = viewport()->width() - nameWidth() - kRight;
    const int day = std::clamp(int((x - nameWidth()) / width * daysIn(year)), 0, daysIn(year) - 1);
    return model::Date{sys_days{dayOf(year, 1, 1)} + std::chrono::days{day}};
}

void CalendarBars::moveTo(model::Date date) {
    airspace::Moment moment = m_audit.moment();
    moment.date = date;
    m_audit.setMoment(moment);
}

void CalendarBars::paintEvent(QPaintEvent*) {
    const Palette& palette = m_appearance.palette();
    const auto now = m_audit.moment().date;
    const auto year = now.year();
    const int height = viewport()->height();
    QPainter painter{viewport()};
    painter.setRenderHint(QPainter::Antialiasing);
    QFont font = this->font();
    font.setPixelSize(kSmallType);
    QFont strong = font;
    strong.setWeight(QFont::DemiBold);

    painter.setFont(strong);
    painter.setPen(palette.quietText);
    painter.drawText(QRect{16, 4, nameWidth() - 24, kHeadHeight - 6}, Qt::AlignVCenter,
                     tr("In force, %1").arg(int(year)));
    painter.setFont(font);
    for (unsigned month = 1; month <= 12; ++month) {
        const double x = xOf(dayOf(year, month, 1));
        painter.setPen(palette.hairline);
        painter.drawLine(QPointF{std::floor(x) + 0.5, 6}, QPointF{std::floor(x) + 0.5, double(height)});
        painter.setPen(palette.quietText);
        painter.drawText(QRectF{x + 6, 4, 60, kHeadHeight - 6}, Qt::AlignVCenter,
                         session::languageLocale().standaloneMonthName(int(month), QLocale::ShortFormat));
    }

    painter.save();
    painter.setClipRect(0, kHeadHeight, viewport()->width(), height - kHeadHeight);
    const auto& fences = m_document.set().fences;
    const int top = kHeadHeight - verticalScrollBar()->value();
    const double dayWidth = (viewport()->width() - nameWidth() - kRight) / double(daysIn(year));
    const int firstRow = std::max(0, (kHeadHeight - top) / kRowHeight - 1);
    for (std::size_t i = std::size_t(firstRow); i < fences.size(); ++i) {
        const int y = top + int(i) * kRowHeight;
        if (y + kRowHeight > height) // half a name is none
            break;
        const model::Fence& fence = fences[i];
        const bool inForce = fence.enabled && airspace::inPeriod(fence.period, now);
        painter.setPen(inForce ? palette.text : palette.quietText);
        painter.drawText(
            QRect{16, y, nameWidth() - 28, kRowHeight}, Qt::AlignVCenter,
            QFontMetrics{font}.elidedText(QString::fromStdString(fence.name), Qt::ElideRight, nameWidth() - 28));
        QColor colour = fence.kind == model::FenceKind::KeepIn ? palette.keepIn : palette.keepOut;
        colour.setAlphaF(palette.dark ? 0.72F : 0.78F);
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        for (const auto& [first, last] : stretches(fence, year)) {
            const QRectF bar{nameWidth() + first * dayWidth, y + 4.0, (last - first + 1) * dayWidth, kRowHeight - 8.0};
            // The rule reads without colour too: a keep-out's bar is notched, a keep-in's is plain.
            painter.drawRoundedRect(bar, 2, 2);
            if (fence.kind == model::FenceKind::KeepOut) {
                painter.save();
                painter.setClipRect(bar, Qt::IntersectClip);
                painter.setPen(QPen{palette.panel, 1});
                for (double x = bar.left() + 16; x < bar.right() - 8; x += 16)
                    painter.drawLine(QPointF{x, bar.top()}, QPointF{x, bar.top() + bar.height() / 2});
                painter.restore();
            }
        }
    }
    painter.restore();

    const double x = xOf(now) + dayWidth / 2;
    painter.setPen(QPen{palette.text, 2});
    painter.drawLine(QPointF{x, 8}, QPointF{x, double(height)});
    painter.setPen(Qt::NoPen);
    painter.setBrush(hasFocus() ? palette.accent : palette.text);
    const double reach = hasFocus() ? 7 : 6;
    painter.drawPolygon(QPolygonF{{x - reach, 0}, {x + reach, 0}, {x, reach * 1.5}});
}

void CalendarBars::mousePressEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton)
        moveTo(dateAt(event->position().x()));
}

const model::Fence* CalendarBars::fenceAt(double y) const {
    const auto& fences = m_document.set().fences;
    const double row = (y - kHeadHeight + verticalScrollBar()->value()) / kRowHeight;
    return y >= kHeadHeight && row >= 0.0 && row < double(fences.size()) ? &fences[std::size_t(row)] : nullptr;
}

void CalendarBars::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton)
        if (const model::Fence* fence = fenceAt(event->position().y()))
            emit fenceOpened(fence->id);
}

void CalendarBars::contextMenuEvent(QContextMenuEvent* event) {
    const bool byMouse = event->reason() == QContextMenuEvent::Mouse;
    const auto now = m_audit.moment().date;
    const auto pointed = byMouse ? dateAt(event->x()) : now;
    auto* menu = new QMenu{this};
    menu->setObjectName("calendarMenu");
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const auto add = [this, menu](const QString& words, auto act) {
        connect(menu->addAction(words), &QAction::triggered, this, act);
    };
    if (pointed != now)
        add(tr("&Go to %1").arg(dateWords(pointed)), [this, pointed] { moveTo(pointed); });
    const QDate clock = QDate::currentDate();
    const model::Date today{std::chrono::year{clock.year()}, std::chrono::month(unsigned(clock.month())),
                            std::chrono::day(unsigned(clock.day()))};
    add(tr("Go to &today, %1").arg(dateWords(today)), [this, today] { moveTo(today); });
    if (const model::Fence* fence = byMouse ? fenceAt(event->y()) : nullptr)
        add(tr("&Edit %1").arg(QString::fromStdString(fence->name).replace('&', "&&")),
            [this, id = fence->id] { emit fenceOpened(id); });
    menu->addSeparator();
    add(tr("&Copy %1").arg(dateWords(pointed)),
        [words = dateWords(pointed)] { QGuiApplication::clipboard()->setText(words); });
    menu->popup(byMouse ? event->globalPos() : viewport()->mapToGlobal(QPoint{int(xOf(now)), kHeadHeight}));
    event->accept();
}

void CalendarBars::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons() & Qt::LeftButton)
        moveTo(dateAt(event->position().x()));
}

void CalendarBars::keyPressEvent(QKeyEvent* event) {
    const auto date = m_audit.moment().date;
    const auto byDays = [&](int days) { return model::Date{sys_days{date} + std::chrono::days{days}}; };
    switch (event->key()) {
    case Qt::Key_Left:
        return moveTo(byDays(event->modifiers() & Qt::ShiftModifier ? -7 : -1));
    case Qt::Key_Right:
        return moveTo(byDays(event->modifiers() & Qt::ShiftModifier ? 7 : 1));
    case Qt::Key_PageUp:
        return moveTo(shifted(date, event->modifiers() & Qt::ShiftModifier ? -12 : -1));
    case Qt::Key_PageDown:
        return moveTo(shifted(date, event->modifiers() & Qt::ShiftModifier ? 12 : 1));
    case Qt::Key_Home:
        return moveTo(dayOf(date.year(), 1, 1));
    case Qt::Key_End:
        return moveTo(dayOf(date.year(), 12, 31));
    default:
        QAbstractScrollArea::keyPressEvent(event);
    }
}

void CalendarBars::focusInEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusInEvent(event);
    viewport()->update();
}

void CalendarBars::focusOutEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusOutEvent(event);
    viewport()->update();
}

CalendarStrip::CalendarStrip(session::OpenDocument& document, session::LiveAudit& audit, session::Settings& settings,
                             Appearance& appearance, QWidget* parent)
    : QWidget{parent}, m_document{document}, m_audit{audit},
      m_settings{settings}, m_bars{new CalendarBars{document, audit, appearance, this}}, m_date{new QLineEdit{this}},
      m_next{new QLabel{this}}, m_area{new QLabel{this}} {
    setObjectName("calendarStrip");
    setAttribute(Qt::WA_StyledBackground);
    m_date->setObjectName("calendarDate");
    m_date->setAccessibleName(tr("Date"));
    m_date->setToolTip(tr("The day that the map, the findings and the operating area are about"));
    m_next->setObjectName("calendarNext");
    m_next->setProperty("quiet", true);
    m_next->setProperty("small", true);
    m_next->setWordWrap(true);
    m_next->setTextFormat(Qt::PlainText);
    m_area->setObjectName("operatingArea");
    m_area->setProperty("small", true);
    auto* words = new QVBoxLayout;
    words->setContentsMargins(8, 8, 16, 8);
    words->setSpacing(4);
    words->addWidget(m_date);
    words->addWidget(m_next);
    words->addWidget(m_area);
    words->addStretch(1);
    auto* side = new QWidget{this};
    side->setFixedWidth(248);
    side->setLayout(words);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(m_bars, 1);
    row->addWidget(side);

    connect(m_bars, &CalendarBars::fenceOpened, this, &CalendarStrip::fenceOpened);
    connect(m_date, &QLineEdit::editingFinished, this, [this] {
        try {
            if (const auto date = dateFrom(m_date->text())) {
                airspace::Moment moment = m_audit.moment();
                moment.date = *date;
                m_audit.setMoment(moment);
            }
            restate();
        } catch (const Fault& fault) {
            m_next->setText(session::translated(fault));
        }
    });
    connect(&document, &session::OpenDocument::changed, this, &CalendarStrip::restate);
    connect(&audit, &session::LiveAudit::audited, this, &CalendarStrip::restate);
    connect(&audit, &session::LiveAudit::momentChanged, this, &CalendarStrip::restate);
    connect(&settings, &session::Settings::changed, this, &CalendarStrip::restate);
    restate();
}

void CalendarStrip::focusDate() {
    m_date->setFocus(Qt::ShortcutFocusReason);
    m_date->selectAll();
}

void CalendarStrip::restate() {
    const auto now = m_audit.moment().date;
    m_date->setText(dateWords(now));
    setFixedHeight(m_bars->fittingHeight());
    std::optional<model::Date> next;
    QStringList names;
    // Very many fences have few different periods between them.
    std::vector<std::pair<const model::ActivePeriod*, std::optional<model::Date>>> known;
    const auto nextChange = [&](const model::ActivePeriod& period) {
        constexpr std::size_t many = 50;
        for (const auto& [one, change] : known)
            if (*one == period)
                return change;
        const auto change = airspace::nextChange(period, now);
        if (known.size() < many)
            known.emplace_back(&period, change);
        return change;
    };
    for (const model::Fence& fence : m_document.set().fences) {
        if (!fence.enabled)
            continue;
        const auto change = nextChange(fence.period);
        if (!change || (next && *change > *next))
            continue;
        if (!next || *change < *next)
            names.clear();
        next = change;
        const bool begins = airspace::inPeriod(fence.period, *change);
        const QString name = QString::fromStdString(fence.name);
        names << (begins ? tr("%1 comes into force").arg(name) : tr("%1 ends").arg(name));
    }
    if (m_document.set().fences.empty())
        m_next->setText(tr("No fences yet"));
    else if (!next)
        m_next->setText(tr("Nothing changes within two years"));
    else
        m_next->setText(
            tr("Next change: %1, %2")
                .arg(dateWords(*next), names.size() > 2 ? tr("%1 fences").arg(names.size()) : names.join(", ")));
    const auto result = m_audit.result();
    if (!result)
        m_area->setText({});
    else if (result->operatingArea.empty())
        m_area->setText(tr("No operating area on this day"));
    else {
        const auto words = [this](Area area) {
            return QString::fromStdString(units::formatArea(area, m_settings.unitSystem()));
        };
        m_area->setText(result->clearArea
                            ? tr("Operating area %1\nClear area %2").arg(words(result->area), words(result->clear))
                            : tr("Operating area %1").arg(words(result->area)));
    }
}

} // namespace fencewright::desktop
