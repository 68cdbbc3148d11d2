#include "alder_reach/orthophoto.h"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <memory>
#include <stdexcept>
#include <thread>

namespace alder_reach {

namespace {

constexpr double kPixel = 0.25;         // metres
constexpr int kTile = 512;              // pixels
constexpr int kMargin = 2;              // pixels around a tile, for the last softening
constexpr int kCoarse = 8;              // pixels between the places where far-reaching distances are computed
constexpr Point kToShadow{-0.55, 0.62}; // metres of shadow for one of height: a morning sun in the south-east
constexpr double kFar = 40;             // metres; distances are not told apart beyond

struct Colour {
    double r = 0, g = 0, b = 0;
};
Colour operator*(Colour c, double factor) { return {c.r * factor, c.g * factor, c.b * factor}; }
Colour mix(Colour from, Colour to, double share) {
    return {from.r + (to.r - from.r) * share, from.g + (to.g - from.g) * share, from.b + (to.b - from.b) * share};
}
double ramp(double value, double from, double to) {
    const double share = std::clamp((value - from) / (to - from), 0.0, 1.0);
    return share * share * (3 - 2 * share);
}

double scattered(std::uint32_t x, std::uint32_t y, std::uint32_t seed) {
    std::uint32_t h = x * 0x8da6b343U ^ y * 0xd8163841U ^ seed * 0xcb1ab31fU;
    h ^= h >> 15;
    h *= 0x2c1b3c6dU;
    h ^= h >> 12;
    h *= 0x297a2d39U;
    h ^= h >> 15;
    return static_cast<double>(h) * 0x1p-32;
}

// Each layer of noise is turned otherwise: else the eye finds the squares.
const std::array<Point, 16> kTurns = [] {
    std::array<Point, 16> made;
    for (std::size_t index = 0; index < made.size(); ++index) {
        const double angle = 0.6 + 1.7 * static_cast<double>(index);
        made[index] = {std::cos(angle), std::sin(angle)};
    }
    return made;
}();

// Value noise, -1 to 1, one bump to a unit.
double noise(Point p, std::uint32_t seed) {
    constexpr double kPositive = 1 << 20; // so that cutting off the fraction rounds down
    const Point turn = kTurns[seed % kTurns.size()];
    p = {p.x * turn.x - p.y * turn.y + kPositive, p.x * turn.y + p.y * turn.x + kPositive};
    const auto x = static_cast<std::uint32_t>(static_cast<std::int32_t>(p.x));
    const auto y = static_cast<std::uint32_t>(static_cast<std::int32_t>(p.y));
    const double fx = static_cast<double>(x);
    const double fy = static_cast<double>(y);
    const double sx = ramp(p.x - fx, 0, 1);
    const double sy = ramp(p.y - fy, 0, 1);
    const double low = scattered(x, y, seed) * (1 - sx) + scattered(x + 1, y, seed) * sx;
    const double high = scattered(x, y + 1, seed) * (1 - sx) + scattered(x + 1, y + 1, seed) * sx;
    return 2 * (low * (1 - sy) + high * sy) - 1;
}
double layered(Point p, std::uint32_t seed, int octaves) {
    double sum = 0;
    double weight = 0.55;
    for (int octave = 0; octave < octaves; ++octave, weight *= 0.55, p = p * 2.03)
        sum += weight * noise(p, seed + static_cast<std::uint32_t>(octave));
    return sum;
}

/// A picture of the distance to something, every few pixels, bilinear between.
class DistanceMap {
public:
    template <class Distance>
    DistanceMap(Point corner, int pixels, const Distance& distance) : m_corner{corner}, m_side{pixels / kCoarse + 2} {
        m_values.reserve(static_cast<std::size_t>(m_side) * static_cast<std::size_t>(m_side));
        for (int y = 0; y < m_side; ++y)
            for (int x = 0; x < m_side; ++x)
                m_values.push_back(
                    static_cast<float>(distance(corner + Point{x * kCoarse * kPixel, y * kCoarse * kPixel})));
    }
    [[nodiscard]] double at(Point p) const {
        const double x = (p.x - m_corner.x) / (kCoarse * kPixel);
        const double y = (p.y - m_corner.y) / (kCoarse * kPixel);
        const auto column = static_cast<std::size_t>(x);
        const auto row = static_cast<std::size_t>(y);
        const auto value = [&](std::size_t c, std::size_t r) {
            return static_cast<double>(m_values[r * static_cast<std::size_t>(m_side) + c]);
        };
        const double sx = x - static_cast<double>(column);
        const double sy = y - static_cast<double>(row);
        return (value(column, row) * (1 - sx) + value(column + 1, row) * sx) * (1 - sy) +
               (value(column, row + 1) * (1 - sx) + value(column + 1, row + 1) * sx) * sy;
    }

private:
    Point m_corner;
    int m_side;
    std::vector<float> m_values;
};

Colour cropColour(Crop crop) {
    switch (crop) {
    case Crop::Pasture:
        return {112, 127, 72};
    case Crop::Meadow:
        return {134, 143, 82};
    case Crop::Wheat:
        return {174, 158, 103};
    case Crop::Stubble:
        return {190, 173, 126};
    case Crop::Ploughed:
        return {134, 109, 82};
    case Crop::Maize:
        return {83, 110, 58};
    case Crop::Rape:
        return {176, 170, 92};
    case Crop::Fallow:
        return {146, 138, 97};
    case Crop::Garden:
        return {116, 129, 78};
    }
    return {};
}

Colour roofColour(Roof roof, std::uint32_t seed) {
    const double tone = 0.9 + 0.2 * scattered(seed, 3, 7);
    switch (roof) {
    case Roof::Tile:
        return Colour{163, 96, 70} * tone;
    case Roof::Slate:
        return Colour{98, 101, 108} * tone;
    case Roof::Metal:
        return Colour{150, 156, 158} * tone;
    case Roof::Flat:
        return Colour{176, 172, 163} * tone;
    case Roof::White:
        return Colour{216, 216, 211} * tone;
    }
    return {};
}

double toSun(Point normal) {
    const double length = std::hypot(kToShadow.x, kToShadow.y);
    return -(normal.x * kToShadow.x + normal.y * kToShadow.y) / length;
}

/// Paints one tile after the other; each from the scene alone, so that tiles meet without a seam.
class Painter {
public:
    explicit Painter(const Scene& scene) : m_scene{scene} {}

