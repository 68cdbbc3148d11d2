#include "geometry/kept_difference.h"

#include "geodesy/geodesic.h"
#include "geometry/containment.h"
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
            MultiPolygon land{{{{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}},
                                {{{{2, 0}, {1.4, 3.1}, {2.6, 3.3}}}, {{{8, 0}, {7.4, 3.2}, {8.6, 3.1}}}}}}};
            if (rimHasCorners)
                land.parts.front().shell.corners = {{0, 0}, {2, 0}, {8, 0}, {10, 0}, {10, 10}, {0, 10}};
            const MultiPolygon bridge{{{{{{1.7, 2.1}, {8.3, 2.3}, {8.2, 2.7}, {1.8, 2.5}}}, {}}}};
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
