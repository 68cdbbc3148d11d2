#pragma once

#include "model/polygon.h"
#include "model/position.h"

#include <random>
#include <string>
#include <utility>

namespace fencewright::tests {

/// Geometry at random, skewed to what breaks geometry: places on the equator, by the poles and on the antimeridian,
/// from decimetres to tens of kilometres; corners that are nearly, or exactly, in line; slivers, spikes, combs,
/// spirals; holes and parts that nearly touch, or touch in a corner; coordinates of few decimals. The same seed gives
/// the same geometry.
class RandomGeometry {
public:
    explicit RandomGeometry(unsigned seed) : m_engine{seed} {}

    [[nodiscard]] double between(double low, double high);
    /// Evenly over the powers of ten.
    [[nodiscard]] double magnitude(double low, double high);
    [[nodiscard]] int whole(int low, int high);
    [[nodiscard]] bool chance(double probability);

    [[nodiscard]] model::Position place();
    /// Two to a dozen places, which may repeat, cross and turn back.
    [[nodiscard]] model::LineString line();
    /// Valid, with or without holes.
    [[nodiscard]] model::Polygon polygon();
    /// Valid, of one to five parts.
    [[nodiscard]] model::MultiPolygon surface();
    /// Two valid surfaces that often overlap, or touch: along whole edges, in corners, along edges that one of them has
    /// more corners on, or a turn of longitude apart.
    [[nodiscard]] std::pair<model::MultiPolygon, model::MultiPolygon> neighbours();
    /// Most often not valid: corners anywhere.
    [[nodiscard]] model::Polygon scribble();

private:
    struct Spot {
        model::Position middle;
        double size = 0.0; ///< degrees of latitude
        int decimals = 0;  ///< 0: all
        [[nodiscard]] model::Position at(double x, double y) const;
    };
    [[nodiscard]] Spot spot();
    [[nodiscard]] model::Ring star(const Spot& spot, double x, double y, double radius);
    [[nodiscard]] model::Ring odd(const Spot& spot);
    [[nodiscard]] model::Polygon polygonAt(const Spot& spot);

    std::mt19937 m_engine;
};

/// For messages of failing cases.
[[nodiscard]] std::string asWkt(const model::MultiPolygon& surface);
[[nodiscard]] std::string asWkt(const model::LineString& line);

} // namespace fencewright::tests
