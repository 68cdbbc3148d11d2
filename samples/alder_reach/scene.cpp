#include "alder_reach/scene.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <set>
#include <stdexcept>

namespace alder_reach {

double Random::operator()() {
    // Steele, Lea and Flood, "Fast splittable pseudorandom number generators" (2014): SplitMix64.
    m_state += 0x9e3779b97f4a7c15U;
    std::uint64_t z = m_state;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return static_cast<double>((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

double distanceToSegment(Point p, Point a, Point b) {
    const Point along = b - a;
    const double square = along.x * along.x + along.y * along.y;
    const double share =
        square > 0 ? std::clamp(((p.x - a.x) * along.x + (p.y - a.y) * along.y) / square, 0.0, 1.0) : 0.0;
    const Point nearest = a + along * share;
    return std::hypot(p.x - nearest.x, p.y - nearest.y);
}

double distanceToLine(Point p, const Line& line) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t index = 1; index < line.size(); ++index)
        least = std::min(least, distanceToSegment(p, line[index - 1], line[index]));
    return least;
}

bool isInside(Point p, const Ring& ring) {
    bool inside = false;
    for (std::size_t index = 0, before = ring.size() - 1; index < ring.size(); before = index++) {
        const Point a = ring[index];
        const Point b = ring[before];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
    }
    return inside;
}

double depthInRing(Point p, const Ring& ring) {
    double least = distanceToSegment(p, ring.back(), ring.front());
    least = std::min(least, distanceToLine(p, ring));
    return isInside(p, ring) ? least : -least;
}

const Parcel& Scene::parcel(const std::string& number) const {
    for (const Parcel& parcel : parcels)
        if (parcel.number == number)
            return parcel;
    throw std::out_of_range{"no parcel " + number};
}

namespace {

// The net of boundaries that parcels and fields are cut from. Rows count from the south; row 2 is the county road.
constexpr int kColumns = 10;
constexpr int kRows = 9;
constexpr int kRoadRow = 2;
constexpr double kRoadParcelHalfWidth = 8; // metres
constexpr std::array<double, kColumns + 1> kColumnLines{0, 150, 430, 700, 960, 1220, 1480, 1720, 1950, 2180, kWidth};
constexpr std::array<double, kRows + 1> kRowLines{0, 150, 0, 0, 560, 800, 1050, 1310, 1580, kHeight};

Point roadAt(double x) { return {x, 300 + 38 * std::sin((x - 250) / 430) + 0.03 * x}; }

class Net {
public:
    Net() {
        Random random{20260514};
        for (int row = 0; row <= kRows; ++row)
            for (int column = 0; column <= kColumns; ++column) {
                const bool edgeX = column == 0 || column == kColumns;
                const bool edgeY = row == 0 || row == kRows;
                const double x = kColumnLines[static_cast<std::size_t>(column)] + (edgeX ? 0 : random.between(-32, 32));
                Point point{x, kRowLines[static_cast<std::size_t>(row)] + (edgeY ? 0 : random.between(-26, 26))};
                point = point + bent(point);
                if (row == kRoadRow || row == kRoadRow + 1)
                    // The same place along the road on both of its sides.
                    point = roadSide(kColumnLines[static_cast<std::size_t>(column)], row);
                m_nodes[{column, row}] = point;
            }
        for (int row = 0; row <= kRows; ++row)
            for (int column = 0; column < kColumns; ++column) {
                const Point a = m_nodes[{column, row}];
                const Point b = m_nodes[{column + 1, row}];
                Line line{a};
                if (row == kRoadRow || row == kRoadRow + 1)
                    for (int step = 1; step < 8; ++step)
                        line.push_back(roadSide(a.x + (b.x - a.x) * step / 8, row));
                else if (row > 0 && row < kRows)
                    line.push_back((a + b) * 0.5 + Point{random.between(-8, 8), random.between(-9, 9)});
                line.push_back(b);
                m_across[{column, row}] = line;
            }
        for (int row = 0; row < kRows; ++row)
            for (int column = 0; column <= kColumns; ++column) {
                const Point a = m_nodes[{column, row}];
                const Point b = m_nodes[{column, row + 1}];
                Line line{a};
                if (row != kRoadRow && column > 0 && column < kColumns)
                    line.push_back((a + b) * 0.5 + Point{random.between(-9, 9), random.between(-8, 8)});
                line.push_back(b);
                m_up[{column, row}] = line;
            }
    }

    [[nodiscard]] Point node(int column, int row) const { return m_nodes.at({column, row}); }
    [[nodiscard]] const Line& across(int column, int row) const { return m_across.at({column, row}); }
    [[nodiscard]] const Line& up(int column, int row) const { return m_up.at({column, row}); }

    // The outer ring around cells that hang together: the edges that only one of them has, one after the other.
    [[nodiscard]] Ring around(const std::set<std::pair<int, int>>& cells) const {
        std::map<std::pair<int, int>, std::pair<std::pair<int, int>, Line>> next; // by node, counter-clockwise
        const auto has = [&](int column, int row) { return cells.count({column, row}) > 0; };
        const auto reversed = [](Line line) {
            std::reverse(line.begin(), line.end());
            return line;
        };
        for (const auto& [column, row] : cells) {
            if (!has(column, row - 1))
                next[{column, row}] = {{column + 1, row}, across(column, row)};
            if (!has(column + 1, row))
                next[{column + 1, row}] = {{column + 1, row + 1}, up(column + 1, row)};
            if (!has(column, row + 1))
                next[{column + 1, row + 1}] = {{column, row + 1}, reversed(across(column, row + 1))};
            if (!has(column - 1, row))
                next[{column, row + 1}] = {{column, row}, reversed(up(column, row))};
        }
        Ring ring;
        const auto first = next.begin()->first;
        auto at = first;
        do {
            const auto& [to, line] = next.at(at);
            ring.insert(ring.end(), line.begin(), line.end() - 1);
            at = to;
        } while (at != first);
        return ring;
    }

private:
    // Old boundaries follow the ground and not a ruler. The scene's border stays where it is, and so does the road.
    static Point bent(Point p) {
        const double inside = std::min({p.x, p.y, kWidth - p.x, kHeight - p.y, 150.0}) / 150.0;
        const double fromRoad = std::min(std::abs(p.y - roadAt(p.x).y) / 200.0, 1.0);
        return Point{52 * std::sin(p.y / 260 + 0.6) + 24 * std::sin(p.y / 105 + p.x / 400),
                     46 * std::sin(p.x / 310 + 1.1) + 22 * std::sin(p.x / 120 - p.y / 350)} *
               (inside * fromRoad);
    }
    static Point roadSide(double x, int row) {
        const Point middle = roadAt(x);
        const Point ahead = roadAt(x + 1) - middle;
        const double length = std::hypot(ahead.x, ahead.y);
        const double side = row == kRoadRow ? -kRoadParcelHalfWidth : kRoadParcelHalfWidth;
        // At the scene's ends the boundary stays on the edge.
        if (x <= 0 || x >= kWidth)
            return {x, middle.y + side};
        return middle + Point{-ahead.y, ahead.x} * (side / length);
    }

    std::map<std::pair<int, int>, Point> m_nodes;
    std::map<std::pair<int, int>, Line> m_across;
    std::map<std::pair<int, int>, Line> m_up;
};

// A part of a line, by shares of its length.
Line partOf(const Line& line, double from, double to) {
    double length = 0;
    for (std::size_t index = 1; index < line.size(); ++index)
        length += std::hypot(line[index].x - line[index - 1].x, line[index].y - line[index - 1].y);
    Line part;
    double done = 0;
    for (std::size_t index = 1; index < line.size(); ++index) {
        const double step = std::hypot(line[index].x - line[index - 1].x, line[index].y - line[index - 1].y);
        const auto at = [&](double share) {
            return line[index - 1] + (line[index] - line[index - 1]) * ((share * length - done) / step);
        };
        if (part.empty() && from * length < done + step)
            part.push_back(at(from));
        if (!part.empty() && to * length <= done + step + 1e-9) {
            part.push_back(at(to));
            return part;
        }
        if (!part.empty())
            part.push_back(line[index]);
        done += step;
    }
    return part;
}

using Cells = std::set<std::pair<int, int>>;

Cells block(int firstColumn, int lastColumn, int firstRow, int lastRow) {
    Cells cells;
    for (int column = firstColumn; column <= lastColumn; ++column)
        for (int row = firstRow; row <= lastRow; ++row)
            cells.insert({column, row});
    return cells;
}

bool isVillage(int column, int row) { return row == 1 && column >= 6 && column <= 9; }

void makeParcels(Scene& scene, const Net& net) {
    // Three parcels of the utility and one that it leases.
    const Cells westBank = block(1, 2, 3, 7);
    Cells water = block(3, 5, 4, 7);
    water.insert({6, 7});
    const Cells works = block(6, 7, 3, 6);
    const Cells millMeadow = block(3, 5, 3, 3);
    const Ring enclosed{{318, 612}, {524, 596}, {541, 742}, {420, 768}, {306, 751}};

    struct Draft {
        Ring ring;
        std::vector<Ring> holes;
        std::string ownerKind;
        bool consent;
    };
    std::vector<Draft> drafts;
    Cells taken;
    const auto takeWhole = [&](const Cells& cells, const std::string& ownerKind, bool consent,
                               std::vector<Ring> holes) {
        drafts.push_back({net.around(cells), std::move(holes), ownerKind, consent});
        taken.insert(cells.begin(), cells.end());
    };
    takeWhole(westBank, "utility", true, {enclosed});
    takeWhole(water, "utility", true, {});
    takeWhole(works, "utility", true, {});
    takeWhole(millMeadow, "leased", true, {});
    takeWhole(block(0, kColumns - 1, kRoadRow, kRoadRow), "public", false, {});

    Random random{77};
    for (int row = 0; row < kRows; ++row)
        for (int column = 0; column < kColumns; ++column) {
            if (taken.count({column, row}))
                continue;
            const int lots = isVillage(column, row) ? 3 : 1;
            for (int lot = 0; lot < lots; ++lot) {
                const double from = static_cast<double>(lot) / lots;
                const double to = static_cast<double>(lot + 1) / lots;
                Ring ring;
                if (lots == 1) {
                    ring = net.around({{column, row}});
                } else {
                    const Line south = partOf(net.across(column, row), from, to);
                    Line north = partOf(net.across(column, row + 1), from, to);
                    std::reverse(north.begin(), north.end());
                    ring = south;
                    if (lot == lots - 1)
                        ring.insert(ring.end(), net.up(column + 1, row).begin() + 1, net.up(column + 1, row).end() - 1);
                    ring.insert(ring.end(), north.begin(), north.end());
                    if (lot == 0) {
                        Line down = net.up(column, row);
                        std::reverse(down.begin(), down.end());
                        ring.insert(ring.end(), down.begin() + 1, down.end() - 1);
                    }
                }
                const bool isPublic = isVillage(column, row) && lot == 1 && column == 7; // the school's
                drafts.push_back({ring, {}, isPublic ? "public" : "private", false});
            }
        }

    // Numbers as they came about over the years: no order but 17 for the one in the middle.
    int number = 1;
    for (Draft& draft : drafts) {
        if (number == 17)
            ++number;
        scene.parcels.push_back({std::to_string(number++), draft.ownerKind, draft.consent, draft.ring, draft.holes});
    }
    scene.parcels.insert(scene.parcels.begin() + 16, {"17", "private", false, enclosed, {}});

    // Each parcel was surveyed for itself: where two meet, their corners differ by centimetres.
    for (Parcel& parcel : scene.parcels) {
        const auto disturb = [&](Ring& ring) {
            for (Point& corner : ring) {
                const bool onEdge = corner.x <= 0 || corner.y <= 0 || corner.x >= kWidth || corner.y >= kHeight;
                if (!onEdge && random() < 0.3)
                    corner = corner + Point{random.between(-0.06, 0.06), random.between(-0.06, 0.06)};
            }
        };
        disturb(parcel.ring);
        for (Ring& hole : parcel.holes)
            disturb(hole);
    }
}

Ring blob(Point middle, double radiusX, double radiusY, int corners, std::uint64_t seed, double roughness) {
    Random random{seed};
    std::array<double, 7> phases{};
    for (double& phase : phases)
        phase = random.between(0, 2 * M_PI);
    Ring ring;
    for (int index = 0; index < corners; ++index) {
        const double angle = 2 * M_PI * index / corners;
        double radius = 1;
        for (std::size_t wave = 0; wave < phases.size(); ++wave)
            radius += roughness / (static_cast<double>(wave) + 1.3) *
                      std::sin((static_cast<double>(wave) + 2) * angle + phases[wave]);
        ring.push_back(middle + Point{radiusX * radius * std::cos(angle), radiusY * radius * std::sin(angle)});
    }
    return ring;
}

Ring rectangle(Point middle, double length, double width, double direction) {
    const Point along{std::cos(direction) * length / 2, std::sin(direction) * length / 2};
    const Point aside{-std::sin(direction) * width / 2, std::cos(direction) * width / 2};
    return {middle - along - aside, middle + along - aside, middle + along + aside, middle - along + aside};
}

void makeWater(Scene& scene) {
    scene.damCrest = {{1448, 628}, {1712, 932}};
    const Point a = scene.damCrest[0];
    const Point b = scene.damCrest[1];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const Point aside{(b.y - a.y) / length, -(b.x - a.x) / length}; // downstream
    // The water ends where the dam's slope comes out of it.
    scene.reservoir = blob({1165, 1000}, 500, 400, 260, 5, 0.125);
    for (Point& corner : scene.reservoir) {
        const double beyond = (corner.x - a.x) * aside.x + (corner.y - a.y) * aside.y + 11;
        if (beyond > 0)
            corner = corner - aside * beyond;
    }
    scene.nest = {1010, 1088};
    scene.island = blob(scene.nest + Point{6, -2}, 46, 31, 60, 9, 0.09);
    scene.home = (a + b) * 0.5;
    scene.river = {{1640, 705}, {1668, 668}, {1705, 640}, {1738, 588}, {1744, 520}, {1790, 462}, {1806, 400},
                   {1790, 330}, {1812, 250}, {1870, 190}, {1884, 120}, {1850, 60},  {1868, 0}};
}

// Chaikin's corner cutting (1974): the ends stay, corners become curves.
Line rounded(Line line) {
    for (int round = 0; round < 2; ++round) {
        Line smoother{line.front()};
        for (std::size_t index = 1; index < line.size(); ++index) {
            smoother.push_back(line[index - 1] * 0.75 + line[index] * 0.25);
            smoother.push_back(line[index - 1] * 0.25 + line[index] * 0.75);
        }
        smoother.push_back(line.back());
        line = smoother;
    }
    return line;
}

void makeWays(Scene& scene) {
    for (double x = -20; x <= kWidth + 20; x += 12)
        scene.road.push_back(roadAt(x));
    const Point south = roadAt(1610);
    // To the dam and over it, to the works, to the boat yard and the landing, through the village.
    scene.lanes = {
        {south, {1600, 420}, {1560, 520}, {1490, 590}, scene.damCrest[0]},
        {scene.damCrest[1],
         {1760, 985},
         {1850, 1010},
         {1905, 960},
         {1900, 860},
         {1872, 780},
         {1862, 640},
         {1900, 480},
         roadAt(1930)},
        {{1560, 520}, {1420, 560}, {1300, 580}, {1130, 548}, {1000, 566}, {930, 606}},
        {roadAt(2010), {2010, 240}, {2022, 150}, {2060, 60}, {2064, 0}},
        {{2022, 190}, {2110, 204}, {2200, 196}, {2300, 214}, roadAt(2350)},
    };
    scene.tracks = {
        {roadAt(360),
         {352, 450},
         {270, 560},
         {262, 760},
         {330, 900},
         {352, 1120},
         {330, 1330},
         {420, 1560},
         {440, kHeight}},
        {{270, 560}, {180, 600}, {90, 590}, {0, 610}},
        {{352, 1120}, {520, 1130}, {640, 1090}},
        {{1850, 1010}, {1880, 1150}, {1990, 1260}, {2150, 1300}, {kWidth, 1310}},
        {{420, 1560}, {700, 1590}, {980, 1568}, {1300, 1600}, {1560, 1570}, {1790, 1600}, {2010, 1530}, {2150, 1300}},
        {roadAt(760), {772, 220}, {760, 120}, {790, 0}},
        {roadAt(1330), {1320, 220}, {1350, 100}, {1340, 0}},
        {{1990, 1260}, {2040, 1040}, {2070, 860}, {2130, 640}, {2120, 500}, roadAt(2110)},
    };
    for (std::vector<Line>* lines : {&scene.lanes, &scene.tracks})
        for (Line& line : *lines)
            line = rounded(line);
    scene.river = rounded(scene.river);
}

void makeWorks(Scene& scene) {
    // Switchyard: a pad of gravel with rows of apparatus.
    scene.switchyard = rectangle({1800, 890}, 86, 70, 0.12);
    scene.pads.push_back({rectangle({1800, 890}, 92, 76, 0.12), Pad::Surface::Gravel});
    for (int row = 0; row < 4; ++row)
        for (int column = 0; column < 6; ++column) {
            const double c = std::cos(0.12);
            const double s = std::sin(0.12);
            const double x = -32 + column * 12.5;
            const double y = -24 + row * 15;
            const Point middle{1800 + x * c - y * s, 890 + x * s + y * c};
            if (row == 0 && column < 3)
                scene.buildings.push_back({middle + Point{3, 0}, 8, 5.5, 0.12, 4.5, Roof::Metal});
            else
                scene.buildings.push_back({middle, 2.2, 2.2, 0.12, 6.5, Roof::Metal});
        }
    scene.buildings.push_back({{1834, 921}, 16, 8, 0.12, 4, Roof::Flat});

    // Power house at the toe of the dam, water works with the chlorine store.
    scene.buildings.push_back({{1662, 716}, 46, 20, 0.86, 12, Roof::Flat});
    scene.pads.push_back({rectangle({1672, 704}, 70, 46, 0.86), Pad::Surface::Concrete});
    scene.chlorineStore = {1868, 588};
    scene.pads.push_back({rectangle({1836, 596}, 104, 76, -0.1), Pad::Surface::Asphalt});
    scene.buildings.push_back({scene.chlorineStore, 20, 11, -0.1, 5, Roof::White});
    scene.buildings.push_back({{1808, 572}, 30, 14, -0.1, 7, Roof::Flat});
    for (int index = 0; index < 3; ++index)
        scene.tanks.push_back({{1803.0 + 25 * index, 617.0 - 2.5 * index}, 10, true});
    scene.tanks.push_back({{1840, 578}, 5, false});

    // Boat yard and ferry landing on the south shore.
    scene.boatYard = {934, 618};
    scene.pads.push_back({rectangle({930, 616}, 84, 40, 0.32), Pad::Surface::Gravel});
    scene.buildings.push_back({{906, 596}, 26, 12, 0.32, 6, Roof::Metal});
    scene.buildings.push_back({{960, 606}, 14, 9, 0.32, 5, Roof::Tile});
    scene.jetties.push_back({{938, 634}, {960, 712}, {966, 738}});
    scene.jetties.push_back({{959, 710}, {992, 702}});
    scene.jetties.push_back({{965, 734}, {998, 726}});
    Random random{31};
    for (int index = 0; index < 7; ++index)
        scene.boats.push_back({{966.0 + 4.0 * index, 708.0 - 1.0 * index + (index % 2 ? -5.2 : 5.2)},
                               random.between(5, 8),
                               1.33 + random.between(-0.08, 0.08)});
    for (int index = 0; index < 6; ++index)
        scene.boats.push_back(
            {{971.0 + 4.6 * index, 738.0 - 1.1 * index}, random.between(5, 9), 1.33 + random.between(-0.08, 0.08)});
    for (int index = 0; index < 6; ++index)
        scene.boats.push_back(
            {{918.0 + 6 * index, 618.0 + 2.0 * index}, random.between(5, 7), 1.9 + random.between(-0.1, 0.1)});

    scene.pads.push_back({rectangle({1302, 600}, 44, 26, 0.1), Pad::Surface::Asphalt});
    scene.buildings.push_back({{1322, 592}, 12, 7, 0.1, 4, Roof::Tile});
    scene.jetties.push_back({{1300, 610}, {1304, 668}});
    scene.boats.push_back({{1311, 662}, 19, 1.5});
    scene.ferryLanding = rectangle({1304, 632}, 76, 96, 0.07);
    for (int index = 0; index < 5; ++index)
        scene.cars.push_back(
            {{1288.0 + 3.2 * index, 598.0 + 0.3 * index}, 4.2, 1.9, 1.67, 1.4, index % 2 ? Roof::White : Roof::Slate});
}

void makeVillage(Scene& scene) {
    Random random{404};
    const auto fromWays = [&](Point p) {
        double least = distanceToLine(p, scene.road) - 4;
        for (const Line& lane : scene.lanes)
            least = std::min(least, distanceToLine(p, lane));
        return least;
    };
    // A house, its drive to the way, and perhaps a shed behind it.
    const auto house = [&](Point middle, double direction, Point toWay) {
        if (fromWays(middle) < 11 || distanceToLine(middle, scene.river) < 22)
            return;
        for (const Building& other : scene.buildings)
            if (std::hypot(other.middle.x - middle.x, other.middle.y - middle.y) < 19)
                return;
        const Roof roof = random() < 0.7 ? Roof::Tile : Roof::Slate;
        scene.buildings.push_back(
            {middle, random.between(11, 17), random.between(8, 10.5), direction, random.between(5.5, 8), roof});
        const Point beside =
            middle + Point{toWay.y, -toWay.x} * (1 / std::hypot(toWay.x, toWay.y)) * random.between(6, 9);
        scene.drives.push_back({beside, beside + toWay});
        if (random() < 0.5)
            scene.cars.push_back({beside + toWay * 0.35, 4.3, 1.9, std::atan2(toWay.y, toWay.x), 1.5,
                                  random() < 0.4   ? Roof::White
                                  : random() < 0.6 ? Roof::Slate
                                                   : Roof::Metal});
        const Point shed = middle - toWay * (1 / std::hypot(toWay.x, toWay.y)) * random.between(14, 19) +
                           Point{random.between(-7, 7), 0};
        if (random() < 0.6 && fromWays(shed) > 8)
            scene.buildings.push_back({shed, random.between(4, 7), random.between(3, 4.5), direction, 2.6,
                                       random() < 0.5 ? Roof::Metal : Roof::Tile});
    };
    for (double x = 2045; x < 2340; x += random.between(24, 31)) {
        house({x, 228 + random.between(-3, 3)}, 0.05, {0, -24});
        if (x < 2085 || x > 2190)
            house({x, 172 + random.between(-4, 4)}, 0.03, {0, 26});
    }
    for (double x = 1968; x < 2345; x += random.between(26, 36)) {
        const double road = roadAt(x).y;
        house({x, road - 25 + random.between(-2, 2)}, -0.06, {0, 20});
        if (x > 1990 && random() < 0.6)
            house({x + 8, road + 26 + random.between(-2, 3)}, -0.06, {0, -20});
    }
    for (double y = 30; y < 165; y += random.between(24, 31)) {
        house({2006 + random.between(-3, 3) + (160 - y) * 0.22, y}, 1.3, {24, -6});
        if (y < 120)
            house({2094 + random.between(-3, 3), y}, 1.4, {-28, -3});
    }
    // The school: two wings, a yard, a pitch.
    scene.school = {2138, 160};
    scene.pads.push_back({rectangle({2148, 136}, 78, 38, 0.04), Pad::Surface::Asphalt});
    scene.pads.push_back({rectangle({2160, 76}, 88, 52, 0.04), Pad::Surface::Sport});
    scene.buildings.push_back({{2138, 165}, 58, 15, 0.04, 9, Roof::Flat});
    scene.buildings.push_back({{2115, 142}, 15, 32, 0.04, 9, Roof::Flat});

    // Farms: a house and barns around a yard.
    for (const auto& [middle, direction] : {std::pair{Point{96, 742}, 0.2},
                                            {Point{330, 130}, -0.1},
                                            {Point{2240, 905}, 0.5},
                                            {Point{1120, 120}, 0.05},
                                            {Point{2060, 1480}, -0.3},
                                            {Point{430, 690}, 0.12}}) {
        const auto at = [&, angle = direction, where = middle](double x, double y) {
            return where + Point{x * std::cos(angle) - y * std::sin(angle), x * std::sin(angle) + y * std::cos(angle)};
        };
        scene.pads.push_back({rectangle(at(0, 0), 52, 40, direction), Pad::Surface::Dirt});
        scene.buildings.push_back({at(-20, 14), 16, 10, direction, 7, Roof::Tile});
        scene.buildings.push_back({at(14, 16), 34, 14, direction, 8, Roof::Metal});
        scene.buildings.push_back(
            {at(20, -12), 26, 12, direction + M_PI / 2, 7, random() < 0.5 ? Roof::Metal : Roof::Slate});
        if (random() < 0.7)
            scene.tanks.push_back({at(-14, -12), 4.5, false});
    }
    // Cattle on the pastures, and the line that leaves the switchyard.
    for (const Point herd : {Point{590, 1230}, Point{1010, 1500}, Point{1830, 1120}, Point{1420, 470}})
        for (int index = 0; index < 16; ++index)
            scene.cars.push_back({herd + Point{random.between(-38, 38), random.between(-26, 26)}, 2.3, 0.9,
                                  random.between(0, 3.1), 1.4, random() < 0.55 ? Roof::White : Roof::Tile});
    for (int index = 0; index < 5; ++index)
        scene.pylons.push_back({1862.0 + 128 * index, 948.0 + 44 * index});
    for (double x = 60; x < kWidth; x += random.between(60, 210)) {
        const Point here = roadAt(x);
        const Point ahead = roadAt(x + 2) - here;
        const double direction = std::atan2(ahead.y, ahead.x);
        const double side = random() < 0.5 ? 1.9 : -1.9;
        scene.cars.push_back({here + Point{-std::sin(direction), std::cos(direction)} * side, random.between(4, 5), 1.9,
                              direction, 1.5,
                              random() < 0.4   ? Roof::White
                              : random() < 0.5 ? Roof::Slate
                                               : Roof::Tile});
    }
}

void makeFields(Scene& scene, const Net& net) {
    Random random{1212};
    const auto add = [&](const Ring& quad, bool rough) {
        const Point along = quad[1] - quad[0];
        const Point aside = quad[3] - quad[0];
        const bool longAcross = std::hypot(along.x, along.y) > std::hypot(aside.x, aside.y);
        const Point direction = longAcross ? along : aside;
        const double pick = random();
        Crop crop = pick < 0.22   ? Crop::Pasture
                    : pick < 0.40 ? Crop::Meadow
                    : pick < 0.58 ? Crop::Wheat
                    : pick < 0.68 ? Crop::Stubble
                    : pick < 0.78 ? Crop::Ploughed
                    : pick < 0.90 ? Crop::Maize
                    : pick < 0.94 ? Crop::Rape
                                  : Crop::Fallow;
        if (rough)
            crop = pick < 0.45 ? Crop::Pasture : pick < 0.75 ? Crop::Meadow : pick < 0.9 ? Crop::Fallow : Crop::Wheat;
        scene.fields.push_back(
            {quad, crop, std::atan2(direction.y, direction.x), static_cast<std::uint32_t>(random() * 4e9)});
    };
    const std::function<void(const Ring&, int, bool)> split = [&](const Ring& quad, int depth, bool rough) {
        const double lengthA = std::hypot(quad[1].x - quad[0].x, quad[1].y - quad[0].y);
        const double lengthB = std::hypot(quad[3].x - quad[0].x, quad[3].y - quad[0].y);
        if (depth == 0 || std::max(lengthA, lengthB) < 130 || random() < 0.18) {
            add(quad, rough);
            return;
        }
        const double share = random.between(0.36, 0.64);
        const double other = share + random.between(-0.05, 0.05);
        const bool acrossFirst = lengthA > lengthB ? random() < 0.85 : random() < 0.15;
        const Point from = acrossFirst ? quad[0] + (quad[1] - quad[0]) * share : quad[0] + (quad[3] - quad[0]) * share;
        const Point to = acrossFirst ? quad[3] + (quad[2] - quad[3]) * other : quad[1] + (quad[2] - quad[1]) * other;
        if (random() < 0.5)
            scene.hedges.push_back({from, to});
        if (acrossFirst) {
            split({quad[0], from, to, quad[3]}, depth - 1, rough);
            split({from, quad[1], quad[2], to}, depth - 1, rough);
        } else {
            split({quad[0], quad[1], to, from}, depth - 1, rough);
            split({from, to, quad[2], quad[3]}, depth - 1, rough);
        }
    };
    for (int row = 0; row < kRows; ++row)
        for (int column = 0; column < kColumns; ++column) {
            if (row == kRoadRow)
                continue;
            const Ring quad{net.node(column, row), net.node(column + 1, row), net.node(column + 1, row + 1),
                            net.node(column, row + 1)};
            if (isVillage(column, row) && column >= 7) {
                scene.fields.push_back({quad, Crop::Garden, 0.05, static_cast<std::uint32_t>(random() * 4e9)});
                continue;
            }
            const bool rough = column >= 3 && column <= 7 && row >= 3 && row <= 7;
            split(quad, rough ? 1 : 2, rough);
            if (row > 0 && row != kRoadRow + 1 && random() < 0.62)
                scene.hedges.push_back(net.across(column, row));
            if (column > 0 && random() < 0.62)
                scene.hedges.push_back(net.up(column, row));
        }
}

class Planting {
public:
    explicit Planting(Scene& scene) : m_scene{scene} {}

    void plant() {
        Random random{9090};
        for (const Line& hedge : m_scene.hedges) {
            const double density = random.between(0.5, 1.0);
            along(hedge, random.between(2.2, 3.4), [&](Point p) {
                if (random() < density)
                    tree(p + Point{random.between(-0.8, 0.8), random.between(-0.8, 0.8)}, random.between(1.2, 2.3),
                         random.between(2, 3.5), random, false);
                if (random() < 0.035)
                    tree(p, random.between(3.5, 6.5), random.between(8, 15), random, false);
            });
        }
        // Alders along the river and around the water.
        along(m_scene.river, 5, [&](Point p) {
            for (const double side : {-1.0, 1.0})
                if (random() < 0.55)
                    tree(p + Point{side * random.between(8, 14), random.between(-3, 3)}, random.between(2.5, 4.8),
                         random.between(7, 12), random, false);
        });
        Ring shore = m_scene.reservoir;
        shore.push_back(shore.front());
        along(shore, 7, [&](Point p) {
            if (random() < 0.3)
                tree(p + Point{random.between(-26, 26), random.between(-26, 26)}, random.between(2.2, 5.2),
                     random.between(6, 13), random, random() < 0.12);
        });
        // Woods.
        for (const auto& [middle, size] : {std::pair{Point{640, 1470}, Point{120, 66}},
                                           {Point{1560, 1420}, Point{150, 90}},
                                           {Point{2260, 1560}, Point{130, 110}},
                                           {Point{90, 1190}, Point{86, 120}},
                                           {Point{2310, 660}, Point{90, 100}},
                                           {Point{560, 930}, Point{50, 80}},
                                           {Point{1930, 1370}, Point{60, 40}},
                                           {Point{600, 90}, Point{80, 50}}}) {
            const Ring edge = blob(middle, size.x, size.y, 40, static_cast<std::uint64_t>(middle.x), 0.24);
            for (double x = middle.x - 1.4 * size.x; x < middle.x + 1.4 * size.x; x += 6.2)
                for (double y = middle.y - 1.4 * size.y; y < middle.y + 1.4 * size.y; y += 6.2) {
                    const Point p{x + random.between(-2.6, 2.6), y + random.between(-2.6, 2.6)};
                    if (isInside(p, edge) && random() < 0.93)
                        tree(p, random.between(2.8, 5.2), random.between(9, 17), random, random() < 0.22);
                }
        }
        // Orchard rows, garden trees, and single ones in the fields.
        for (int row = 0; row < 9; ++row)
            for (int column = 0; column < 13; ++column)
                tree({1080.0 + 8.5 * column + 1.1 * row, 170.0 + 8 * row}, random.between(1.9, 2.7), 4, random, false);
        for (int index = 0; index < 420; ++index)
            tree({random.between(1960, 2390), random.between(20, 400)}, random.between(1.5, 3.8), random.between(3, 9),
                 random, random() < 0.1);
        for (int index = 0; index < 130; ++index)
            tree({random.between(0, kWidth), random.between(0, kHeight)}, random.between(2.5, 6.5),
                 random.between(6, 14), random, false);
        for (const Point offset :
             {Point{-22, 8}, {-14, -9}, {18, 9}, {28, -4}, {8, 14}, {-30, -2}, {21, -12}, {-6, 16}})
            place(m_scene.nest + offset, random.between(2.4, 4.2), random.between(7, 11), random, true);
        // The nest's own tree stands free.
        place(m_scene.nest, 2.4, 13, random, true);
    }

private:
    template <class Action> void along(const Line& line, double step, const Action& action) {
        for (std::size_t index = 1; index < line.size(); ++index) {
            const Point from = line[index - 1];
            const Point to = line[index];
            const double length = std::hypot(to.x - from.x, to.y - from.y);
            for (double done = step / 2; done < length; done += step)
                action(from + (to - from) * (done / length));
        }
    }
    void place(Point p, double radius, double height, Random& random, bool conifer) {
        m_scene.trees.push_back({p, radius, height, static_cast<std::uint32_t>(random() * 4e9), conifer});
    }
    void tree(Point p, double radius, double height, Random& random, bool conifer) {
        if (isFree(p, radius))
            place(p, radius, height, random, conifer);
    }
    [[nodiscard]] bool isFree(Point p, double radius) const {
        if (depthInRing(p, m_scene.reservoir) > -(radius + 3) || distanceToLine(p, m_scene.road) < radius + 7)
            return false;
        if (distanceToLine(p, m_scene.damCrest) < 62 || distanceToLine(p, m_scene.river) < radius + 4)
            return false;
        for (const Line& lane : m_scene.lanes)
            if (distanceToLine(p, lane) < radius + 3)
                return false;
        for (const Line& track : m_scene.tracks)
            if (distanceToLine(p, track) < radius + 1.5)
                return false;
        for (const Pad& pad : m_scene.pads)
            if (depthInRing(p, pad.ring) > -radius)
                return false;
        for (const Building& building : m_scene.buildings)
            if (std::hypot(p.x - building.middle.x, p.y - building.middle.y) < building.length / 2 + radius)
                return false;
        for (const Tank& tank : m_scene.tanks)
            if (std::hypot(p.x - tank.middle.x, p.y - tank.middle.y) < tank.radius + radius + 1)
                return false;
        return true;
    }

    Scene& m_scene;
};

} // namespace

Scene makeScene() {
    Scene scene;
    const Net net;
    makeParcels(scene, net);
    makeWater(scene);
    makeWays(scene);
    makeWorks(scene);
    makeVillage(scene);
    makeFields(scene, net);
    Planting{scene}.plant();
    return scene;
}

} // namespace alder_reach
