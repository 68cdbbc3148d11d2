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
    explicit LabelLayout(const QRectF& seen) : m_seen{seen} {}

    /// Keeps labels off a symbol or a plate.
    void block(const QRectF& taken) { m_taken.push_back(taken); }
    /// The first of the centres where a label of that size stands free, wholly in sight, and on nothing to be avoided;
    /// else the first where it merely stands free.
    std::optional<QPointF> place(const QSizeF& size, std::span<const QPointF> centres,
                                 const std::function<bool(const QRectF&)>& avoid);

private:
    QRectF m_seen;
    std::vector<QRectF> m_taken;
};

/// Right of, left of, below and above a symbol of that radius.
std::vector<QPointF> besideSymbol(const QPointF& symbol, double radius, const QSizeF& label);

} // namespace fencewright::desktop
