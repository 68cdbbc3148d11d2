#pragma once

#include <compare>
#include <string>

namespace fencewright {

/// A change of speed by time. Stored in metres per second squared. Standard gravity is 9.80665 m/s².
class Acceleration {
public:
    constexpr Acceleration() = default;
    static constexpr Acceleration metresPerSecondSquared(double value) { return Acceleration{value}; }
    static constexpr Acceleration feetPerSecondSquared(double value) { return Acceleration{value * 0.3048}; }
    static constexpr Acceleration standardGravities(double value) { return Acceleration{value * 9.80665}; }

    [[nodiscard]] constexpr double inMetresPerSecondSquared() const { return m_metresPerSecondSquared; }
    [[nodiscard]] constexpr double inFeetPerSecondSquared() const { return m_metresPerSecondSquared / 0.3048; }

    constexpr auto operator<=>(const Acceleration&) const = default;

private:
    explicit constexpr Acceleration(double metresPerSecondSquared) : m_metresPerSecondSquared{metresPerSecondSquared} {}
    double m_metresPerSecondSquared = 0.0;
};

/// An acceleration together with the words in which it was given.
struct StatedAcceleration {
    Acceleration acceleration;
    std::string asWritten;

    bool operator==(const StatedAcceleration&) const = default;
};

} // namespace fencewright
