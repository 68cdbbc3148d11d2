#pragma once

#include "desktop/tools/boundary_leg.h"
#include "desktop/tools/tool.h"

#include <optional>
#include <string>
#include <vector>

namespace fencewright::desktop {

/// A line of places set one after another, clicked or typed: the part that all tools which draw lines share. A leg may
/// follow a boundary that is there (W), and takes over its corners where it runs along it anyway.
class LineEntry {
public:
    enum class Closing {
        Open, ///< a line
        Ring  ///< a click on the first place closes it
    };
    enum class Legs {
        MayFollow, ///< along boundaries
        Straight   ///< always: each place has a meaning of its own
    };
    explicit LineEntry(Closing closing, Legs legs = Legs::MayFollow) : m_closing{closing}, m_legs{legs} {}

    enum class Outcome {
        Going,
        Done, ///< Enter, a double click, or the first place clicked again: what was drawn is meant to stand
        Leave ///< Escape, and nothing was begun
    };
    /// @throws Fault  what was typed is no place and no leg; the line stays as it was.
    Outcome handle(const ToolEvent& event, const ToolScene& scene);

    const model::LineString& places() const { return m_places; }
    /// The places as a ring: with the corners of a boundary that its closing edge runs along.
    model::LineString closedRing() const;
    bool empty() const { return m_places.empty(); }
    void clear();

    /// Where the next place would be: what is typed, or the pointer. Of a line that is begun.
    model::Position next() const { return course().end; }
    /// See Tool::lineSoFar().
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const;
    /// The line, its handles and the read-out, for the canvas.
    void showIn(ToolPreview& preview, units::System units) const;
    /// What can be typed now.
    QString typedPrompt() const;
    /// What the next click or key does, as the tool says it, with what the key that follows a boundary would do.
    QString hintWith(const ToolKeys& keys, const QString& words) const;

private:
    static constexpr std::size_t kFewestOfARing = 3;

    const model::Position* before() const { return m_places.size() > 1 ? &m_places[m_places.size() - 2] : nullptr; }
    const BoundaryLeg::Course& course() const { return m_typed ? *m_typed : m_course; }
    model::Position directed(const model::Position& place, bool wholeBearings) const;
    void pointAt(const model::Position& place);
    void standAnew(const ToolScene& scene);
    void add(BoundaryLeg::Course course, const ToolScene& scene);
    void take(const std::string& text, const ToolScene& scene);
    Outcome click(const ToolEvent& event, const ToolScene& scene);
    void stepBack(const ToolScene& scene);
    /// What is typed leads there; nothing where it is a direction alone.
    std::optional<BoundaryLeg::Course> courseFrom(const std::string& text, units::System units,
                                                  std::optional<Angle>& direction);
    BoundaryLeg::Course courseAlong(const std::string& text, units::System units);

    Closing m_closing;
    Legs m_legs;
    model::LineString m_places;
    std::vector<std::size_t> m_steps; ///< how many places each step has added: Backspace takes back one step
    model::Position m_pointer;
    std::optional<Angle> m_held;                ///< the direction of the next leg, as typed
    BoundaryLeg m_boundary;                     ///< that begins at the last place
    BoundaryLeg::Course m_course;               ///< to the pointer
    std::optional<BoundaryLeg::Course> m_typed; ///< where what is being typed would lead
};

} // namespace fencewright::desktop
