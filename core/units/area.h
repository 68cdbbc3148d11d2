#pragma once

#include <compare>

namespace fencewright {

/// An area. Stored in square metres. The acre is the international one, 4046.8564224 m2.
class Area {
public:
    constexpr Area() = default;
    static constexpr Area squareMetres(double value) { return Area{value}; }
    static constexpr Area hectares(double value) { return Area{value * 1e4}; }
    static constexpr Area acres(double value) { return Area{value * 4046.8564224}; }

    [[nodiscard]] constexpr double inSquareMetres() const { return m_squareMetres; }
    [[nodiscard]] constexpr double inHectares() const { return m_squareMetres / 1e4; }
    [[nodiscard]] constexpr double inAcres() const { return m_squareMetres / 4046.8564224; }
    [[nodiscard]] constexpr double inSquareKilometres() const { return m_squareMetres / 1e6; }
    [[nodiscard]] constexpr double inSquareMiles() const { return m_squareMetres / (1609.344 * 1609.344); }
    [[nodiscard]] constexpr double inSquareFeet() const { return m_squareMetres / (0.3048 * 0.3048); }

    constexpr auto operator<=>(const Area&) const = default;
    friend constexpr Area operator+(Area a, Area b) { return Area{a.m_squareMetres + b.m_squareMetres}; }
    friend constexpr Area operator-(Area a, Area b) { return Area{a.m_squareMetres - b.m_squareMetres}; }

private:
    explicit constexpr Area(double squareMetres) : m_squareMetres{squareMetres} {}
    double m_squareMetres = 0.0;
};

} // namespace fencewright