    // Red, green, blue by turns, rows from the north.
    [[nodiscard]] std::vector<std::uint8_t> tile(int column, int row) const {
        Canvas canvas;
        canvas.left = column * kTile - kMargin;
        canvas.top = row * kTile - kMargin;
        canvas.colours.resize(static_cast<std::size_t>(canvas.side) * static_cast<std::size_t>(canvas.side));
        canvas.light.assign(canvas.colours.size(), 1.0F);
        paintGround(canvas);
        castShadows(canvas);
        paintThings(canvas);
        return softened(canvas);
    }

private:
    struct Canvas {
        int left = 0, top = 0; ///< pixels of the whole picture
        int side = kTile + 2 * kMargin;
        std::vector<Colour> colours;
        std::vector<float> light; ///< 1: in the sun

        [[nodiscard]] Point place(int x, int y) const {
            return {(left + x + 0.5) * kPixel, kHeight - (top + y + 0.5) * kPixel};
        }
        [[nodiscard]] Point southWest() const { return {left * kPixel, kHeight - (top + side) * kPixel}; }
        [[nodiscard]] std::size_t index(int x, int y) const {
            return static_cast<std::size_t>(y) * static_cast<std::size_t>(side) + static_cast<std::size_t>(x);
        }

        // Each pixel whose place lies within a square.
        template <class Action> void around(Point middle, double reach, const Action& action) const {
            const int minX = std::max(0, static_cast<int>(std::floor((middle.x - reach) / kPixel)) - left);
            const int maxX = std::min(side - 1, static_cast<int>(std::ceil((middle.x + reach) / kPixel)) - left);
            const int minY = std::max(0, static_cast<int>(std::floor((kHeight - middle.y - reach) / kPixel)) - top);
            const int maxY =
                std::min(side - 1, static_cast<int>(std::ceil((kHeight - middle.y + reach) / kPixel)) - top);
            for (int y = minY; y <= maxY; ++y)
                for (int x = minX; x <= maxX; ++x)
                    action(index(x, y), place(x, y));
        }
    };

    // ---------------------------------------------------------------- ground

    void paintGround(Canvas& canvas) const {
        const Point corner = canvas.southWest() - Point{kPixel, kPixel};
        const int pixels = canvas.side + 8;
        const DistanceMap water{corner, pixels, [&](Point p) { return depthInRing(p, m_scene.reservoir); }};
        const DistanceMap island{corner, pixels,
                                 [&](Point p) { return std::max(depthInRing(p, m_scene.island), -kFar); }};
        const DistanceMap road{corner, pixels, [&](Point p) { return distanceToLine(p, m_scene.road); }};
        const DistanceMap river{corner, pixels, [&](Point p) { return distanceToLine(p, m_scene.river); }};
        const DistanceMap dam{corner, pixels, [&](Point p) { return distanceToLine(p, m_scene.damCrest); }};
        const auto nearest = [&](const std::vector<Line>& lines) {
            std::vector<const Line*> here;
            for (const Line& line : lines)
                if (touches(canvas, line, kFar))
                    here.push_back(&line);
            return [here](Point p) {
                double least = kFar;
                for (const Line* line : here)
                    least = std::min(least, distanceToLine(p, *line));
                return least;
            };
        };
        const DistanceMap lane{corner, pixels, nearest(m_scene.lanes)};
        const DistanceMap track{corner, pixels, nearest(m_scene.tracks)};

        std::vector<FieldHere> fields;
        for (const Field& field : m_scene.fields)
            if (touches(canvas, field.ring, 0))
                fields.push_back({&field, Convex{field.ring}});
        std::vector<PadHere> pads;
        for (const Pad& pad : m_scene.pads)
            if (touches(canvas, pad.ring, 3))
                pads.push_back({&pad, Convex{pad.ring}});

        std::vector<const Line*> drives;
        for (const Line& drive : m_scene.drives)
            if (touches(canvas, drive, 3))
                drives.push_back(&drive);

        for (int y = 0; y < canvas.side; ++y)
            for (int x = 0; x < canvas.side; ++x) {
                const Point p = canvas.place(x, y);
                const double depth = water.at(p);
                const double onIsland = island.at(p);
                Colour colour;
                if (depth > 0 && onIsland < 0)
                    colour = waterAt(p, std::min(depth, -onIsland), depth);
                else
                    colour = landAt(p, fields, depth, onIsland);
                const double toDam = dam.at(p);
                if (toDam < 64 && onIsland < -5)
                    colour = damAt(p, colour, toDam, depth);
                const double toRiver = river.at(p);
                if (toRiver < 14 && depth < 0)
                    colour = riverAt(p, colour, toRiver);
                if (const double toTrack = track.at(p); toTrack < 4 && depth < 0)
                    colour = trackAt(p, colour, toTrack);
                if (const double toLane = lane.at(p); toLane < 6)
                    colour = laneAt(p, colour, toLane);
                for (const Line* drive : drives)
                    colour = mix(Colour{168, 161, 146} * (1 + 0.08 * grain(p, 840) + 0.05 * noise(p * 0.6, 841)),
                                 colour, ramp(distanceToLine(p, *drive), 1.4, 1.9));
                for (const PadHere& pad : pads)
                    colour = padAt(p, colour, *pad.pad, pad.border.depth(p));
                if (const double toRoad = road.at(p); toRoad < 12)
                    colour = roadAt(p, colour, toRoad);
                canvas.colours[canvas.index(x, y)] = colour;
            }
    }

