#include "support/random_geometry.h"

#include "geometry/overlay.h"
#include "geometry/validity.h"
#include "units/number_notation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <utility>
#include <vector>

namespace fencewright::tests {

using model::Position;

namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

std::string asText(const std::vector<Position>& places) {
    std::string text;
    for (const auto& place : places)
        text += (text.empty() ? "" : ",") + units::shortest(place.lon) + " " + units::shortest(place.lat);
    return text;
}

std::string asText(const model::Ring& ring) {
    auto places = ring.corners;
    if (!places.empty())
        places.push_back(places.front());
    return "(" + asText(places) + ")";
}

} // namespace

// Written out, for the distributions of the standard library differ from one library to the next.
double RandomGeometry::between(double low, double high) {
    return low + (high - low) * (static_cast<double>(m_engine()) / 4294967296.0);
}
double RandomGeometry::magnitude(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
int RandomGeometry::whole(int low, int high) {
    return low + static_cast<int>(m_engine() % static_cast<unsigned>(high - low + 1));
}
bool RandomGeometry::chance(double probability) { return between(0.0, 1.0) < probability; }

Position RandomGeometry::Spot::at(double x, double y) const {
    Position place{middle.lon + x * size / std::cos(middle.lat * std::numbers::pi / 180.0), middle.lat + y * size};
    if (decimals > 0) {
        const double scale = std::pow(10.0, decimals);
        place = {std::round(place.lon * scale) / scale, std::round(place.lat * scale) / scale};
    }
    return place;
}

RandomGeometry::Spot RandomGeometry::spot() {
    constexpr std::array kLatitudes{0.0, 45.0, -45.0, 70.0, 85.0, -88.0};
    Spot spot;
    spot.middle.lon = chance(0.3) ? 180.0 : chance(0.3) ? -179.9999 : between(-180.0, 180.0);
    spot.middle.lat = chance(0.6) ? kLatitudes[static_cast<std::size_t>(whole(0, 5))] : between(-80.0, 80.0);
    spot.size = magnitude(1e-6, 0.2);
    if (chance(0.25)) {
        spot.decimals = whole(5, 8);
        spot.size = std::max(spot.size, 100.0 * std::pow(10.0, -spot.decimals));
    }
    return spot;
}

Position RandomGeometry::place() {
    const auto here = spot();
    return {std::clamp(here.middle.lon, -180.0, 180.0), here.middle.lat};
}

model::LineString RandomGeometry::line() {
    const auto here = spot();
    model::LineString line;
    for (int i = whole(2, 12); i > 0; --i) {
        if (line.size() > 1 && chance(0.2))
            line.push_back(line[line.size() - (chance(0.5) ? 1U : 2U)]);
        else if (line.size() > 1 && chance(0.2)) {
            const auto &a = line[line.size() - 2], &b = line.back();
            line.push_back({2.0 * b.lon - a.lon, 2.0 * b.lat - a.lat + (chance(0.5) ? 1e-9 : 0.0)});
        } else
            line.push_back(here.at(between(-1, 1), between(-1, 1)));
    }
    return line;
}

model::Ring RandomGeometry::star(const Spot& here, double x, double y, double radius) {
    const int count = chance(0.1) ? whole(60, 200) : whole(3, 24);
    const double roughness = chance(0.3) ? 0.001 : between(0.05, 0.9);
    const double squeeze = chance(0.15) ? magnitude(1e-5, 1e-1) : 1.0;
    const double turned = between(0.0, kTurn);
    std::vector<double> angles;
    for (int i = 0; i < count; ++i)
        angles.push_back(chance(0.5) ? kTurn * i / count : between(0.0, kTurn));
    std::sort(angles.begin(), angles.end());
    model::Ring ring;
    for (const double angle : angles) {
        const double r = radius * (1.0 - roughness * between(0.0, 1.0));
        const double u = r * std::cos(angle), v = r * std::sin(angle) * squeeze;
        ring.corners.push_back(
            here.at(x + u * std::cos(turned) - v * std::sin(turned), y + u * std::sin(turned) + v * std::cos(turned)));
    }
    return ring;
}

model::Ring RandomGeometry::odd(const Spot& here) {
    model::Ring ring;
    const int kind = whole(0, 3);
    if (kind == 0) { // a comb, its teeth as thin as they come
        const int teeth = whole(2, 12);
        const double width = magnitude(1e-6, 0.9);
        for (int i = 0; i < teeth; ++i) {
            const double x = -1.0 + 2.0 * i / teeth;
            ring.corners.push_back(here.at(x, -1.0));
            ring.corners.push_back(here.at(x, 1.0 - (chance(0.3) ? 1e-7 : 0.0)));
            ring.corners.push_back(here.at(x + width * 2.0 / teeth, 1.0));
            ring.corners.push_back(here.at(x + width * 2.0 / teeth, -1.0));
        }
        ring.corners.push_back(here.at(1.0, -1.0));
        ring.corners.push_back(here.at(1.0, -1.2));
        ring.corners.push_back(here.at(-1.0, -1.2));
    } else if (kind == 1) { // a spiral band
        const int count = whole(6, 60);
        const double width = magnitude(1e-4, 0.09);
        std::vector<Position> inner;
        for (int i = 0; i < count; ++i) {
            const double angle = 2.5 * kTurn * i / count, r = 0.1 + 0.8 * i / count;
            ring.corners.push_back(here.at((r + width) * std::cos(angle), (r + width) * std::sin(angle)));
            inner.push_back(here.at(r * std::cos(angle), r * std::sin(angle)));
        }
        ring.corners.insert(ring.corners.end(), inner.rbegin(), inner.rend());
    } else if (kind == 2) { // corners nearly, or exactly, in line
        const int count = whole(3, 30);
        const double height = magnitude(1e-9, 1e-2);
        for (int i = 0; i < count; ++i)
            ring.corners.push_back(here.at(-1.0 + 2.0 * i / count, chance(0.5) ? 0.0 : height * between(0.0, 1.0)));
        ring.corners.push_back(here.at(1.0, 1.0));
        ring.corners.push_back(here.at(-1.0, 1.0));
    } else { // a sliver
        ring.corners = {here.at(-1, 0), here.at(1, magnitude(1e-9, 1e-3)),
                        here.at(between(-1, 1), magnitude(1e-9, 1e-2))};
    }
    if (chance(0.5))
        std::reverse(ring.corners.begin(), ring.corners.end());
    return ring;
}

model::Polygon RandomGeometry::polygonAt(const Spot& here) {
    for (int attempt = 0; attempt < 100; ++attempt) {
        model::Polygon polygon;
        if (chance(0.35)) {
            polygon.shell = odd(here);
        } else {
            polygon.shell = star(here, 0.0, 0.0, 1.0);
            if (chance(0.4)) {
                const int holes = whole(1, 4);
                for (int i = 0; i < holes; ++i) {
                    const double angle = kTurn * i / holes;
                    const double away = holes == 1 ? 0.0 : 0.3;
                    polygon.holes.push_back(star(here, away * std::cos(angle), away * std::sin(angle),
                                                 holes == 1 ? magnitude(1e-4, 0.95) : magnitude(1e-4, 0.21)));
                }
                if (chance(0.3)) // touches the shell, or another hole, in a corner
                    polygon.holes.front().corners.front() = chance(0.5) || holes == 1
                                                                ? polygon.shell.corners.front()
                                                                : polygon.holes.back().corners.front();
            }
        }
        if (geometry::isValid(polygon))
            return polygon;
    }
    return {{{here.at(-1, -1), here.at(1, -1), here.at(0, 1)}, false}, {}};
}

model::Polygon RandomGeometry::polygon() { return polygonAt(spot()); }

model::MultiPolygon RandomGeometry::surface() {
    auto here = spot();
    std::vector<model::MultiPolygon> parts;
    const int count = chance(0.6) ? 1 : whole(2, 5);
    for (int i = 0; i < count; ++i) {
        parts.push_back({{polygonAt(here)}});
        const auto middle = here.at(chance(0.3) ? 2.0 : 2.0 + magnitude(1e-7, 1.0), chance(0.5) ? 0.0 : 0.5);
        here.middle.lon = middle.lon;
    }
    if (count == 1)
        return parts.front();
    return geometry::united(parts);
}

std::pair<model::MultiPolygon, model::MultiPolygon> RandomGeometry::neighbours() {
    const auto here = spot();
    const model::MultiPolygon first{{polygonAt(here)}};
    auto there = here;
    there.middle = here.at(between(-1.5, 1.5), between(-1.0, 1.0));
    there.size *= magnitude(0.2, 2.0);
    model::Polygon other = polygonAt(there);
    const auto& corners = first.parts.front().shell.corners;
    const double way = between(0.0, 1.0);
    if (way < 0.15) { // the same line to and fro, with corners of its own upon it
        other = {};
        const auto count = static_cast<int>(corners.size());
        const int from = whole(0, count - 1), edges = whole(1, count - 1);
        for (int i = 0; i <= edges; ++i) {
            const auto& a = corners[static_cast<std::size_t>((from + i) % count)];
            const auto& b = corners[static_cast<std::size_t>((from + i + 1) % count)];
            other.shell.corners.push_back(a);
            if (const double share = between(0.1, 0.9); i < edges && chance(0.5))
                other.shell.corners.push_back({std::lerp(a.lon, b.lon, share), std::lerp(a.lat, b.lat, share)});
        }
        other.shell.corners.push_back(here.at(between(-2, 2), between(1.5, 2)));
    } else if (way < 0.3) { // moved by a little, or by nothing
        other = first.parts.front();
        const double by = chance(0.3) ? 0.0 : magnitude(1e-13, 1e-9);
        for (auto& corner : other.shell.corners)
            corner = {corner.lon + by, corner.lat - by / 3.0};
        other.holes.clear();
    } else if (way < 0.45) { // corners of one are corners of the other
        for (auto& corner : other.shell.corners)
            if (chance(0.3))
                corner = corners[static_cast<std::size_t>(whole(0, static_cast<int>(corners.size()) - 1))];
    }
    if (!geometry::isValid(other))
        other = polygonAt(there);
    if (chance(0.1)) {
        const auto turn = [](model::Ring& ring) {
            for (auto& corner : ring.corners)
                corner.lon -= 360.0;
        };
        turn(other.shell);
        std::for_each(other.holes.begin(), other.holes.end(), turn);
    }
    return {first, {{other}}};
}

model::Polygon RandomGeometry::scribble() {
    const auto here = spot();
    model::Polygon polygon;
    for (int i = whole(3, 10); i > 0; --i)
        polygon.shell.corners.push_back(here.at(between(-1, 1), between(-1, 1)));
    if (chance(0.4))
        polygon.shell.corners.push_back(polygon.shell.corners[1]);
    if (chance(0.4))
        polygon.holes.push_back(star(here, between(-1, 1), between(-1, 1), 0.5));
    return polygon;
}

std::string asWkt(const model::MultiPolygon& surface) {
    std::string text;
    for (const auto& part : surface.parts) {
        std::string rings = asText(part.shell);
        for (const auto& hole : part.holes)
            rings += "," + asText(hole);
        text += (text.empty() ? "(" : ",(") + rings + ")";
    }
    return surface.empty() ? "MULTIPOLYGON EMPTY" : "MULTIPOLYGON(" + text + ")";
}

std::string asWkt(const model::LineString& line) { return "LINESTRING(" + asText(line) + ")"; }

} // namespace fencewright::tests
