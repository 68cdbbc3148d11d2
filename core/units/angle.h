#pragma once

#include <compare>
#include <numbers>

namespace fencewright {

/// An angle or a bearing. Stored in degrees, so that degrees read back exactly. Bearings run clockwise from true north.
class Angle {
public:
    constexpr Angle() = default;
    static constexpr Angle degrees(double value) { return Angle{value}; }
    static constexpr Angle radians(double value) { return Angle{value * (180.0 / std::numbers::pi)}; }

    [[nodiscard]] constexpr double inDegrees() const { return m_degrees; }
    [[nodiscard]] constexpr double inRadians() const { return m_degrees * (std::numbers::pi / 180.0); }

    constexpr auto operator<=>(const Angle&) const = default;
    friend constexpr Angle operator+(Angle a, Angle b) { return Angle{a.m_degrees + b.m_degrees}; }
    friend constexpr Angle operator-(Angle a, Angle b) { return Angle{a.m_degrees - b.m_degrees}; }

private:
    explicit constexpr Angle(double degrees) : m_degrees{degrees} {}
    double m_degrees = 0.0;
};

} // namespace fencewright
