#include "desktop/tools/corner_rows.h"

#include "desktop/tools/new_thing.h"
#include "fault.h"

#include <algorithm>

namespace fencewright::desktop {
namespace {

[[noreturn]] void refuseTooFew(const model::Fence& fence, std::size_t fewest) {
    throw Fault{phrase("core", "%1 needs its last %2 corners.")(fence.name, std::to_string(fewest)), "",
                phrase("core", "Leave some, or delete the whole fence.")};
}

std::size_t fewestOf(const model::Fence& fence) {
    return std::holds_alternative<model::DrawnPolygon>(fence.shape) ? 3 : 2;
}

} // namespace

model::Fence withoutCorners(model::Fence fence, std::span<const Corner> corners) {
    const std::vector<EditableLine> lines = editableLines(fence.shape);
    std::vector<std::vector<bool>> goes;
    for (const EditableLine& line : lines)
        goes.emplace_back(line.corners->size(), false);
    for (const Corner& corner : corners)
        if (corner.line < goes.size() && corner.index < goes[corner.line].size())
            goes[corner.line][corner.index] = true;
    std::vector<model::LineString> left;
    for (std::size_t line = 0; line < lines.size(); ++line) {
        left.emplace_back();
        for (std::size_t i = 0; i < goes[line].size(); ++i)
            if (!goes[line][i])
                left.back().push_back((*lines[line].corners)[i]);
    }
    if (left.empty() || left.front().size() < fewestOf(fence))
        refuseTooFew(fence, fewestOf(fence));
    if (auto* drawn = std::get_if<model::DrawnPolygon>(&fence.shape)) {
        drawn->polygon.shell.corners = std::move(left.front());
        auto next = left.begin() + 1;
        for (model::Ring& hole : drawn->polygon.holes)
            if (!hole.corners.empty()) // what has no corners is no line of the table
                hole.corners = std::move(*next++);
        std::erase_if(drawn->polygon.holes, [](const model::Ring& hole) { return hole.corners.size() < 3; });
    } else {
        std::get<model::Corridor>(fence.shape).line = std::move(left.front());
    }
    return fence;
}

model::Fence withRunReplaced(model::Fence fence, const CornerRun& run, model::LineString places) {
    const std::vector<EditableLine> lines = editableLines(fence.shape);
    if (run.line >= lines.size() || run.first + run.count > lines[run.line].corners->size())
        throw Fault{phrase("core", "%1 has no such corner any more.")(fence.name), "",
                    phrase("core", "Choose the corner again.")};
    const model::LineString& old = *lines[run.line].corners;
    const bool isWhole = run.count == old.size();
    if (isWhole && lines[run.line].closed && places.size() > 1 && places.front() == places.back())
        places.pop_back();
    const model::Position* before = run.first > 0 ? &old[run.first - 1] : &old.front();
    for (model::Position& place : places) {
        place = continued(place, *before);
        before = &place;
    }
    model::LineString made{old.begin(), old.begin() + std::ptrdiff_t(run.first)};
    made.insert(made.end(), places.begin(), places.end());
    made.insert(made.end(), old.begin() + std::ptrdiff_t(run.first + run.count), old.end());
    if (made.size() < fewestOf(fence))
        refuseTooFew(fence, fewestOf(fence));
    if (auto* drawn = std::get_if<model::DrawnPolygon>(&fence.shape)) {
        // The lines of the table are the rings that have corners.
        std::size_t line = drawn->polygon.shell.corners.empty() ? 0 : 1;
        if (run.line == 0 && line == 1) {
            drawn->polygon.shell.corners = std::move(made);
            return fence;
        }
        for (model::Ring& hole : drawn->polygon.holes)
            if (!hole.corners.empty() && line++ == run.line) {
                hole.corners = std::move(made);
                break;
            }
    } else {
        std::get<model::Corridor>(fence.shape).line = std::move(made);
    }
    return fence;
}

} // namespace fencewright::desktop
