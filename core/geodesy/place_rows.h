#pragma once

#include "model/position.h"
#include "progress.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <variant>
#include <vector>

namespace fencewright::geodesy {

/// How the two bare numbers of a row are meant.
enum class AxisOrder { LatitudeFirst, LongitudeFirst };

/// Places read out of the rows of a table, as a spreadsheet gives them.
struct PlaceRows {
    /// Two bare numbers say a place only once it is known which of them is the latitude.
    using BarePair = std::array<double, 2>;
    struct Row {
        std::size_t line = 0; ///< in the text, from 1
        std::variant<model::Position, BarePair> content;
    };
    std::vector<Row> rows;
    /// The order that bare pairs must have, for one of the numbers is beyond 90; none: they may have either.
    std::optional<AxisOrder> order;

    [[nodiscard]] bool hasBarePairs() const;
};

/// Reads one place a row; the cells of a row stand between tabs, or semicolons where there are no tabs, or commas
/// where there is neither. A place may stand in one cell, or in neighbouring ones, in any notation of parsePosition()
/// that says by letters what is what; cells beside it (a number, a name, a length) are left aside. Without letters a
/// row has exactly two numbers. A heading of words is left aside, and says which column is which where it names a
/// longitude (lon…, lng, x, Läng…) and a latitude (lat…, y, Breit…). Decimal commas are read where they do not part
/// cells. Empty rows are left out.
/// @throws Fault  a row cannot be read, or in more than one way: names its line; there are none, or over a million.
/// @throws Cancelled
[[nodiscard]] PlaceRows readPlaceRows(std::string_view text, const Progress& progress = {});

/// The places in their order, each longitude as it is written.
/// @param order  of bare pairs. @throws Fault  there are bare pairs and no order is given, or a latitude would lie
/// beyond 90 degrees: names the line.
[[nodiscard]] model::LineString placesOf(const PlaceRows& rows, std::optional<AxisOrder> order);

} // namespace fencewright::geodesy
