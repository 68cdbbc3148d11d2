#include "desktop/panels/corner_model.h"

#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"
#include "session/translated.h"
#include "units/number_notation.h"

#include <string_view>

namespace fencewright::desktop {
namespace {

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
    CornerCells now{m_id ? m_document.set().fences.findPointer(*m_id) : nullptr};
    if (now.fence() == m_cells.fence())
        return;
    const bool sameRows = now.hasRowsOf(m_cells);
    if (!sameRows)
        beginResetModel();
    m_cells = std::move(now);
    if (!sameRows)
        endResetModel();
    else
        emit dataChanged(index(0, 0), index(rowCount() - 1, Columns - 1));
}

int CornerModel::rowCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : m_cells.rowCount(); }

int CornerModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : Columns; }

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
            .arg(m_cells.lineWords(corner->line))
            .arg(corner->index + 1)
            .arg(headerData(index.column(), Qt::Horizontal, Qt::DisplayRole).toString(), text(*corner, index.column()));
    return {};
}

QVariant CornerModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole)
        return {};
    return CornerCells::columnWords(section);
}

Qt::ItemFlags CornerModel::flags(const QModelIndex& index) const {
    const auto corner = index.isValid() ? cornerAt(index.row()) : std::nullopt;
    if (!corner)
        return Qt::NoItemFlags;
    const bool canBeTyped = index.column() == Place || (index.column() > Place && m_cells.next(*corner));
    return Qt::ItemIsEnabled | Qt::ItemIsSelectable | (canBeTyped ? Qt::ItemIsEditable : Qt::NoItemFlags);
}

/// The fence with what was typed there.
model::Fence CornerModel::changed(const Corner& corner, int column, const std::string& typed) const {
    const model::Position& place = m_cells.place(corner);
    if (column == Place)
        return withCornerMoved(*fence(), corner, continued(geodesy::parsePosition(typed), place));
    const EditableLine& line = m_cells.line(corner.line);
    const Corner end{corner.fence, corner.line, (corner.index + 1) % line.corners->size()};
    const geodesy::Segment leg = geodesy::inverse(place, *m_cells.next(corner));
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
    return withCornerMoved(*fence(), end,
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
