#pragma once

#include <QKeySequence>
#include <QString>

#include <memory>
#include <span>

namespace fencewright::desktop {

class Tool;

/// A tool as the window offers it. One file a tool, one line in tool_table.cpp.
struct ToolDescription {
    const char* id;   ///< "polygon"
    const char* name; ///< what it makes, for the tooltip and the menu; translated where shown
    const char* key;  ///< a single letter
    const char* icon; ///< resource path of an SVG, drawn in the text colour
    std::unique_ptr<Tool> (*make)();
};

/// In the order of the tool bar.
[[nodiscard]] std::span<const ToolDescription> toolTable();

} // namespace fencewright::desktop
