#pragma once

#include "geometry/detail/contour.h"
#include "geometry/detail/stretches.h"
#include "progress.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace fencewright::geometry::detail {

/// The contours of an overlay, how they lie to one another, and what of them bounds the result. What is known of those
/// that were there in the last question is taken over, so that one that changes costs what lies around it.
class Neighbourhood {
public:
    struct Participant {
        std::shared_ptr<const Contour> contour; ///< not empty; its id stands for it
        bool removed;
    };

    /// @throws Cancelled  what was worked out until then is taken over by the next one.
    void take(std::vector<Participant> all, const Progress& progress);

    /// Of the participants by their places: those that overlap, and those that clash. After joined(), with those that
    /// it came upon.
    [[nodiscard]] std::vector<std::vector<std::size_t>> overlapping() const;
    [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> clashes() const;

    /// The surface. Nothing where some clash. Only where none of those taken do.
    /// @throws Cancelled  likewise.
    [[nodiscard]] std::optional<Joined> joined(const Progress& progress);

private:
    struct Near {
        std::size_t participant;
        std::shared_ptr<const Meeting> meeting;
    };
    struct Lying {
        std::vector<Near> near; ///< what it overlaps, and what it clashes with
        std::shared_ptr<const Stretches> stretches;
        bool known = false; ///< near is whole, but for those that are not known
    };

    std::vector<std::size_t> takeOver(const std::vector<Participant>& all);
    void look(std::size_t participant, std::size_t other);

    std::vector<Participant> m_all;
    std::vector<Lying> m_lying; ///< of each
};

} // namespace fencewright::geometry::detail
