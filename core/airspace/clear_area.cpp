#include "airspace/clear_area.h"

#include "airspace/detail/active_outlines.h"
#include "geometry/offset.h"

#include <algorithm>
#include <utility>

namespace fencewright::airspace {
namespace {

using geometry::Side;
using Numbered = std::vector<geometry::KeptDifference::Numbered>;

Phrase saying() { return phrase("core", "Taking the margin off"); }

} // namespace

geometry::KeptDifference::Result clearArea(const model::FenceSet& set, const Outlines& outlines, Length margin,
                                           const Moment& moment, const geodesy::GroundHeight& ground) {
    std::uint64_t last = 0;
    return KeptClearArea{}.area(
        set, outlines, [&](const model::FenceId&) { return ++last; }, margin, moment, ground);
}

// A place is in the clear area where it is farther than the margin from all that is no keep-in, and from each keep-out.
// The first is the erosion of the union of keep-ins: part by part, for parts of a union meet in single places at most.
geometry::KeptDifference::Result KeptClearArea::area(const model::FenceSet& set, const Outlines& outlines,
                                                     const KeptOperatingArea::OutlineNumber& number, Length margin,
                                                     const Moment& moment, const geodesy::GroundHeight& ground,
                                                     const Progress& progress) {
    if (std::exchange(m_margin, margin) != margin) {
        m_inner.clear();
        m_outer.clear();
    }
    ++m_questions;
    const auto active = detail::activeOutlines(set, outlines, moment, ground);
    Numbered keepIns;
    for (const auto& one : active.permitted)
        keepIns.push_back({one.outline, number(one.fence->id)});
    takeOffKeepIns(m_union.difference(keepIns, {}, progress).surface, progress);
    Numbered inner;
    for (const Inner& one : m_inner)
        if (!one.moved.surface.empty())
            inner.push_back({&one.moved.surface, one.moved.number});
    if (inner.empty())
        return {};

    Numbered grown;
    for (std::size_t i = 0; i < active.forbidden.size(); ++i) {
        const auto& [fence, outline] = active.forbidden[i];
        const std::uint64_t outlineNumber = number(fence->id);
        Outer& outer = m_outer[fence->id];
        if (outer.moved.number == 0 || outer.outline != outlineNumber) {
            progress.report(static_cast<double>(i) / static_cast<double>(active.forbidden.size()), saying());
            outer.moved = {geometry::grown(*outline, margin, Side::Grow), ++m_lastNumber};
            outer.outline = outlineNumber;
        }
        outer.asked = m_questions;
        grown.push_back({&outer.moved.surface, outer.moved.number});
    }
    auto result = m_difference.difference(inner, grown, progress);
    std::erase_if(m_outer, [this](const auto& entry) { return entry.second.asked != m_questions; });
    return result;
}

void KeptClearArea::takeOffKeepIns(const model::MultiPolygon& permitted, const Progress& progress) {
    const auto known = [this](const model::Polygon& part) {
        return std::find_if(m_inner.begin(), m_inner.end(), [&](const Inner& one) { return one.whole == part; });
    };
    for (std::size_t i = 0; i < permitted.parts.size(); ++i) {
        const model::Polygon& part = permitted.parts[i];
        if (known(part) != m_inner.end())
            continue;
        progress.report(static_cast<double>(i) / static_cast<double>(permitted.parts.size()), saying());
        m_inner.push_back({part, {geometry::eroded({{part}}, m_margin, Side::Shrink), ++m_lastNumber}});
    }
    std::vector<Inner> inOrder;
    for (const model::Polygon& part : permitted.parts)
        inOrder.push_back(std::move(*known(part)));
    m_inner = std::move(inOrder);
}

} // namespace fencewright::airspace
