#include "desktop/panels/corner_cells.h"

#include "fault.h"
#include "units/number_notation.h"

#include <algorithm>

namespace fencewright::desktop {
namespace {

constexpr int kLegDecimals = 3;
constexpr int kBearingDecimals = 4;
constexpr std::size_t kRowsBetweenReports = 256;

QString legText(Length length, units::System units) {
    return QString::fromStdString(units == units::System::Metric ? units::fixed(length.inMetres(), kLegDecimals) + " m"
                                                                 : units::fixed(length.inFeet(), kLegDecimals) + " ft");
}

QString bearingText(Angle azimuth) {
    const std::string text = units::fixed(azimuth.inDegrees(), kBearingDecimals);
    return QString::fromStdString((text.starts_with("360") ? units::fixed(0.0, kBearingDecimals) : text) + "°");
}

} // namespace

CornerCells::CornerCells(std::shared_ptr<const model::Fence> fence) {
    if (!fence)
        return;
    m_lines = editableLines(fence->shape);
    if (m_lines.empty())
        return;
    m_fence = std::move(fence);
    for (const EditableLine& line : m_lines)
        m_begins.push_back(m_begins.back() + line.corners->size());
}

bool CornerCells::hasRowsOf(const CornerCells& other) const {
    return m_fence && other.m_fence && m_fence->id == other.m_fence->id && m_begins == other.m_begins;
}

std::optional<Corner> CornerCells::cornerAt(int row) const {
    if (row < 0 || row >= rowCount())
        return std::nullopt;
    const auto after = std::upper_bound(m_begins.begin(), m_begins.end(), std::size_t(row));
    const auto line = std::size_t(after - m_begins.begin()) - 1;
    return Corner{m_fence->id, line, std::size_t(row) - m_begins[line]};
}

int CornerCells::rowOf(const Corner& corner) const {
    if (!m_fence || corner.fence != m_fence->id || corner.line >= m_lines.size() ||
        corner.index >= m_lines[corner.line].corners->size())
        return -1;
    return int(m_begins[corner.line] + corner.index);
}

const model::Position* CornerCells::next(const Corner& corner) const {
    const EditableLine& line = m_lines[corner.line];
    return corner.index < line.edges() ? &line.edgeEnd(corner.index) : nullptr;
}

QString CornerCells::columnWords(int column) {
    switch (column) {
    case Ring:
        return tr("Ring");
    case Number:
        return tr("Corner");
    case Place:
        return tr("Place");
    case Leg:
        return tr("To the next");
    case Bearing:
        return tr("Bearing");
    default:
        return {};
    }
}

QString CornerCells::lineWords(std::size_t line) const {
    if (!m_fence || std::holds_alternative<model::Corridor>(m_fence->shape))
        return tr("Line");
    return line == 0 ? tr("Outline") : tr("Hole %1").arg(line);
}

/// To the next corner; none: there is none, or one of the two is no place of the earth.
std::optional<geodesy::Segment> CornerCells::leg(const Corner& corner) const {
    const model::Position* to = next(corner);
    if (!to)
        return std::nullopt;
    try {
        return geodesy::inverse(place(corner), *to);
    } catch (const Fault&) {
        return std::nullopt;
    }
}

QString CornerCells::text(const Corner& corner, int column, const CornerManner& manner) const {
    switch (column) {
    case Ring:
        return lineWords(corner.line);
    case Number:
        return QString::number(corner.index + 1);
    case Place:
        try {
            return QString::fromStdString(geodesy::formatFinely(place(corner), manner.notation));
        } catch (const Fault&) {
            // No place of the earth: its numbers as they are, to be corrected.
            return QString::fromStdString(units::shortest(place(corner).lat) + " " +
                                          units::shortest(place(corner).lon));
        }
    default:
        break;
    }
    const auto way = leg(corner);
    if (!way)
        return {};
    return column == Leg ? legText(way->length, manner.units) : bearingText(way->azimuthAtStart);
}

QString CornerCells::table(std::span<const int> rows, const CornerManner& manner, const Progress& progress) const {
    QString text;
    for (int column = 0; column < Columns; ++column)
        text += columnWords(column) + (column + 1 < Columns ? '\t' : '\n');
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i % kRowsBetweenReports == 0)
            progress.report(double(i) / double(rows.size()), phrase("core", "Writing the rows"));
        const Corner corner = *cornerAt(rows[i]);
        for (const Column column : {Ring, Number, Place})
            text += this->text(corner, column, manner) + '\t';
        if (const auto way = leg(corner)) // once for both
            text += legText(way->length, manner.units) + '\t' + bearingText(way->azimuthAtStart);
        else
            text += '\t';
        text += '\n';
    }
    return text;
}

} // namespace fencewright::desktop
