#include "geometry/kept_difference.h"

#include "geodesy/geodesic.h"
#include "geometry/detail/exact_surface.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/soundness.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

namespace fencewright::geometry {
namespace {

using detail::ExactSurface;
using model::MultiPolygon;
using Numbers = std::vector<std::uint64_t>;

/// What was asked for lately, by its key. Of what the last question did not ask for, nothing is kept.
template <class Key, class Value> class Kept {
public:
    template <class Make> const Value& get(const Key& key, Make make) {
        if (const auto at = m_now.find(key); at != m_now.end())
            return at->second;
        if (auto node = m_before.extract(key))
            return m_now.insert(std::move(node)).position->second;
        return m_now.emplace(key, make()).first->second;
    }
    /// One question is answered.
    void turn() {
        m_before = std::move(m_now);
        m_now.clear();
    }
    /// The question was given up: everything is kept.
    void join() {
        m_now.merge(m_before);
        turn();
    }
    void clear() {
        m_before.clear();
        m_now.clear();
    }

private:
    std::map<Key, Value> m_before, m_now;
};

/// The union of some members of a group that lie together.
struct Union {
    std::uint64_t id = 0;
    bool ofMembers = true; ///< and not of other unions
    Numbers parts;
    MultiPolygon surface;
    std::vector<std::shared_ptr<const Union>> under;
};
using UnionPointer = std::shared_ptr<const Union>;

/// Surfaces that touch one another, in one.
struct Group {
    std::uint64_t id = 0; ///< of these members in this order
    UnionPointer whole;
    Box box;
    Area area;
    [[nodiscard]] const MultiPolygon& surface() const { return whole->surface; }
    /// One ring encloses it all.
    [[nodiscard]] bool isPlain() const { return surface().parts.size() == 1 && surface().parts.front().holes.empty(); }
    /// Made when first needed.
    [[nodiscard]] const ExactSurface& exact() const {
        if (!m_exact)
            m_exact.emplace(surface());
        return *m_exact;
    }

private:
    mutable std::optional<ExactSurface> m_exact;
};
using GroupPointer = std::shared_ptr<const Group>;

/// How a removed group lies to the rest.
enum class Relation {
    Apart,
    Within, ///< plain, and in the inside
    Cuts
};

/// A group less the removed ones that meet its boundary.
struct Remainder {
    MultiPolygon surface;
    std::vector<ExactSurface> exact; ///< of each part
    std::vector<Box> boxes;
    std::vector<Area> areas;
};

/// A given surface as it is worked with: valid, and on the common turn.
struct Piece {
    std::uint64_t number;
    MultiPolygon surface;
    Box box;
};

Piece pieceOf(const KeptDifference::Numbered& given, double longitude) {
    Piece piece{given.number, detail::turnedNear(*given.surface, longitude), {}};
    if (!detail::requireExamined(piece.surface, "operating area")) {
        detail::GeosContext context;
        piece.surface = detail::fromGeos(context, detail::validGeos(context, piece.surface).get());
    }
    piece.box = boxOf(piece.surface);
    return piece;
}

/// The sets of connected numbers 0, 1, ...
class Connected {
public:
    explicit Connected(std::size_t count) : m_parent(count) {
        std::iota(m_parent.begin(), m_parent.end(), std::size_t{0});
    }
    std::size_t root(std::size_t one) {
        while (m_parent[one] != one)
            one = m_parent[one] = m_parent[m_parent[one]];
        return one;
    }
    /// The lesser root stays, so that a set is known by its first member.
    void join(std::size_t a, std::size_t b) {
        a = root(a), b = root(b);
        m_parent[std::max(a, b)] = std::min(a, b);
    }

private:
    std::vector<std::size_t> m_parent;
};

/// A member of a group, and where the middle of its box lies on a grid over a few turns of longitude.
struct Member {
    std::size_t index; ///< among the given surfaces
    std::uint32_t x, y;
};

std::uint32_t onGrid(double degrees) {
    constexpr double reach = 1080.0;
    return static_cast<std::uint32_t>(std::clamp((degrees + reach) / (2.0 * reach), 0.0, 1.0) * 4294967295.0);
}

/// The bit, from 31 down to 0, in which some of them lie apart in either direction; none where all lie in one place.
std::optional<int> highestDifference(std::span<const Member> members) {
    std::uint32_t differing = 0;
    for (const Member& member : members)
        differing |= (member.x ^ members.front().x) | (member.y ^ members.front().y);
    return differing == 0 ? std::nullopt : std::optional{static_cast<int>(std::bit_width(differing)) - 1};
}

Relation relationOf(const Group& whole, const Group& removed) {
    const ExactSurface exact{removed.surface()};
    if (whole.exact().boundariesMeet(exact))
        return Relation::Cuts;
    // No boundary leads across the other: each ring lies on one side as a whole.
    for (const auto& part : whole.surface().parts) {
        const auto inRemoved = [&](const model::Ring& ring) {
            const auto& corner = ring.corners.front();
            return removed.box.meets({corner.lon, corner.lat, corner.lon, corner.lat}) &&
                   exact.locate(corner) != ExactSurface::Location::Outside;
        };
        if (inRemoved(part.shell) || std::any_of(part.holes.begin(), part.holes.end(), inRemoved))
            return Relation::Cuts;
    }
    const auto& corner = removed.surface().parts.front().shell.corners.front();
    if (whole.exact().locate(corner) == ExactSurface::Location::Outside)
        return Relation::Apart;
    return removed.isPlain() ? Relation::Within : Relation::Cuts;
}

Remainder remainderOf(MultiPolygon surface) {
    Remainder made;
    for (const auto& part : surface.parts) {
        made.exact.emplace_back(MultiPolygon{{part}});
        made.boxes.push_back(boxOf(part));
        made.areas.push_back(geodesy::measure(part).area);
    }
    made.surface = std::move(surface);
    return made;
}

} // namespace

struct KeptDifference::Parts {
    double longitude = 0.0;
    Kept<std::pair<std::uint64_t, std::uint64_t>, bool> touching;
    Kept<Numbers, GroupPointer> groups;
    Kept<std::pair<bool, Numbers>, UnionPointer> unions; ///< by whether they are of members, and of which parts
    Kept<std::uint64_t, Box> boxes;                      ///< of surfaces on the common turn
    Kept<std::pair<std::uint64_t, std::uint64_t>, Relation> relations;
    Kept<std::pair<std::uint64_t, Numbers>, std::shared_ptr<const Remainder>> remainders;
    std::uint64_t lastId = 0;

