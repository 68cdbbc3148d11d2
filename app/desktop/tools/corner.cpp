#include "desktop/tools/corner.h"

#include "fault.h"

namespace fencewright::desktop {
namespace {

model::LineString* lineOf(model::Shape& shape, std::size_t line) {
    if (auto* drawn = std::get_if<model::DrawnPolygon>(&shape))
        return line == 0                             ? &drawn->polygon.shell.corners
               : line <= drawn->polygon.holes.size() ? &drawn->polygon.holes[line - 1].corners
                                                     : nullptr;
    auto* corridor = std::get_if<model::Corridor>(&shape);
    return corridor && line == 0 ? &corridor->line : nullptr;
}

model::LineString& lineToEdit(model::Fence& fence, const Corner& corner, std::size_t pastTheEnd) {
    model::LineString* line = lineOf(fence.shape, corner.line);
    if (!line || corner.index >= line->size() + pastTheEnd)
        throw Fault{phrase("core", "%1 has no such corner any more.")(fence.name), "",
                    phrase("core", "Choose the corner again.")};
    return *line;
}

} // namespace

std::vector<EditableLine> editableLines(const model::Shape& shape) {
    std::vector<EditableLine> lines;
    if (const auto* drawn = std::get_if<model::DrawnPolygon>(&shape)) {
        lines.push_back({&drawn->polygon.shell.corners, true});
        for (const model::Ring& hole : drawn->polygon.holes)
            lines.push_back({&hole.corners, true});
    } else if (const auto* corridor = std::get_if<model::Corridor>(&shape)) {
        lines.push_back({&corridor->line, false});
    }
    std::erase_if(lines, [](const EditableLine& line) { return line.corners->empty(); });
    return lines;
}

std::optional<EdgeEnds> endsOf(const model::Fence& fence, const Edge& edge) {
    const std::vector<EditableLine> lines = editableLines(fence.shape);
    if (edge.from.line >= lines.size() || edge.from.index >= lines[edge.from.line].edges())
        return std::nullopt;
    const EditableLine& line = lines[edge.from.line];
    EdgeEnds ends{edge.from, edge.from, (*line.corners)[edge.from.index], line.edgeEnd(edge.from.index), line.closed};
    ends.to.index = (edge.from.index + 1) % line.corners->size();
    return ends;
}

model::Fence withCornerMoved(model::Fence fence, const Corner& corner, const model::Position& place) {
    lineToEdit(fence, corner, 0)[corner.index] = place;
    return fence;
}

model::Fence withCornerInserted(model::Fence fence, const Corner& before, const model::Position& place) {
    model::LineString& line = lineToEdit(fence, before, 1);
    line.insert(line.begin() + static_cast<std::ptrdiff_t>(before.index), place);
    return fence;
}

model::Fence withoutCorner(model::Fence fence, const Corner& corner) {
    model::LineString& line = lineToEdit(fence, corner, 0);
    auto* drawn = std::get_if<model::DrawnPolygon>(&fence.shape);
    const std::size_t fewest = drawn ? 3 : 2;
    if (line.size() > fewest) {
        line.erase(line.begin() + static_cast<std::ptrdiff_t>(corner.index));
        return fence;
    }
    if (drawn && corner.line > 0) {
        drawn->polygon.holes.erase(drawn->polygon.holes.begin() + static_cast<std::ptrdiff_t>(corner.line - 1));
        return fence;
    }
    throw Fault{phrase("core", "%1 needs its last %2 corners.")(fence.name, std::to_string(fewest)), "",
                phrase("core", "To delete the whole fence, click in it first, then press Delete.")};
}

} // namespace fencewright::desktop
