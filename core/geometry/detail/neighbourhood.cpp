#include "geometry/detail/neighbourhood.h"

#include "geometry/detail/separation.h"
#include "geometry/spatial_index.h"

#include <cstdint>
#include <limits>
#include <unordered_map>
#include <unordered_set>

namespace fencewright::geometry::detail {
namespace {

/// Pairs that overlap, each a few hundred bytes; a thousand surfaces in one heap make half of them. How many there are
/// rests on what is taken alone, so that it does not matter which of them are known already.
constexpr std::size_t kMostPairs = 1'000'000;
constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

Phrase saying() { return phrase("core", "Computing the operating area"); }

Box widened(const Box& box) {
    return {box.minX - kSeparationDegrees, box.minY - kSeparationDegrees, box.maxX + kSeparationDegrees,
            box.maxY + kSeparationDegrees};
}

} // namespace

/// @return  those of which nothing is known yet.
std::vector<std::size_t> Neighbourhood::takeOver(const std::vector<Participant>& all) {
    const auto numberOf = [](const Participant& one) { return 2 * one.contour->id() + (one.removed ? 1 : 0); };
    std::unordered_map<std::uint64_t, std::size_t> before;
    before.reserve(m_all.size());
    for (std::size_t i = 0; i < m_all.size(); ++i)
        if (m_lying[i].known)
            before.emplace(numberOf(m_all[i]), i);
    std::vector<std::size_t> fresh, now(m_all.size(), kNone), from(all.size(), kNone);
    for (std::size_t i = 0; i < all.size(); ++i)
        if (const auto found = before.find(numberOf(all[i])); found != before.end() && now[found->second] == kNone) {
            now[found->second] = i;
            from[i] = found->second;
        } else {
            fresh.push_back(i);
        }
    std::vector<Lying> lying(all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (from[i] == kNone)
            continue;
        Lying& old = m_lying[from[i]];
        Lying& one = lying[i];
        one.known = true;
        one.near = std::move(old.near);
        for (Near& near : one.near)
            near.participant = now[near.participant];
        if (std::erase_if(one.near, [](const Near& near) { return near.participant == kNone; }) == 0)
            one.stretches = std::move(old.stretches);
    }
    m_lying = std::move(lying);
    return fresh;
}

/// @return  whether they overlap or clash.
bool Neighbourhood::look(std::size_t participant, std::size_t other) {
    const auto [first, second] = m_all[participant].contour->id() < m_all[other].contour->id()
                                     ? std::pair{participant, other}
                                     : std::pair{other, participant};
    const auto meeting = std::make_shared<const Meeting>(meetingOf(*m_all[first].contour, *m_all[second].contour));
    if (!meeting->clash && !meeting->overlap())
        return false;
    m_lying[participant].near.push_back({other, meeting});
    m_lying[other].near.push_back({participant, meeting});
    m_lying[other].stretches.reset();
    return true;
}

void Neighbourhood::take(std::vector<Participant> all, const Progress& progress) {
    const auto fresh = takeOver(all);
    m_all = std::move(all);
    std::vector<Box> boxes;
    for (const Participant& one : m_all)
        boxes.push_back(widened(one.contour->box()));
    const SpatialIndex index{boxes};
    std::vector<bool> isFresh(m_all.size(), false);
    for (const std::size_t i : fresh)
        isFresh[i] = true;
    std::size_t ends = 0;
    for (const Lying& one : m_lying)
        ends += one.near.size();
    std::size_t pairs = ends / 2;
    m_isCrowded = pairs > kMostPairs;
    for (std::size_t number = 0; number < fresh.size() && !m_isCrowded; ++number) {
        if (number % 64 == 0)
            progress.report(0.2, saying());
        const std::size_t i = fresh[number];
        for (const std::size_t j : index.meeting(boxes[i]))
            if (j != i && !(isFresh[j] && m_lying[j].known) && look(i, j)) // else it has looked itself
                ++pairs;
        m_lying[i].known = true;
        m_isCrowded = pairs > kMostPairs;
    }
}

std::vector<std::vector<std::size_t>> Neighbourhood::overlapping() const {
    std::vector<std::vector<std::size_t>> result(m_all.size());
    for (std::size_t i = 0; i < m_all.size(); ++i)
        for (const Near& near : m_lying[i].near)
            result[i].push_back(near.participant);
    return result;
}

std::vector<std::pair<std::size_t, std::size_t>> Neighbourhood::clashes() const {
    std::vector<std::pair<std::size_t, std::size_t>> result;
    for (std::size_t i = 0; i < m_all.size(); ++i)
        for (const Near& one : m_lying[i].near)
            if (one.meeting->clash && one.participant > i)
                result.emplace_back(i, one.participant);
    return result;
}

std::vector<std::pair<std::size_t, std::size_t>> Neighbourhood::clashesAtCrossings() const {
    std::vector<std::pair<std::size_t, std::size_t>> result;
    for (std::size_t i = 0; i < m_all.size(); ++i) {
        const std::unordered_set<std::uint64_t> clashing{m_lying[i].stretches->clashing.begin(),
                                                         m_lying[i].stretches->clashing.end()};
        for (const Near& one : m_lying[i].near)
            if (clashing.contains(m_all[one.participant].contour->id()))
                result.emplace_back(i, one.participant);
    }
    return result;
}

std::optional<Joined> Neighbourhood::joined(const Progress& progress) {
    std::vector<const Stretch*> found;
    bool clash = false;
    for (std::size_t i = 0; i < m_all.size(); ++i) {
        if (i % 64 == 0)
            progress.report(0.6, saying());
        if (!m_lying[i].stretches) {
            std::vector<Neighbour> neighbours;
            for (const Near& near : m_lying[i].near) {
                const auto& [contour, removed] = m_all[near.participant];
                neighbours.push_back(
                    {contour.get(), removed, near.meeting.get(), contour->id() < m_all[i].contour->id()});
            }
            m_lying[i].stretches =
                std::make_shared<const Stretches>(stretchesOf(*m_all[i].contour, m_all[i].removed, neighbours));
        }
        clash = clash || !m_lying[i].stretches->clashing.empty();
        for (const Stretch& stretch : m_lying[i].stretches->all)
            found.push_back(&stretch);
    }
    if (clash)
        return std::nullopt;
    progress.report(0.9, saying());
    return detail::joined(found);
}

} // namespace fencewright::geometry::detail
