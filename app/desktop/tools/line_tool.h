#pragma once

#include "desktop/tools/line_entry.h"
#include "desktop/tools/tool.h"

#include <utility>

namespace fencewright::desktop {

/// A tool that begins with a line of places.
class LineTool : public Tool {
public:
    /// Leads the line until it is ended.
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override {
        switch (m_line.handle(event, scene)) {
        case LineEntry::Outcome::Going:
            return {};
        case LineEntry::Outcome::Leave:
            return {.edit = {}, .select = {}, .leave = true};
        case LineEntry::Outcome::Done:
            break;
        }
        return drawn(scene);
    }
    QString typedPrompt() const override { return m_line.typedPrompt(); }
    bool wantsSnap() const override { return true; }
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override {
        return m_line.lineSoFar(pointer, wholeBearings);
    }

protected:
    explicit LineTool(LineEntry line) : m_line{std::move(line)} {}

    /// What comes of the line now that it is ended.
    /// @throws Fault  it does not suffice for that: it stays, and goes on.
    virtual ToolAnswer drawn(const ToolScene& /*scene*/) { return {}; }

    LineEntry m_line;
};

} // namespace fencewright::desktop