    [[nodiscard]] static bool touches(const Canvas& canvas, const Ring& ring, double margin) {
        const Point low = canvas.southWest();
        const double side = canvas.side * kPixel;
        double minX = 1e9;
        double minY = 1e9;
        double maxX = -1e9;
        double maxY = -1e9;
        for (const Point p : ring) {
            minX = std::min(minX, p.x);
            maxX = std::max(maxX, p.x);
            minY = std::min(minY, p.y);
            maxY = std::max(maxY, p.y);
        }
        return maxX + margin >= low.x && minX - margin <= low.x + side && maxY + margin >= low.y &&
               minY - margin <= low.y + side;
    }

    [[nodiscard]] static double grain(Point p, std::uint32_t seed) {
        return scattered(static_cast<std::uint32_t>(p.x / kPixel), static_cast<std::uint32_t>(p.y / kPixel), seed) -
               0.5;
    }

    /// A convex ring by the lines of its edges.
    struct Convex {
        struct Edge {
            double x = 0, y = 0, offset = 0; ///< the depth of p is x * p.x + y * p.y - offset
        };
        std::vector<Edge> edges;

        explicit Convex(const Ring& ring) {
            for (std::size_t index = 0; index < ring.size(); ++index) {
                const Point a = ring[index];
                const Point along = ring[(index + 1) % ring.size()] - a;
                const double length = std::hypot(along.x, along.y);
                edges.push_back({-along.y / length, along.x / length, (along.x * a.y - along.y * a.x) / length});
            }
        }
        // Inside, the distance to the nearest edge; outside, negative.
        [[nodiscard]] double depth(Point p) const {
            double least = 1e9;
            for (const Edge& edge : edges) {
                least = std::min(least, edge.x * p.x + edge.y * p.y - edge.offset);
                if (least < -2)
                    return least;
            }
            return least;
        }
    };
    struct FieldHere {
        const Field* field;
        Convex border;
    };
    struct PadHere {
        const Pad* pad;
        Convex border;
    };

    [[nodiscard]] static Colour grass(Point p, std::uint32_t seed) {
        const double patches = layered(p * (1 / 26.0), seed, 4);
        const double tufts = noise(p * (1 / 1.3), seed + 9);
        return mix({108, 122, 69}, {140, 139, 88}, ramp(patches, -0.5, 0.7)) *
               (1 + 0.07 * tufts + 0.14 * grain(p, seed));
    }

    [[nodiscard]] Colour landAt(Point p, const std::vector<FieldHere>& fields, double depth, double onIsland) const {
        if (onIsland > 0) {
            const Colour sand = Colour{188, 174, 138} * (1 + 0.12 * grain(p, 5) + 0.08 * noise(p * 0.6, 6));
            return mix(sand, grass(p, 77) * 0.93, ramp(onIsland + 2.5 * noise(p * 0.13, 4), 3, 8));
        }
        const Colour verge = grass(p, 3);
        Colour colour = verge;
        // A boundary is never as straight as a ruler.
        const Point wavering = p + Point{1.1 * noise(p * 0.11, 21), 1.1 * noise(p * 0.11, 22)};
        for (const auto& [field, border] : fields) {
            const double inside = border.depth(wavering);
            if (inside < 0)
                continue;
            colour = mix(verge, fieldAt(p, *field, inside), ramp(inside, 1.6, 2.9));
            break;
        }
        // Soil that is moister in hollows.
        const double moist = layered(p * (1 / 180.0), 900, 3);
        colour = colour * (1 + 0.10 * moist);
        // Rough grass towards the water, then reeds, then the bare band that the changing level leaves.
        const double shore = -depth + 5 * noise(p * (1 / 19.0), 66);
        if (shore < 30)
            colour = mix(Colour{116, 121, 70} * (1 + 0.12 * noise(p * 0.5, 67) + 0.12 * grain(p, 68)), colour,
                         ramp(shore, 10, 28));
        if (-depth < 9)
            colour = mix(bank(p, -depth), colour, ramp(-depth + 1.5 * noise(p * 0.2, 69), 4.5, 8));
        return colour;
    }

    // Gravel in bands along the level lines.
    [[nodiscard]] static Colour bank(Point p, double height) {
        const double bands = std::sin(height * 2.6 + noise(p * 0.08, 71));
        return Colour{178, 168, 144} * (1 + 0.05 * bands + 0.16 * grain(p, 72) + 0.06 * noise(p * 0.7, 73));
    }

