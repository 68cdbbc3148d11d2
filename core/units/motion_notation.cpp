#include "units/motion_notation.h"

#include "fault.h"
#include "units/number_notation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace fencewright::units {
namespace {

/// A unit, and how many of the unit that is stored it is.
struct Unit {
    std::string_view word;
    double one;
};

constexpr std::array kSpeeds{Unit{"m/s", 1.0},
                             Unit{"km/h", Speed::kilometresPerHour(1).inMetresPerSecond()},
                             Unit{"kn", Speed::knots(1).inMetresPerSecond()},
                             Unit{"kt", Speed::knots(1).inMetresPerSecond()},
                             Unit{"knots", Speed::knots(1).inMetresPerSecond()},
                             Unit{"mph", Speed::milesPerHour(1).inMetresPerSecond()},
                             Unit{"ft/s", Speed::feetPerSecond(1).inMetresPerSecond()}};
constexpr double kFootPerSecondSquared = Acceleration::feetPerSecondSquared(1).inMetresPerSecondSquared();
constexpr std::array kAccelerations{Unit{"m/s²", 1.0},
                                    Unit{"m/s2", 1.0},
                                    Unit{"m/s^2", 1.0},
                                    Unit{"ft/s²", kFootPerSecondSquared},
                                    Unit{"ft/s2", kFootPerSecondSquared},
                                    Unit{"ft/s^2", kFootPerSecondSquared},
                                    Unit{"g", Acceleration::standardGravities(1).inMetresPerSecondSquared()}};
constexpr std::array kTimes{Unit{"s", 1.0}, Unit{"ms", 0.001}, Unit{"min", 60.0}};

/// What is read, and what is said where it is not.
struct Kind {
    std::span<const Unit> units;
    Phrase refusal; ///< of the text and the reason
    Phrase example;
};

struct Read {
    double value;
    std::string asWritten;
};

Read read(std::string_view text, const Kind& kind, std::string_view unitless) {
    const auto refuse = [&](const Wording& why) -> Fault {
        return {kind.refusal(std::string{text}, why), "", kind.example};
    };
    const std::string_view whole = trimmed(text);
    if (whole.empty())
        throw refuse(phrase("core", "nothing was typed."));
    const std::size_t end = std::min(whole.find_first_not_of("0123456789.,+-"), whole.size());
    if (end == 0)
        throw refuse(phrase("core", "it does not begin with a number."));
    const auto number = readTypedNumber(whole.substr(0, end));
    if (const auto* why = std::get_if<Wording>(&number))
        throw refuse(*why);
    const double value = std::get<double>(number);
    if (value < 0.0)
        throw refuse(phrase("core", "it is negative."));
    const std::string given = lowered(trimmed(whole.substr(end)));
    const std::string_view unit = given.empty() ? unitless : std::string_view{given};
    const auto known =
        std::find_if(kind.units.begin(), kind.units.end(), [&](const Unit& one) { return one.word == unit; });
    if (known == kind.units.end())
        throw refuse(phrase("core", "\"%1\" is no unit of it that is known here.")(given));
    const double result = value * known->one;
    if (!std::isfinite(result))
        throw refuse(phrase("core", "it is too large."));
    std::string asWritten{whole};
    if (given.empty())
        asWritten += ' ' + std::string{unitless};
    return {result, std::move(asWritten)};
}

} // namespace

StatedSpeed parseSpeed(std::string_view text, System unitless) {
    const Kind kind{kSpeeds, phrase("core", "\"%1\" is not a speed: %2"),
                    phrase("core", "Type a number and a unit, such as 15 m/s, 54 km/h, 30 kn or 35 mph.")};
    auto [value, asWritten] = read(text, kind, unitless == System::Metric ? "m/s" : "mph");
    return {Speed::metresPerSecond(value), std::move(asWritten)};
}

StatedAcceleration parseAcceleration(std::string_view text, System unitless) {
    const Kind kind{kAccelerations, phrase("core", "\"%1\" is not a deceleration: %2"),
                    phrase("core", "Type a number and a unit, such as 3 m/s², 10 ft/s² or 0.3 g.")};
    auto [value, asWritten] = read(text, kind, unitless == System::Metric ? "m/s²" : "ft/s²");
    return {Acceleration::metresPerSecondSquared(value), std::move(asWritten)};
}

Seconds parseSeconds(std::string_view text) {
    const Kind kind{kTimes, phrase("core", "\"%1\" is not a time: %2"),
                    phrase("core", "Type a number and a unit, such as 1.5 s.")};
    return Seconds{read(text, kind, "s").value};
}

std::string formatSpeed(Speed speed, System system) {
    return system == System::Metric ? shortest(speed.inMetresPerSecond()) + " m/s"
                                    : shortest(speed.inMilesPerHour()) + " mph";
}

std::string formatAcceleration(Acceleration acceleration, System system) {
    return system == System::Metric ? shortest(acceleration.inMetresPerSecondSquared()) + " m/s²"
                                    : shortest(acceleration.inFeetPerSecondSquared()) + " ft/s²";
}

std::string formatSeconds(Seconds seconds) { return shortest(seconds.count()) + " s"; }

} // namespace fencewright::units
