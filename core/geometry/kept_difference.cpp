#include "geometry/kept_difference.h"

#include "geometry/detail/contour.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/neighbourhood.h"
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

using detail::Contour;
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
    /// What the last question asked for.
    template <class Visit> void forEach(Visit visit) const {
        for (const auto& [key, value] : m_before)
            visit(value);
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

/// What takes part in the overlay: a given surface, or what several come to that only an overlay on a grid can be
/// trusted with.
struct Participant {
    Box box;
    std::shared_ptr<const Contour> contour; ///< null where it is empty
    std::vector<UnionPointer> madeOf;
};

/// A participant and what it is made of, by the numbers of given surfaces in their order.
struct Made {
    std::vector<std::size_t> surfaces, removed;
    const Participant* participant = nullptr;
    [[nodiscard]] bool isRemoved() const { return surfaces.empty(); }
};

Phrase saying() { return phrase("core", "Computing the operating area"); }

/// The given surfaces of one question, brought into shape when first needed.
class Given {
public:
    Given(std::span<const KeptDifference::Numbered> all, double longitude)
        : m_all{all}, m_longitude{longitude}, m_pieces(all.size()) {}

    [[nodiscard]] std::size_t size() const { return m_all.size(); }
    [[nodiscard]] std::uint64_t number(std::size_t i) const { return m_all[i].number; }
    [[nodiscard]] Numbers numbers(const std::vector<std::size_t>& some) const {
        Numbers result;
        for (const std::size_t i : some)
            result.push_back(m_all[i].number);
        return result;
    }
    [[nodiscard]] const Piece& piece(std::size_t i) const {
        if (!m_pieces[i])
            m_pieces[i] = pieceOf(m_all[i], m_longitude);
        return *m_pieces[i];
    }

private:
    std::span<const KeptDifference::Numbered> m_all;
    double m_longitude;
    mutable std::vector<std::optional<Piece>> m_pieces;
};

} // namespace

struct KeptDifference::Parts {
    double longitude = 0.0;
    Kept<std::uint64_t, Participant> single;
    Kept<std::pair<Numbers, Numbers>, Participant> several; ///< by surfaces and removed
    Kept<std::pair<bool, Numbers>, UnionPointer> unions;    ///< by whether they are of members, and of which parts
    /// Of the given surfaces, and then with those that clash made one, again and again.
    std::vector<detail::Neighbourhood> rounds;
    std::uint64_t lastId = 0;

    template <class Each> void forAll(Each each) { each(single), each(several), each(unions); }

