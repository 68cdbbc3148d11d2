#pragma once

#include <cstdint>
#include <string>
#include <vector>

// The invented ground of Alder Reach. Everything that the sample shows is placed here, once: the orthophoto, the land
// records, the site list and the document are all made from it. No place, person or firm is real.
namespace alder_reach {

/// Metres east and north of the scene's south-west corner.
struct Point {
    double x = 0, y = 0;
};
inline Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
inline Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
inline Point operator*(Point a, double factor) { return {a.x * factor, a.y * factor}; }
using Line = std::vector<Point>;
using Ring = std::vector<Point>; ///< not closed by a repeated point

constexpr double kWidth = 2400;  // metres
constexpr double kHeight = 1720; // metres
// The south-west corner in EPSG:25829 (ETRS89 / UTM zone 29N). It lies in the sea, where nobody lives.
constexpr double kEasting = 519300;
constexpr double kNorthing = 5116560;
constexpr const char* kCrs = "EPSG:25829";

struct Parcel {
    std::string number;
    std::string ownerKind; ///< utility, leased, private, public
    bool consent = false;
    Ring ring;
    std::vector<Ring> holes;
};

enum class Crop { Pasture, Meadow, Wheat, Stubble, Ploughed, Maize, Rape, Fallow, Garden };

/// What the ground looks like between hedges. Convex.
struct Field {
    Ring ring;
    Crop crop = Crop::Pasture;
    double direction = 0; ///< of the furrows, radians from east
    std::uint32_t seed = 0;
};

enum class Roof { Tile, Slate, Metal, Flat, White };

struct Building {
    Point middle;
    double length = 0, width = 0; ///< metres
    double direction = 0;         ///< of the ridge, radians from east
    double height = 5;
    Roof roof = Roof::Tile;
};

struct Tree {
    Point middle;
    double radius = 3;
    double height = 8;
    std::uint32_t seed = 0;
    bool conifer = false;
};

/// A paved or gravelled piece of ground.
struct Pad {
    Ring ring;
    enum class Surface { Gravel, Asphalt, Concrete, Sport, Dirt } surface = Surface::Gravel;
};

struct Tank {
    Point middle;
    double radius = 8;
    bool open = true; ///< water to be seen
};

struct Boat {
    Point middle;
    double length = 7;
    double direction = 0;
};

struct Scene {
    Ring reservoir;
    Ring island;
    Line damCrest;
    double damHalfWidth = 5;
    Line river;
    double riverHalfWidth = 5;
    Line road; ///< the county road's middle
    double roadHalfWidth = 4.2;
    std::vector<Line> lanes;  ///< paved, narrow
    std::vector<Line> tracks; ///< unpaved
    std::vector<Line> drives; ///< from a lane to a house
    std::vector<Line> jetties;
    std::vector<Parcel> parcels;
    std::vector<Field> fields;
    std::vector<Line> hedges;
    std::vector<Building> buildings;
    std::vector<Tree> trees;
    std::vector<Pad> pads;
    std::vector<Tank> tanks;
    std::vector<Boat> boats;
    std::vector<Building> cars; ///< and cattle: seen from above they are small buildings
    std::vector<Point> pylons;

    Point nest;
    Point chlorineStore;
    Ring switchyard;
    Point school;
    Ring ferryLanding;
    Point home;
    Point boatYard;

    /// @throws std::out_of_range  there is no such parcel.
    [[nodiscard]] const Parcel& parcel(const std::string& number) const;
};

[[nodiscard]] Scene makeScene();

/// Evenly spread over [0, 1) and always the same for the same seed, whatever the standard library.
class Random {
public:
    explicit Random(std::uint64_t seed) : m_state{seed} {}
    double operator()();
    double between(double low, double high) { return low + (high - low) * (*this)(); }

private:
    std::uint64_t m_state;
};

[[nodiscard]] double distanceToSegment(Point p, Point a, Point b);
[[nodiscard]] double distanceToLine(Point p, const Line& line);
/// Positive inside.
[[nodiscard]] double depthInRing(Point p, const Ring& ring);
[[nodiscard]] bool isInside(Point p, const Ring& ring);

} // namespace alder_reach
