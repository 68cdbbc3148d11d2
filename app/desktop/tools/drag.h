#pragma once

#include <QCoreApplication>

#include "desktop/tools/conformed_edges.h"
#include "desktop/tools/grip.h"
#include "desktop/tools/shared_corners.h"
#include "model/fence_set.h"

#include <optional>
#include <string>

namespace fencewright::desktop {

/// An edit made from another state of the set, as one that does the same to the set as it is.
/// @param back  puts in place what was there before, not what comes after.
model::Edit rebased(const model::Edit& edit, const model::FenceSet& set, bool back = false);

/// Something that was taken hold of, and the set as it was then. Every frame of a drag, and what is typed during or
/// after it, is worked out from that state: nothing adds up.
class Drag {
    Q_DECLARE_TR_FUNCTIONS(Drag)

public:
    /// @param press  where it was taken hold of.
    /// @throws Fault  it cannot be moved: why.
    Drag(Grip grip, const model::Position& press, std::uint64_t gesture, const ToolScene& scene);

    const Grip& grip() const { return m_grip; }
    /// The place of what is held that comes to the pointer, or moves by as much as the pointer: a corner, most often.
    const model::Position& start() const { return m_start; }
    model::Position aim(const model::Position& pointer) const;

    /// The edit that brings what is held there.
    /// @throws Fault  it cannot be there.
    ToolAnswer to(const model::Position& place, bool wholeSteps, const ToolScene& scene);
    /// A distance and a bearing from where it was, coordinates, an edge's distance, a radius.
    /// @throws Fault  it cannot be read.
    ToolAnswer typed(const std::string& text, const ToolScene& scene);
    /// What typed() would do, in words; empty: it cannot be read yet.
    QString wordsFor(const std::string& text, const ToolScene& scene) const;
    QString typedPrompt() const;
    /// What is still to be done once it is let go: edges that run along boundaries now get the corners of these. What
    /// is typed is meant exactly, and nothing is done to it.
    std::optional<model::Edit> settled(const ToolScene& scene);
    /// Everything as it was.
    std::optional<model::Edit> back(const ToolScene& scene) const;

    /// Whether the set still has what the drag made of it.
    bool stands(const model::FenceSet& set) const;
    /// What is selected while it is held.
    Selection held() const;
    /// What moves, and is not to be snapped to.
    Selection moving() const { return m_moving; }
    bool wantsSnap() const;
    /// What the hold on it was taken by, once it is moved: the corner that is chosen then.
    std::optional<Corner> corner() const;
    /// Likewise the edge; none once it has become several.
    std::optional<Edge> edge() const;

    /// How far it has been moved, in words.
    const QString& readout() const { return m_readout; }

private:
    struct Way {
        model::Edit edit;
        QString words;
    };
    Way way(const model::Position& place, bool wholeSteps, units::System units) const;
    Way edgeWay(Length outward, units::System units) const;
    Way rimWay(StatedLength radius, units::System units) const;
    Way typedWay(const std::string& text, units::System units) const;
    Length outwardOf(const model::Position& place) const;
    ToolAnswer take(Way way, const ToolScene& scene);

    Grip m_grip;
    model::Position m_press;
    model::Position m_start;
    std::uint64_t m_gesture;
    model::FenceSet m_before;
    /// Of a corner or an edge: the corners of which each comes along; of a midpoint, where one is inserted.
    std::vector<Corner> m_together, m_otherEnd;
    Selection m_moving;
    model::Position m_place;           ///< where it is now
    std::optional<model::Edit> m_last; ///< from the state at the press
    std::vector<CornersInserted> m_settled;
    QString m_readout;
};

} // namespace fencewright::desktop
