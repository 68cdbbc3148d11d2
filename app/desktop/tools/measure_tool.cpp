#include "desktop/tools/measure_tool.h"

#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"

namespace fencewright::desktop {

ToolAnswer MeasureTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    const bool running = !m_places.empty() && !m_ended;
    const model::Position place =
        running && event.constrain ? onWholeBearing(m_places.back(), event.place) : event.place;
    switch (event.kind) {
    case Kind::Hover:
        m_pointer = running ? continued(place, m_places.back()) : place;
        break;
    case Kind::Click:
        add(place);
        break;
    case Kind::Typed:
        add(running ? endOf(parseLeg(event.text, scene.units), m_places.back(), m_pointer)
                    : geodesy::parsePosition(event.text));
        break;
    case Kind::DoubleClick:
    case Kind::Finish:
        m_ended = m_places.size() > 1;
        break;
    case Kind::StepBack:
        m_ended = false;
        if (!m_places.empty())
            m_places.pop_back();
        break;
    case Kind::Escape:
        if (m_places.empty())
            return {.edit = {}, .select = {}, .leave = true};
        m_places.clear();
        m_ended = false;
        break;
    default:
        break;
    }
    return {};
}

void MeasureTool::add(const model::Position& place) {
    if (m_ended)
        m_places.clear();
    m_ended = false;
    const model::Position next = m_places.empty() ? place : continued(place, m_places.back());
    if (m_places.empty() || next != m_places.back())
        m_places.push_back(next);
    m_pointer = next;
}

ToolPreview MeasureTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    if (m_places.empty())
        return preview;
    preview.line = m_places;
    preview.handles = m_places;
    if (!m_ended) {
        preview.line.push_back(m_pointer);
        preview.follows = true;
    }
    Length total;
    for (std::size_t i = 1; i < preview.line.size(); ++i) {
        total = total + geodesy::inverse(preview.line[i - 1], preview.line[i]).length;
        const bool underPointer = preview.follows && i + 1 == preview.line.size();
        if (!underPointer)
            preview.labels.emplace_back(model::Position{(preview.line[i - 1].lon + preview.line[i].lon) / 2.0,
                                                        (preview.line[i - 1].lat + preview.line[i].lat) / 2.0},
                                        lengthAndBearing(preview.line[i - 1], preview.line[i], scene.units));
    }
    const QString whole = tr("%1 in all").arg(QString::fromStdString(units::formatLength(total, scene.units)));
    if (m_ended) {
        if (m_places.size() > 2)
            preview.labels.emplace_back(m_places.back(), whole);
        return preview;
    }
    preview.readout = lengthAndBearing(m_places.back(), m_pointer, scene.units);
    if (m_places.size() > 1)
        preview.readout += " · " + whole;
    return preview;
}

QString MeasureTool::hint(const ToolScene&) const {
    if (m_places.empty() || m_ended)
        return tr("Click where to measure from.");
    return tr("Click the next place, or type a distance and a bearing. Enter ends the line.");
}

QString MeasureTool::typedPrompt() const {
    return m_places.empty() || m_ended ? tr("Coordinates of the first place")
                                       : tr("Distance and bearing, such as 120 m 45");
}

} // namespace fencewright::desktop
