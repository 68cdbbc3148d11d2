#pragma once

#include "model/position.h"
#include "units/length.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::geometry {

// Ways along a line that is there already: a ring of a neighbour, the line of a corridor. The corners of such a way are
// the neighbour's, to the last bit, so that two areas which share a boundary share it exactly. Edges are straight in
// longitude and latitude. Side: exact, but conformedTo(), which says what it moves.

/// How near to a line a place lies that was set on it: drawn to it, or typed.
inline constexpr Length kStandsOn = Length::metres(0.005);

/// A line that others may follow. Holds as long as its corners do.
struct BoundaryLine {
    std::span<const model::Position> corners;
    bool closed = true; ///< the last corner leads back to the first

    [[nodiscard]] std::size_t edges() const {
        return corners.empty() ? 0 : closed ? corners.size() : corners.size() - 1;
    }
};

/// A place on one of several lines. A corner is the begin of its edge (`along` 0); the end of an open line is the end
/// of its last edge (`along` 1).
struct BoundaryPlace {
    std::size_t line = 0;
    std::size_t edge = 0; ///< it leads from the corner of that number to the next
    double along = 0.0;   ///< in [0, 1]

    bool operator==(const BoundaryPlace&) const = default;
};

struct NearestOnBoundary {
    BoundaryPlace at;
    model::Position place; ///< on the turn of longitude of the place it is near to; there a corner is the very corner
    Length distance;
};

/// The place on the lines that is nearest to `place`; of equals the one of the first line. None: no line has an edge.
/// What lies within a micrometre of a corner is the corner.
/// Error: distances as in a plane with the scales of the ellipsoid at `place`: 0.1 % within 5 km.
/// @throws Fault  the place is not finite or beyond a pole.
[[nodiscard]] std::optional<NearestOnBoundary> nearestOn(std::span<const BoundaryLine> lines,
                                                         const model::Position& place);

/// Where the place is; of a corner the very corner.
[[nodiscard]] model::Position placeOn(const BoundaryLine& line, const BoundaryPlace& at);

/// In which order the corners come.
enum class Sense { Forward, Backward };
[[nodiscard]] constexpr Sense opposite(Sense sense) {
    return sense == Sense::Forward ? Sense::Backward : Sense::Forward;
}

/// All corners strictly between two places, in the order in which one comes to them, exactly as they are. From a place
/// to itself there are none.
/// @pre  of an open line, `to` lies in that sense from `from` (as shorterSense() says).
[[nodiscard]] model::LineString pathAlong(const BoundaryLine& line, const BoundaryPlace& from, const BoundaryPlace& to,
                                          Sense sense);

/// A line with the lengths of its edges on the ground, for many questions.
/// Error: 1e-5 of a metre an edge (those under a hundredth of a degree are taken as geodesics).
class MeasuredBoundary {
public:
    /// @throws Fault  a corner is not finite or beyond a pole.
    explicit MeasuredBoundary(const BoundaryLine& line);

    /// Along the line from one place to another; of an open line the sense is of no meaning.
    [[nodiscard]] Length between(const BoundaryPlace& from, const BoundaryPlace& to, Sense sense) const;
    /// The sense in which the way is shorter: of two equal ones forward; of an open line the only one.
    [[nodiscard]] Sense shorterSense(const BoundaryPlace& from, const BoundaryPlace& to) const;
    /// Where one comes to along the line. Nothing: an open line ends before, or a closed one is not that long.
    [[nodiscard]] std::optional<BoundaryPlace> after(const BoundaryPlace& from, Length length, Sense sense) const;

private:
    [[nodiscard]] double metresTo(const BoundaryPlace& at) const;

    BoundaryLine m_line;
    std::vector<double> m_metresTo; ///< each corner from the first; of a closed line all around at the end
};

/// The corners of the line between two places, where a straight leg from the one to the other is so near to that
/// stretch of the line (`within` of each corner) that it can only be meant to run along it: with them, the leg leaves
/// no sliver. Nothing where the line goes farther off in both senses. Of both, the one with fewer corners.
/// Side: neither; moves what the leg encloses by at most `within`, to what is seen anyway.
/// @param from,to  the ends of the leg; @param fromAt,toAt  their places on the line.
/// Error: as nearestOn(), of `within`.
[[nodiscard]] std::optional<model::LineString> conformedTo(const BoundaryLine& line, const model::Position& from,
                                                           const BoundaryPlace& fromAt, const model::Position& to,
                                                           const BoundaryPlace& toAt, Length within);

} // namespace fencewright::geometry
