#include "desktop/panels/entry_notation.h"

#include "fault.h"
#include "session/translated.h"

#include <QCoreApplication>
#include <QLocale>
#include <QRegularExpression>

namespace fencewright::desktop {
namespace {

QString tr(const char* text, const char* about = nullptr) {
    return QCoreApplication::translate("EntryNotation", text, about);
}

QString monthName(std::chrono::month month) {
    return session::languageLocale().standaloneMonthName(int(unsigned(month)), QLocale::ShortFormat);
}

QString yearDayText(model::YearDay day) {
    return tr("%1 %2", "day and month").arg(unsigned(day.day())).arg(monthName(day.month()));
}

std::optional<unsigned> monthFrom(const QString& word) {
    if (word.size() < 3)
        return {};
    for (int month = 1; month <= 12; ++month)
        for (const QLocale& locale : {QLocale::c(), session::languageLocale()})
            if (locale.standaloneMonthName(month, QLocale::LongFormat).startsWith(word, Qt::CaseInsensitive))
                return unsigned(month);
    return {};
}

std::optional<model::YearDay> yearDayFrom(const QString& text) {
    if (const auto iso = model::parseIsoYearDay(text.trimmed().toStdString()))
        return iso;
    static const QRegularExpression dayFirst{QStringLiteral("^\\s*(\\d{1,2})\\.?\\s+(\\p{L}+)\\.?\\s*$")};
    static const QRegularExpression monthFirst{QStringLiteral("^\\s*(\\p{L}+)\\.?\\s+(\\d{1,2})\\s*$")};
    QString day;
    QString month;
    if (const auto match = dayFirst.match(text); match.hasMatch()) {
        day = match.captured(1);
        month = match.captured(2);
    } else if (const auto other = monthFirst.match(text); other.hasMatch()) {
        day = other.captured(2);
        month = other.captured(1);
    }
    const auto number = monthFrom(month);
    if (!number)
        return {};
    const model::YearDay found{std::chrono::month{*number}, std::chrono::day{day.toUInt()}};
    return found.ok() ? std::optional{found} : std::nullopt;
}

QString plain(const model::HeightLimit& limit) {
    return QString::fromStdString(limit.value.asWritten.empty()
                                      ? units::formatLength(limit.value.length, units::System::Metric)
                                      : limit.value.asWritten);
}

} // namespace

QString dateWords(model::Date date) {
    return tr("%1 %2 %3", "day, month, year")
        .arg(unsigned(date.day()))
        .arg(session::languageLocale().standaloneMonthName(int(unsigned(date.month())), QLocale::LongFormat))
        .arg(int(date.year()));
}

QString dateText(const std::optional<model::Date>& date) {
    return date ? QString::fromStdString(model::isoDate(*date)) : QString{};
}

std::optional<model::Date> dateFrom(const QString& text) {
    const QString typed = text.trimmed();
    if (typed.isEmpty())
        return {};
    if (const auto date = model::parseIsoDate(typed.toStdString()))
        return date;
    static const QRegularExpression words{QStringLiteral("^(.+)\\s+(\\d{4})$")};
    if (const auto match = words.match(typed); match.hasMatch())
        if (const auto day = yearDayFrom(match.captured(1).remove(','))) {
            const model::Date date{std::chrono::year{match.captured(2).toInt()}, day->month(), day->day()};
            if (date.ok())
                return date;
        }
    throw Fault{tr("\"%1\" is not a day of the calendar.").arg(typed).toStdString(), "",
                tr("Write it as 2026-05-14 or 14 May 2026.").toStdString()};
}

QString seasonText(const std::optional<model::Season>& season) {
    return season ? yearDayText(season->from) + QStringLiteral(" – ") + yearDayText(season->to) : QString{};
}

std::optional<model::Season> seasonFrom(const QString& text) {
    const QString typed = text.trimmed();
    if (typed.isEmpty())
        return {};
    static const QRegularExpression between{QStringLiteral("\\s*(–|—|\\s-\\s|\\bto\\b|\\bbis\\b|\\buntil\\b)\\s*")};
    const QStringList ends = typed.split(between);
    if (ends.size() == 2)
        if (const auto from = yearDayFrom(ends[0]), to = yearDayFrom(ends[1]); from && to)
            return model::Season{*from, *to};
    throw Fault{tr("\"%1\" does not name the first and the last day of a season.").arg(typed).toStdString(), "",
                tr("Write it as 1 Apr – 31 Aug, or leave it empty for the whole year.").toStdString()};
}

QString lengthText(const StatedLength& length, units::System system) {
    return QString::fromStdString(length.asWritten.empty() ? units::formatLengthExact(length.length, system)
                                                           : length.asWritten);
}

QString lengthAside(const StatedLength& length, units::System system) {
    const QString shown = lengthText(length, system);
    const QString metric = QString::fromStdString(units::formatLengthExact(length.length, units::System::Metric));
    const bool inMetres = shown.endsWith(" m") || shown.endsWith("km");
    return inMetres ? QString::fromStdString(units::formatLength(length.length, units::System::Us)) : metric;
}

StatedLength lengthFrom(const QString& text, units::System system, LengthRange range) {
    StatedLength length = units::parseLength(text.toStdString(), system);
    const bool positive = length.length > Length{};
    if (range == LengthRange::Positive && !positive)
        throw Fault{tr("It must be more than zero.").toStdString(), "",
                    tr("For example 150 ft or 1/4 mi.").toStdString()};
    if (range == LengthRange::NotNegative && length.length < Length{})
        throw Fault{tr("It cannot be less than zero.").toStdString(), "", tr("For example 5 m.").toStdString()};
    return length;
}

QString bandText(const model::HeightBand& band) {
    const auto reference = [](const model::HeightLimit& limit) -> QString {
        switch (limit.reference) {
        case model::HeightReference::MeanSeaLevel:
            return " " + tr("MSL");
        case model::HeightReference::Ellipsoid:
            return " " + tr("ell.");
        case model::HeightReference::Ground:
            break;
        }
        return {};
    };
    if (!band.floor && !band.ceiling)
        return tr("all heights");
    if (!band.ceiling)
        return tr("from %1").arg(plain(*band.floor) + reference(*band.floor));
    const QString ceiling = plain(*band.ceiling) + reference(*band.ceiling);
    if (!band.floor)
        return QStringLiteral("0–") + ceiling;
    QString floor = plain(*band.floor);
    // The unit once, where both have the same.
    const QString unit = floor.section(' ', -1);
    if (band.floor->reference == band.ceiling->reference && ceiling.contains(" " + unit))
        floor = floor.section(' ', 0, -2);
    else
        floor += reference(*band.floor);
    return floor + QStringLiteral("–") + ceiling;
}

} // namespace fencewright::desktop
