#pragma once

#include "geodesy/crs_transform.h"

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>

namespace fencewright::geodesy {

/// From the plane of a transverse Mercator system to WGS 84 in a fifteenth of PROJ's time, for whoever has millions of
/// places: by polynomials of sixth degree, one pair for each cell of the plane, made of PROJ's answers at 64 places of
/// the cell and held against them at 25 others.
///
/// Side: neither; a place is within 1e-12 degrees (a ten-thousandth of a millimetre) of where CrsTransform puts it,
/// which is what PROJ itself leaves open. The same place has the same answer whatever was asked before. One object per
/// thread.
class CellwiseTransform {
public:
    /// @param transform  outlives this.
    /// @param cellSize  side of a cell, in units of the system; 10 km are meant.
    CellwiseTransform(const CrsTransform& transform, double cellSize);

    /// Nothing where the polynomials do not serve: ask the transform.
    [[nodiscard]] std::optional<model::Position> toWgs84(const PlanePoint& point) {
        if (!(point.x >= m_west && point.x < m_east && point.y >= m_south && point.y < m_north))
            chooseCell(point);
        return m_cell ? std::optional{m_cell->at(point)} : std::nullopt;
    }

private:
    static constexpr std::size_t kDegree = 6;
    static constexpr std::size_t kTerms = (kDegree + 1) * (kDegree + 2) / 2;
    struct Cell {
        double middleX = 0.0, middleY = 0.0, perUnit = 0.0; ///< to -1 ... 1
        struct Term {
            double lon = 0.0, lat = 0.0;
        };
        /// Of x to the power 6, 5 ... 0; for each, of y to the highest power first.
        std::array<Term, kTerms> terms{};

        [[nodiscard]] model::Position at(const PlanePoint& point) const;
    };
    void chooseCell(const PlanePoint& point);
    [[nodiscard]] std::optional<Cell> fitted(std::int64_t column, std::int64_t row) const;

    const CrsTransform& m_transform;
    double m_cellSize;
    std::map<std::pair<std::int64_t, std::int64_t>, std::optional<Cell>> m_cells;
    /// The cell that was asked for last.
    double m_west = 0.0, m_east = 0.0, m_south = 0.0, m_north = 0.0;
    const Cell* m_cell = nullptr;
};

inline model::Position CellwiseTransform::Cell::at(const PlanePoint& point) const {
    const double x = (point.x - middleX) * perUnit, y = (point.y - middleY) * perUnit;
    // Both coordinates at once: two numbers take no longer than one.
    using Pair [[gnu::vector_size(16)]] = double;
    const Pair xs{x, x}, ys{y, y};
    Pair all{0.0, 0.0};
    const Term* term = terms.data();
#pragma GCC unroll 7
    for (std::size_t power = 0; power <= kDegree; ++power) {
        Pair own{term->lon, term->lat};
        ++term;
#pragma GCC unroll 7
        for (std::size_t k = 0; k < power; ++k, ++term)
            own = own * ys + Pair{term->lon, term->lat};
        all = all * xs + own;
    }
    return {all[0], all[1]};
}

} // namespace fencewright::geodesy
