#include "geodesy/place_rows.h"

#include "fault.h"
#include "geodesy/coordinate_notation.h"
#include "units/number_notation.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <utility>

namespace fencewright::geodesy {
namespace {

using units::trimmed;

constexpr std::size_t kMostRows = 1'000'000;
constexpr std::size_t kRowsBetweenReports = 256;
constexpr std::size_t kMostCells = 100;
constexpr std::size_t kMostCellsOfAPlace = 4; // an MGRS place in zone, square, easting, northing

bool isLetter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }
bool isDigit(char c) { return c >= '0' && c <= '9'; }

[[noreturn]] void refuse(std::size_t line, Wording problem, Wording remedy) {
    throw Fault{std::move(problem), phrase("core", "row %1 of the pasted text")(line), std::move(remedy)};
}

/// "46,25 N": where commas part no cells, a single one between digits is a decimal comma.
std::string withDecimalPoint(std::string_view cell) {
    std::string text{cell};
    const std::size_t comma = text.find(',');
    const bool isDecimal = comma != std::string::npos && comma > 0 && comma + 1 < text.size() &&
                           isDigit(text[comma - 1]) && isDigit(text[comma + 1]) &&
                           text.find_first_of(",.", comma + 1) == std::string::npos && text.find('.') > comma;
    if (isDecimal)
        text[comma] = '.';
    return text;
}

/// The cells of a row; one that begins with a quotation mark runs to the next, and has doubled ones for single.
std::vector<std::string> cellsOf(std::string_view row, char separator, std::size_t line) {
    std::vector<std::string> cells;
    while (true) {
        std::string cell;
        row = separator == '\t' ? row : trimmed(row);
        if (!row.empty() && row.front() == '"') {
            row.remove_prefix(1);
            while (!row.empty() && (row.front() != '"' || row.substr(0, 2) == "\"\"")) {
                cell += row.front();
                row.remove_prefix(row.front() == '"' ? 2 : 1);
            }
            if (!row.empty())
                row.remove_prefix(1);
        }
        const std::size_t end = std::min(row.find(separator), row.size());
        cell += row.substr(0, end);
        cells.push_back(separator == ',' ? std::string{trimmed(cell)} : withDecimalPoint(trimmed(cell)));
        if (end == row.size())
            return cells;
        row.remove_prefix(end + 1);
        if (cells.size() >= kMostCells)
            refuse(line, phrase("core", "This row has more than %1 cells.")(kMostCells),
                   phrase("core", "Copy the columns of the coordinates alone."));
    }
}

bool hasLetters(const std::string& text) { return std::any_of(text.begin(), text.end(), isLetter); }
/// Whether there is a digit outside of brackets: "Latitude (WGS 84)" is a heading.
bool hasDigits(std::string_view text) {
    int depth = 0;
    return std::any_of(text.begin(), text.end(), [&](char c) {
        depth += c == '(' ? 1 : c == ')' ? -1 : 0;
        return depth <= 0 && isDigit(c);
    });
}

/// "29T", as its own cell.
bool isZone(std::string_view cell) {
    return cell.size() >= 2 && cell.size() <= 3 && isLetter(cell.back()) &&
           std::all_of(cell.begin(), cell.end() - 1, isDigit);
}

/// A word for a number: with a plain minus and a decimal point.
std::optional<double> numberOf(std::string word) {
    for (const std::string_view minus : {"−", "–"})
        if (word.starts_with(minus))
            word = "-" + word.substr(minus.size());
    for (const std::string_view degree : {"°", "º"})
        if (word.ends_with(degree))
            word.erase(word.size() - degree.size());
    if (word.starts_with('+'))
        word.erase(0, 1);
    if (std::count(word.begin(), word.end(), ',') == 1 && word.find('.') == std::string::npos)
        std::replace(word.begin(), word.end(), ',', '.');
    return units::parseNumber(word);
}

/// The numbers of the cells that hold nothing else.
std::vector<double> numbersOf(std::span<const std::string> cells) {
    std::vector<double> numbers;
    for (const std::string& cell : cells) {
        std::vector<double> own;
        std::string_view rest = trimmed(cell);
        while (!rest.empty()) {
            const std::size_t end = std::min(rest.find_first_of(" \t"), rest.size());
            const auto number = numberOf(std::string{rest.substr(0, end)});
            if (!number) {
                own.clear();
                break;
            }
            own.push_back(*number);
            rest = trimmed(rest.substr(end));
        }
        numbers.insert(numbers.end(), own.begin(), own.end());
    }
    return numbers;
}

struct Columns {
    std::size_t longitude = 0, latitude = 0;
};

/// The columns that a heading names; none, where it does not name both, or one of them twice.
std::optional<Columns> columnsOf(std::span<const std::string> heading) {
    std::optional<std::size_t> longitude, latitude;
    bool twice = false;
    for (std::size_t i = 0; i < heading.size(); ++i) {
        const std::string name = units::lowered(heading[i]);
        const auto begins = [&](std::initializer_list<std::string_view> words) {
            return std::any_of(words.begin(), words.end(),
                               [&](std::string_view word) { return name.starts_with(word); });
        };
        if (name == "x" || begins({"lon", "lng", "läng", "LÄNG", "laeng"})) {
            twice = twice || longitude;
            longitude = i;
        } else if (name == "y" || begins({"lat", "breit"})) {
            twice = twice || latitude;
            latitude = i;
        }
    }
    if (twice || !longitude || !latitude)
        return std::nullopt;
    return Columns{*longitude, *latitude};
}

/// The one place that so many neighbouring cells say with letters; more than one: refused.
std::optional<model::Position> letteredPlace(std::span<const std::string> cells, std::size_t count, std::size_t line) {
    std::optional<model::Position> found;
    for (std::size_t first = 0; first + count <= cells.size(); ++first) {
        const auto window = cells.subspan(first, count);
        // A number beside an angle with its letter is no angle: each has its letter, or a grid's zone stands in front.
        const bool isMeant = std::all_of(window.begin(), window.end(), hasLetters) || isZone(window.front());
        if (!isMeant)
            continue;
        std::string text;
        for (const std::string& cell : window)
            text += (text.empty() ? "" : " ") + cell;
        const auto place = tryParsePosition(text);
        if (!place)
            continue;
        if (found)
            refuse(line, phrase("core", "This row has more than one place."),
                   phrase("core", "Copy one column of coordinates."));
        found = place;
    }
    return found;
}

void requireLatitude(double latitude, std::size_t line) {
    if (!(std::abs(latitude) <= 90.0))
        refuse(line, phrase("core", "The latitude %1 is beyond 90 degrees.")(units::shortest(latitude)),
               phrase("core", "Choose the other order, or correct the number."));
}
void requireLongitude(double longitude, std::size_t line) {
    if (!(std::abs(longitude) <= 360.0))
        refuse(line, phrase("core", "The longitude %1 is beyond 360 degrees.")(units::shortest(longitude)),
               phrase("core",
                      "Degrees are needed here; for metres of a grid write the zone in front, such as 29T 520533 "
                      "5117466."));
}

std::variant<model::Position, PlaceRows::BarePair> placeOf(std::span<const std::string> cells,
                                                           const std::optional<Columns>& columns, std::size_t line) {
    if (columns) {
        if (std::max(columns->longitude, columns->latitude) >= cells.size())
            refuse(line, phrase("core", "This row has fewer cells than the heading."),
                   phrase("core", "Copy whole rows."));
        const std::string &longitude = cells[columns->longitude], &latitude = cells[columns->latitude];
        const auto x = numberOf(longitude), y = numberOf(latitude);
        if (x && y) {
            requireLatitude(*y, line);
            requireLongitude(*x, line);
            return model::Position{*x, *y};
        }
        if (const auto place = tryParsePosition(latitude + " " + longitude))
            return *place;
    }
    // The longest first: a zone and a square alone are a place, too, a hundred kilometres wide.
    for (std::size_t count = kMostCellsOfAPlace; count >= 1; --count)
        if (const auto place = letteredPlace(cells, count, line))
            return *place;
    const std::vector<double> numbers = numbersOf(cells);
    if (numbers.size() == 2)
        return PlaceRows::BarePair{numbers[0], numbers[1]};
    if (numbers.size() > 2)
        refuse(line,
               phrase("core", "This row has %1 numbers, and nothing says which two are the place.")(numbers.size()),
               phrase("core", "Copy the two columns alone, or with a heading such as longitude and latitude."));
    refuse(line, phrase("core", "There is no place in this row."),
           phrase("core", "A row is, for example, 46.208844° N 8.733936° W, or two numbers in two columns."));
}

/// "46,5 8,7": what parts the two is the gap.
bool hasDecimalCommas(std::string_view row) {
    std::size_t words = 0;
    while (!(row = trimmed(row)).empty()) {
        const std::string_view word = row.substr(0, row.find_first_of(" \t"));
        const std::size_t comma = word.find(',');
        if (comma == std::string_view::npos || comma == 0 || comma + 1 >= word.size() || !isDigit(word[comma - 1]) ||
            !isDigit(word[comma + 1]) || word.find(',', comma + 1) != std::string_view::npos)
            return false;
        ++words;
        row.remove_prefix(word.size());
    }
    return words == 2;
}

} // namespace