    [[nodiscard]] static Colour fieldAt(Point p, const Field& field, double inside) {
        const auto own = [&](std::uint32_t which) { return scattered(field.seed, which, 1); };
        Colour colour = cropColour(field.crop) * (0.88 + 0.24 * own(1));
        colour = mix(colour, {colour.g, colour.g, colour.b}, 0.25 * own(2));
        double direction = field.direction + (own(3) - 0.5) * 0.05;
        // The ends of a tilled field are worked along its border.
        const bool tilled = field.crop == Crop::Wheat || field.crop == Crop::Stubble || field.crop == Crop::Ploughed ||
                            field.crop == Crop::Maize || field.crop == Crop::Rape;
        const double headland = tilled ? 10 : 0;
        double shade = 0;
        const double along = p.x * std::cos(direction) + p.y * std::sin(direction);
        double aside = -p.x * std::sin(direction) + p.y * std::cos(direction);
        aside += 1.2 * noise({along * 0.012, aside * 0.004}, field.seed); // nobody drives quite straight
        if (inside < headland)
            aside = inside;
        const auto furrows = [&](double spacing, double depth) {
            const double wave = std::sin(2 * M_PI * aside / spacing);
            return depth * wave * (0.75 + 0.5 * noise({along * 0.05, aside * 0.3}, field.seed + 4));
        };
        const auto wheels = [&](double spacing, double strength) {
            const double from = std::abs(aside - spacing * std::round(aside / spacing));
            return -strength * (ramp(0.55 - std::abs(from - 0.95), 0.0, 0.4));
        };
        const double blotches = layered(p * (1 / 34.0), field.seed + 5, 4);
        const double texture = noise(p * 0.8, field.seed + 6);
        const double fine = grain(p, field.seed);
        switch (field.crop) {
        case Crop::Ploughed:
            shade += furrows(2.8 + own(4), 0.085) + 0.10 * blotches + 0.07 * texture + 0.16 * fine;
            break;
        case Crop::Wheat:
            shade += furrows(3.0, 0.022) + wheels(24, 0.17) + 0.10 * blotches + 0.04 * texture + 0.11 * fine;
            break;
        case Crop::Stubble:
            shade += furrows(6.0 + own(4), 0.06) + wheels(18, 0.07) + 0.08 * blotches + 0.05 * texture + 0.13 * fine;
            break;
        case Crop::Maize:
            shade += furrows(1.5, 0.09) + 0.13 * blotches + 0.05 * texture + 0.17 * fine;
            break;
        case Crop::Rape:
            shade += furrows(3.2, 0.03) + wheels(24, 0.13) + 0.12 * blotches + 0.06 * texture + 0.13 * fine;
            break;
        case Crop::Meadow: {
            // Mown in swaths, each laid over the other way.
            const double swath = std::sin(2 * M_PI * aside / (9.0 + 3 * own(4)));
            shade += 0.055 * std::tanh(4 * swath) * own(5) + 0.10 * blotches + 0.06 * texture + 0.12 * fine;
            break;
        }
        case Crop::Pasture: {
            shade += 0.13 * blotches + 0.07 * texture + 0.13 * fine -
                     0.09 * ramp(layered(p * 0.22, field.seed + 8, 3), 0.3, 0.55);
            colour = mix(colour, {150, 144, 94}, 0.5 * ramp(layered(p * (1 / 60.0), field.seed + 9, 3), 0.0, 0.7));
            break;
        }
        case Crop::Fallow:
            colour = mix(colour, {110, 117, 68}, ramp(layered(p * (1 / 14.0), field.seed + 9, 4), -0.1, 0.5));
            shade += 0.10 * blotches + 0.10 * texture + 0.16 * fine;
            break;
        case Crop::Garden: {
            // Lawns, beds and yards, cut small.
            const Point cell{std::floor(p.x / 15 + 0.25 * std::sin(p.y * 0.05)),
                             std::floor(p.y / 19 + 0.25 * std::sin(p.x * 0.04))};
            const double kind = scattered(static_cast<std::uint32_t>(cell.x), static_cast<std::uint32_t>(cell.y), 8);
            colour = kind < 0.74   ? Colour{110, 126, 74} * (0.90 + 0.28 * kind)
                     : kind < 0.88 ? Colour{140, 138, 94}
                                   : Colour{140, 126, 102};
            const double cellX = p.x / 15 + 0.25 * std::sin(p.y * 0.05) - cell.x;
            const double cellY = p.y / 19 + 0.25 * std::sin(p.x * 0.04) - cell.y;
            if (std::min(cellX, cellY) < 0.05 && kind < 0.62 && noise(p * 0.4, 12) > -0.5)
                colour = Colour{74, 92, 50} * (1 + 0.2 * noise(p * 1.1, 13)); // clipped hedges
            shade += 0.05 * texture + 0.10 * fine;
            break;
        }
        }
        return colour * (1 + shade);
    }

    [[nodiscard]] static Colour waterAt(Point p, double fromShore, double depth) {
        const double deep = ramp(fromShore + 6 * layered(p * (1 / 45.0), 500, 3), 0, 95);
        Colour colour = mix({104, 124, 104}, {48, 78, 84}, std::pow(deep, 0.6));
        colour = mix(colour, {37, 63, 76}, ramp(fromShore, 60, 230));
        // Wind lanes, ripples, and the ground shining through near the bank.
        const Point wind{p.x * 0.83 + p.y * 0.55, -p.x * 0.55 + p.y * 0.83};
        const double lanes = layered({wind.x * (1 / 240.0), wind.y * (1 / 38.0)}, 510, 3);
        const double ripples = noise({wind.x * 0.45, wind.y * 1.3}, 520);
        colour = colour * (1 + 0.055 * lanes + 0.022 * ripples + 0.035 * grain(p, 530));
        const double reeds =
            ramp(layered(p * (1 / 70.0), 550, 3), 0.12, 0.3) * (1 - ramp(fromShore + 2 * noise(p * 0.3, 551), 4, 9));
        const double shallow = 1 - ramp(fromShore + 1.6 * noise(p * 0.15, 540), 1.5, 13);
        colour = mix(colour, {146, 146, 118}, 0.75 * shallow);
        if (depth < 2.2)
            colour = mix(bank(p, -depth), colour, ramp(depth + 0.8 * noise(p * 0.4, 541), 0.2, 2.0));
        colour =
            mix(colour, Colour{112, 117, 66} * (1 + 0.22 * noise(p * 0.9, 552) + 0.15 * grain(p, 553)), 0.9 * reeds);
        return colour;
    }