    UnionPointer unionOf(std::span<Member> members, const Given& given, const Progress& progress);
    UnionPointer unionOf(const std::vector<std::size_t>& some, const Given& given, const Progress& progress);
    const Participant& participant(const Made& made, const Given& surfaces, const Given& removed,
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
UnionPointer KeptDifference::Parts::unionOf(std::span<Member> members, const Given& given, const Progress& progress) {
    constexpr std::size_t fewest = 4; // that are worth a division
    const auto bit = highestDifference(members);
    auto made = std::make_shared<Union>();
    made->ofMembers = members.size() <= fewest || !bit;
    if (made->ofMembers) {
        std::sort(members.begin(), members.end(), [](const Member& a, const Member& b) { return a.index < b.index; });
        for (const Member& member : members)
            made->parts.push_back(given.number(member.index));
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
            made->under.push_back(unionOf(members.subspan(begin, end - begin), given, progress));
            made->parts.push_back(made->under.back()->id);
            begin = end;
        }
    }
    return unions.get({made->ofMembers, made->parts}, [&]() -> UnionPointer {
        progress.report(0.4, saying());
        std::vector<MultiPolygon> surfaces;
        for (const Member& member : members)
            if (made->ofMembers)
                surfaces.push_back(given.piece(member.index).surface);
        for (const UnionPointer& one : made->under)
            surfaces.push_back(one->surface);
        made->surface = united(surfaces);
        made->id = ++lastId;
        return made;
    });
}

UnionPointer KeptDifference::Parts::unionOf(const std::vector<std::size_t>& some, const Given& given,
                                            const Progress& progress) {
    std::vector<Member> placed;
    for (const std::size_t i : some) {
        const Box& box = given.piece(i).box;
        placed.push_back({i, onGrid((box.minX + box.maxX) / 2), onGrid((box.minY + box.maxY) / 2)});
    }
    return unionOf(std::span{placed}, given, progress);
}

const Participant& KeptDifference::Parts::participant(const Made& made, const Given& surfaces, const Given& removed,
                                                      const Progress& progress) {
    const auto participantOf = [this](const MultiPolygon& surface) {
        Participant one{boxOf(surface), {}, {}};
        if (!one.box.empty())
            one.contour = std::make_shared<const Contour>(surface, ++lastId);
        return one;
    };
    if (made.surfaces.size() + made.removed.size() == 1) {
        const Given& given = made.isRemoved() ? removed : surfaces;
        const std::size_t i = made.isRemoved() ? made.removed.front() : made.surfaces.front();
        return single.get(given.number(i), [&] { return participantOf(given.piece(i).surface); });
    }
    const Participant& result = several.get({surfaces.numbers(made.surfaces), removed.numbers(made.removed)}, [&] {
        std::vector<UnionPointer> wholes;
        for (const auto& [some, given] : {std::pair{&made.surfaces, &surfaces}, std::pair{&made.removed, &removed}})
            if (!some->empty())
                wholes.push_back(unionOf(*some, *given, progress));
        Participant one =
            participantOf(wholes.size() == 1 ? wholes.front()->surface
                                             : geometry::difference(wholes.front()->surface, wholes.back()->surface));
        one.madeOf = std::move(wholes);
        return one;
    });
    for (const UnionPointer& one : result.madeOf)
        keep(one);
    return result;
}

namespace {

/// Those that clash in one each, and with them, where surfaces clash with removed ones, the surfaces that these take
/// something off: they are not there any more afterwards.
std::vector<Made> withClashesMade(const std::vector<Made>& all,
                                  const std::vector<std::vector<std::size_t>>& overlapping,
                                  const std::vector<std::pair<std::size_t, std::size_t>>& clashes) {
    Connected connected{all.size()};
    for (const auto& [a, b] : clashes)
        connected.join(a, b);
    for (bool more = true; std::exchange(more, false);) {
        std::vector<bool> hasSurfaces(all.size(), false);
        for (std::size_t i = 0; i < all.size(); ++i)
            if (!all[i].isRemoved())
                hasSurfaces[connected.root(i)] = true;
        for (std::size_t i = 0; i < all.size(); ++i)
            if (all[i].isRemoved() && hasSurfaces[connected.root(i)])
                for (const std::size_t j : overlapping[i])
                    if (!all[j].isRemoved() && connected.root(i) != connected.root(j)) {
                        connected.join(i, j);
                        more = true;
                    }
    }
    std::vector<Made> result;
    std::vector<std::size_t> places(all.size(), all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        const std::size_t root = connected.root(i);
        if (places[root] == all.size()) {
            places[root] = result.size();
            result.push_back(all[i]);
            continue;
        }
        Made& one = result[places[root]];
        one.surfaces.insert(one.surfaces.end(), all[i].surfaces.begin(), all[i].surfaces.end());
        one.removed.insert(one.removed.end(), all[i].removed.begin(), all[i].removed.end());
        one.participant = nullptr;
    }
    for (Made& one : result) {
        std::sort(one.surfaces.begin(), one.surfaces.end());
        std::sort(one.removed.begin(), one.removed.end());
    }
    return result;
}

} // namespace

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
        kept.forAll([](auto& one) { one.clear(); }), kept.rounds.clear();
    try {
        const Given permitted{surfaces, longitude}, forbidden{removed, longitude};
        std::vector<Made> all;
        for (std::size_t i = 0; i < surfaces.size(); ++i)
            all.push_back({{i}, {}, nullptr});
        for (std::size_t i = 0; i < removed.size(); ++i)
            all.push_back({{}, {i}, nullptr});
        for (std::size_t round = 0;; ++round) {
            for (std::size_t i = 0; i < all.size(); ++i) {
                if (i % 256 == 0)
                    progress.report(0.0, saying());
                if (!all[i].participant)
                    all[i].participant = &kept.participant(all[i], permitted, forbidden, progress);
            }
            std::erase_if(all, [](const Made& one) { return !one.participant->contour; });
            std::vector<detail::Neighbourhood::Participant> participants;
            for (const Made& one : all)
                participants.push_back({one.participant->contour, one.isRemoved()});
            if (kept.rounds.size() == round)
                kept.rounds.emplace_back();
            detail::Neighbourhood& neighbourhood = kept.rounds[round];
            neighbourhood.take(std::move(participants), progress);
            const bool crowded = neighbourhood.isCrowded();
            auto clashes = crowded ? std::vector<std::pair<std::size_t, std::size_t>>{} : neighbourhood.clashes();
            std::optional<detail::Joined> found;
            if (!crowded && clashes.empty() && !(found = neighbourhood.joined(progress))) {
                clashes = neighbourhood.clashesAtCrossings();
                if (clashes.empty() && all.size() < 2)
                    detail::GeosContext{}.fail("operating area");
            }
            if (!found && clashes.empty()) // they are crowded, or fail to join, which no test has come upon
                for (std::size_t i = 1; i < all.size(); ++i)
                    clashes.emplace_back(0, i);
            if (!found) {
                all = withClashesMade(all, neighbourhood.overlapping(), clashes);
                continue;
            }
            kept.rounds.resize(round + 1);
            kept.forAll([](auto& one) { one.turn(); });
            const auto dropIndex = [](const Participant& one) {
                if (one.contour)
                    one.contour->dropIndexUnlessUsed();
            };
            kept.single.forEach(dropIndex);
            kept.several.forEach(dropIndex);
            return {std::move(found->surface), std::move(found->areas)};
        }
    } catch (...) {
        kept.forAll([](auto& one) { one.join(); });
        throw;
    }
}

} // namespace fencewright::geometry
