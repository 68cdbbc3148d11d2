#include "compare/permits_more.h"

#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"
#include "geometry/validity.h"
#include "units/measure_notation.h"

#include <algorithm>
#include <cmath>

namespace fencewright::compare {

namespace {

using model::FenceKind;
using model::HeightLimit;
using model::HeightReference;
using model::MultiPolygon;

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

Wording titled(FenceKind kind, const std::string& name) {
    if (name.empty())
        return kind == FenceKind::KeepIn ? phrase("core", "Keep-in without a name")
                                         : phrase("core", "Keep-out without a name");
    return kind == FenceKind::KeepIn ? phrase("core", "Keep-in \"%1\"")(name) : phrase("core", "Keep-out \"%1\"")(name);
}

std::string areaWords(Area area) { return units::formatArea(area, units::System::Metric); }

Area areaOf(const MultiPolygon& surface) { return geodesy::measure(surface).area; }

void shift(model::Ring& ring, double degrees) {
    for (model::Position& corner : ring.corners)
        corner.lon += degrees;
}

/// Files cut at the antimeridian and write longitudes in [-180, 180]; an approved surface runs on across it.
MultiPolygon besides(const MultiPolygon& surface, const MultiPolygon& neighbour) {
    const geometry::Box around = geometry::boxOf(neighbour);
    if (around.empty())
        return surface;
    const double centre = (around.minX + around.maxX) / 2;
    MultiPolygon moved = surface;
    for (model::Polygon& part : moved.parts) {
        const geometry::Box box = geometry::boxOf(part);
        const double turns = std::round((centre - (box.minX + box.maxX) / 2) / 360);
        if (box.empty() || turns == 0)
            continue;
        shift(part.shell, turns * 360);
        for (model::Ring& hole : part.holes)
            shift(hole, turns * 360);
    }
    return moved;
}

bool partsTouch(const MultiPolygon& surface) {
    std::vector<geometry::Box> boxes;
    for (const model::Polygon& part : surface.parts)
        boxes.push_back(geometry::boxOf(part));
    const geometry::SpatialIndex index{boxes};
    for (std::size_t i = 0; i < boxes.size(); ++i)
        for (const std::size_t j : index.meeting(boxes[i]))
            if (j > i && geometry::touches({{surface.parts[i]}}, {{surface.parts[j]}}))
                return true;
    return false;
}

/// What a held surface surely encloses of a keep-out, or may be taken to enclose of a keep-in. Rings that are no valid
/// surface can be read in several ways, and the reading that permits most is the one to judge by.
MultiPolygon mostPermissive(const MultiPolygon& held, FenceKind kind) {
    MultiPolygon surface;
    for (const model::Polygon& part : held.parts) {
        if (geometry::isValid(part)) {
            surface.parts.push_back(part);
            continue;
        }
        const auto side = kind == FenceKind::KeepIn ? geometry::Side::Grow : geometry::Side::Shrink;
        const auto mended = geometry::repaired(part, side);
        surface.parts.insert(surface.parts.end(), mended.surface.parts.begin(), mended.surface.parts.end());
    }
    // Parts that share an edge, as where a file was cut, make one surface only together.
    if (surface.parts.size() > 1 && partsTouch(surface))
        surface = geometry::united(std::span{&surface, 1});
    return surface;
}

Wording limitWords(const std::optional<HeightLimit>& limit) {
    if (!limit)
        return phrase("core", "none");
    const std::string height = units::formatLengthExact(limit->value.length, units::System::Metric);
    if (limit->reference == HeightReference::Ground)
        return phrase("core", "%1 above ground")(height);
    if (limit->reference == HeightReference::MeanSeaLevel)
        return phrase("core", "%1 above mean sea level")(height);
    return phrase("core", "%1 above the ellipsoid")(height);
}

enum class Change { Same, Lower, Higher, Unknown };

/// @param unlimited  what no limit counts as: a missing ceiling lies above all others, a missing floor below.
Change changeOf(const std::optional<HeightLimit>& approved, const std::optional<HeightLimit>& held, Change unlimited) {
    if (!approved && !held)
        return Change::Same;
    if (!held)
        return unlimited;
    if (!approved)
        return unlimited == Change::Higher ? Change::Lower : Change::Higher;
    if (approved->reference != held->reference)
        return Change::Unknown;
    const Length a = approved->value.length;
    const Length h = held->value.length;
    return h == a ? Change::Same : h < a ? Change::Lower : h > a ? Change::Higher : Change::Unknown;
}

/// Nothing flies below the ground: a floor there, or under it, is no floor.
std::optional<HeightLimit> realFloor(const std::optional<HeightLimit>& floor) {
    if (floor && floor->reference == HeightReference::Ground && floor->value.length <= Length::metres(0))
        return std::nullopt;
    return floor;
}

class Comparison {
public:
    Comparison(std::span<const HeldFence> approved, std::span<const HeldFence> held)
        : m_approved{approved}, m_held{held}, m_heldOf(approved.size(), kNone), m_taken(held.size(), false) {}