    [[nodiscard]] Colour damAt(Point p, Colour below, double distance, double depth) const {
        const Point a = m_scene.damCrest[0];
        const Point b = m_scene.damCrest[1];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        const Point along{(b.x - a.x) / length, (b.y - a.y) / length};
        const double far = (p.x - a.x) * along.x + (p.y - a.y) * along.y;
        const double downstream = (p.x - a.x) * along.y - (p.y - a.y) * along.x;
        if (far < -14 || far > length + 14)
            return below;
        if (std::abs(downstream) < m_scene.damHalfWidth) {
            if (std::abs(downstream) > m_scene.damHalfWidth - 0.7)
                return Colour{214, 209, 196} * (1 + 0.06 * grain(p, 610)); // parapets
            const double joints = std::abs(far - 12 * std::round(far / 12)) < 0.22 ? -0.12 : 0.0;
            const double wheels = -0.05 * (ramp(0.6 - std::abs(std::abs(downstream) - 1.4), 0, 0.5));
            return Colour{183, 178, 166} * (1 + joints + wheels + 0.05 * noise(p * 0.3, 611) + 0.07 * grain(p, 612));
        }
        if (downstream < 0 && downstream > -17) {
            // Stones as large as a man, wet at the water's line.
            const double stones = noise(p * 0.9, 613);
            const Colour stone =
                Colour{158, 152, 140} * (1 + 0.20 * stones + 0.18 * grain(p, 614) - 0.25 * ramp(depth, -1.5, 0.5));
            return mix(stone, below, ramp(-downstream + 0.8 * noise(p * 0.5, 615), 12.5, 15.5));
        }
        const double middle = (far - length / 2) / (length / 2);
        const double foot = 48 * std::sqrt(std::max(0.0, 1 - 0.8 * middle * middle));
        if (downstream > 0 && downstream < foot + 3) {
            // Spillway: a concrete chute beside the middle.
            const double chute = far - 0.42 * length;
            if (std::abs(chute) < 7) {
                if (std::abs(chute) > 5.9)
                    return Colour{206, 202, 190} * (1 + 0.06 * grain(p, 616));
                const double water = noise({chute * 0.8, downstream * 0.12}, 617);
                return mix({168, 165, 155}, {196, 204, 202}, ramp(water, -0.1, 0.8)) * (1 + 0.06 * grain(p, 618));
            }
            const double berm = std::abs(downstream - 0.52 * foot);
            if (berm < 2.2)
                return Colour{176, 166, 140} * (1 + 0.10 * grain(p, 619));
            // A mown slope that faces the sun.
            const double swath = std::tanh(4 * std::sin(2 * M_PI * downstream / 4.4));
            const Colour slope = Colour{138, 148, 84} * (1 + 0.045 * swath + 0.06 * noise(p * 0.5, 620) +
                                                         0.10 * grain(p, 621) + 0.06 * layered(p * (1 / 20.0), 622, 3));
            return mix(slope, below, ramp(downstream - foot, 0, 3));
        }
        (void)distance;
        return below;
    }

    [[nodiscard]] Colour riverAt(Point p, Colour below, double distance) const {
        const double width = m_scene.riverHalfWidth * (1 + 0.35 * noise(p * (1 / 22.0), 700));
        const Colour water = Colour{70, 92, 86} * (1 + 0.08 * noise(p * 0.35, 701) + 0.05 * grain(p, 702));
        const Colour stream = mix(mix({124, 128, 100}, water, ramp(width - distance, 0.2, 2.4)), {172, 182, 176},
                                  0.5 * ramp(noise(p * 0.6, 703), 0.72, 0.95));
        const Colour side = mix({150, 143, 112}, below, ramp(distance - width, 0.8, 2.5));
        return distance < width ? stream : mix(side, below, ramp(distance - width, 2, 5));
    }

    [[nodiscard]] static Colour trackAt(Point p, Colour below, double distance) {
        const double wheel = ramp(0.75 - std::abs(distance - 0.85), 0, 0.5);
        const Colour earth = Colour{184, 166, 128} * (1 + 0.10 * noise(p * 0.5, 801) + 0.12 * grain(p, 802));
        const double covered = std::max(0.85 * wheel, 0.45 * (1 - ramp(distance, 1.6, 2.6)));
        return mix(below, earth, covered);
    }

    [[nodiscard]] static Colour laneAt(Point p, Colour below, double distance) {
        const Colour verge = mix(Colour{150, 145, 104} * (1 + 0.10 * grain(p, 811)), below, ramp(distance, 3.6, 5.5));
        const Colour paved = Colour{160, 157, 149} * (1 + 0.04 * noise(p * 0.4, 812) + 0.07 * grain(p, 813));
        return mix(paved, verge, ramp(distance, 2.3, 2.9));
    }

    [[nodiscard]] Colour roadAt(Point p, Colour below, double distance) const {
        const double half = m_scene.roadHalfWidth;
        if (distance > half) {
            const Colour verge = Colour{138, 139, 88} * (1 + 0.10 * noise(p * 0.8, 820) + 0.12 * grain(p, 821));
            return mix(mix({170, 162, 136}, verge, ramp(distance - half, 0.4, 1.4)), below, ramp(distance, 7, 10));
        }
        const double repairs = noise({p.x * (1 / 33.0), 0}, 822) > 0.45 ? -0.05 : 0.0;
        Colour colour = Colour{139, 139, 138} * (1 + repairs + 0.035 * noise(p * 0.5, 823) + 0.06 * grain(p, 824));
        const double lane = std::abs(distance - half / 2);
        colour = colour * (1 - 0.05 * ramp(0.9 - std::abs(lane - 0.8), 0, 0.5));
        if (std::abs(distance - (half - 0.35)) < 0.11 || (distance < 0.12 && std::fmod(p.x, 9.0) < 4.5))
            colour = mix(colour, {228, 228, 222}, 0.85);
        return colour;
    }

    [[nodiscard]] static Colour padAt(Point p, Colour below, const Pad& pad, double inside) {
        if (inside < -1.5)
            return below;
        Colour colour;
        const double fine = grain(p, 830);
        const double patches = layered(p * (1 / 9.0), 831, 3);
        switch (pad.surface) {
        case Pad::Surface::Gravel:
            colour = Colour{182, 178, 167} * (1 + 0.17 * fine + 0.05 * patches);
            break;
        case Pad::Surface::Asphalt:
            colour = Colour{132, 132, 132} * (1 + 0.07 * fine + 0.07 * patches);
            break;
        case Pad::Surface::Concrete:
            colour = Colour{186, 182, 171} * (1 + 0.07 * fine + 0.05 * patches);
            break;
        case Pad::Surface::Dirt:
            colour = Colour{170, 156, 128} * (1 + 0.12 * fine + 0.12 * patches);
            break;
        case Pad::Surface::Sport: {
            const Point a = pad.ring[0];
            const Point b = pad.ring[1];
            const double length = std::hypot(b.x - a.x, b.y - a.y);
            const double along = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length;
            colour = Colour{104, 136, 70} *
                     (1 + 0.05 * std::tanh(5 * std::sin(2 * M_PI * along / 11)) + 0.08 * fine + 0.05 * patches);
            const double circle = std::abs(std::hypot(along - length / 2, middleOffset(p, pad)) - 8.0);
            if (std::abs(inside - 4) < 0.13 || (std::abs(along - length / 2) < 0.13 && inside > 4) || circle < 0.13)
                colour = {232, 234, 226};
            break;
        }
        }
        if (pad.surface != Pad::Surface::Sport && pad.surface != Pad::Surface::Dirt && inside > 0 && inside < 0.5)
            colour = colour * 0.82; // kerb or fence
        return mix(below, colour, ramp(inside, -0.4, 0.4));
    }
    [[nodiscard]] static double middleOffset(Point p, const Pad& pad) {
        const Point middle = (pad.ring[0] + pad.ring[2]) * 0.5;
        const Point along = pad.ring[1] - pad.ring[0];
        const double length = std::hypot(along.x, along.y);
        return (-(p.x - middle.x) * along.y + (p.y - middle.y) * along.x) / length;
    }

