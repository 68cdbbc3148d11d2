#pragma once

#include "geometry/boundary_path.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::geometry {

/// Lines that others may follow, with the places where they touch: ways that pass from one to its neighbour.
///
/// Two lines touch where a corner of one lies within kStandsOn of the other, and where their edges cross.
/// Side: exact along each line, whose corners are taken as they are. Where a way passes to a line that does not meet
/// the first to the last bit, both corners are taken; where it leaves an edge amid its length, or two edges cross, the
/// double nearest to that place, which lies beside the edge by rounding more often than on it.
class BoundaryNet {
public:
    /// The corners of the lines have to outlive the net.
    /// @throws Fault  a corner is not finite or beyond a pole.
    explicit BoundaryNet(std::vector<BoundaryLine> lines);

    [[nodiscard]] const std::vector<BoundaryLine>& lines() const { return m_lines; }
    [[nodiscard]] const MeasuredBoundary& measured(std::size_t line) const { return m_measured[line]; }
    /// Where the place stands: one place of each line within kStandsOn of it.
    [[nodiscard]] std::vector<BoundaryPlace> standsOn(const model::Position& place) const;

    /// A stretch along one line; `from` and `to` are places of that line.
    struct Stretch {
        BoundaryPlace from, to;
        Sense sense = Sense::Forward;
    };
    struct Way {
        std::vector<Stretch> stretches;
        Length length;
    };
    enum class Round {
        Shortest,
        Other ///< the shortest of those that set out in another direction than the shortest of all
    };
    /// From one of some places to one of others. Of ways that differ by less than a centimetre a change of line, the
    /// one that changes less often. Nothing: the lines do not lead there.
    [[nodiscard]] std::optional<Way> way(std::span<const BoundaryPlace> from, std::span<const BoundaryPlace> to,
                                         Round round = Round::Shortest) const;
    /// All corners strictly between the ends of a way, in order; where it changes lines the place of that, too.
    [[nodiscard]] model::LineString cornersOf(const Way& way) const;
    /// Where one comes to along a way, and on along its last line in the same sense.
    /// Nothing: that line ends before.
    [[nodiscard]] std::optional<Way> cutOrDrawnTo(const Way& way, Length length) const;

private:
    struct Touch {
        BoundaryPlace one, other;
    };
    void findTouches();
    void touchAt(const BoundaryPlace& one, const BoundaryPlace& other);
    [[nodiscard]] bool meet(const BoundaryPlace& corner, std::size_t line, std::size_t edge);

    std::vector<BoundaryLine> m_lines;
    std::vector<MeasuredBoundary> m_measured;
    std::vector<Touch> m_touches;
};

} // namespace fencewright::geometry
