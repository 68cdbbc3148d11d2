#include "desktop/panels/corner_model.h"

#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"
#include "session/translated.h"
#include "units/number_notation.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr int kLegDecimals = 3;
constexpr int kBearingDecimals = 4;

std::string legText(Length length, units::System units) {
    return units == units::System::Metric ? units::fixed(length.inMetres(), kLegDecimals) + " m"
                                          : units::fixed(length.inFeet(), kLegDecimals) + " ft";
}

std::string bearingText(Angle azimuth) {
    const std::string text = units::fixed(azimuth.inDegrees(), kBearingDecimals);
    return (text.starts_with("360") ? units::fixed(0.0, kBearingDecimals) : text) + "°";
}

/// "45.5", "45°30'", "N 45°30' E".
Angle bearingFrom(std::string typed) {
    const auto first = typed.find_first_not_of(' ');
    const bool quadrant =
        first != std::string::npos && std::string_view{"NSns"}.find(typed[first]) != std::string::npos;
    const TypedLeg leg = parseTypedLeg(quadrant ? typed : "<" + typed, units::System::Metric);
    if (!leg.bearing || leg.length)
        throw Fault{phrase("core", "A bearing is needed here."), "",
                    phrase("core", "Type degrees clockwise from north, such as 45.5, or N 45°30' E.")};
    return *leg.bearing;
}

} // namespace

CornerModel::CornerModel(session::OpenDocument& document, const session::Settings& settings, QObject* parent)
    : QAbstractTableModel{parent}, m_document{document}, m_settings{settings} {
    connect(&document, &session::OpenDocument::changed, this, &CornerModel::follow);
    connect(&settings, &session::Settings::changed, this, [this] {
        if (rowCount() > 0)
            emit dataChanged(index(0, 0), index(rowCount() - 1, Columns - 1));
    });
}

void CornerModel::show(const std::optional<model::FenceId>& fence) {
    if (fence == m_id)
        return;
    m_id = fence;
    follow();
}

/// Takes the fence as it stands now.
void CornerModel::follow() {
    std::shared_ptr<const model::Fence> now = m_id ? m_document.set().fences.findPointer(*m_id) : nullptr;
    if (now && editableLines(now->shape).empty())
        now.reset();
    if (now == m_fence)
        return;
    std::vector<EditableLine> lines = now ? editableLines(now->shape) : std::vector<EditableLine>{};
    std::vector<std::size_t> begins{0};
    for (const EditableLine& line : lines)
        begins.push_back(begins.back() + line.corners->size());
    const bool sameRows = m_fence && now && m_fence->id == now->id && begins == m_begins;
    if (!sameRows)
        beginResetModel();
    m_fence = std::move(now);
    m_lines = std::move(lines);
    m_begins = std::move(begins);
    if (!sameRows)
        endResetModel();
    else
        emit dataChanged(index(0, 0), index(rowCount() - 1, Columns - 1));
}

std::optional<Corner> CornerModel::cornerAt(int row) const {
    if (!m_fence || row < 0 || row >= rowCount())
        return std::nullopt;
    const auto after = std::upper_bound(m_begins.begin(), m_begins.end(), std::size_t(row));
    const auto line = std::size_t(after - m_begins.begin()) - 1;
    return Corner{m_fence->id, line, std::size_t(row) - m_begins[line]};
}

int CornerModel::rowOf(const Corner& corner) const {
    if (!m_fence || corner.fence != m_fence->id || corner.line >= m_lines.size() ||
        corner.index >= m_lines[corner.line].corners->size())
        return -1;
    return int(m_begins[corner.line] + corner.index);
}

const model::Position& CornerModel::placeAt(int row) const {
    const Corner corner = *cornerAt(row);
    return (*m_lines[corner.line].corners)[corner.index];
}

QString CornerModel::lineWords(std::size_t line) const {
    if (!m_fence || std::holds_alternative<model::Corridor>(m_fence->shape))
        return tr("Line");
    return line == 0 ? tr("Outline") : tr("Hole %1").arg(line);
}

int CornerModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || m_begins.empty() ? 0 : int(m_begins.back());
}

int CornerModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : Columns; }

