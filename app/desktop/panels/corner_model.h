#pragma once

#include <QAbstractTableModel>

#include "desktop/tools/corner.h"
#include "session/open_document.h"
#include "session/settings.h"

#include <memory>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// The corners of one fence as rows, ring after ring; reads them from the document as they are asked for, so that a
/// hundred thousand cost nothing, and writes each change as one edit.
class CornerModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { Ring, Number, Place, Leg, Bearing, Columns };

    CornerModel(session::OpenDocument& document, const session::Settings& settings, QObject* parent);

    /// Of that fence from now on; none: no rows.
    void show(const std::optional<model::FenceId>& fence);
    const std::optional<model::FenceId>& shown() const { return m_id; }
    /// As it stands; null: there is none, or it has no corners to edit.
    const model::Fence* fence() const { return m_fence.get(); }

    std::optional<Corner> cornerAt(int row) const;
    /// -1: it is not there.
    int rowOf(const Corner& corner) const;
    const model::Position& placeAt(int row) const;
    /// "Outline", "Hole 1", "Line".
    QString lineWords(std::size_t line) const;
    std::size_t lineLength(std::size_t line) const { return m_lines[line].corners->size(); }

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
    const model::Position* nextOf(const Corner& corner) const;
    QString text(const Corner& corner, int column) const;
    model::Fence changed(const Corner& corner, int column, const std::string& typed) const;

    session::OpenDocument& m_document;
    const session::Settings& m_settings;
    std::optional<model::FenceId> m_id;
    std::shared_ptr<const model::Fence> m_fence;
    std::vector<EditableLine> m_lines; ///< of the fence
    std::vector<std::size_t> m_begins; ///< the first row of each, and the number of rows
};

} // namespace fencewright::desktop
