#include "geometry/kept_difference.h"

#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/detail/exact_surface.h"
#include "geometry/detail/soundness.h"
#include "geometry/overlay.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <cmath>
#include <random>

using namespace fencewright;
using geometry::KeptDifference;
using model::MultiPolygon;

namespace {

model::Polygon star(std::mt19937& random, double lon, double lat, double radius, int corners) {
    std::uniform_real_distribution<double> reach{0.5, 1.0};
    model::Polygon polygon;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * M_PI * i / corners, r = radius * reach(random);
        polygon.shell.corners.push_back({lon + r * std::cos(angle), lat + r * std::sin(angle)});
    }
    return polygon;
}

/// Surfaces that lie apart, touch, hold one another, and cross the rim of the first.
struct Field {
    std::vector<MultiPolygon> permitted, forbidden;
    std::vector<std::uint64_t> permittedNumbers, forbiddenNumbers;
    std::uint64_t last = 0;

    explicit Field(std::mt19937& random) {
        std::uniform_real_distribution<double> place{-1.0, 1.0};
        for (std::size_t i = 1 + random() % 3; i > 0; --i)
            add(permitted, permittedNumbers, any(random, 1.2));
        if (random() % 3 == 0) { // with a hole
            auto& shell = permitted.front().parts.front();
            shell.holes.push_back(star(random, 0.0, 0.0, 0.05, 6).shell);
            if (!geometry::isValid(shell))
                shell.holes.clear();
        }
        for (std::size_t i = random() % 14; i > 0; --i)
            add(forbidden, forbiddenNumbers, any(random, 0.35));
    }
    MultiPolygon any(std::mt19937& random, double size) {
        std::uniform_real_distribution<double> place{-1.0, 1.0}, share{0.1, 1.0};
        const double radius = size * share(random);
        if (random() % 4 == 0) { // on a coarse grid, so that corners and edges coincide
            const double x = std::round(place(random) * 4) / 4, y = std::round(place(random) * 4) / 4;
            const double side = std::max(0.25, std::round(radius * 4) / 4);
            return {{{{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}}}, {}}}};
        }
        return {{star(random, place(random), place(random), radius, 3 + int(random() % 12))}};
    }
    void add(std::vector<MultiPolygon>& to, std::vector<std::uint64_t>& numbers, MultiPolygon surface) {
        to.push_back(std::move(surface));
        numbers.push_back(++last);
    }
    void change(std::mt19937& random) {
        const bool in = random() % 4 == 0;
        auto& surfaces = in ? permitted : forbidden;
        auto& numbers = in ? permittedNumbers : forbiddenNumbers;
        const auto what = random() % 4;
        if (what == 0 || surfaces.empty())
            return add(surfaces, numbers, any(random, in ? 1.2 : 0.35));
        const std::size_t at = random() % surfaces.size();
        if (what == 1 && (!in || surfaces.size() > 1)) {
            surfaces.erase(surfaces.begin() + std::ptrdiff_t(at));
            numbers.erase(numbers.begin() + std::ptrdiff_t(at));
            return;
        }
        surfaces[at] = any(random, in ? 1.2 : 0.35);
        numbers[at] = ++last;
    }
    static std::vector<KeptDifference::Numbered> numbered(const std::vector<MultiPolygon>& surfaces,
                                                          const std::vector<std::uint64_t>& numbers) {
        std::vector<KeptDifference::Numbered> result;
        for (std::size_t i = 0; i < surfaces.size(); ++i)
            result.push_back({&surfaces[i], numbers[i]});
        return result;
    }
    KeptDifference::Result ask(KeptDifference& kept) const {
        return kept.difference(numbered(permitted, permittedNumbers), numbered(forbidden, forbiddenNumbers));
    }
};

/// Surfaces with corners on a small grid, turned and put anywhere, some of them off it: so that nearly all corners lie
/// on corners, edges and crossings of others, holes touch rims, and surfaces are there twice.
struct Grid {
    std::mt19937 random;
    double lon, lat, ax, ay;
    int size;

