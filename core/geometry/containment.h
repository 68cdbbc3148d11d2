#pragma once

#include "model/polygon.h"
#include "model/position.h"

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::geometry {

/// Whether every place of `inner` lies in `outer`, boundaries included. Planar in longitude and latitude, as edges are.
/// Exact for the given coordinates (robust predicates, no tolerance). Empty `inner`: true.
[[nodiscard]] bool contains(const model::MultiPolygon& outer, const model::MultiPolygon& inner);
/// Whether the place lies in the surface or on its boundary.
[[nodiscard]] bool contains(const model::MultiPolygon& surface, model::Position place);
/// Whether they share any place, boundaries included.
[[nodiscard]] bool touches(const model::MultiPolygon& a, const model::MultiPolygon& b);
/// Whether they enclose the same places, however their corners are written.
[[nodiscard]] bool sameArea(const model::MultiPolygon& a, const model::MultiPolygon& b);

/// A surface prepared for many questions. Not for several threads at once.
class PreparedSurface {
public:
    explicit PreparedSurface(const model::MultiPolygon& surface);
    ~PreparedSurface();
    PreparedSurface(PreparedSurface&&) noexcept;
    PreparedSurface& operator=(PreparedSurface&&) noexcept;
    [[nodiscard]] bool contains(model::Position place) const;
    [[nodiscard]] bool contains(const model::MultiPolygon& inner) const;
    /// Whether they share any place, boundaries included.
    [[nodiscard]] bool touches(const model::MultiPolygon& other) const;

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

/// A place well inside the surface, for labels; nothing where it is empty. On the largest part.
[[nodiscard]] std::optional<model::Position> labelPlace(const model::MultiPolygon& surface);

} // namespace fencewright::geometry
