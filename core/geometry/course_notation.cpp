#include "geometry/traverse.h"

#include "fault.h"
#include "geodesy/bearing_notation.h"
#include "units/number_notation.h"

#include <cmath>
#include <map>

namespace fencewright::geometry {

namespace {

constexpr std::size_t kMostCourses = 10'000;
constexpr std::size_t kLongestLine = 400;
constexpr Phrase kExamples = phrase(
    "core", "Write a course like S 68°05'35\" W 472.68 ft, or 120 m 45, or curve right, radius 200 ft, arc 104.72 ft.");

/// Without the blanks and the commas around it, which part the words of a course.
std::string_view unpunctuated(std::string_view text) {
    const auto first = text.find_first_not_of(" \t\r,;");
    if (first == std::string_view::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t\r,;") - first + 1);
}

[[noreturn]] void refuse(const Wording& problem) { throw Fault{problem, "", kExamples}; }

Length positiveLength(std::string_view text, units::System unitless, const std::string& what) {
    const Length length = units::parseLength(unpunctuated(text), unitless).length;
    if (!(length > Length{}))
        refuse(phrase("core", "The %1 is not over zero.")(what));
    return length;
}

struct StraightCourse {
    Angle azimuth;
    Length length;
};

/// "472.68 ft" after a direction, or a direction after it.
StraightCourse straightCourse(std::string_view text, units::System unitless) {
    // A length with its unit in front: "120 m 45". The direction is what follows the unit.
    const auto number = text.find_first_not_of("0123456789.,/ ");
    const bool startsWithNumber = !text.empty() && (text.front() >= '0' && text.front() <= '9');
    if (startsWithNumber && number != std::string_view::npos) {
        const auto unitEnd = text.find_first_of(" \t,", number);
        const bool isUnit =
            (text[number] >= 'a' && text[number] <= 'z') || (text[number] >= 'A' && text[number] <= 'Z');
        const std::string unit =
            units::lowered(text.substr(number, unitEnd == std::string_view::npos ? unitEnd : unitEnd - number));
        const bool isDegree = unit == "d" || unit.starts_with("deg");
        const bool isCompass = unit == "n" || unit == "s" || unit == "e" || unit == "w";
        if (isUnit && !isDegree && !isCompass && unitEnd != std::string_view::npos) {
            const std::string_view direction = unpunctuated(text.substr(unitEnd));
            return {geodesy::parseBearing(direction), positiveLength(text.substr(0, unitEnd), unitless, "length")};
        }
    }
    const auto bearing = geodesy::leadingBearing(text);
    if (!bearing)
        refuse(phrase("core", "There is no direction."));
    const std::string_view rest = unpunctuated(text.substr(bearing->length));
    if (rest.empty())
        refuse(phrase("core", "There is no length after the direction."));
    return {bearing->azimuth, positiveLength(rest, unitless, "length")};
}

/// The words of a curve: what stands after "radius", "arc", "angle", "chord".
std::map<std::string, std::string_view> curveParts(std::string_view text) {
    std::map<std::string, std::string_view> parts;
    const std::string small = units::lowered(text);
    struct Found {
        std::size_t at, end;
        std::string word;
    };
    std::vector<Found> found;
    for (const std::string_view word : {"radius", "arc", "angle", "delta", "chord"}) {
        const auto at = small.find(word);
        if (at == std::string::npos)
            continue;
        if (small.find(word, at + 1) != std::string::npos)
            refuse(phrase("core", "The curve says \"%1\" twice.")(std::string{word}));
        found.push_back({at, at + word.size(), word == "delta" ? "angle" : std::string{word}});
    }
    std::sort(found.begin(), found.end(), [](const Found& a, const Found& b) { return a.at < b.at; });
    for (std::size_t i = 0; i < found.size(); ++i) {
        const std::size_t end = i + 1 < found.size() ? found[i + 1].at : text.size();
        std::string_view value = unpunctuated(text.substr(found[i].end, end - found[i].end));
        if (value.starts_with('='))
            value = unpunctuated(value.substr(1));
        if (!parts.emplace(found[i].word, value).second)
            refuse(phrase("core", "The curve gives its angle twice."));
    }
    return parts;
}

/// @param tangent  in which the course before ended; nothing at the beginning.
Course curveCourse(std::string_view text, units::System unitless, std::optional<Angle> tangent) {
    const std::string small = units::lowered(text);
    const bool left = small.find("left") != std::string::npos;
    const bool right = small.find("right") != std::string::npos;
    if (left == right)
        refuse(phrase("core", "A curve turns either left or right."));
    const auto parts = curveParts(text);
    const auto part = [&](const char* word) -> std::optional<std::string_view> {
        const auto at = parts.find(word);
        return at == parts.end() ? std::nullopt : std::optional{at->second};
    };
    const auto radiusText = part("radius");
    if (!radiusText)
        refuse(phrase("core", "The curve has no radius."));
    const Length radius = positiveLength(*radiusText, unitless, "radius");
    std::optional<Angle> central;
    if (const auto angle = part("angle"))
        central = geodesy::parseAngle(*angle);
    if (const auto arcText = part("arc")) {
        const Angle ofArc = Angle::radians(positiveLength(*arcText, unitless, "arc") / radius);
        // A deed that says both rounds both.
        constexpr double mostApart = 0.1; // degrees
        if (central && std::abs(central->inDegrees() - ofArc.inDegrees()) > mostApart)
            refuse(phrase("core", "The arc and the angle of the curve do not agree: the arc makes %1°.")(
                units::fixed(ofArc.inDegrees(), 3)));
        central = ofArc;
    }
    std::optional<StraightCourse> chord;
    if (const auto chordText = part("chord")) {
        chord = straightCourse(*chordText, unitless);
        const double ratio = chord->length / radius / 2.0;
        constexpr double rounding = 1e-4;
        if (ratio > 1.0 + rounding)
            refuse(phrase("core", "The chord is longer than twice the radius."));
        const Angle ofChord = Angle::radians(2.0 * std::asin(std::min(ratio, 1.0)));
        if (!central)
            central = ofChord;
        constexpr double mostApart = 0.02; // of the chord
        const double computed = 2.0 * std::sin(central->inRadians() / 2.0) * radius.inMetres();
        if (std::abs(computed - chord->length.inMetres()) > mostApart * chord->length.inMetres())
            refuse(phrase("core", "The chord does not fit the arc: it would be %1 m long.")(units::fixed(computed, 2)));
    }
    if (!central)
        refuse(phrase("core", "The curve needs its arc, its angle, or its chord."));
    if (!(central->inDegrees() > 0.0 && central->inDegrees() < 360.0))
        refuse(phrase("core", "The angle of the curve is not between 0° and 360°."));
    Course course;
    course.curve = Course::Curve{radius, *central, left ? Turn::Left : Turn::Right};
    if (chord) {
        course.azimuth = chord->azimuth;
        course.length = chord->length;
    } else {
        if (!tangent)
            refuse(phrase(
                "core",
                "The first course is a curve: it needs its chord, for there is no course before it to start along."));
        const double half = central->inDegrees() / 2.0;
        const double azimuth = std::fmod(tangent->inDegrees() + (left ? -half : half) + 720.0, 360.0);
        course.azimuth = Angle::degrees(azimuth);
        course.length = Length::metres(2.0 * std::sin(central->inRadians() / 2.0) * radius.inMetres());
    }
    return course;
}

Angle endTangent(const Course& course) {
    if (!course.curve)
        return course.azimuth;
    const double half = course.curve->centralAngle.inDegrees() / 2.0;
    return Angle::degrees(
        std::fmod(course.azimuth.inDegrees() + (course.curve->turn == Turn::Left ? -half : half) + 720.0, 360.0));
}

} // namespace

std::vector<Course> parseCourses(std::string_view text, units::System unitless) {
    std::vector<Course> courses;
    std::size_t number = 0;
    while (!text.empty()) {
        const auto end = text.find('\n');
        std::string_view line = text.substr(0, end);
        text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
        ++number;
        line = unpunctuated(line.substr(0, line.find('#')));
        if (line.empty())
            continue;
        if (courses.size() >= kMostCourses)
            throw Fault{phrase("core", "There are more than 10,000 courses."), phrase("core", "line %1")(number),
                        phrase("core", "Draw so long a boundary in parts.")};
        try {
            if (line.size() > kLongestLine)
                refuse(phrase("core", "The line is too long for one course."));
            std::optional<Angle> tangent;
            if (!courses.empty())
                tangent = endTangent(courses.back());
            if (units::lowered(line.substr(0, 5)) == "curve") {
                courses.push_back(curveCourse(line.substr(5), unitless, tangent));
            } else {
                const StraightCourse straight = straightCourse(line, unitless);
                courses.push_back({straight.azimuth, straight.length, std::nullopt});
            }
        } catch (const Fault& fault) {
            throw Fault{fault.words().problem,
                        phrase("core", "line %1, \"%2\"")(number, std::string{line.substr(0, 80)}),
                        fault.words().remedy};
        }
    }
    return courses;
}

} // namespace fencewright::geometry
