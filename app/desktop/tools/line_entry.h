#pragma once

#include "desktop/tools/tool.h"

#include <optional>
#include <string>
#include <vector>

namespace fencewright::desktop {

/// A line of places set one after another, clicked or typed: the part that all tools which draw lines share.
class LineEntry {
public:
    enum class Closing {
        Open, ///< a line
        Ring  ///< a click on the first place closes it
    };
    explicit LineEntry(Closing closing) : m_closing{closing} {}

    enum class Outcome {
        Going,
        Done, ///< Enter, a double click, or the first place clicked again: what was drawn is meant to stand
        Leave ///< Escape, and nothing was begun
    };
    /// @throws Fault  what was typed is no place and no leg; the line stays as it was.
    Outcome handle(const ToolEvent& event, const ToolScene& scene);

    const model::LineString& places() const { return m_places; }
    bool empty() const { return m_places.empty(); }
    void clear();

    /// Where the next place would be: what is typed, or the pointer. Of a line that is begun.
    model::Position next() const { return m_typed.value_or(m_pointer); }
    /// See Tool::lineSoFar().
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const;
    /// The line, its handles and the read-out, for the canvas.
    void showIn(ToolPreview& preview, units::System units) const;
    /// What can be typed now.
    QString typedPrompt() const;

private:
    static constexpr std::size_t kFewestOfARing = 3;

    const model::Position* before() const { return m_places.size() > 1 ? &m_places[m_places.size() - 2] : nullptr; }
    model::Position directed(const model::Position& place, bool wholeBearings) const;
    void add(const model::Position& place);
    void take(const std::string& text, units::System units);
    /// What is typed leads there; nothing where it is a direction alone.
    std::optional<model::Position> placeFrom(const std::string& text, units::System units,
                                             std::optional<Angle>& direction) const;

    Closing m_closing;
    model::LineString m_places;
    std::vector<std::size_t> m_steps; ///< how many places each step has added: Backspace takes back one step
    model::Position m_pointer;
    std::optional<Angle> m_held;            ///< the direction of the next leg, as typed
    std::optional<model::Position> m_typed; ///< where what is being typed would lead
};

} // namespace fencewright::desktop
