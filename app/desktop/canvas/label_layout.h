#pragma once

#include <QPointF>
#include <QRectF>
#include <QSizeF>

#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::desktop {

/// Finds room for labels: first come, first served; what has no room is left out.
class LabelLayout {
public:
    explicit LabelLayout(const QRectF& seen);

    /// Keeps labels off a symbol or a plate.
    void block(const QRectF& taken);
    /// The first of the centres where a label of that size stands free, wholly in sight, and on nothing to be avoided;
    /// else the first where it merely stands free.
    std::optional<QPointF> place(const QSizeF& size, std::span<const QPointF> centres,
                                 const std::function<bool(const QRectF&)>& avoid);

private:
    bool isFree(const QRectF& wanted) const;
    template <class Visit> void forCells(const QRectF& rect, Visit visit) const;

    QRectF m_seen;
    std::vector<QRectF> m_taken;
    int m_columns;
    std::vector<std::vector<std::size_t>> m_cells; ///< which of those taken reach into each square of what is seen
};

/// Right of, left of, below and above a symbol of that radius.
std::vector<QPointF> besideSymbol(const QPointF& symbol, double radius, const QSizeF& label);

} // namespace fencewright::desktop
