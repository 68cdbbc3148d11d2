#pragma once

#include <compare>
#include <string>

namespace fencewright {

/// A speed. Stored in metres per second.
class Speed {
public:
    constexpr Speed() = default;
    static constexpr Speed metresPerSecond(double value) { return Speed{value}; }
    static constexpr Speed kilometresPerHour(double value) { return Speed{value / 3.6}; }
    static constexpr Speed knots(double value) { return Speed{value * (1852.0 / 3600.0)}; }
    static constexpr Speed milesPerHour(double value) { return Speed{value * 0.44704}; }
    static constexpr Speed feetPerSecond(double value) { return Speed{value * 0.3048}; }

    [[nodiscard]] constexpr double inMetresPerSecond() const { return m_metresPerSecond; }
    [[nodiscard]] constexpr double inMilesPerHour() const { return m_metresPerSecond / 0.44704; }

    constexpr auto operator<=>(const Speed&) const = default;

private:
    explicit constexpr Speed(double metresPerSecond) : m_metresPerSecond{metresPerSecond} {}
    double m_metresPerSecond = 0.0;
};

/// A speed together with the words in which it was given: "25 mph" is not shown back as "11.176 m/s".
struct StatedSpeed {
    Speed speed;
    std::string asWritten;

    bool operator==(const StatedSpeed&) const = default;
};

} // namespace fencewright
