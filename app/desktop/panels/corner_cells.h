#pragma once

#include <QCoreApplication>
#include <QString>

#include "desktop/tools/corner.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"
#include "progress.h"
#include "units/measure_notation.h"

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::desktop {

/// How places and lengths are written.
struct CornerManner {
    geodesy::Notation notation = geodesy::Notation::DecimalDegrees;
    units::System units = units::System::Metric;
};

/// The corners of one fence as the cells of a table, ring after ring. A value that holds the fence as it stood, so that
/// it can be read beside the window; a cell is written when it is asked for.
class CornerCells {
    Q_DECLARE_TR_FUNCTIONS(CornerCells)

public:
    enum Column { Ring, Number, Place, Leg, Bearing, Columns };

    /// No rows.
    CornerCells() = default;
    /// @param fence  null, or without corners to edit: no rows.
    explicit CornerCells(std::shared_ptr<const model::Fence> fence);

    /// Null: there are no rows.
    const std::shared_ptr<const model::Fence>& fence() const { return m_fence; }
    int rowCount() const { return int(m_begins.back()); }
    /// Whether the lines have as many corners each: the rows stand for the same corners.
    bool hasRowsOf(const CornerCells& other) const;

    std::optional<Corner> cornerAt(int row) const;
    /// -1: it is not there.
    int rowOf(const Corner& corner) const;
    const EditableLine& line(std::size_t line) const { return m_lines[line]; }
    const model::Position& place(const Corner& corner) const { return (*m_lines[corner.line].corners)[corner.index]; }
    /// The end of the leg from there; null: none leads on.
    const model::Position* next(const Corner& corner) const;

    static QString columnWords(int column);
    /// "Outline", "Hole 1", "Line".
    QString lineWords(std::size_t line) const;
    QString text(const Corner& corner, int column, const CornerManner& manner) const;

    /// Rows under a heading, as a spreadsheet takes them: cells between tabs.
    /// @throws Cancelled
    QString table(std::span<const int> rows, const CornerManner& manner, const Progress& progress = {}) const;

private:
    std::optional<geodesy::Segment> leg(const Corner& corner) const;

    std::shared_ptr<const model::Fence> m_fence;
    std::vector<EditableLine> m_lines;    ///< of the fence
    std::vector<std::size_t> m_begins{0}; ///< the first row of each, and the number of rows
};

} // namespace fencewright::desktop
