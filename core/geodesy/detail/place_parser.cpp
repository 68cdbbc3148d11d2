#include "geodesy/detail/place_parser.h"

#include "fault.h"
#include "geodesy/detail/military_grid.h"
#include "units/number_notation.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fencewright::geodesy {

namespace {

constexpr std::size_t kLongestText = 200;
constexpr Phrase kExamples = phrase(
    "core",
    "Write it like 46.208844 -8.733936, 46°12'31.84\"N 8°44'02.17\"W, 29T 520533 5117466 or 29T NM 20533 17466.");

bool isDigit(char letter) { return letter >= '0' && letter <= '9'; }
bool isLetter(char letter) { return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z'); }
char upper(char letter) { return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter; }

/// One spelling for each mark: d ' " : - and plain spaces.
std::string withPlainMarks(std::string_view text) {
    struct Spelling {
        std::string_view written;
        char plain;
    };
    static constexpr std::array<Spelling, 22> spellings{{
        {"°", 'd'},      {"º", 'd'},  {"˚", 'd'},  {"′", '\''}, {"’", '\''},     {"‘", '\''},
        {"´", '\''},     {"`", '\''}, {"ʹ", '\''}, {"''", '"'}, {"″", '"'},      {"”", '"'},
        {"“", '"'},      {"ʺ", '"'},  {"−", '-'},  {"–", '-'},  {"\u00A0", ' '}, {"\u2009", ' '},
        {"\u202F", ' '}, {"\t", ' '}, {"\n", ' '}, {"\r", ' '},
    }};
    std::string plain;
    while (!text.empty()) {
        const auto spelling = std::find_if(spellings.begin(), spellings.end(), [&](const Spelling& s) {
            return text.substr(0, s.written.size()) == s.written;
        });
        if (spelling != spellings.end()) {
            plain += spelling->plain;
            text.remove_prefix(spelling->written.size());
        } else {
            plain += text.front();
            text.remove_prefix(1);
        }
    }
    const auto first = plain.find_first_not_of(' ');
    if (first == std::string::npos)
        return {};
    return plain.substr(first, plain.find_last_not_of(' ') - first + 1);
}

/// "46,5 8,7" has decimal commas; "46.5,8.7" and "46, 8" have a separating one. Two commas between digits, a gap
/// between the numbers, and no point anywhere make the first.
std::string withDecimalPoints(std::string text) {
    const auto isDecimal = [&](std::size_t at) {
        return text[at] == ',' && at > 0 && at + 1 < text.size() && isDigit(text[at - 1]) && isDigit(text[at + 1]);
    };
    std::size_t decimals = 0;
    for (std::size_t at = 0; at < text.size(); ++at)
        decimals += isDecimal(at) ? 1 : 0;
    if (decimals != 2 || text.find('.') != std::string::npos)
        return text;
    for (std::size_t at = 0; at < text.size(); ++at)
        if (isDecimal(at))
            text[at] = '.';
    return text;
}

} // namespace

PlaceParser::PlaceParser(std::string_view text) : m_given{text.substr(0, kLongestText)} {
    if (text.size() > kLongestText)
        refuse(phrase("core", "This is too long to be a place."));
    m_text = withDecimalPoints(withPlainMarks(text));
}

model::Position PlaceParser::place() {
    if (m_text.empty())
        refuse(phrase("core", "No place is given."));
    if (const auto position = militaryGrid())
        return *position;
    m_at = 0;
    if (const auto position = utm())
        return *position;
    m_at = 0;
    return angles();
}

std::optional<model::Position> PlaceParser::militaryGrid() {
    const auto zone = readNumber();
    skipSpaces();
    MilitaryGridSquare square;
    square.band = upper(peek());
    if (!zone || !zone->whole || zone->value > 60.0 || !isLetter(square.band))
        return std::nullopt;
    square.zone = static_cast<int>(zone->value);
    ++m_at;
    skipSpaces();
    square.column = upper(peek());
    square.row = upper(peek(1));
    if (!isLetter(square.column) || !isLetter(square.row))
        return std::nullopt;
    m_at += 2;
    std::array<std::string, 2> digits;
    for (std::string& group : digits) {
        skipSpaces();
        for (; isDigit(peek()); ++m_at)
            group += peek();
    }
    if (!atEnd())
        return std::nullopt;
    if (digits[1].empty()) {
        if (digits[0].size() % 2 != 0)
            refuse(phrase("core", "An MGRS place has as many digits for the easting as for the northing."));
        digits[1] = digits[0].substr(digits[0].size() / 2);
        digits[0].resize(digits[0].size() / 2);
    }
    if (digits[0].size() != digits[1].size())
        refuse(phrase("core", "An MGRS place has as many digits for the easting as for the northing."));
    if (digits[0].size() > 5)
        refuse(phrase("core", "An MGRS place has at most five digits for each of easting and northing."));
    square.side = std::pow(10.0, 5.0 - static_cast<double>(digits[0].size()));
    square.easting = digits[0].empty() ? 0.0 : std::stoi(digits[0]) * square.side;
    square.northing = digits[1].empty() ? 0.0 : std::stoi(digits[1]) * square.side;
    return centreOf(square);
}

std::optional<model::Position> PlaceParser::utm() {
    const auto zone = readNumber();
    skipSpaces();
    if (!zone || !zone->whole || zone->value > 60.0)
        return std::nullopt;
    const std::size_t start = m_at;
    while (isLetter(peek()))
        ++m_at;
    std::string word = m_text.substr(start, m_at - start);
    skipSpaces();
    const auto easting = readNumber();
    skip('m');
    bool gap = skipSpaces();
    gap = skip(',') || gap;
    gap = skipSpaces() || gap;
    const auto northing = readNumber();
    skip('m');
    if (word.empty() || !easting || !gap || !northing || !atEnd())
        return std::nullopt;

    UtmPlace place{static_cast<int>(zone->value), true, 'N', easting->value, northing->value};
    std::optional<BandLimits> band;
    if (word == "s" || word == "south" || word == "South" || word == "SOUTH") {
        place.north = false;
    } else if (word.size() == 1 && word != "n" && word != "N") {
        place.band = upper(word.front());
        band = limitsOfBand(place.band);
        place.north = band->south >= 0.0;
    } else if (word != "n" && word != "N" && word != "north" && word != "North" && word != "NORTH") {
        return std::nullopt;
    }
    if (place.easting < 100'000.0 || place.easting > 900'000.0)
        refuse(phrase("core", "The easting of a UTM place lies between 100000 and 900000 m."));
    if (place.northing > 10'000'000.0)
        refuse(phrase("core", "The northing of a UTM place lies between 0 and 10000000 m."));
    model::Position position = fromUtm(place);
    constexpr double slack = 0.01; // a place at the edge of its band, rounded
    if (band && (position.lat < band->south - slack || position.lat > band->north + slack)) {
        if (place.band != 'S')
            refuse(phrase("core", "The northing does not lie in the latitude band %1 (%2 to %3 degrees); for the half "
                                  "of the earth write north or south.")(place.band, units::shortest(band->south),
                                                                        units::shortest(band->north)));
        // A capital S is the band from 32 to 40 N, as we write it ourselves. Where that cannot be meant, it is south.
        place.north = false;
        position = fromUtm(place);
    }
    return position;
}

model::Position PlaceParser::angles() {
    auto read = readAngles(Marks::Needed);
    if (!read || read->size() != 2) {
        m_at = 0;
        const auto other = readAngles(Marks::Optional);
        // Only letters tell where one angle ends: "46 12 8 44" could be cut in three ways.
        if (other && other->size() == 2 && other->front().letter != 0 && other->back().letter != 0)
            read = other;
    }
    if (!read) {
        const std::string rest = m_text.substr(std::min(m_farthest, m_text.size()));
        refuse(rest.empty() ? Wording{phrase("core", "The place is not complete.")}
                            : Wording{phrase("core", "\"%1\" cannot be read here.")(rest)});
    }
    if (read->size() != 2)
        refuse(read->size() < 2 ? phrase("core", "A place needs a latitude and a longitude.")
                                : phrase("core", "There are more numbers than a latitude and a longitude."));
    SignedAngle latitude = read->front();
    SignedAngle longitude = read->back();
    const auto isLatitude = [](const SignedAngle& angle) { return angle.letter == 'N' || angle.letter == 'S'; };
    const auto isLongitude = [](const SignedAngle& angle) { return angle.letter == 'E' || angle.letter == 'W'; };
    if (isLongitude(latitude) || isLatitude(longitude))
        std::swap(latitude, longitude);
    if (isLongitude(latitude))
        refuse(phrase("core", "Both parts are longitudes."));
    if (isLatitude(longitude))
        refuse(phrase("core", "Both parts are latitudes."));
    for (const SignedAngle& angle : *read)
        if (angle.letter != 0 && angle.signGiven)
            refuse(phrase("core", "\"%1\" has both a sign and a letter.")(angle.asWritten));
    if (std::abs(latitude.degrees) > 90.0)
        refuse(phrase("core", "The latitude \"%1\" is beyond 90 degrees; without letters, latitude comes first.")(
            latitude.asWritten));
    if (std::abs(longitude.degrees) > 180.0)
        refuse(phrase("core", "The longitude \"%1\" is beyond 180 degrees.")(longitude.asWritten));
    return {longitude.degrees, latitude.degrees};
}

std::optional<std::vector<PlaceParser::SignedAngle>> PlaceParser::readAngles(Marks marks) {
    std::vector<SignedAngle> read;
    while (!atEnd()) {
        if (!read.empty()) {
            skipSpaces();
            if (!skip(','))
                skip(';');
            skipSpaces();
        }
        const std::size_t start = m_at;
        auto angle = readAngle(marks);
        m_farthest = std::max(m_farthest, start);
        if (!angle)
            return std::nullopt;
        angle->asWritten = m_text.substr(start, m_at - start);
        read.push_back(*angle);
    }
    return read;
}

std::optional<PlaceParser::SignedAngle> PlaceParser::readAngle(Marks marks) {
    SignedAngle angle;
    angle.letter = readLetter("NSEW");
    skipSpaces();
    bool negative = false;
    if (peek() == '-' || peek() == '+') {
        angle.signGiven = true;
        negative = peek() == '-';
        ++m_at;
    }
    const auto degrees = readNumber();
    if (!degrees)
        return std::nullopt;
    angle.degrees = degrees->value;

    const std::size_t afterDegrees = m_at;
    skipSpaces();
    const bool colon = skip(':');
    const bool marked = colon || skip('d');
    if (!marked)
        m_at = afterDegrees;
    if (degrees->whole && (marked || marks == Marks::Optional)) {
        const auto minutes = readMinutes(marks, colon, '\'', "d");
        if (colon && !minutes)
            return std::nullopt;
        if (minutes) {
            angle.degrees += minutes->value / 60.0;
            const bool secondColon = skip(':');
            if (secondColon || minutes->marked || marks == Marks::Optional) {
                const auto seconds = readMinutes(marks, secondColon, '"', "d'");
                if (secondColon && !seconds)
                    return std::nullopt;
                angle.degrees += seconds ? seconds->value / 3600.0 : 0.0;
            }
        }
    }

    if (angle.letter == 0) {
        // A letter that touches the next number, and not this one, belongs to that.
        const std::size_t before = m_at;
        const bool gap = skipSpaces();
        if (gap && (isDigit(peek(1)) || peek(1) == '.'))
            m_at = before;
        else
            angle.letter = readLetter("NSEW");
        if (angle.letter == 0)
            m_at = before;
    }
    if (negative != (angle.letter == 'S' || angle.letter == 'W'))
        angle.degrees = -angle.degrees;
    return angle;
}

/// Minutes or seconds. A number after a gap is one only with its mark: "46° 8" are two angles. With optional marks, any
/// number is.
std::optional<PlaceParser::Minutes> PlaceParser::readMinutes(Marks marks, bool afterColon, char mark,
                                                             std::string_view notBefore) {
    const std::size_t start = m_at;
    const bool gap = skipSpaces();
    const auto number = readNumber();
    const std::size_t end = m_at;
    skipSpaces();
    const bool marked = skip(mark);
    if (!marked)
        m_at = end;
    const bool another = peek() != 0 && notBefore.find(peek()) != std::string_view::npos;
    if (!number || another || (gap && (afterColon || (!marked && marks == Marks::Needed)))) {
        m_at = start;
        return std::nullopt;
    }
    if (number->value >= 60.0) {
        if (marks == Marks::Optional && !marked) {
            m_at = start;
            return std::nullopt;
        }
        refuse(phrase("core", "Minutes and seconds lie below 60."));
    }
    return Minutes{number->value, marked};
}

std::optional<PlaceParser::Number> PlaceParser::readNumber() {
    const std::size_t start = m_at;
    Number number;
    while (isDigit(peek()) || (peek() == '.' && number.whole)) {
        number.whole = number.whole && peek() != '.';
        ++m_at;
    }
    m_farthest = std::max(m_farthest, m_at);
    const auto value = units::parseNumber(m_text.substr(start, m_at - start));
    if (!value) {
        m_at = start;
        return std::nullopt;
    }
    number.value = *value;
    return number;
}

char PlaceParser::readLetter(std::string_view letters) {
    const char letter = upper(peek());
    if (letter == 0 || letters.find(letter) == std::string_view::npos || isLetter(peek(1)))
        return 0;
    ++m_at;
    return letter;
}

bool PlaceParser::skip(char mark) {
    if (peek() != mark)
        return false;
    ++m_at;
    return true;
}

bool PlaceParser::skipSpaces() {
    const std::size_t start = m_at;
    while (peek() == ' ')
        ++m_at;
    return m_at > start;
}

char PlaceParser::peek(std::size_t ahead) const { return m_at + ahead < m_text.size() ? m_text[m_at + ahead] : '\0'; }

void PlaceParser::refuse(const Wording& problem) const {
    throw Fault{problem, phrase("core", "place \"%1\"")(m_given), kExamples};
}

} // namespace fencewright::geodesy