    // --------------------------------------------------------------- shadows

    static void darken(Canvas& canvas, std::size_t index, double share) {
        canvas.light[index] = std::min(canvas.light[index], static_cast<float>(1 - share));
    }

    void castShadows(Canvas& canvas) const {
        for (const Tree& tree : m_scene.trees) {
            const Point tip = kToShadow * tree.height;
            const Point middle = tree.middle + tip * 0.5;
            const double reach = tree.radius + std::hypot(tip.x, tip.y) / 2 + 1;
            if (!near(canvas, middle, reach))
                continue;
            canvas.around(middle, reach, [&](std::size_t index, Point p) {
                const double wobble = 0.7 * noise(p * 0.7, tree.seed);
                // A crown's shadow, thinner at the tip of a conifer.
                const double share = std::clamp(((p.x - tree.middle.x) * tip.x + (p.y - tree.middle.y) * tip.y) /
                                                    (tip.x * tip.x + tip.y * tip.y),
                                                0.0, 1.0);
                const double width = tree.conifer ? tree.radius * (1.05 - share)
                                                  : tree.radius * (share < 0.35 ? 0.75 + 0.6 * share : 0.96);
                const double distance =
                    distanceToSegment(p, tree.middle + tip * 0.15, tree.middle + tip * (tree.conifer ? 1.0 : 0.78));
                darken(canvas, index, 0.62 * (1 - ramp(distance + wobble, width - 0.4, width + 0.4)));
            });
        }
        const auto cast = [&](Point middle, double length, double width, double direction, double height) {
            const Point tip = kToShadow * height;
            const double reach = std::hypot(length, width) / 2 + std::hypot(tip.x, tip.y) + 1;
            if (!near(canvas, middle, reach))
                return;
            const double c = std::cos(direction);
            const double s = std::sin(direction);
            const int steps = std::max(2, static_cast<int>(std::hypot(tip.x, tip.y) / 0.4));
            canvas.around(middle, reach, [&](std::size_t index, Point p) {
                // Inside the block swept along the shadow?
                for (int step = 0; step <= steps; ++step) {
                    const Point q = p - middle - tip * (static_cast<double>(step) / steps);
                    const double along = std::abs(q.x * c + q.y * s) - length / 2;
                    const double aside = std::abs(-q.x * s + q.y * c) - width / 2;
                    if (std::max(along, aside) < 0) {
                        darken(canvas, index, 0.66);
                        return;
                    }
                }
            });
        };
        for (const Building& building : m_scene.buildings)
            cast(building.middle, building.length, building.width, building.direction, building.height);
        for (const Building& car : m_scene.cars)
            cast(car.middle, car.length, car.width, car.direction, car.height);
        for (const Point pylon : m_scene.pylons) {
            cast(pylon, 0.9, 0.9, 0, 28);
            for (const double height : {20.0, 25.0})
                cast(pylon + kToShadow * height, height > 22 ? 11 : 8, 0.5, 1.9, 0.6);
        }
        for (const Tank& tank : m_scene.tanks)
            cast(tank.middle, tank.radius * 1.7, tank.radius * 1.7, 0.8, tank.open ? 1.5 : 7);
        for (const Boat& boat : m_scene.boats)
            cast(boat.middle, boat.length * 0.8, boat.length * 0.25, boat.direction, 1.6);
        for (std::size_t index = 0; index < canvas.colours.size(); ++index)
            if (canvas.light[index] < 1) {
                // What lights a shadow is the blue sky.
                const double light = static_cast<double>(canvas.light[index]);
                Colour& colour = canvas.colours[index];
                colour = {colour.r * light * 0.96, colour.g * (light * 0.97 + 0.03), colour.b * (light * 0.92 + 0.08)};
            }
    }

    [[nodiscard]] static bool near(const Canvas& canvas, Point p, double reach) {
        const Point low = canvas.southWest();
        const double side = canvas.side * kPixel;
        return p.x + reach > low.x && p.x - reach < low.x + side && p.y + reach > low.y && p.y - reach < low.y + side;
    }

    // ---------------------------------------------------------------- things

    void paintThings(Canvas& canvas) const {
        for (const Line& jetty : m_scene.jetties)
            for (std::size_t index = 1; index < jetty.size(); ++index) {
                const Point a = jetty[index - 1];
                const Point b = jetty[index];
                const Point middle = (a + b) * 0.5;
                const double reach = std::hypot(b.x - a.x, b.y - a.y) / 2 + 3;
                if (near(canvas, middle, reach))
                    canvas.around(middle, reach, [&](std::size_t at, Point p) {
                        const double distance = distanceToSegment(p, a, b);
                        canvas.colours[at] = mix(Colour{176, 160, 132} * (1 + 0.10 * grain(p, 900)), canvas.colours[at],
                                                 ramp(distance, 1.2, 1.5));
                    });
            }
        for (const Tank& tank : m_scene.tanks)
            if (near(canvas, tank.middle, tank.radius + 1))
                paintTank(canvas, tank);
        for (const Boat& boat : m_scene.boats)
            if (near(canvas, boat.middle, boat.length))
                paintBoat(canvas, boat);
        for (const Building& car : m_scene.cars)
            if (near(canvas, car.middle, car.length))
                paintBlock(canvas, car, true);
        for (const Building& building : m_scene.buildings)
            if (near(canvas, building.middle, building.length + building.width))
                paintBlock(canvas, building, false);
        for (const Point pylon : m_scene.pylons)
            for (const double length : {11.0, 8.0})
                paintBlock(canvas, {pylon + Point{0, length > 10 ? 0.6 : -0.6}, length, 0.5, 1.9, 28, Roof::Metal},
                           false);
        for (const Tree& tree : m_scene.trees)
            if (near(canvas, tree.middle, tree.radius + 1.5))
                paintTree(canvas, tree);
    }