const model::Position* CornerModel::nextOf(const Corner& corner) const {
    const EditableLine& line = m_lines[corner.line];
    return corner.index < line.edges() ? &line.edgeEnd(corner.index) : nullptr;
}

QString CornerModel::text(const Corner& corner, int column) const {
    const model::Position& place = (*m_lines[corner.line].corners)[corner.index];
    try {
        switch (column) {
        case Ring:
            return lineWords(corner.line);
        case Number:
            return QString::number(corner.index + 1);
        case Place:
            return QString::fromStdString(geodesy::formatFinely(place, m_settings.notation()));
        default:
            break;
        }
        const model::Position* next = nextOf(corner);
        if (!next)
            return {};
        const geodesy::Segment leg = geodesy::inverse(place, *next);
        return QString::fromStdString(column == Leg ? legText(leg.length, m_settings.unitSystem())
                                                    : bearingText(leg.azimuthAtStart));
    } catch (const Fault&) {
        // No place of the earth: its numbers as they are, to be corrected.
        return column == Place ? QString::fromStdString(units::shortest(place.lat) + " " + units::shortest(place.lon))
                               : QString{};
    }
}

QVariant CornerModel::data(const QModelIndex& index, int role) const {
    const auto corner = index.isValid() ? cornerAt(index.row()) : std::nullopt;
    if (!corner)
        return {};
    if (role == Qt::DisplayRole || role == Qt::EditRole)
        return text(*corner, index.column());
    if (role == Qt::TextAlignmentRole && index.column() != Ring && index.column() != Place)
        return QVariant{Qt::AlignRight | Qt::AlignVCenter};
    if (role == Qt::AccessibleTextRole)
        return tr("%1 %2, %3: %4")
            .arg(lineWords(corner->line))
            .arg(corner->index + 1)
            .arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(), text(*corner, index.column()));
    return {};
}

QVariant CornerModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    switch (section) {
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

Qt::ItemFlags CornerModel::flags(const QModelIndex& index) const {
    const auto corner = index.isValid() ? cornerAt(index.row()) : std::nullopt;
    if (!corner)
        return Qt::NoItemFlags;
    const bool canBeTyped = index.column() == Place || (index.column() > Place && nextOf(*corner));
    return Qt::ItemIsEnabled | Qt::ItemIsSelectable | (canBeTyped ? Qt::ItemIsEditable : Qt::NoItemFlags);
}

/// The fence with what was typed there.
model::Fence CornerModel::changed(const Corner& corner, int column, const std::string& typed) const {
    const model::Position& place = (*m_lines[corner.line].corners)[corner.index];
    if (column == Place)
        return withCornerMoved(*m_fence, corner, continued(geodesy::parsePosition(typed), place));
    const EditableLine& line = m_lines[corner.line];
    const Corner end{corner.fence, corner.line, (corner.index + 1) % line.corners->size()};
    const geodesy::Segment leg = geodesy::inverse(place, *nextOf(corner));
    Length length = leg.length;
    Angle azimuth = leg.azimuthAtStart;
    if (column == Leg)
        length = units::parseLength(typed, m_settings.unitSystem()).length;
    else
        azimuth = bearingFrom(typed);
    if (!(length > Length{}))
        throw Fault{phrase("core", "The distance to the next corner is zero."), "",
                    phrase("core", "Type a length such as 120 m, or delete the corner.")};
    // On the turn on which the corner stands already.
    return withCornerMoved(*m_fence, end,
                           continued(geodesy::direct(place, azimuth, length), (*line.corners)[end.index]));
}

bool CornerModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    const auto corner = index.isValid() ? cornerAt(index.row()) : std::nullopt;
    if (!corner || role != Qt::EditRole || !flags(index).testFlag(Qt::ItemIsEditable))
        return false;
    const QString typed = value.toString().trimmed();
    // What was not touched stays what it is, to the last bit.
    if (typed == text(*corner, index.column()))
        return false;
    try {
        model::Fence fence = changed(*corner, index.column(), typed.toStdString());
        const QString title = tr("Move corner of %1").arg(QString::fromStdString(fence.name));
        m_document.push(model::replaceFence(m_document.set(), std::move(fence), title.toStdString()));
        emit taken();
        return true;
    } catch (const Fault& fault) {
        emit refused(session::translated(fault));
        return false;
    }
}

} // namespace fencewright::desktop
