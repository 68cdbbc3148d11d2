#include "airspace/operating_area.h"

#include "airspace/outline.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <cmath>
#include <numbers>

using namespace fencewright;
using namespace std::chrono;
using model::FenceKind;
using model::HeightReference;
using model::MultiPolygon;
using model::Position;

namespace {

const geodesy::GroundHeight kNoGround = [](Position) { return std::optional<Length>{}; };

model::HeightLimit aboveGround(double metres) { return {{Length::metres(metres), ""}, HeightReference::Ground}; }

/// A set around one place, out of fences that a brute-force reading can judge place by place.
struct Case {
    model::FenceSet set;
    airspace::Moment moment;
    Position middle;
    double size = 0.0; ///< metres
};

Case randomCase(tests::RandomGeometry& random) {
    Case made;
    made.middle = random.place();
    made.size = random.magnitude(50.0, 5000.0);
    const double degrees = made.size / 111'000.0;
    const double squeeze = std::cos(made.middle.lat * std::numbers::pi / 180.0);
    const auto at = [&](double reach) {
        return Position{made.middle.lon + random.between(-reach, reach) * degrees / squeeze,
                        made.middle.lat + random.between(-reach, reach) * degrees};
    };
    const auto someDay = [&] { return model::Date{sys_days{year{2026} / 1 / 1} + days{random.whole(0, 364)}}; };
    const auto someYearDay = [&] {
        const auto day = someDay();
        return day.month() / day.day();
    };
    for (int i = random.whole(2, 9); i > 0; --i) {
        model::Fence fence;
        fence.id = {std::to_string(i)};
        fence.kind = random.chance(0.4) ? FenceKind::KeepIn : FenceKind::KeepOut;
        fence.enabled = random.chance(0.9);
        const Length distance =
            Length::metres(made.size * random.between(0.1, fence.kind == FenceKind::KeepIn ? 1.5 : 0.5));
        const int shape = random.whole(0, 2);
        if (shape == 0) {
            fence.shape = model::Circle{at(1.0), {distance, ""}};
        } else if (shape == 1) {
            fence.shape = model::Corridor{{at(1.0), at(1.0), at(1.0)}, {distance, ""}, {distance, ""}};
        } else {
            model::Site site;
            site.id = {"site " + std::to_string(i)};
            site.geometry = at(1.0);
            site.positionError = {Length::metres(random.between(0.0, 10.0)), ""};
            fence.shape = model::Setback{site.id, {distance, ""}};
            made.set.sites.append(site);
        }
        if (random.chance(0.5))
            fence.period.season = model::Season{someYearDay(), someYearDay()};
        if (random.chance(0.2))
            fence.period.from = someDay();
        if (random.chance(0.5)) {
            const double floor = random.between(0, 100);
            fence.band = {aboveGround(floor), aboveGround(floor + random.between(0, 100))};
        }
        made.set.fences.append(fence);
    }
    made.moment.date = someDay();
    if (random.chance(0.5))
        made.moment.height = aboveGround(random.between(0, 150));
    return made;
}

/// Distance to the lon/lat line from a place: a search of each edge by ever smaller steps.
double toLine(Position place, const model::LineString& line) {
    double least = HUGE_VAL;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const auto at = [&](double t) {
            const Position on{std::lerp(line[i].lon, line[i + 1].lon, t), std::lerp(line[i].lat, line[i + 1].lat, t)};
            return geodesy::inverse(place, on).length.inMetres();
        };
        // All of it first; then what lies around the best of the steps before, by a step and a half of those.
        double best = 0.0, metres = at(best);
        double reach = 1.0;
        for (double step = 0.05; step > 1e-7; step /= 5.0) {
            const double from = best;
            for (double t = std::max(0.0, from - reach); t <= std::min(1.0, from + reach); t += step)
                if (const double there = at(t); there < metres) {
                    best = t;
                    metres = there;
                }
            reach = 1.5 * step;
        }
        least = std::min(least, metres);
    }
    return least;
}

/// Whether the fence, as written, encloses the place: every site where it is stated to be, no errors taken.
bool encloses(const model::Fence& fence, const model::FenceSet& set, Position place) {
    if (const auto* circle = std::get_if<model::Circle>(&fence.shape))
        return geodesy::inverse(circle->centre, place).length < circle->radius.length;
    if (const auto* corridor = std::get_if<model::Corridor>(&fence.shape))
        return toLine(place, corridor->line) < corridor->left.length.inMetres();
    const auto& setback = std::get<model::Setback>(fence.shape);
    const auto* site = set.sites.find(setback.site);
    return geodesy::inverse(std::get<Position>(site->geometry), place).length < setback.distance.length;
}

/// Read one by one, in other words than the library's: month and day as one number.
bool holds(const model::Fence& fence, const airspace::Moment& moment) {
    const auto number = [](model::YearDay day) {
        return static_cast<unsigned>(day.month()) * 100 + static_cast<unsigned>(day.day());
    };
    if (!fence.enabled || (fence.period.from && moment.date < *fence.period.from))
        return false;
    if (fence.period.season) {
        const auto today = number(moment.date.month() / moment.date.day());
        const auto from = number(fence.period.season->from), to = number(fence.period.season->to);
        if (from <= to ? today < from || today > to : today < from && today > to)
            return false;
    }
    if (!moment.height || !fence.band.floor)
        return true;
    const auto height = moment.height->value.length;
    return height >= fence.band.floor->value.length && height <= fence.band.ceiling->value.length;
}

} // namespace

