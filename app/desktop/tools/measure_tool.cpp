#include "desktop/tools/measure_tool.h"

#include "desktop/tools/leg.h"
#include "geodesy/geodesic.h"

namespace fencewright::desktop {
namespace {

constexpr std::size_t kMostLabelled = 200;

QString words(Length length, units::System units) { return QString::fromStdString(units::formatLength(length, units)); }

/// Along geodesics from place to place.
Length wayAlong(const model::LineString& places) {
    Length way;
    for (std::size_t i = 1; i < places.size(); ++i)
        way = way + geodesy::inverse(places[i - 1], places[i]).length;
    return way;
}

geodesy::RingMeasure ringOf(const model::LineString& places) {
    return geodesy::measure(model::Ring{places}, geodesy::EdgeMeaning::Geodesic);
}

QString areaWords(Area area, units::System units) { return QString::fromStdString(units::formatArea(area, units)); }

} // namespace

ToolAnswer MeasureTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    if (m_stage != Stage::Going) {
        switch (event.kind) {
        case Kind::Click:
        case Kind::Typed:
        case Kind::Escape:
            m_line.clear();
            m_stage = Stage::Going;
            if (event.kind == Kind::Escape)
                return {};
            break;
        case Kind::StepBack:
            m_stage = Stage::Going; // the line goes on
            break;
        default:
            return {};
        }
    }
    switch (m_line.handle(event, scene)) {
    case LineEntry::Outcome::Going:
        // A line of two places is long enough to be ended by a double click.
        if (event.kind == Kind::DoubleClick && m_line.places().size() > 1)
            m_stage = Stage::Line;
        break;
    case LineEntry::Outcome::Leave:
        return {.edit = {}, .select = {}, .leave = true};
    case LineEntry::Outcome::Done:
        if (m_line.places().size() > 1)
            m_stage = event.kind == Kind::Click ? Stage::Ring : Stage::Line;
        break;
    }
    return {};
}

QString MeasureTool::resultWords(units::System units) const {
    const model::LineString& places = m_line.places();
    if (m_stage == Stage::Ring) {
        const geodesy::RingMeasure ring = ringOf(places);
        return tr("%1 around · %2").arg(words(ring.perimeter, units), areaWords(ring.area, units));
    }
    return tr("%1 in all").arg(words(wayAlong(places), units));
}

ToolPreview MeasureTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    const model::LineString& places = m_line.places();
    if (places.empty())
        return preview;
    if (m_stage == Stage::Going) {
        m_line.showIn(preview, scene.units);
        preview.closed = false;                                // no comb: nothing is forbidden on either side
        preview.readout = preview.readout.section('\n', 0, 0); // of the earth here, and not of a fence
        if (places.size() > 1)
            preview.readout += '\n' + tr("%1 in all").arg(words(wayAlong(preview.line), scene.units));
        if (places.size() > 1)
            preview.readout += " · " + areaWords(ringOf(preview.line).area, scene.units);
    } else {
        preview.line = places;
        if (m_stage == Stage::Ring)
            preview.line.push_back(places.front());
        preview.handles = places;
    }
    // Along a boundary there may be thousands: nobody reads them.
    for (std::size_t i = 1; i < preview.line.size() && preview.line.size() <= kMostLabelled; ++i)
        if (!preview.follows || i + 1 < preview.line.size())
            preview.labels.emplace_back(model::Position{(preview.line[i - 1].lon + preview.line[i].lon) / 2.0,
                                                        (preview.line[i - 1].lat + preview.line[i].lat) / 2.0},
                                        lengthAndBearing(preview.line[i - 1], preview.line[i], scene.units));
    if (m_stage == Stage::Ring) {
        model::Position middle;
        for (const model::Position& place : places) {
            middle.lon += place.lon / double(places.size());
            middle.lat += place.lat / double(places.size());
        }
        preview.labels.emplace_back(middle, resultWords(scene.units));
    } else if (m_stage == Stage::Line && places.size() > 2) {
        preview.labels.emplace_back(places.back(), resultWords(scene.units));
    }
    return preview;
}

QString MeasureTool::hint(const ToolScene& scene) const {
    if (m_stage != Stage::Going)
        return tr("Click where to measure from. “Copy” takes along what was measured.");
    if (m_line.empty())
        return tr("Click where to measure from.");
    if (m_line.places().size() < 3)
        return m_line.hintWith(scene.keys,
                               tr("Click the next place, or type a distance and a bearing. Enter ends the line."));
    return m_line.hintWith(
        scene.keys, tr("Click the next place; the first one closes a ring and gives its area. Enter ends the line."));
}

QString MeasureTool::typedPrompt() const {
    return m_stage != Stage::Going ? tr("Coordinates of the first place") : m_line.typedPrompt();
}

QString MeasureTool::copiedText(const ToolScene& scene) const {
    const model::LineString& places = m_line.places();
    if (places.size() < 2)
        return {};
    model::LineString line = places;
    if (m_stage == Stage::Ring)
        line.push_back(places.front());
    QStringList lines;
    for (std::size_t i = 1; i < line.size(); ++i)
        lines << lengthAndBearing(line[i - 1], line[i], scene.units);
    lines << resultWords(scene.units);
    return lines.join('\n');
}

} // namespace fencewright::desktop