    explicit Grid(unsigned seed) : random{seed}, size{3 + whole(6)} {
        static constexpr double places[][2] = {{8.7, 46.2}, {179.99, 70.1}, {-120.3, -84.7}, {-179.999, 0.0001}};
        static constexpr double steps[] = {0.0625, 1e-3, 1e-4, 1e-5};
        const auto& place = places[whole(4)];
        lon = place[0], lat = place[1];
        const double angle = whole(2) == 0 ? 0.0 : 0.1 * whole(62), step = steps[whole(4)];
        ax = step * std::cos(angle), ay = step * std::sin(angle);
    }
    int whole(int below) { return static_cast<int>(random() % static_cast<unsigned>(below)); }
    [[nodiscard]] model::Position at(double x, double y) const {
        return {lon + ax * x - ay * y, lat + ay * x + ax * y};
    }
    model::Ring ring(std::vector<std::pair<double, double>> corners, double x, double y) {
        model::Ring made;
        for (const auto& [dx, dy] : corners)
            made.corners.push_back(at(x + dx, y + dy));
        return made;
    }
    model::Ring square(double x, double y, int width, int height) {
        return ring({{0, 0}, {width, 0}, {width, height}, {0, height}}, x, y);
    }
    model::Ring diamond(double x, double y, int reach) {
        return ring({{-reach, 0}, {0, -reach}, {reach, 0}, {0, reach}}, x, y);
    }
    MultiPolygon any() {
        for (;;) {
            MultiPolygon made;
            const double x = whole(size) + (whole(3) == 0 ? 0.31 : 0.0), y = whole(size) + (whole(3) == 0 ? 0.17 : 0.0);
            switch (whole(4)) {
            case 0:
                made.parts.push_back({square(x, y, 1 + whole(size), 1 + whole(size)), {}});
                break;
            case 1: { // with holes, which may touch it and one another
                const int width = 3 + whole(size), height = 3 + whole(size);
                made.parts.push_back({square(x, y, width, height), {}});
                for (int i = 1 + whole(3); i > 0; --i)
                    made.parts.front().holes.push_back(diamond(x + 1 + whole(width - 1), y + 1 + whole(height - 1), 1));
                break;
            }
            case 2:
                for (int i = 1 + whole(3); i > 0; --i)
                    made.parts.push_back({diamond(x + whole(size), y + whole(size), 1 + whole(3)), {}});
                break;
            default:
                made.parts.push_back({});
                for (int i = 3 + whole(5); i > 0; --i)
                    made.parts.front().shell.corners.push_back(at(whole(size + 2), whole(size + 2)));
            }
            if (geometry::detail::soundness(made) == geometry::detail::Soundness::Sound)
                return made;
        }
    }
};

/// Where only rounding parts them.
bool alike(const MultiPolygon& a, const MultiPolygon& b) {
    const double apart = geodesy::measure(geometry::difference(a, b)).area.inSquareMetres() +
                         geodesy::measure(geometry::difference(b, a)).area.inSquareMetres();
    return apart < 1e-3 * std::sqrt(geodesy::measure(a).area.inSquareMetres()) + 1.0;
}

} // namespace

class KeptDifferenceTest : public QObject {
    Q_OBJECT

private slots:
    void afterChanges_itIsWhatAFreshOneAnswers_toTheLastBit() {
        for (unsigned seed = 1; seed <= 250; ++seed) {
            std::mt19937 random{seed};
            Field field{random};
            KeptDifference kept;
            for (int round = 0; round < 5; ++round) {
                const auto result = field.ask(kept);
                KeptDifference fresh;
                const auto expected = field.ask(fresh);
                QVERIFY2(result.surface == expected.surface && result.areas == expected.areas,
                         qPrintable(QString("seed %1, round %2").arg(seed).arg(round)));
                field.change(random);
            }
        }
    }