    static void paintTank(Canvas& canvas, const Tank& tank) {
        canvas.around(tank.middle, tank.radius + 1, [&](std::size_t at, Point p) {
            const Point from = p - tank.middle;
            const double distance = std::hypot(from.x, from.y);
            Colour colour;
            if (tank.open) {
                const double arm = std::abs(from.x * 0.8 - from.y * 0.6);
                colour = distance > tank.radius - 0.9 ? Colour{200, 197, 187}
                         : arm < 0.45                 ? Colour{190, 190, 184}
                                                      : Colour{78, 98, 92} * (1 + 0.05 * grain(p, 910));
                if (distance < 1.3)
                    colour = {196, 192, 182};
            } else {
                colour = Colour{196, 198, 198} *
                         (0.92 + 0.16 * toSun(from * (1 / std::max(distance, 0.1))) * distance / tank.radius);
            }
            canvas.colours[at] = mix(colour, canvas.colours[at], ramp(distance, tank.radius - 0.2, tank.radius + 0.2));
        });
    }

    static void paintBoat(Canvas& canvas, const Boat& boat) {
        const double c = std::cos(boat.direction);
        const double s = std::sin(boat.direction);
        canvas.around(boat.middle, boat.length, [&](std::size_t at, Point p) {
            const Point from = p - boat.middle;
            const double along = (from.x * c + from.y * s) / (boat.length / 2);
            const double aside = std::abs(-from.x * s + from.y * c);
            const double beam = 0.17 * boat.length * (along > 0 ? std::sqrt(std::max(0.0, 1 - along * along)) : 0.95);
            if (std::abs(along) > 1)
                return;
            const bool cabin = along > -0.55 && along < 0.1 && aside < 0.55 * beam;
            const Colour colour = cabin ? Colour{150, 162, 170} : Colour{232, 232, 228};
            canvas.colours[at] = mix(colour, canvas.colours[at], ramp(aside, beam - 0.15, beam + 0.15));
        });
    }

    static void paintBlock(Canvas& canvas, const Building& block, bool isCar) {
        const double c = std::cos(block.direction);
        const double s = std::sin(block.direction);
        const auto seed = static_cast<std::uint32_t>(block.middle.x * 31 + block.middle.y * 17);
        const Colour roof = roofColour(block.roof, seed);
        canvas.around(block.middle, std::hypot(block.length, block.width) / 2 + 1, [&](std::size_t at, Point p) {
            const Point from = p - block.middle;
            const double along = from.x * c + from.y * s;
            const double aside = -from.x * s + from.y * c;
            const double outside = std::max(std::abs(along) - block.length / 2, std::abs(aside) - block.width / 2);
            if (outside > 0.3)
                return;
            Colour colour = roof;
            if (isCar && block.length > 3) {
                const double share = along / block.length;
                if (std::abs(share - 0.12) < 0.08 || std::abs(share + 0.33) < 0.06)
                    colour = {60, 66, 74};
            } else if (block.roof == Roof::Flat) {
                colour = colour * (1 + 0.05 * noise(p * 0.25, seed) + 0.06 * grain(p, seed));
                if (outside > -0.6)
                    colour = colour * 1.14;
                // Sky lights and vents.
                const double cell = std::fmod(std::abs(along) + 100, 6.0);
                if (std::abs(aside) < 1.1 && cell < 1.5 && outside < -2)
                    colour = {110, 122, 130};
            } else if (block.length > 3) {
                // Two slopes, one of them in the sun; rows of tiles or sheets run down them.
                const Point normal = aside > 0 ? Point{-s, c} : Point{s, -c};
                const double sheets = block.roof == Roof::Metal ? 0.05 * std::sin(2 * M_PI * along / 1.1)
                                                                : 0.04 * std::sin(2 * M_PI * aside / 0.7);
                colour = colour *
                         (0.93 + 0.24 * toSun(normal) + sheets + 0.06 * noise(p * 0.5, seed) + 0.08 * grain(p, seed));
                if (std::abs(aside) < 0.22)
                    colour = colour * 1.15;
                const Point chimney{along - 0.28 * block.length, aside - 0.1 * block.width};
                if (block.roof != Roof::Metal && block.length > 9 && block.length < 22 &&
                    std::max(std::abs(chimney.x), std::abs(chimney.y)) < 0.45)
                    colour = {120, 84, 70};
            }
            canvas.colours[at] = mix(colour, canvas.colours[at], ramp(outside, -0.15, 0.2));
        });
    }

