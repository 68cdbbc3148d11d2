#include "desktop/tools/leg.h"

#include "fault.h"
#include "geodesy/bearing_notation.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"
#include "units/number_notation.h"

#include <QCoreApplication>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>

namespace fencewright::desktop {
namespace {

using units::trimmed;

constexpr double kWholeBearingDegrees = 15.0;
constexpr std::size_t kPreciseDecimals = 4;

/// A last word that is a bare number, with or without a degree sign.
std::optional<double> bearingWord(std::string_view word) {
    constexpr std::string_view degree = "°";
    if (word.ends_with(degree))
        word.remove_suffix(degree.size());
    return units::parseNumber(word);
}

std::string_view lastWord(std::string_view text) {
    const auto gap = text.find_last_of(" \t");
    return gap == std::string_view::npos ? text : text.substr(gap + 1);
}

/// The text after "<" or "b", where it begins like that and a number follows.
std::string_view withoutBearingSign(std::string_view text) {
    if (text.empty() || std::string_view{"<bB"}.find(text.front()) == std::string_view::npos)
        return text;
    return trimmed(text.substr(1));
}

double degreesOf(std::string_view word) {
    const std::optional<double> degrees = bearingWord(word);
    if (!degrees || !(*degrees >= 0.0 && *degrees <= 360.0))
        throw Fault{phrase("core", "\"%1\" is not a number of degrees between 0 and 360.")(std::string{word}), "",
                    phrase("core", "Type degrees, such as \"<45\" for a bearing or \"90 right\" for a turn.")};
    return *degrees;
}

/// So many places after the point are coordinates in degrees, to 11 m or closer; nobody measures a leg like that.
bool isPrecise(std::string_view number) {
    const auto point = number.find('.');
    return point != std::string_view::npos && number.size() - point - 1 >= kPreciseDecimals;
}

[[noreturn]] void refuseAsAmbiguous(std::string_view text) {
    throw Fault{phrase("core", "\"%1\" may be a place, or a distance and a bearing.")(std::string{text}), "",
                phrase("core", "Put the unit after the distance, such as \"120 m 45\" or \"N 45 E 120 m\", or a "
                               "comma between coordinates, such as \"46.2088, -8.7339\".")};
}

/// "N 45 E 120": a quadrant bearing and a distance without its unit, and a latitude and a longitude.
bool isQuadrantOrPlace(std::string_view text) {
    try {
        const auto bearing = geodesy::leadingBearing(text);
        if (!bearing)
            return false;
        const std::string_view rest = trimmed(text.substr(bearing->length));
        if (!units::parseNumber(rest))
            return false;
        constexpr std::string_view digits = "0123456789";
        const auto begin = text.find_first_of(digits);
        const auto end = text.substr(0, bearing->length).find_last_of(digits);
        if (begin == std::string_view::npos || end == std::string_view::npos || end < begin)
            return false;
        return !(isPrecise(text.substr(begin, end + 1 - begin)) && isPrecise(rest));
    } catch (const Fault&) {
        return false;
    }
}

/// The direction in which the leg arrives.
double lastAzimuth(const model::Position& before, const model::Position& from) {
    return geodesy::inverse(from, before).azimuthAtStart.inDegrees() + 180.0;
}

} // namespace

std::optional<double> sideWord(std::string_view word) {
    const QString typed = QString::fromUtf8(word.data(), qsizetype(word.size())).toLower();
    const auto is = [&](const char* side) {
        const QString own = QCoreApplication::translate("Leg", side).toLower();
        return !typed.isEmpty() &&
               (typed == side || typed == own || typed == QString{side}.left(1) || typed == own.left(1));
    };
    if (is(QT_TRANSLATE_NOOP("Leg", "right")))
        return 1.0;
    if (is(QT_TRANSLATE_NOOP("Leg", "left")))
        return -1.0;
    return std::nullopt;
}

Leg parseLeg(std::string_view text, units::System unitless) {
    text = trimmed(text);
    // A quadrant bearing comes first, as deeds write it.
    if (!text.empty() && std::string_view{"NSns"}.find(text.front()) != std::string_view::npos)
        if (const auto bearing = geodesy::leadingBearing(text))
            return {units::parseLength(trimmed(text.substr(bearing->length)), unitless), bearing->azimuth};
    const auto gap = text.find_last_of(" \t");
    if (gap == std::string_view::npos)
        return {units::parseLength(text, unitless), std::nullopt};
    const std::optional<double> bearing = bearingWord(text.substr(gap + 1));
    if (!bearing)
        return {units::parseLength(text, unitless), std::nullopt};
    if (*bearing < 0.0 || *bearing > 360.0)
        throw Fault{phrase("core", "The bearing %1° is not between 0 and 360.")(units::shortest(*bearing)), "",
                    phrase("core", "Type a distance and a bearing clockwise from north, such as \"120 m 45\".")};
    const std::string_view distance = trimmed(text.substr(0, gap));
    if (units::parseNumber(distance) && isPrecise(distance) && isPrecise(text.substr(gap + 1)))
        refuseAsAmbiguous(text);
    return {units::parseLength(distance, unitless), Angle::degrees(*bearing)};
}

std::optional<model::Position> typedPlace(const std::string& text) {
    const bool isMeant =
        std::any_of(text.begin(), text.end(),
                    [](char c) { return std::isalpha(static_cast<unsigned char>(c)) || c == '-' || c == ':'; }) ||
        text.find(", ") != std::string::npos;
    std::optional<model::Position> place = isMeant ? geodesy::tryParsePosition(text) : std::nullopt;
    if (place && isQuadrantOrPlace(text))
        refuseAsAmbiguous(text);
    return place;
}

model::Position endOf(const Leg& leg, const model::Position& from, const model::Position& towards) {
    const Angle bearing = leg.bearing ? *leg.bearing : geodesy::inverse(from, towards).azimuthAtStart;
    return geodesy::direct(from, bearing, leg.length.length);
}

TypedLeg parseTypedLeg(std::string_view text, units::System unitless) {
    text = trimmed(text);
    TypedLeg leg;
    if (const std::string_view rest = withoutBearingSign(text); rest.size() < text.size()) {
        leg.bearing = Angle::degrees(degreesOf(rest));
        return leg;
    }
    if (const auto side = sideWord(lastWord(text))) {
        text = trimmed(text.substr(0, text.size() - lastWord(text).size()));
        const std::string_view angle = lastWord(text);
        leg.turn = Angle::degrees(*side * degreesOf(angle));
        text = trimmed(text.substr(0, text.size() - angle.size()));
        if (!text.empty())
            leg.length = units::parseLength(text, unitless);
        return leg;
    }
    if (!text.empty() && std::string_view{"NSns"}.find(text.front()) != std::string_view::npos)
        if (const auto bearing = geodesy::leadingBearing(text);
            bearing && trimmed(text.substr(bearing->length)).empty()) {
            leg.bearing = bearing->azimuth;
            return leg;
        }
    const Leg both = parseLeg(text, unitless);
    leg.length = both.length;
    leg.bearing = both.bearing;
    return leg;
}

model::Position onBearing(const model::Position& from, Angle azimuth, const model::Position& to) {
    const geodesy::Segment line = geodesy::inverse(from, to);
    const double angle = (line.azimuthAtStart - azimuth).inRadians();
    const double along = line.length.inMetres() * std::cos(angle);
    if (along <= 0.0)
        return from;
    // Left as it is to the last bit where it lies there already: a snap found it.
    constexpr double onItMetres = 1e-4;
    if (std::abs(line.length.inMetres() * std::sin(angle)) < onItMetres)
        return to;
    return geodesy::direct(from, azimuth, Length::metres(along));
}

Angle wholeBearing(const model::Position* before, const model::Position& from, const model::Position& to) {
    const double azimuth = geodesy::inverse(from, to).azimuthAtStart.inDegrees();
    const auto wholeFrom = [&](double zero) {
        return zero + std::round((azimuth - zero) / kWholeBearingDegrees) * kWholeBearingDegrees;
    };
    double whole = wholeFrom(0.0);
    if (before) {
        const double ofLeg = wholeFrom(lastAzimuth(*before, from));
        if (std::abs(ofLeg - azimuth) < std::abs(whole - azimuth))
            whole = ofLeg;
    }
    return Angle::degrees(std::fmod(whole + 720.0, 360.0));
}

QString turnWords(const model::Position& before, const model::Position& from, const model::Position& to) {
    const double turn =
        std::remainder(geodesy::inverse(from, to).azimuthAtStart.inDegrees() - lastAzimuth(before, from), 360.0);
    const QString degrees = QString::fromStdString(units::fixed(std::abs(turn), 1)) + "°";
    if (std::abs(turn) < 0.05)
        return QCoreApplication::translate("Leg", "straight on");
    return (turn > 0.0 ? QCoreApplication::translate("Leg", "right %1") : QCoreApplication::translate("Leg", "left %1"))
        .arg(degrees);
}

model::Position onWholeBearing(const model::Position& from, const model::Position& to) {
    const geodesy::Segment line = geodesy::inverse(from, to);
    const double whole = std::round(line.azimuthAtStart.inDegrees() / kWholeBearingDegrees) * kWholeBearingDegrees;
    const double off = (line.azimuthAtStart.inDegrees() - whole) * M_PI / 180.0;
    return geodesy::direct(from, Angle::degrees(whole), line.length * std::cos(off));
}

QString radiusWords(Length radius, units::System units) {
    const Area area = Area::squareMetres(std::numbers::pi * radius.inMetres() * radius.inMetres());
    return QCoreApplication::translate("Leg", "radius %1")
               .arg(QString::fromStdString(units::formatLength(radius, units))) +
           '\n' + QString::fromStdString(units::formatArea(area, units));
}

QString lengthAndBearing(const model::Position& from, const model::Position& to, units::System units) {
    const geodesy::Segment line = geodesy::inverse(from, to);
    return QString::fromStdString(units::formatLength(line.length, units) + " · " +
                                  units::fixed(std::fmod(line.azimuthAtStart.inDegrees() + 0.05, 360.0) - 0.05, 1) +
                                  "°");
}

} // namespace fencewright::desktop
