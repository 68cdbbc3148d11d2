#include "units/measure_notation.h"

#include "fault.h"
#include "units/number_notation.h"

#include <array>
#include <cctype>
#include <cmath>
#include <optional>
#include <vector>

namespace fencewright::units {
namespace {

struct Unit {
    std::string_view word;
    Length one;
};

constexpr std::array kUnits{
    Unit{"m", Length::metres(1)},
    Unit{"metre", Length::metres(1)},
    Unit{"metres", Length::metres(1)},
    Unit{"meter", Length::metres(1)},
    Unit{"meters", Length::metres(1)},
    Unit{"km", Length::kilometres(1)},
    Unit{"kilometre", Length::kilometres(1)},
    Unit{"kilometres", Length::kilometres(1)},
    Unit{"kilometer", Length::kilometres(1)},
    Unit{"kilometers", Length::kilometres(1)},
    Unit{"ft", Length::feet(1)},
    Unit{"'", Length::feet(1)},
    Unit{"foot", Length::feet(1)},
    Unit{"feet", Length::feet(1)},
    Unit{"ftus", Length::usSurveyFeet(1)},
    Unit{"us survey foot", Length::usSurveyFeet(1)},
    Unit{"us survey feet", Length::usSurveyFeet(1)},
    Unit{"yd", Length::yards(1)},
    Unit{"yard", Length::yards(1)},
    Unit{"yards", Length::yards(1)},
    Unit{"ch", Length::chains(1)},
    Unit{"chain", Length::chains(1)},
    Unit{"chains", Length::chains(1)},
    Unit{"mi", Length::statuteMiles(1)},
    Unit{"mile", Length::statuteMiles(1)},
    Unit{"miles", Length::statuteMiles(1)},
    Unit{"nmi", Length::nauticalMiles(1)},
    Unit{"nm", Length::nauticalMiles(1)},
    Unit{"nautical mile", Length::nauticalMiles(1)},
    Unit{"nautical miles", Length::nauticalMiles(1)},
};

[[noreturn]] void refuse(std::string_view text, const Wording& why) {
    throw Fault{phrase("core", "\"%1\" is not a length: %2")(std::string{text}, why), "",
                phrase("core", "Type a number and a unit, such as 402.336 m, 1320 ft or 1/4 mi.")};
}

} // namespace

StatedLength parseLength(std::string_view text, System unitless) {
    const std::string_view whole = trimmed(text);
    if (whole.empty())
        refuse(text, phrase("core", "nothing was typed."));
    std::size_t end = 0;
    while (end < whole.size() &&
           (std::isdigit(static_cast<unsigned char>(whole[end])) || whole[end] == '.' || whole[end] == ',' ||
            whole[end] == '/' || whole[end] == ' ' || whole[end] == '-' || whole[end] == '+'))
        ++end;
    const std::string_view numbers = trimmed(whole.substr(0, end));
    const std::string unit = lowered(trimmed(whole.substr(end)));
    if (numbers.empty())
        refuse(text, phrase("core", "it does not begin with a number."));

    double value = 0.0;
    const auto slash = numbers.find('/');
    if (slash == std::string_view::npos) {
        const auto number = readTypedNumber(numbers);
        if (const auto* why = std::get_if<Wording>(&number))
            refuse(text, *why);
        value = std::get<double>(number);
    } else {
        // "1 1/2" is one and a half; "1/2" is a half.
        std::string_view upper = trimmed(numbers.substr(0, slash));
        double wholePart = 0.0;
        if (const auto gap = upper.find(' '); gap != std::string_view::npos) {
            const auto number = parseNumber(upper.substr(0, gap));
            if (!number || *number < 0)
                refuse(text, phrase("core", "the number before the fraction cannot be read."));
            wholePart = *number;
            upper = trimmed(upper.substr(gap));
        }
        const auto numerator = parseNumber(upper);
        const auto denominator = parseNumber(trimmed(numbers.substr(slash + 1)));
        if (!numerator || !denominator)
            refuse(text, phrase("core", "\"%1\" is not a fraction.")(std::string{numbers}));
        if (*denominator == 0.0)
            refuse(text, phrase("core", "the fraction is over zero."));
        value = wholePart + *numerator / *denominator;
    }

    std::optional<Length> one;
    if (unit.empty())
        one = unitless == System::Metric ? Length::metres(1) : Length::feet(1);
    for (const Unit& known : kUnits)
        if (unit == known.word)
            one = known.one;
    if (!one)
        refuse(text, phrase("core", "\"%1\" is not a unit of length known here.")(unit));
    const Length length = value * *one;
    if (!std::isfinite(length.inMetres()))
        refuse(text, phrase("core", "it is too large."));
    std::string asWritten{whole};
    if (unit.empty())
        asWritten += unitless == System::Metric ? " m" : " ft";
    return {length, std::move(asWritten)};
}

std::string formatLength(Length length, System system) {
    const double metres = std::abs(length.inMetres());
    if (system == System::Metric) {
        if (metres >= 9999.5)
            return fixed(length.inKilometres(), 1) + " km";
        if (metres >= 999.95)
            return fixed(length.inKilometres(), 2) + " km";
        return fixed(length.inMetres(), 1) + " m";
    }
    if (metres >= Length::statuteMiles(1).inMetres())
        return fixed(length.inStatuteMiles(), 2) + " mi";
    return fixed(length.inFeet(), metres < 30.48 ? 1 : 0) + " ft";
}

std::string formatLengthExact(Length length, System system) {
    if (system == System::Metric)
        return fixed(length.inMetres(), 3) + " m";
    return fixed(length.inFeet(), 3) + " ft";
}

std::string formatArea(Area area, System system) {
    const double squareMetres = std::abs(area.inSquareMetres());
    if (system == System::Metric) {
        if (squareMetres >= 1e7)
            return fixed(area.inSquareKilometres(), 2) + " km²";
        if (squareMetres >= 1e3)
            return fixed(area.inHectares(), squareMetres < 1e4 ? 2 : 1) + " ha";
        return fixed(area.inSquareMetres(), 1) + " m²";
    }
    if (area.inSquareMiles() >= 2.0)
        return fixed(area.inSquareMiles(), 2) + " mi²";
    if (std::abs(area.inAcres()) >= 0.1)
        return fixed(area.inAcres(), 1) + " ac";
    return fixed(area.inSquareFeet(), 1) + " ft²";
}

} // namespace fencewright::units
