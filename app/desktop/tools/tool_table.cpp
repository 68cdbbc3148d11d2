#include "desktop/tools/tool_table.h"

#include "desktop/tools/circle_tool.h"
#include "desktop/tools/corridor_tool.h"
#include "desktop/tools/cut_tool.h"
#include "desktop/tools/freehand_tool.h"
#include "desktop/tools/hole_tool.h"
#include "desktop/tools/home_tool.h"
#include "desktop/tools/loop_tool.h"
#include "desktop/tools/measure_tool.h"
#include "desktop/tools/parcel_tool.h"
#include "desktop/tools/polygon_tool.h"
#include "desktop/tools/rectangle_tool.h"
#include "desktop/tools/rim_circle_tool.h"
#include "desktop/tools/select_tool.h"
#include "desktop/tools/setback_tool.h"
#include "desktop/tools/turn_tool.h"

#include <QtGlobal>

#include <array>

namespace fencewright::desktop {

std::span<const ToolDescription> toolTable() {
    using Made = std::unique_ptr<Tool>;
    static constexpr std::array table{
        ToolDescription{"select", QT_TRANSLATE_NOOP("Tools", "Select and edit"), "S", ":/icons/select.svg",
                        [] { return Made{std::make_unique<SelectTool>()}; }},
        ToolDescription{"loop", QT_TRANSLATE_NOOP("Tools", "Choose by a loop"), "A", ":/icons/loop.svg",
                        [] { return Made{std::make_unique<LoopTool>()}; }},
        ToolDescription{"turn", QT_TRANSLATE_NOOP("Tools", "Turn and scale"), "G", ":/icons/turn.svg",
                        [] { return Made{std::make_unique<TurnTool>()}; }},
        ToolDescription{"keepout", QT_TRANSLATE_NOOP("Tools", "Keep-out polygon"), "O", ":/icons/keep-out.svg",
                        [] { return Made{std::make_unique<PolygonTool>(model::FenceKind::KeepOut)}; }},
        ToolDescription{"keepin", QT_TRANSLATE_NOOP("Tools", "Keep-in polygon"), "I", ":/icons/keep-in.svg",
                        [] { return Made{std::make_unique<PolygonTool>(model::FenceKind::KeepIn)}; }},
        ToolDescription{"rectangle", QT_TRANSLATE_NOOP("Tools", "Rectangle at any angle"), "R", ":/icons/rectangle.svg",
                        [] { return Made{std::make_unique<RectangleTool>()}; }},
        ToolDescription{"circle", QT_TRANSLATE_NOOP("Tools", "Circle"), "C", ":/icons/circle.svg",
                        [] { return Made{std::make_unique<CircleTool>()}; }},
        ToolDescription{"rimcircle", QT_TRANSLATE_NOOP("Tools", "Circle through three places"), "Y",
                        ":/icons/rim-circle.svg", [] { return Made{std::make_unique<RimCircleTool>()}; }},
        ToolDescription{"corridor", QT_TRANSLATE_NOOP("Tools", "Corridor along a line"), "L", ":/icons/corridor.svg",
                        [] { return Made{std::make_unique<CorridorTool>()}; }},
        ToolDescription{"freehand", QT_TRANSLATE_NOOP("Tools", "Drawn by hand"), "F", ":/icons/freehand.svg",
                        [] { return Made{std::make_unique<FreehandTool>()}; }},
        ToolDescription{"hole", QT_TRANSLATE_NOOP("Tools", "Hole in a polygon"), "E", ":/icons/hole.svg",
                        [] { return Made{std::make_unique<HoleTool>()}; }},
        ToolDescription{"cut", QT_TRANSLATE_NOOP("Tools", "Cut along a line"), "X", ":/icons/cut.svg",
                        [] { return Made{std::make_unique<CutTool>()}; }},
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