    /// Against one overlay of everything, which knows no groups.
    void isTheDifferenceOfTheUnions_valid_andMeasured() {
        for (unsigned seed = 1; seed <= 1000; ++seed) {
            std::mt19937 random{seed + 50'000};
            const Field field{random};
            KeptDifference kept;
            const auto result = field.ask(kept);
            const auto whole =
                geometry::difference(geometry::united(field.permitted), geometry::united(field.forbidden));
            QVERIFY2(alike(result.surface, whole), qPrintable(QString("seed %1: %2 and %3")
                                                                  .arg(seed)
                                                                  .arg(tests::asWkt(result.surface).c_str())
                                                                  .arg(tests::asWkt(whole).c_str())));
            QCOMPARE(result.areas.size(), result.surface.parts.size());
            for (std::size_t i = 0; i < result.areas.size(); ++i) {
                QVERIFY2(geometry::isValid(result.surface.parts[i]), qPrintable(QString("seed %1").arg(seed)));
                const double area = geodesy::measure(result.surface.parts[i]).area.inSquareMetres();
                QVERIFY2(std::abs(result.areas[i].inSquareMetres() - area) <= 1e-6 * area + 1.0,
                         qPrintable(QString("seed %1").arg(seed)));
            }
        }
    }

    // Fields of a quilt share edges whole and in part. Uniting some of them rounds their corners, and those of their
    // neighbours lie a hair off then.
    void aQuilt_isOneSurface() {
        for (unsigned seed = 1; seed <= 300; ++seed) {
            std::mt19937 random{seed + 90'000};
            std::uniform_real_distribution<double> share{0.2, 0.8}, place{-100.0, 100.0};
            const double lon = seed % 3 == 0 ? 0.0 : place(random), lat = 0.6 * place(random);
            const std::size_t columns = 2 + random() % 3;
            std::vector<double> edges{lon};
            for (std::size_t i = 0; i < columns; ++i)
                edges.push_back(edges.back() + 0.01 * share(random));
            std::vector<MultiPolygon> fields;
            for (std::size_t i = 0; i < columns; ++i) {
                double south = lat;
                for (std::size_t rows = 1 + random() % 4; rows > 0; --rows) {
                    const double north = rows == 1 ? lat + 0.01 : south + (lat + 0.01 - south) * share(random);
                    const double west = edges[i], east = edges[i + 1];
                    fields.push_back({{{{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}}}});
                    south = north;
                }
            }
            std::vector<KeptDifference::Numbered> surfaces;
            for (std::size_t i = 0; i < fields.size(); ++i)
                surfaces.push_back({&fields[i], i + 1});
            KeptDifference kept;
            const auto whole = kept.difference(surfaces, {}).surface;
            QVERIFY2(whole.parts.size() == 1 && whole.parts.front().holes.empty(),
                     qPrintable(QString("seed %1: %2").arg(seed).arg(tests::asWkt(whole).c_str())));
        }
    }

    // What is inside what is told by exact arithmetic, of places that lie on no edge.
    void onASmallGrid_everyPlaceIsWhereItBelongs_andNoEarlierQuestionCounts() {
        using Exact = geometry::detail::ExactSurface;
        int inside = 0, outside = 0;
        for (unsigned seed = 1; seed <= 200; ++seed) {
            Grid grid{seed};
            std::vector<MultiPolygon> surfaces[2]; // given, and removed
            std::vector<std::uint64_t> numbers[2];
            std::uint64_t last = 0;
            const auto add = [&](int which) {
                auto& all = surfaces[which];
                const bool twice = !all.empty() && grid.whole(8) == 0;
                all.push_back(twice ? MultiPolygon{all.front()} : grid.any());
                numbers[which].push_back(++last);
            };
            for (int i = 1 + grid.whole(3); i > 0; --i)
                add(0);
            for (int i = grid.whole(10); i > 0; --i)
                add(1);
            KeptDifference kept;
            for (int round = 0; round < 4; ++round) {
                const auto where = QString("seed %1, round %2").arg(seed).arg(round);
                KeptDifference fresh;
                const auto ask = [&](KeptDifference& one) {
                    return one.difference(Field::numbered(surfaces[0], numbers[0]),
                                          Field::numbered(surfaces[1], numbers[1]));
                };
                const auto result = ask(kept), expected = ask(fresh);
                QVERIFY2(result.surface == expected.surface && result.areas == expected.areas, qPrintable(where));
                QVERIFY2(geometry::detail::soundness(result.surface) == geometry::detail::Soundness::Sound,
                         qPrintable(where + tests::asWkt(result.surface).c_str()));
                const Exact answer{result.surface};
                std::vector<Exact> exact[2];
                for (int which : {0, 1})
                    for (const auto& one : surfaces[which])
                        exact[which].emplace_back(one);
                for (int i = 0; i < 200; ++i) {
                    const int most = 1'000'000 * (2 * grid.size + 2);
                    const auto place =
                        grid.at(grid.whole(most) * 1e-6 - 0.9999997, grid.whole(most) * 1e-6 - 0.9999998);
                    const auto isIn = [&](const std::vector<Exact>& all) {
                        return std::any_of(all.begin(), all.end(), [&](const Exact& one) {
                            return one.locate(place) == Exact::Location::Inside;
                        });
                    };
                    const bool wanted = isIn(exact[0]) && !isIn(exact[1]);
                    ++(wanted ? inside : outside);
                    QVERIFY2((answer.locate(place) == Exact::Location::Inside) == wanted, qPrintable(where));
                }
                const int which = grid.whole(3) == 0 ? 0 : 1;
                auto& some = surfaces[which];
                if (some.empty() || grid.whole(3) == 0) {
                    add(which);
                    continue;
                }
                const auto at = grid.whole(static_cast<int>(some.size()));
                if (grid.whole(3) == 0) {
                    some.erase(some.begin() + at);
                    numbers[which].erase(numbers[which].begin() + at);
                } else {
                    some[std::size_t(at)] = grid.any();
                    numbers[which][std::size_t(at)] = ++last;
                }
            }
        }
        QVERIFY(inside > 10'000 && outside > 30'000);
    }

    // No order of the three crossings can be told where they are one place but for rounding.
    void edgesThroughOnePlace_doNotMatter() {
        for (unsigned seed = 1; seed <= 2000; ++seed) {
            std::mt19937 random{seed + 70'000};
            std::uniform_real_distribution<double> place{-0.1, 0.1}, turn{0.0, 2.0 * M_PI}, share{0.05, 0.3};
            const double lon = place(random), lat = place(random);
            const MultiPolygon land{{star(random, lon, lat, 2.0, 9)}};
            std::vector<MultiPolygon> forbidden;
            for (std::size_t i = 3 + random() % 3; i > 0; --i) { // triangles with an edge through the place
                const double angle = turn(random), x = std::cos(angle), y = std::sin(angle);
                const double a = share(random), b = share(random), c = share(random);
                forbidden.push_back(
                    {{{{{{lon - a * x, lat - a * y}, {lon + b * x, lat + b * y}, {lon - c * y, lat + c * x}}}, {}}}});
            }
            std::vector<KeptDifference::Numbered> removed;
            for (std::size_t i = 0; i < forbidden.size(); ++i)
                removed.push_back({&forbidden[i], i + 2});
            KeptDifference kept;
            const auto result = kept.difference(std::vector<KeptDifference::Numbered>{{&land, 1}}, removed).surface;
            QVERIFY2(alike(result, geometry::difference(land, geometry::united(forbidden))),
                     qPrintable(QString("seed %1").arg(seed)));
            for (const auto& part : result.parts)
                QVERIFY2(geometry::isValid(part), qPrintable(QString("seed %1").arg(seed)));
        }
    }

    // Two holes that touch the rim with a corner each, and what is removed joins them: then they part the land in two.
    void whatJoinsHolesThatTouchTheRim_partsTheLand() {
        for (const bool rimHasCorners : {true, false}) {
            MultiPolygon land{
                {{{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}},
                  {{{{2, 0}, {1, 2}, {1, 3}, {3, 3}, {3, 2}}}, {{{8, 0}, {7, 2}, {7, 3}, {9, 3}, {9, 2}}}}}}};
            if (rimHasCorners)
                land.parts.front().shell.corners = {{0, 0}, {2, 0}, {8, 0}, {10, 0}, {10, 10}, {0, 10}};
            const MultiPolygon bridge{{{{{{2.7, 2.3}, {7.3, 2.4}, {7.2, 2.7}, {2.8, 2.6}}}, {}}}};
            QVERIFY(geometry::isValid(land.parts.front()));
            KeptDifference kept;
            const std::vector<KeptDifference::Numbered> surfaces{{&land, 1}}, removed{{&bridge, 2}};
            const auto result = kept.difference(surfaces, removed).surface;
            QVERIFY(alike(result, geometry::difference(land, bridge)));
            QCOMPARE(result.parts.size(), std::size_t{2});
            for (const auto& part : result.parts)
                QVERIFY2(geometry::isValid(part), qPrintable(tests::asWkt(result).c_str()));
        }
    }

    // The tip of the first comes near to its own edge, which matters where the second crosses it: but not where what
    // the first touches takes the tip away before. That it did matter in an earlier question is no reason.
    void clashesOfAnEarlierQuestion_doNotMatter() {
        const MultiPolygon spiked{{{{{{8.79375, 46.29375},
                                      {8.7625, 46.2312499},
                                      {8.79375000000001, 46.29375000000001},
                                      {8.809375, 46.309375},
                                      {8.7, 46.29375}}},
                                    {}}}};
        const MultiPolygon plain{
            {{{{{8.73125, 46.2156}, {8.79375, 46.2156}, {8.79375, 46.23125}, {8.73125, 46.23125}}}, {}}}};
        const MultiPolygon touching{
            {{{{{8.684375, 46.29375}, {8.73125, 46.246875}, {8.778125, 46.29375}, {8.73125, 46.340625}}}, {}}}};
        const std::vector<KeptDifference::Numbered> surfaces{{&spiked, 1}, {&plain, 2}}, removed{{&touching, 3}};
        KeptDifference kept, fresh;
        (void)kept.difference(surfaces, {});
        const auto result = kept.difference(surfaces, removed), expected = fresh.difference(surfaces, removed);
        QVERIFY2(result.surface == expected.surface, qPrintable(QString("%1 and %2")
                                                                    .arg(tests::asWkt(result.surface).c_str())
                                                                    .arg(tests::asWkt(expected.surface).c_str())));
        QVERIFY(result.areas == expected.areas);
    }

    void aTurnOfLongitude_doesNotMatter() {
        std::mt19937 random{3};
        const MultiPolygon permitted{{star(random, 179.9, 10, 1.0, 9)}};
        MultiPolygon near{{star(random, 179.9, 10, 0.2, 9)}}, far = near;
        for (auto& corner : far.parts.front().shell.corners)
            corner.lon -= 360.0;
        KeptDifference kept;
        const std::vector<KeptDifference::Numbered> surfaces{{&permitted, 1}}, a{{&near, 2}}, b{{&far, 3}};
        const auto first = kept.difference(surfaces, a), second = kept.difference(surfaces, b);
        QCOMPARE(first.surface.parts.size(), std::size_t{1});
        QCOMPARE(first.surface.parts.front().holes.size(), std::size_t{1});
        QVERIFY(alike(first.surface, second.surface));
    }

    void cancelled_itKeepsWhatItHas_andAnswersTheSameAfterwards() {
        std::mt19937 random{11};
        Field field{random};
        KeptDifference fresh, kept;
        const auto expected = field.ask(fresh);
        for (int allowed = 0; allowed < 12; ++allowed) {
            int calls = 0;
            const Progress impatient{[&](double, std::string_view) { return ++calls <= allowed; }};
            try {
                (void)kept.difference(Field::numbered(field.permitted, field.permittedNumbers),
                                      Field::numbered(field.forbidden, field.forbiddenNumbers), impatient);
            } catch (const Cancelled&) {
            }
            QVERIFY(field.ask(kept).surface == expected.surface);
        }
    }
};

QTEST_APPLESS_MAIN(KeptDifferenceTest)
#include "kept_difference_test.moc"