    std::vector<Difference> run() {
        matchById();
        matchByName();
        for (std::size_t i = 0; i < m_approved.size(); ++i)
            m_heldOf[i] == kNone ? reportMissing(m_approved[i]) : compare(m_approved[i], m_held[m_heldOf[i]]);
        for (std::size_t j = 0; j < m_held.size(); ++j)
            if (!m_taken[j])
                reportAdded(m_held[j]);
        return std::move(m_differences);
    }

private:
    void match(std::size_t approved, std::size_t held) {
        m_heldOf[approved] = held;
        m_taken[held] = true;
    }

    void matchById() {
        for (std::size_t i = 0; i < m_approved.size(); ++i)
            for (std::size_t j = 0; j < m_held.size() && m_heldOf[i] == kNone; ++j)
                if (!m_taken[j] && !m_approved[i].id.empty() && m_held[j].id == m_approved[i].id)
                    match(i, j);
    }

    void matchByName() {
        for (std::size_t i = 0; i < m_approved.size(); ++i) {
            if (m_heldOf[i] != kNone)
                continue;
            // Of several with the name, the one that is most alike: else a mere change of order would read as a move.
            std::size_t best = kNone;
            int bestLikeness = -1;
            for (std::size_t j = 0; j < m_held.size(); ++j) {
                if (m_taken[j] || m_held[j].name != m_approved[i].name)
                    continue;
                const int likeness = likenessOf(m_approved[i], m_held[j]);
                if (likeness > bestLikeness) {
                    best = j;
                    bestLikeness = likeness;
                }
            }
            if (best != kNone)
                match(i, best);
        }
    }

    static int likenessOf(const HeldFence& approved, const HeldFence& held) {
        const MultiPolygon surface = besides(mostPermissive(held.surface, held.kind), approved.surface);
        const bool meets = geometry::touches(surface, approved.surface);
        const bool same = meets && geometry::sameArea(surface, approved.surface);
        return (held.kind == approved.kind ? 4 : 0) + (same ? 2 : meets ? 1 : 0);
    }

    /// Without any keep-in nothing bounds the flight: losing the last one permits everything.
    bool holdsKeepIn() const {
        return std::any_of(m_held.begin(), m_held.end(),
                           [](const HeldFence& fence) { return fence.kind == FenceKind::KeepIn; });
    }

    void add(DifferenceKind kind, const HeldFence& fence, bool permits, Area area, Wording words) {
        m_differences.push_back({kind, fence.name, permits, area, std::move(words)});
    }

    void reportMissing(const HeldFence& fence) {
        const Area area = areaOf(fence.surface);
        const Wording title = titled(fence.kind, fence.name);
        if (fence.kind == FenceKind::KeepOut)
            add(DifferenceKind::Missing, fence, true, area,
                phrase("core", "%1 is missing: nothing keeps the flight out of its %2.")(title, areaWords(area)));
        else if (!holdsKeepIn())
            add(DifferenceKind::Missing, fence, true, area,
                phrase("core", "%1 is missing: no keep-in is left to bound the flight.")(title));
        else
            add(DifferenceKind::Missing, fence, false, area,
                phrase("core", "%1 is missing: its %2 are no longer open to flight.")(title, areaWords(area)));
    }

    void reportAdded(const HeldFence& fence) {
        const Area area = areaOf(fence.surface);
        const bool permits = fence.kind == FenceKind::KeepIn;
        const Wording title = titled(fence.kind, fence.name);
        add(DifferenceKind::Added, fence, permits, area,
            permits ? phrase("core", "%1 was never approved: it opens %2.")(title, areaWords(area))
                    : phrase("core", "%1 was never approved: it closes %2.")(title, areaWords(area)));
    }

