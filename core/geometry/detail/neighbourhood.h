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

    /// Whether so many overlap that it would take gigabytes to know how: then nothing else is to be asked.
    [[nodiscard]] bool isCrowded() const { return m_isCrowded; }

    /// Of the participants by their places: those that overlap, and those that clash.
    [[nodiscard]] std::vector<std::vector<std::size_t>> overlapping() const;
    [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> clashes() const;

    /// The surface. Nothing where some clash at their crossings. Only where there are no clashes().
    /// @throws Cancelled  likewise.
    [[nodiscard]] std::optional<Joined> joined(const Progress& progress);
    /// Those that joined() came upon. Only after it has answered nothing: what is kept of earlier questions is no
    /// answer to this one.
    [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> clashesAtCrossings() const;

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
    bool look(std::size_t participant, std::size_t other);

    std::vector<Participant> m_all;
    std::vector<Lying> m_lying; ///< of each
    bool m_isCrowded = false;
};

} // namespace fencewright::geometry::detail
