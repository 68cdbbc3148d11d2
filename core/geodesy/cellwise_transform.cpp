#include "geodesy/cellwise_transform.h"

#include <cmath>
#include <numbers>
#include <vector>

namespace fencewright::geodesy {

namespace {

constexpr std::size_t kNodes = 8; // in each direction
constexpr double kBoundDegrees = 3e-13; // with room for what lies between the places that are checked
constexpr double kFarthestCell = 1e9;
constexpr double kNorthernmost = 84.0; // as far as UTM goes; nearer to a pole longitudes change too fast

/// The Chebyshev polynomials' values at the place, up to the degree asked for.
std::vector<double> chebyshev(double x, std::size_t degree) {
    std::vector<double> values{1.0, x};
    while (values.size() <= degree)
        values.push_back(2.0 * x * values.back() - values[values.size() - 2]);
    return values;
}

/// The factors of the powers of x in each of these polynomials.
template <std::size_t Degree> std::array<std::array<double, Degree + 1>, Degree + 1> powersInChebyshev() {
    std::array<std::array<double, Degree + 1>, Degree + 1> powers{};
    powers[0][0] = 1.0;
    powers[1][1] = 1.0;
    for (std::size_t n = 2; n <= Degree; ++n)
        for (std::size_t k = 0; k <= n; ++k)
            powers[n][k] = (k > 0 ? 2.0 * powers[n - 1][k - 1] : 0.0) - powers[n - 2][k];
    return powers;
}

} // namespace

CellwiseTransform::CellwiseTransform(const CrsTransform& transform, double cellSize)
    : m_transform{transform}, m_cellSize{cellSize} {}

void CellwiseTransform::chooseCell(const PlanePoint& point) {
    m_cell = nullptr;
    m_east = m_west; // none is chosen
    // Not by the quotient alone: it is rounded, and no place may lie in one cell or the next as it happens.
    const auto numberOf = [this](double coordinate) {
        const double number = std::floor(coordinate / m_cellSize);
        return coordinate < number * m_cellSize ? number - 1.0
                                                : number + (coordinate >= (number + 1.0) * m_cellSize ? 1.0 : 0.0);
    };
    const double column = numberOf(point.x), row = numberOf(point.y);
    if (!m_transform.isSmooth() || !(std::abs(column) < kFarthestCell && std::abs(row) < kFarthestCell))
        return;
    const std::pair key{static_cast<std::int64_t>(column), static_cast<std::int64_t>(row)};
    auto known = m_cells.find(key);
    if (known == m_cells.end())
        known = m_cells.emplace(key, fitted(key.first, key.second)).first;
    m_cell = known->second ? &*known->second : nullptr;
    m_west = column * m_cellSize;
    m_east = (column + 1.0) * m_cellSize;
    m_south = row * m_cellSize;
    m_north = (row + 1.0) * m_cellSize;
}

// Interpolation at the zeros of a Chebyshev polynomial; its coefficients are sums over them by the polynomials'
// discrete orthogonality. Source: Mason and Handscomb, "Chebyshev Polynomials" (2003), 4.6 and 6.3; from memory.
std::optional<CellwiseTransform::Cell> CellwiseTransform::fitted(std::int64_t column, std::int64_t row) const {
    Cell cell;
    cell.middleX = (static_cast<double>(column) + 0.5) * m_cellSize;
    cell.middleY = (static_cast<double>(row) + 0.5) * m_cellSize;
    cell.perUnit = 2.0 / m_cellSize;
    const auto placeAt = [&](double x, double y) {
        return PlanePoint{cell.middleX + x / cell.perUnit, cell.middleY + y / cell.perUnit};
    };
    std::array<std::vector<double>, kNodes> values; // of the polynomials at each node
    std::array<double, kNodes> nodes;
    for (std::size_t i = 0; i < kNodes; ++i) {
        nodes[i] = std::cos(std::numbers::pi * (static_cast<double>(i) + 0.5) / kNodes);
        values[i] = chebyshev(nodes[i], kDegree);
    }
    std::vector<PlanePoint> asked;
    for (const double x : nodes)
        for (const double y : nodes)
            asked.push_back(placeAt(x, y));
    constexpr std::array<double, 5> checked{-1.0, -0.45, 0.1, 0.6, 1.0};
    for (const double x : checked)
        for (const double y : checked)
            asked.push_back(placeAt(x, y));
    const std::vector<std::optional<model::Position>> seen = m_transform.toWgs84(asked);
    for (const auto& place : seen)
        if (!place || std::abs(place->lat) > kNorthernmost)
            return std::nullopt;

    const model::Position& first = *seen.front(); // what all have in common takes no part in the sums
    std::array<std::array<Cell::Term, kDegree + 1>, kDegree + 1> powers{}; // of x, then of y
    const auto ofPowers = powersInChebyshev<kDegree>();
    for (std::size_t i = 0; i <= kDegree; ++i)
        for (std::size_t k = 0; i + k <= kDegree; ++k) {
            Cell::Term sum;
            for (std::size_t a = 0; a < kNodes; ++a)
                for (std::size_t b = 0; b < kNodes; ++b) {
                    const model::Position& place = *seen[a * kNodes + b];
                    const double weight = values[a][i] * values[b][k];
                    sum.lon += weight * (place.lon - first.lon);
                    sum.lat += weight * (place.lat - first.lat);
                }
            const double share = (i == 0 ? 1.0 : 2.0) * (k == 0 ? 1.0 : 2.0) / (kNodes * kNodes);
            for (std::size_t p = 0; p <= i; ++p)
                for (std::size_t q = 0; q <= k; ++q) {
                    powers[p][q].lon += share * sum.lon * ofPowers[i][p] * ofPowers[k][q];
                    powers[p][q].lat += share * sum.lat * ofPowers[i][p] * ofPowers[k][q];
                }
        }
    powers[0][0].lon += first.lon;
    powers[0][0].lat += first.lat;
    std::size_t term = 0;
    for (std::size_t power = 0; power <= kDegree; ++power)
        for (std::size_t k = 0; k <= power; ++k)
            cell.terms[term++] = powers[kDegree - power][power - k];

    for (std::size_t i = kNodes * kNodes; i < asked.size(); ++i) {
        const model::Position own = cell.at(asked[i]);
        if (!(std::abs(own.lon - seen[i]->lon) <= kBoundDegrees && std::abs(own.lat - seen[i]->lat) <= kBoundDegrees))
            return std::nullopt;
    }
    return cell;
}

} // namespace fencewright::geodesy
