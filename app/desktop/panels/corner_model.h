#pragma once

#include <QAbstractTableModel>

#include "desktop/panels/corner_cells.h"
#include "session/open_document.h"
#include "session/settings.h"

#include <optional>

namespace fencewright::desktop {

/// The corners of one fence as rows, ring after ring; reads them from the document as they are asked for, so that a
/// hundred thousand cost nothing, and writes each change as one edit.
class CornerModel : public QAbstractTableModel {
    Q_OBJECT

public:
    using enum CornerCells::Column;

    CornerModel(session::OpenDocument& document, const session::Settings& settings, QObject* parent);

    /// Of that fence from now on; none: no rows.
    void show(const std::optional<model::FenceId>& fence);
    const std::optional<model::FenceId>& shown() const { return m_id; }
    /// The corners as they stand.
    const CornerCells& cells() const { return m_cells; }
    CornerManner manner() const { return {m_settings.notation(), m_settings.unitSystem()}; }
    /// As it stands; null: there is none, or it has no corners to edit.
    const model::Fence* fence() const { return m_cells.fence().get(); }
    std::optional<Corner> cornerAt(int row) const { return m_cells.cornerAt(row); }
    int rowOf(const Corner& corner) const { return m_cells.rowOf(corner); }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

signals:
    /// What was typed cannot be taken: why.
    void refused(const QString& words);
    /// Something was typed and taken.
    void taken();

private:
    void follow();
    QString text(const Corner& corner, int column) const { return m_cells.text(corner, column, manner()); }
    model::Fence changed(const Corner& corner, int column, const std::string& typed) const;

    session::OpenDocument& m_document;
    const session::Settings& m_settings;
    std::optional<model::FenceId> m_id;
    CornerCells m_cells;
};

} // namespace fencewright::desktop
