#include "desktop/tools/tool_table.h"

#include "desktop/tools/circle_tool.h"
#include "desktop/tools/home_tool.h"
#include "desktop/tools/measure_tool.h"
#include "desktop/tools/parcel_tool.h"
#include "desktop/tools/polygon_tool.h"
#include "desktop/tools/select_tool.h"
#include "desktop/tools/setback_tool.h"

#include <QtGlobal>

#include <array>

namespace fencewright::desktop {

std::span<const ToolDescription> toolTable() {
    using Made = std::unique_ptr<Tool>;
    static constexpr std::array table{
        ToolDescription{"select", QT_TRANSLATE_NOOP("Tools", "Select and edit"), "S", ":/icons/select.svg",
                        [] { return Made{std::make_unique<SelectTool>()}; }},
        ToolDescription{"keepout", QT_TRANSLATE_NOOP("Tools", "Keep-out polygon"), "O", ":/icons/keep-out.svg",
                        [] { return Made{std::make_unique<PolygonTool>(model::FenceKind::KeepOut)}; }},
        ToolDescription{"keepin", QT_TRANSLATE_NOOP("Tools", "Keep-in polygon"), "I", ":/icons/keep-in.svg",
                        [] { return Made{std::make_unique<PolygonTool>(model::FenceKind::KeepIn)}; }},
        ToolDescription{"circle", QT_TRANSLATE_NOOP("Tools", "Circle"), "C", ":/icons/circle.svg",
                        [] { return Made{std::make_unique<CircleTool>()}; }},
        ToolDescription{"parcels", QT_TRANSLATE_NOOP("Tools", "Fence of parcels"), "P", ":/icons/parcels.svg",
                        [] { return Made{std::make_unique<ParcelTool>()}; }},
        ToolDescription{"setback", QT_TRANSLATE_NOOP("Tools", "Setback of a site"), "T", ":/icons/setback.svg",
                        [] { return Made{std::make_unique<SetbackTool>()}; }},
        ToolDescription{"home", QT_TRANSLATE_NOOP("Tools", "Home or alternate"), "H", ":/icons/home.svg",
                        [] { return Made{std::make_unique<HomeTool>()}; }},
        ToolDescription{"measure", QT_TRANSLATE_NOOP("Tools", "Measure"), "M", ":/icons/measure.svg",
                        [] { return Made{std::make_unique<MeasureTool>()}; }},
    };
    return table;
}

} // namespace fencewright::desktop
