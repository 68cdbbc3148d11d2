#include "geodesy/bearing_notation.h"

#include "fault.h"
#include "units/number_notation.h"

#include <array>
#include <cmath>

namespace fencewright::geodesy {

namespace {

constexpr std::size_t kLongestText = 200;
constexpr Phrase kExamples =
    phrase("core", "Write it like S 68°05'35\" W, N 45-55-20 E, N 45.5 E, 248°05'35\" or 248.0931.");

bool isDigit(char letter) { return letter >= '0' && letter <= '9'; }
bool isLetter(char letter) { return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z'); }
char upper(char letter) { return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter; }

enum class Mark { None, Degree, Minute, Second };

/// Reads one direction from the beginning of a text.
class BearingReader {
public:
    explicit BearingReader(std::string_view text) : m_text{text} {}

    [[nodiscard]] std::size_t at() const { return m_at; }

    [[noreturn]] void refuse(const Wording& problem) const {
        throw Fault{problem, std::string{m_text.substr(0, kLongestText)}, kExamples};
    }

    void skipSpaces() {
        for (;;) {
            if (m_at < m_text.size() && (m_text[m_at] == ' ' || m_text[m_at] == '\t'))
                ++m_at;
            else if (m_text.substr(m_at).starts_with("\u00A0"))
                m_at += 2;
            else
                return;
        }
    }

    /// The whole word in small letters, where it is one of these.
    bool skipWord(std::string_view word) {
        if (m_text.size() - m_at < word.size())
            return false;
        for (std::size_t i = 0; i < word.size(); ++i)
            if (upper(m_text[m_at + i]) != upper(word[i]))
                return false;
        if (m_at + word.size() < m_text.size() && isLetter(m_text[m_at + word.size()]))
            return false;
        m_at += word.size();
        return true;
    }

    std::optional<char> compassLetter(std::string_view first, std::string_view second) {
        for (const auto& [word, letter] : {std::pair<std::string_view, char>{first, upper(first.front())},
                                           std::pair<std::string_view, char>{second, upper(second.front())}}) {
            if (skipWord(word))
                return letter;
            // A single letter may stand right before a number: N45.
            if (m_at < m_text.size() && upper(m_text[m_at]) == letter &&
                (m_at + 1 == m_text.size() || !isLetter(m_text[m_at + 1]))) {
                ++m_at;
                if (m_at < m_text.size() && m_text[m_at] == '.')
                    ++m_at; // N. 45 E.
                return letter;
            }
        }
        return std::nullopt;
    }

    /// Degrees, with minutes and seconds where they follow; nothing where there is no number.
    std::optional<double> angle() {
        const std::optional<double> degrees = number();
        if (!degrees)
            return std::nullopt;
        double value = *degrees;
        if (m_lastHadPoint) {
            mark(Mark::Degree);
            return value;
        }
        const std::size_t afterDegrees = m_at;
        const bool marked = mark(Mark::Degree);
        const bool dashed = !marked && dash();
        skipSpaces();
        const std::size_t beforeMinutes = m_at;
        const std::optional<double> minutes = number();
        const bool minutesHadPoint = m_lastHadPoint;
        if (!minutes || (!dashed && !mark(Mark::Minute) && !bareMinutesFollow())) {
            // The number that follows is a distance.
            m_at = marked ? beforeMinutes : afterDegrees;
            if (minutes && marked)
                trimBack(afterDegrees);
            return value;
        }
        if (*minutes >= 60.0)
            refuse(phrase("core", "There are %1 minutes, and a degree has 60.")(units::shortest(*minutes)));
        value += *minutes / 60.0;
        if (minutesHadPoint) {
            mark(Mark::Minute);
            return value;
        }
        const std::size_t afterMinutes = m_at;
        const bool dashedAgain = dashed && dash();
        skipSpaces();
        const std::optional<double> seconds = number();
        if (!seconds || (!dashedAgain && !mark(Mark::Second) && !(m_bare && quadrantFollows()))) {
            m_at = afterMinutes;
            return value;
        }
        mark(Mark::Second);
        if (*seconds >= 60.0)
            refuse(phrase("core", "There are %1 seconds, and a minute has 60.")(units::shortest(*seconds)));
        return value + *seconds / 3600.0;
    }

    /// N 45 55 20 E: without marks, it is the letter at the end that tells what the numbers are.
    void allowBare() { m_bare = true; }

private:
    std::optional<double> number() {
        const std::size_t start = m_at;
        m_lastHadPoint = false;
        while (m_at < m_text.size() && (isDigit(m_text[m_at]) || (m_text[m_at] == '.' && !m_lastHadPoint))) {
            m_lastHadPoint = m_lastHadPoint || m_text[m_at] == '.';
            ++m_at;
        }
        const auto value = units::parseNumber(m_text.substr(start, m_at - start));
        if (!value)
            m_at = start;
        return value;
    }

    bool dash() {
        for (const std::string_view sign : {"-", "–", "−", "‑"})
            if (m_text.substr(m_at).starts_with(sign) && m_at + sign.size() < m_text.size() &&
                isDigit(m_text[m_at + sign.size()])) {
                m_at += sign.size();
                return true;
            }
        return false;
    }

    bool mark(Mark wanted) {
        struct Spelling {
            std::string_view written;
            Mark mark;
        };
        static constexpr std::array<Spelling, 16> spellings{{{"''", Mark::Second},
                                                             {"°", Mark::Degree},
                                                             {"º", Mark::Degree},
                                                             {"˚", Mark::Degree},
                                                             {"deg", Mark::Degree},
                                                             {"'", Mark::Minute},
                                                             {"′", Mark::Minute},
                                                             {"’", Mark::Minute},
                                                             {"´", Mark::Minute},
                                                             {"min", Mark::Minute},
                                                             {"\"", Mark::Second},
                                                             {"″", Mark::Second},
                                                             {"”", Mark::Second},
                                                             {"“", Mark::Second},
                                                             {"sec", Mark::Second},
                                                             {"d", Mark::Degree}}};
        const std::size_t start = m_at;
        skipSpaces();
        for (const Spelling& spelling : spellings)
            if (m_text.substr(m_at).starts_with(spelling.written)) {
                if (spelling.mark != wanted)
                    break;
                m_at += spelling.written.size();
                return true;
            }
        m_at = start;
        return false;
    }

    [[nodiscard]] bool quadrantFollows() {
        const std::size_t start = m_at;
        skipSpaces();
        const bool follows = compassLetter("east", "west").has_value();
        m_at = start;
        return follows;
    }
    /// Of a bearing without marks: whether what was just read are minutes, for E or W comes after them, or after
    /// seconds.
    [[nodiscard]] bool bareMinutesFollow() {
        if (!m_bare)
            return false;
        if (quadrantFollows())
            return true;
        const std::size_t start = m_at;
        const bool hadPoint = m_lastHadPoint;
        skipSpaces();
        const bool follows = !hadPoint && number().has_value() && quadrantFollows();
        m_lastHadPoint = hadPoint;
        m_at = start;
        return follows;
    }

    void trimBack(std::size_t end) {
        // Spaces after the degree sign belong to what follows.
        while (m_at > end && m_text[m_at - 1] == ' ')
            --m_at;
    }

    std::string_view m_text;
    std::size_t m_at = 0;
    bool m_lastHadPoint = false;
    bool m_bare = false;
};

double turnedTo360(double degrees) { return degrees >= 360.0 ? degrees - 360.0 : degrees; }

} // namespace

std::optional<LeadingBearing> leadingBearing(std::string_view text) {
    BearingReader reader{text};
    reader.skipSpaces();
    const bool due = reader.skipWord("due");
    reader.skipSpaces();
    const auto meridian = reader.compassLetter("north", "south");
    if (!meridian) {
        if (const auto side = reader.compassLetter("east", "west"))
            return LeadingBearing{Angle::degrees(*side == 'E' ? 90.0 : 270.0), reader.at()};
        if (due)
            reader.refuse(phrase("core", "After \"due\" comes north, south, east or west."));
        if (reader.skipWord("azimuth") || reader.skipWord("az") || reader.skipWord("bearing")) {
            if (reader.at() < text.size() && text[reader.at()] == '.')
                return std::nullopt;
        }
        reader.skipSpaces();
        const auto azimuth = reader.angle();
        if (!azimuth)
            return std::nullopt;
        if (*azimuth > 360.0)
            reader.refuse(phrase("core", "The azimuth %1° is beyond 360°.")(units::shortest(*azimuth)));
        return LeadingBearing{Angle::degrees(turnedTo360(*azimuth)), reader.at()};
    }
    const std::size_t afterMeridian = reader.at();
    reader.skipSpaces();
    reader.allowBare();
    const auto angle = reader.angle();
    if (!angle)
        return LeadingBearing{Angle::degrees(*meridian == 'N' ? 0.0 : 180.0), afterMeridian};
    reader.skipSpaces();
    const auto side = reader.compassLetter("east", "west");
    if (!side) {
        // "N 80 ch" is due north and a length; an angle with its marks is an angle.
        const std::string_view number = text.substr(afterMeridian, reader.at() - afterMeridian);
        if (number.find_first_not_of("0123456789. \t") == std::string_view::npos)
            return LeadingBearing{Angle::degrees(*meridian == 'N' ? 0.0 : 180.0), afterMeridian};
        reader.refuse(phrase("core", "After the angle of a quadrant bearing comes E or W."));
    }
    if (*angle > 90.0)
        reader.refuse(phrase("core", "The angle %1° of a quadrant bearing is over 90°: it counts from north or south.")(
            units::shortest(*angle)));
    const double azimuth =
        *meridian == 'N' ? (*side == 'E' ? *angle : 360.0 - *angle) : (*side == 'E' ? 180.0 - *angle : 180.0 + *angle);
    return LeadingBearing{Angle::degrees(turnedTo360(azimuth)), reader.at()};
}

namespace {

void requireEnd(std::string_view text, std::size_t at) {
    const std::size_t rest = text.find_first_not_of(" \t", at);
    if (rest != std::string_view::npos)
        throw Fault{phrase("core", "\"%1\" cannot be read here.")(std::string{text.substr(rest, kLongestText)}),
                    std::string{text.substr(0, kLongestText)}, kExamples};
}

} // namespace

Angle parseBearing(std::string_view text) {
    const auto read = leadingBearing(text);
    if (!read)
        throw Fault{phrase("core", "This is not a direction."), std::string{text.substr(0, kLongestText)}, kExamples};
    requireEnd(text, read->length);
    return read->azimuth;
}

Angle parseAngle(std::string_view text) {
    BearingReader reader{text};
    reader.skipSpaces();
    const auto angle = reader.angle();
    if (!angle)
        throw Fault{phrase("core", "This is not an angle."), std::string{text.substr(0, kLongestText)},
                    phrase("core", "Write it like 30°15'20\", 30-15-20 or 30.2556.")};
    requireEnd(text, reader.at());
    return Angle::degrees(*angle);
}

std::string formatBearing(Angle azimuth, BearingNotation notation, int secondDecimals) {
    double degrees = std::fmod(azimuth.inDegrees(), 360.0);
    if (degrees < 0.0)
        degrees += 360.0;
    const auto words = [&](double angle) {
        const long long scale = std::llround(std::pow(10.0, secondDecimals));
        const long long all = std::llround(angle * 3600.0 * static_cast<double>(scale));
        const long long whole = all / (3600 * scale), minutes = all / (60 * scale) % 60, rest = all % (60 * scale);
        const auto two = [](const std::string& number, std::size_t digits) {
            return std::string(digits > number.size() ? digits - number.size() : 0, '0') + number;
        };
        const std::string seconds =
            units::fixed(static_cast<double>(rest) / static_cast<double>(scale), secondDecimals);
        return std::to_string(whole) + "°" + two(std::to_string(minutes), 2) + "′" +
               two(seconds, secondDecimals > 0 ? 3 + static_cast<std::size_t>(secondDecimals) : 2) + "″";
    };
    if (notation == BearingNotation::Azimuth) {
        const std::string text = words(degrees);
        return text.starts_with("360°") ? words(0.0) : text;
    }
    const bool north = degrees <= 90.0 || degrees > 270.0;
    const bool east = degrees <= 180.0;
    const double angle = degrees <= 90.0    ? degrees
                         : degrees <= 180.0 ? 180.0 - degrees
                         : degrees <= 270.0 ? degrees - 180.0
                                            : 360.0 - degrees;
    return std::string{north ? "N " : "S "} + words(angle) + (east ? " E" : " W");
}

} // namespace fencewright::geodesy
