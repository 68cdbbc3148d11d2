#include "desktop/tools/typed_turn.h"

#include "desktop/tools/leg.h"
#include "fault.h"
#include "units/number_notation.h"

#include <QCoreApplication>

namespace fencewright::desktop {

std::optional<Angle> parseTurn(std::string_view text) {
    try {
        const TypedLeg leg = parseTypedLeg(text, units::System::Metric);
        return leg.turn && !leg.length ? leg.turn : std::nullopt;
    } catch (const Fault&) {
        return std::nullopt;
    }
}

std::optional<double> parseFactor(std::string_view text) {
    QString typed = QString::fromUtf8(text.data(), qsizetype(text.size())).trimmed();
    const auto number = [](const QString& figures) {
        // A comma is a decimal one: no factor has thousands.
        return units::parseNumber(figures.trimmed().replace(',', '.').toStdString());
    };
    if (typed.endsWith('%')) {
        const auto percent = number(typed.chopped(1));
        return percent ? std::optional{*percent / 100.0} : std::nullopt;
    }
    for (const QChar sign : {QChar{'x'}, QChar{'X'}, QChar{0xD7}, QChar{'*'}}) {
        if (typed.startsWith(sign))
            return number(typed.mid(1));
        if (typed.endsWith(sign))
            return number(typed.chopped(1));
    }
    return std::nullopt;
}

QString turnedWords(Angle clockwise) {
    const bool right = clockwise >= Angle{};
    const QString degrees = QString::number(std::abs(clockwise.inDegrees()), 'f', 1);
    return (right ? QCoreApplication::translate("TurnTool", "%1° right")
                  : QCoreApplication::translate("TurnTool", "%1° left"))
        .arg(degrees);
}

QString scaledWords(double factor) {
    return QCoreApplication::translate("TurnTool", "× %1").arg(QString::number(factor, 'f', 3));
}

} // namespace fencewright::desktop