    void compare(const HeldFence& approved, const HeldFence& held) {
        if (held.name != approved.name)
            add(DifferenceKind::NameChanged, approved, false, {},
                phrase("core", "%1 is named \"%2\".")(titled(approved.kind, approved.name), held.name));
        if (held.kind != approved.kind) {
            const bool opens = held.kind == FenceKind::KeepIn;
            const Wording title = titled(approved.kind, approved.name);
            add(DifferenceKind::KindChanged, approved, opens || !holdsKeepIn(), areaOf(approved.surface),
                opens ? phrase("core", "%1 is held as a keep-in.")(title)
                      : phrase("core", "%1 is held as a keep-out.")(title));
            return; // larger and smaller mean the opposite for the two kinds
        }
        compareSurfaces(approved, held);
        compareBands(approved, held);
    }

    void compareSurfaces(const HeldFence& approved, const HeldFence& held) {
        const MultiPolygon surface = mostPermissive(besides(held.surface, approved.surface), held.kind);
        const Wording fence = titled(approved.kind, approved.name);
        if (!geometry::contains(approved.surface, surface)) {
            const Area area = areaOf(geometry::difference(surface, approved.surface));
            add(DifferenceKind::Larger, approved, approved.kind == FenceKind::KeepIn, area,
                phrase("core", "%1 reaches beyond what was approved, by %2.")(fence, areaWords(area)));
        }
        if (!geometry::contains(surface, approved.surface)) {
            const Area area = areaOf(geometry::difference(approved.surface, surface));
            add(DifferenceKind::Smaller, approved, approved.kind == FenceKind::KeepOut, area,
                phrase("core", "%1 does not cover all that was approved: %2 are missing.")(fence, areaWords(area)));
        }
    }

    enum class Limit { Floor, Ceiling };

    static Phrase limitPhrase(Limit limit, bool comparable) {
        if (limit == Limit::Ceiling)
            return comparable ? phrase("core", "%1 has another ceiling: approved %2, held %3.")
                              : phrase("core", "%1 has another ceiling: approved %2, held %3; the two cannot be "
                                               "compared, so it may permit more.");
        return comparable ? phrase("core", "%1 has another floor: approved %2, held %3.")
                          : phrase("core", "%1 has another floor: approved %2, held %3; the two cannot be compared, "
                                           "so it may permit more.");
    }

    void compareBands(const HeldFence& approved, const HeldFence& held) {
        const bool keepIn = approved.kind == FenceKind::KeepIn;
        compareLimit(approved, Limit::Ceiling, approved.ceiling, held.ceiling,
                     changeOf(approved.ceiling, held.ceiling, Change::Higher), keepIn ? Change::Higher : Change::Lower);
        const auto approvedFloor = realFloor(approved.floor);
        const auto heldFloor = realFloor(held.floor);
        compareLimit(approved, Limit::Floor, approvedFloor, heldFloor,
                     changeOf(approvedFloor, heldFloor, Change::Lower), keepIn ? Change::Lower : Change::Higher);
    }

    void compareLimit(const HeldFence& fence, Limit limit, const std::optional<HeightLimit>& approved,
                      const std::optional<HeightLimit>& held, Change change, Change permitting) {
        if (change == Change::Same)
            return;
        add(DifferenceKind::BandChanged, fence, change == permitting || change == Change::Unknown, {},
            limitPhrase(limit, change != Change::Unknown)(titled(fence.kind, fence.name), limitWords(approved),
                                                          limitWords(held)));
    }

    std::span<const HeldFence> m_approved;
    std::span<const HeldFence> m_held;
    std::vector<std::size_t> m_heldOf;
    std::vector<bool> m_taken;
    std::vector<Difference> m_differences;
};

} // namespace

std::vector<Difference> differences(std::span<const HeldFence> approved, std::span<const HeldFence> held) {
    return Comparison{approved, held}.run();
}

bool permitsMore(std::span<const Difference> differences) {
    return std::any_of(differences.begin(), differences.end(), [](const Difference& d) { return d.permitsMore; });
}

} // namespace fencewright::compare
