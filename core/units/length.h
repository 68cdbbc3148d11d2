#pragma once

#include <compare>

namespace fencewright {

/// A distance. Never a bare double across a module border. Stored in metres.
class Length {
public:
    constexpr Length() = default;
    static constexpr Length metres(double value) { return Length{value}; }
    static constexpr Length kilometres(double value) { return Length{value * 1000.0}; }
    static constexpr Length feet(double value) { return Length{value * 0.3048}; }                    // international
    static constexpr Length usSurveyFeet(double value) { return Length{value * (1200.0 / 3937.0)}; } // older US deeds
    static constexpr Length yards(double value) { return Length{value * 0.9144}; }
    static constexpr Length chains(double value) { return Length{value * 20.1168}; }
    static constexpr Length statuteMiles(double value) { return Length{value * 1609.344}; }
    static constexpr Length nauticalMiles(double value) { return Length{value * 1852.0}; }

    [[nodiscard]] constexpr double inMetres() const { return m_metres; }
    [[nodiscard]] constexpr double inKilometres() const { return m_metres / 1000.0; }
    [[nodiscard]] constexpr double inFeet() const { return m_metres / 0.3048; }
    [[nodiscard]] constexpr double inUsSurveyFeet() const { return m_metres / (1200.0 / 3937.0); }
    [[nodiscard]] constexpr double inYards() const { return m_metres / 0.9144; }
    [[nodiscard]] constexpr double inChains() const { return m_metres / 20.1168; }
    [[nodiscard]] constexpr double inStatuteMiles() const { return m_metres / 1609.344; }
    [[nodiscard]] constexpr double inNauticalMiles() const { return m_metres / 1852.0; }

    constexpr auto operator<=>(const Length&) const = default;
    friend constexpr Length operator+(Length a, Length b) { return Length{a.m_metres + b.m_metres}; }
    friend constexpr Length operator-(Length a, Length b) { return Length{a.m_metres - b.m_metres}; }
    friend constexpr Length operator-(Length a) { return Length{-a.m_metres}; }
    friend constexpr Length operator*(Length a, double factor) { return Length{a.m_metres * factor}; }
    friend constexpr Length operator*(double factor, Length a) { return Length{a.m_metres * factor}; }
    friend constexpr Length operator/(Length a, double divisor) { return Length{a.m_metres / divisor}; }
    friend constexpr double operator/(Length a, Length b) { return a.m_metres / b.m_metres; }

private:
    explicit constexpr Length(double metres) : m_metres{metres} {}
    double m_metres = 0.0;
};

} // namespace fencewright