    static void paintTree(Canvas& canvas, const Tree& tree) {
        const double tone = scattered(tree.seed, 1, 1);
        Colour leaf = mix({70, 92, 46}, {100, 112, 58}, tone);
        if (scattered(tree.seed, 2, 1) < 0.06)
            leaf = {124, 118, 62};
        if (tree.conifer)
            leaf = Colour{52, 74, 48} * (0.9 + 0.3 * tone);
        canvas.around(tree.middle, tree.radius + 1.2, [&](std::size_t at, Point p) {
            const Point from = p - tree.middle;
            const double distance = std::hypot(from.x, from.y);
            const double angle = std::atan2(from.y, from.x);
            const double lobes = tree.conifer
                                     ? 0.10 * std::sin(9 * angle + tone * 6)
                                     : 0.16 * std::sin(5 * angle + tone * 6) * noise({angle, tone * 9}, tree.seed);
            const double radius = tree.radius * (1 + lobes) + 0.35 * noise(p * 0.9, tree.seed);
            const double share = distance / radius;
            if (share > 1.25)
                return;
            // A dome: its side towards the sun is light. Clumps of leaves are little domes on it.
            const double slope = std::min(share, 1.0);
            const Point outward = distance > 0 ? from * (1 / distance) : Point{};
            const double clumps = noise(p * 0.75, tree.seed + 1) + 0.6 * noise(p * 1.6, tree.seed + 2);
            double light = 0.86 + 0.42 * toSun(outward) * slope + 0.16 * clumps + 0.16 * grain(p, tree.seed);
            if (tree.conifer)
                light += 0.22 * (0.5 - share);
            canvas.colours[at] = mix(leaf * light, canvas.colours[at], ramp(share, 0.9, 1.08));
        });
    }

    // A lens does not draw pixels sharp: a light smoothing, and what the air adds.
    [[nodiscard]] static std::vector<std::uint8_t> softened(const Canvas& canvas) {
        std::vector<std::uint8_t> bytes(static_cast<std::size_t>(kTile) * kTile * 3);
        for (int y = 0; y < kTile; ++y)
            for (int x = 0; x < kTile; ++x) {
                Colour sum;
                for (int dy = -1; dy <= 1; ++dy)
                    for (int dx = -1; dx <= 1; ++dx) {
                        const double weight = (dx == 0 ? 0.6 : 0.2) * (dy == 0 ? 0.6 : 0.2);
                        const Colour& colour = canvas.colours[canvas.index(x + kMargin + dx, y + kMargin + dy)];
                        sum = {sum.r + weight * colour.r, sum.g + weight * colour.g, sum.b + weight * colour.b};
                    }
                const auto byte = [](double value) {
                    return static_cast<std::uint8_t>(std::clamp(value, 0.0, 255.0) + 0.5);
                };
                std::uint8_t* const pixel =
                    &bytes[(static_cast<std::size_t>(y) * kTile + static_cast<std::size_t>(x)) * 3];
                const double grey = 0.3 * sum.r + 0.59 * sum.g + 0.11 * sum.b;
                sum = mix(sum, {grey, grey, grey}, 0.16);
                pixel[0] = byte(sum.r * 0.975 + 6);
                pixel[1] = byte(sum.g * 0.970 + 6);
                pixel[2] = byte(sum.b * 0.965 + 9);
            }
        return bytes;
    }

    const Scene& m_scene;
};

struct CloseDataset {
    void operator()(void* dataset) const { GDALClose(dataset); }
};

void require(bool succeeded, const std::string& path) {
    if (!succeeded)
        throw std::runtime_error{path + ": " + CPLGetLastErrorMsg()};
}

} // namespace

void writeOrthophoto(const Scene& scene, const std::string& path) {
    constexpr int width = static_cast<int>(kWidth / kPixel);
    constexpr int height = static_cast<int>(kHeight / kPixel);
    char** options = nullptr;
    for (const char* option :
         {"TILED=YES", "BLOCKXSIZE=512", "BLOCKYSIZE=512", "COMPRESS=JPEG", "PHOTOMETRIC=YCBCR", "JPEG_QUALITY=88"})
        options = CSLAddString(options, option);
    const std::unique_ptr<void, CloseDataset> file{
        GDALCreate(GDALGetDriverByName("GTiff"), path.c_str(), width, height, 3, GDT_Byte, options)};
    CSLDestroy(options);
    require(file != nullptr, path);
    double geotransform[] = {kEasting, kPixel, 0, kNorthing + kHeight, 0, -kPixel};
    GDALSetGeoTransform(file.get(), geotransform);
    OGRSpatialReferenceH crs = OSRNewSpatialReference(nullptr);
    OSRSetFromUserInput(crs, kCrs);
    GDALSetSpatialRef(file.get(), crs);
    OSRDestroySpatialReference(crs);

    const Painter painter{scene};
    constexpr int columns = (width + kTile - 1) / kTile;
    constexpr int rows = (height + kTile - 1) / kTile;
    for (int row = 0; row < rows; ++row) {
        std::array<std::vector<std::uint8_t>, columns> tiles;
        std::atomic<int> next{0};
        const auto work = [&] {
            for (int column = next++; column < columns; column = next++)
                tiles[static_cast<std::size_t>(column)] = painter.tile(column, row);
        };
        std::vector<std::jthread> workers;
        for (unsigned count = 0; count < std::max(1U, std::thread::hardware_concurrency()); ++count)
            workers.emplace_back(work);
        workers.clear(); // waits for them
        for (int column = 0; column < columns; ++column) {
            const int tileWidth = std::min(kTile, width - column * kTile);
            const int tileHeight = std::min(kTile, height - row * kTile);
            require(GDALDatasetRasterIO(file.get(), GF_Write, column * kTile, row * kTile, tileWidth, tileHeight,
                                        tiles[static_cast<std::size_t>(column)].data(), tileWidth, tileHeight, GDT_Byte,
                                        3, nullptr, 3, 3 * kTile, 1) == CE_None,
                    path);
        }
    }
    GDALFlushCache(file.get());
    CPLSetThreadLocalConfigOption("COMPRESS_OVERVIEW", "JPEG");
    CPLSetThreadLocalConfigOption("PHOTOMETRIC_OVERVIEW", "YCBCR");
    CPLSetThreadLocalConfigOption("JPEG_QUALITY_OVERVIEW", "85");
    CPLSetThreadLocalConfigOption("GDAL_TIFF_OVR_BLOCKSIZE", "512");
    int levels[] = {2, 4, 8, 16};
    require(GDALBuildOverviews(file.get(), "AVERAGE", 4, levels, 0, nullptr, nullptr, nullptr) == CE_None, path);
}

} // namespace alder_reach