bool PlaceRows::hasBarePairs() const {
    return std::any_of(rows.begin(), rows.end(),
                       [](const Row& row) { return std::holds_alternative<BarePair>(row.content); });
}

PlaceRows readPlaceRows(std::string_view text, const Progress& progress) {
    const char separator = text.find('\t') != std::string_view::npos  ? '\t'
                           : text.find(';') != std::string_view::npos ? ';'
                                                                      : ',';
    PlaceRows all;
    std::optional<Columns> columns;
    bool isFirst = true;
    std::size_t orderBy = 0;
    const auto length = static_cast<double>(text.size());
    for (std::size_t line = 1; !text.empty(); ++line) {
        if (line % kRowsBetweenReports == 0)
            progress.report(1.0 - static_cast<double>(text.size()) / length, phrase("core", "Reading the rows"));
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view row = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (trimmed(row).empty())
            continue;
        const bool inWords = std::exchange(isFirst, false) && !hasDigits(row);
        const std::vector<std::string> cells = separator == ',' && hasDecimalCommas(row)
                                                   ? std::vector{std::string{trimmed(row)}}
                                                   : cellsOf(row, separator, line);
        if (inWords) {
            columns = columnsOf(cells);
            continue;
        }
        if (all.rows.size() >= kMostRows)
            throw Fault{phrase("core", "These are more than %1 rows.")(kMostRows), "",
                        phrase("core", "Import them as a file instead.")};
        all.rows.push_back({line, placeOf(cells, columns, line)});
        if (const auto* pair = std::get_if<PlaceRows::BarePair>(&all.rows.back().content)) {
            std::optional<AxisOrder> order;
            if (std::abs((*pair)[0]) > 90.0)
                order = AxisOrder::LongitudeFirst;
            if (std::abs((*pair)[1]) > 90.0) {
                if (order)
                    requireLatitude((*pair)[0], line);
                order = AxisOrder::LatitudeFirst;
            }
            if (order && all.order && *order != *all.order)
                refuse(line, phrase("core", "This row has the latitude in another column than row %1.")(orderBy),
                       phrase("core", "Give all rows the same order."));
            if (order && !all.order) {
                all.order = order;
                orderBy = line;
            }
        }
    }
    if (all.rows.empty())
        throw Fault{phrase("core", "There are no rows of coordinates on the clipboard."), "",
                    phrase("core", "Copy them in a spreadsheet or as text, one place a row.")};
    return all;
}

model::LineString placesOf(const PlaceRows& rows, std::optional<AxisOrder> order) {
    model::LineString places;
    places.reserve(rows.rows.size());
    for (const PlaceRows::Row& row : rows.rows) {
        if (const auto* place = std::get_if<model::Position>(&row.content)) {
            places.push_back(*place);
            continue;
        }
        if (!order)
            refuse(row.line, phrase("core", "Two bare numbers do not say which is the latitude."),
                   phrase("core", "Say which order they have."));
        auto [first, second] = std::get<PlaceRows::BarePair>(row.content);
        if (order == AxisOrder::LatitudeFirst)
            std::swap(first, second);
        requireLatitude(second, row.line);
        requireLongitude(first, row.line);
        places.push_back({first, second});
    }
    return places;
}

} // namespace fencewright::geodesy