class OperatingAreaTest : public QObject {
    Q_OBJECT

private slots:
    void neverPermits_whatAReadingOfTheFencesForbids() {
        int permitted = 0, asked = 0;
        for (int seed = 1; seed <= 1200; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed + 700'000)};
            const auto made = randomCase(random);
            const auto area = airspace::operatingArea(made.set, airspace::outlines(made.set), made.moment, kNoGround);
            const double squeeze = std::cos(made.middle.lat * std::numbers::pi / 180.0);
            std::vector<Position> places;
            for (int i = 0; i < 10; ++i)
                places.push_back({made.middle.lon + random.between(-2, 2) * made.size / 111'000.0 / squeeze,
                                  made.middle.lat + random.between(-2, 2) * made.size / 111'000.0});
            for (const auto& part : area.parts) // where it matters most: on the boundary
                for (std::size_t i = 0; i < part.shell.corners.size(); i += 20)
                    places.push_back(part.shell.corners[i]);
            for (const auto& place : places) {
                bool inside = false, outside = false;
                for (const auto& fence : made.set.fences) {
                    if (!holds(fence, made.moment) || !encloses(fence, made.set, place))
                        continue;
                    (fence.kind == FenceKind::KeepIn ? inside : outside) = true;
                }
                const bool permits = geometry::contains(area, place);
                QVERIFY2(
                    !permits || (inside && !outside),
                    qPrintable(
                        QString("seed %1 at %2 %3").arg(seed).arg(place.lon, 0, 'g', 12).arg(place.lat, 0, 'g', 12)));
                permitted += permits;
                ++asked;
            }
        }
        QVERIFY2(permitted > asked / 10, qPrintable(QString("%1 of %2").arg(permitted).arg(asked)));
    }

    void keptArea_overDatesHeightsAndMovedFences_isTheFreshOne() {
        std::size_t parts = 0;
        for (int seed = 1; seed <= 350; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed + 800'000)};
            auto made = randomCase(random);
            auto outlines = airspace::outlines(made.set);
            std::map<model::FenceId, std::uint64_t> numbers;
            std::uint64_t last = 0;
            for (const auto& [id, outline] : outlines)
                numbers[id] = ++last;
            airspace::KeptOperatingArea kept;
            for (int round = 0; round < 3; ++round) {
                const auto area = kept.area(
                    made.set, outlines, [&](const model::FenceId& id) { return numbers.at(id); }, made.moment,
                    kNoGround);
                const auto fresh = airspace::operatingArea(made.set, outlines, made.moment, kNoGround);
                QVERIFY2(area.surface == fresh, qPrintable(QString("seed %1, round %2").arg(seed).arg(round)));
                QCOMPARE(area.areas.size(), fresh.parts.size());
                parts += fresh.parts.size();
                made.moment.date = model::Date{sys_days{made.moment.date} + days{random.whole(0, 200)}};
                // One fence is another.
                const auto at = static_cast<std::size_t>(random.whole(0, static_cast<int>(made.set.fences.size()) - 1));
                model::Fence moved = made.set.fences[at];
                moved.shape = model::Circle{made.middle, {Length::metres(made.size * random.between(0.1, 0.6)), ""}};
                made.set.fences.replace(at, std::make_shared<const model::Fence>(moved));
                outlines[moved.id] = airspace::outline(moved, made.set.sites);
                numbers[moved.id] = ++last;
            }
        }
        QVERIFY(parts > 300);
    }

    void withoutKeepIn_isEmpty() {
        model::FenceSet set;
        model::Fence fence;
        fence.id = {"a"};
        fence.kind = FenceKind::KeepOut;
        fence.shape = model::Circle{{10, 50}, {Length::metres(100), ""}};
        set.fences.append(fence);
        const airspace::Moment moment{year{2026} / 5 / 14, {}};
        QVERIFY(airspace::operatingArea(set, airspace::outlines(set), moment, kNoGround).empty());
        QVERIFY(airspace::operatingArea({}, {}, moment, kNoGround).empty());
    }

    void bandOverGround_isAskedAllOverTheFence() {
        // Ground that rises to the east by 100 m in 0.01 degrees; a keep-out from 50 m above it; a flight at 320 m
        // above the ellipsoid. In the west of the fence it is 20 m above the floor, in the east below it.
        const geodesy::GroundHeight slope = [](Position place) {
            return std::optional{Length::metres(250.0 + (place.lon - 10.0) * 10'000.0)};
        };
        model::FenceSet set;
        model::Fence keepIn, keepOut;
        keepIn.id = {"in"};
        keepIn.kind = FenceKind::KeepIn;
        keepIn.shape = model::Circle{{10, 50}, {Length::metres(2000), ""}};
        keepOut.id = {"out"};
        keepOut.kind = FenceKind::KeepOut;
        keepOut.shape = model::Circle{{10.005, 50}, {Length::metres(350), ""}};
        keepOut.band.floor = aboveGround(50);
        set.fences.append(keepIn);
        set.fences.append(keepOut);
        airspace::Moment moment{year{2026} / 5 / 14,
                                model::HeightLimit{{Length::metres(320), ""}, HeightReference::Ellipsoid}};
        const auto area = [&] { return airspace::operatingArea(set, airspace::outlines(set), moment, slope); };
        QVERIFY(!geometry::contains(area(), Position{10.005, 50}));
        moment.height->value.length = Length::metres(290); // below the floor everywhere
        QVERIFY(geometry::contains(area(), Position{10.005, 50}));
        // A keep-in with the same band holds only where it holds everywhere.
        model::Fence banded = keepIn;
        banded.band.floor = aboveGround(50);
        set.fences.replace(0, std::make_shared<const model::Fence>(banded));
        moment.height->value.length = Length::metres(320);
        QVERIFY(area().empty());
        moment.height->value.length = Length::metres(900);
        QVERIFY(!area().empty());
    }
};

QTEST_APPLESS_MAIN(OperatingAreaTest)
#include "operating_area_test.moc"
