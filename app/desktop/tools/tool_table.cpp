#include "desktop/tools/tool_table.h"

#include "desktop/tools/polygon_tool.h"
#include "desktop/tools/select_tool.h"

#include <QtGlobal>

#include <array>

namespace fencewright::desktop {

std::span<const ToolDescription> toolTable() {
    using Made = std::unique_ptr<Tool>;
    static constexpr std::array table{
        ToolDescription{"select", QT_TRANSLATE_NOOP("Tools", "Select and edit"), "S", ":/icons/tools/select.svg",
                        [] { return Made{std::make_unique<SelectTool>()}; }},
        ToolDescription{"keepout", QT_TRANSLATE_NOOP("Tools", "Keep-out polygon"), "O", ":/icons/tools/keepout.svg",
                        [] { return Made{std::make_unique<PolygonTool>(model::FenceKind::KeepOut)}; }},
        ToolDescription{"keepin", QT_TRANSLATE_NOOP("Tools", "Keep-in polygon"), "I", ":/icons/tools/keepin.svg",
                        [] { return Made{std::make_unique<PolygonTool>(model::FenceKind::KeepIn)}; }},
    };
    return table;
}

} // namespace fencewright::desktop