    template <class Each> void forAll(Each each) {
        each(touching), each(groups), each(unions), each(boxes), each(relations), each(remainders);
    }

    std::vector<GroupPointer> groupsOf(std::span<const Numbered> given, const Progress& progress);
    template <class PieceAt>
    UnionPointer unionOf(std::span<Member> members, std::span<const Numbered> given, const PieceAt& piece,
                         const Progress& progress);
    /// Keeps it for the next question, with all that it was made of.
    void keep(const UnionPointer& one) {
        unions.get({one->ofMembers, one->parts}, [&] { return one; });
        for (const UnionPointer& part : one->under)
            keep(part);
    }
};

/// The union of those in each quarter of the smallest square of the grid that holds them all, and of these. So a member
/// that changes leaves three quarters of a group as they were, and three quarters of the fourth; and what it comes to
/// rests on the members alone, not on how they came about.
template <class PieceAt>
UnionPointer KeptDifference::Parts::unionOf(std::span<Member> members, std::span<const Numbered> given,
                                            const PieceAt& piece, const Progress& progress) {
    constexpr std::size_t fewest = 4; // that are worth a division
    const auto bit = highestDifference(members);
    auto made = std::make_shared<Union>();
    made->ofMembers = members.size() <= fewest || !bit;
    if (made->ofMembers) {
        std::sort(members.begin(), members.end(), [](const Member& a, const Member& b) { return a.index < b.index; });
        for (const Member& member : members)
            made->parts.push_back(given[member.index].number);
    } else {
        const auto quarter = [&](const Member& member) {
            return (member.y >> *bit & 1U) * 2 + (member.x >> *bit & 1U);
        };
        std::stable_sort(members.begin(), members.end(),
                         [&](const Member& a, const Member& b) { return quarter(a) < quarter(b); });
        for (std::size_t begin = 0; begin < members.size();) {
            std::size_t end = begin + 1;
            while (end < members.size() && quarter(members[end]) == quarter(members[begin]))
                ++end;
            made->under.push_back(unionOf(members.subspan(begin, end - begin), given, piece, progress));
            made->parts.push_back(made->under.back()->id);
            begin = end;
        }
    }
    return unions.get({made->ofMembers, made->parts}, [&]() -> UnionPointer {
        progress.report(0.4, phrase("core", "Computing the operating area"));
        std::vector<MultiPolygon> surfaces;
        for (const Member& member : members)
            if (made->ofMembers)
                surfaces.push_back(piece(member.index).surface);
        for (const UnionPointer& one : made->under)
            surfaces.push_back(one->surface);
        made->surface = united(surfaces);
        made->id = ++lastId;
        return made;
    });
}

/// Groups in the order of their first members.
std::vector<GroupPointer> KeptDifference::Parts::groupsOf(std::span<const Numbered> given, const Progress& progress) {
    std::vector<std::optional<Piece>> pieces(given.size());
    const auto piece = [&](std::size_t i) -> const Piece& {
        if (!pieces[i])
            pieces[i] = pieceOf(given[i], longitude);
        return *pieces[i];
    };
    std::vector<Box> all(given.size());
    for (std::size_t i = 0; i < given.size(); ++i) {
        if (i % 256 == 0)
            progress.report(0.0, phrase("core", "Computing the operating area"));
        all[i] = boxes.get(given[i].number, [&] { return piece(i).box; });
    }
    Connected connected{given.size()};
    const SpatialIndex index{all};
    for (std::size_t i = 0; i < given.size(); ++i) {
        std::optional<ExactSurface> own; // many neighbours, one preparation
        if (i % 64 == 0)
            progress.report(0.2, phrase("core", "Computing the operating area"));
        for (const std::size_t j : index.meeting(all[i])) {
            if (j <= i)
                continue;
            const auto numbers = std::minmax(given[i].number, given[j].number);
            const bool touch = touching.get({numbers.first, numbers.second}, [&] {
                if (!own)
                    own.emplace(piece(i).surface);
                return own->meets(ExactSurface{piece(j).surface});
            });
            if (touch)
                connected.join(i, j);
        }
    }
    std::vector<std::vector<std::size_t>> members(given.size());
    for (std::size_t i = 0; i < given.size(); ++i)
        if (!all[i].empty())
            members[connected.root(i)].push_back(i);

    std::vector<GroupPointer> result;
    for (const auto& one : members) {
        if (one.empty())
            continue;
        progress.report(0.4, phrase("core", "Computing the operating area"));
        Numbers numbers;
        for (const std::size_t i : one)
            numbers.push_back(given[i].number);
        const GroupPointer& group = groups.get(numbers, [&] {
            std::vector<Member> placed;
            for (const std::size_t i : one)
                placed.push_back({i, onGrid((all[i].minX + all[i].maxX) / 2), onGrid((all[i].minY + all[i].maxY) / 2)});
            auto made = std::make_shared<Group>();
            made->id = ++lastId;
            made->whole = unionOf(std::span{placed}, given, piece, progress);
            made->box = boxOf(made->surface());
            made->area = geodesy::measure(made->surface()).area;
            return made;
        });
        keep(group->whole);
        if (!group->surface().empty())
            result.push_back(group);
    }
    return result;
}

KeptDifference::KeptDifference() : m_parts{std::make_unique<Parts>()} {}
KeptDifference::~KeptDifference() = default;
KeptDifference::KeptDifference(KeptDifference&&) noexcept = default;
KeptDifference& KeptDifference::operator=(KeptDifference&&) noexcept = default;

KeptDifference::Result KeptDifference::difference(std::span<const Numbered> surfaces, std::span<const Numbered> removed,
                                                  const Progress& progress) {
    Parts& kept = *m_parts;
    const auto first =
        std::find_if(surfaces.begin(), surfaces.end(), [](const Numbered& one) { return !one.surface->empty(); });
    if (first == surfaces.end())
        return {};
    // In quarter turns, so that a small change of the first surface leaves everything where it is.
    const double longitude = 90.0 * std::round(detail::middleLongitude(*first->surface) / 90.0);
    if (std::exchange(kept.longitude, longitude) != longitude)
        kept.forAll([](auto& one) { one.clear(); });
    try {
        Result result;
        const auto permitted = kept.groupsOf(surfaces, progress);
        const auto forbidden = kept.groupsOf(removed, progress);
        std::vector<Box> boxes;
        for (const GroupPointer& group : forbidden)
            boxes.push_back(group->box);
        const SpatialIndex index{boxes};
        for (const GroupPointer& whole : permitted) {
            std::vector<const Group*> within, cutting;
            for (const std::size_t i : index.meeting(whole->box)) {
                if (i % 64 == 0)
                    progress.report(0.6, phrase("core", "Computing the operating area"));
                const Group& group = *forbidden[i];
                switch (kept.relations.get({whole->id, group.id}, [&] { return relationOf(*whole, group); })) {
                case Relation::Within:
                    within.push_back(&group);
                    break;
                case Relation::Cuts:
                    cutting.push_back(&group);
                    break;
                case Relation::Apart:
                    break;
                }
            }
            progress.report(0.8, phrase("core", "Computing the operating area"));
            Numbers ids;
            for (const Group* group : cutting)
                ids.push_back(group->id);
            const auto& rest = *kept.remainders.get({whole->id, ids}, [&] {
                if (cutting.empty())
                    return std::make_shared<const Remainder>(remainderOf(whole->surface()));
                MultiPolygon all; // groups do not touch: together they are a surface already
                for (const Group* group : cutting)
                    all.parts.insert(all.parts.end(), group->surface().parts.begin(), group->surface().parts.end());
                return std::make_shared<const Remainder>(remainderOf(geometry::difference(whole->surface(), all)));
            });
            const std::size_t begin = result.surface.parts.size();
            result.surface.parts.insert(result.surface.parts.end(), rest.surface.parts.begin(),
                                        rest.surface.parts.end());
            result.areas.insert(result.areas.end(), rest.areas.begin(), rest.areas.end());
            for (const Group* group : within) {
                model::Ring hole = group->surface().parts.front().shell;
                for (std::size_t part = 0; part < rest.exact.size(); ++part) {
                    if (!rest.boxes[part].meets(group->box) ||
                        (rest.exact.size() > 1 &&
                         rest.exact[part].locate(hole.corners.front()) == ExactSurface::Location::Outside))
                        continue;
                    std::reverse(hole.corners.begin(), hole.corners.end());
                    result.surface.parts[begin + part].holes.push_back(std::move(hole));
                    result.areas[begin + part] = result.areas[begin + part] - group->area;
                    break;
                }
            }
        }
        kept.forAll([](auto& one) { one.turn(); });
        return result;
    } catch (...) {
        kept.forAll([](auto& one) { one.join(); });
        throw;
    }
}

} // namespace fencewright::geometry
