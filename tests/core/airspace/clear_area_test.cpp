#include "airspace/clear_area.h"

#include "airspace/outline.h"
#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <map>

using namespace fencewright;
using model::FenceKind;
using model::MultiPolygon;
using model::Position;

namespace {

const airspace::Moment kMoment{std::chrono::year{2026} / 6 / 1, {}};

model::Fence fence(const std::string& id, FenceKind kind, model::Shape shape) {
    model::Fence made;
    made.id = {id};
    made.kind = kind;
    made.shape = std::move(shape);
    return made;
}

model::DrawnPolygon rectangle(double west, double south, double east, double north) {
    return {{{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}}};
}

MultiPolygon clearOf(const model::FenceSet& set, double metres) {
    return airspace::clearArea(set, airspace::outlines(set), Length::metres(metres), kMoment, {}).surface;
}

double areaOf(const MultiPolygon& surface) { return geodesy::measure(surface).area.inSquareMetres(); }

/// A set that changes, with outlines numbered as an audit numbers them.
struct Changing {
    explicit Changing(unsigned seed) : random{seed} {
        for (int i = random.whole(1, 3); i > 0; --i)
            add(FenceKind::KeepIn);
        for (int i = random.whole(0, 8); i > 0; --i)
            add(FenceKind::KeepOut);
    }
    Position place(double reach) { return {8.7 + random.between(-reach, reach), 46.2 + random.between(-reach, reach)}; }
    model::Shape shape(FenceKind kind) {
        const double size = kind == FenceKind::KeepIn ? 0.006 : 0.0015;
        const Position at = place(0.006);
        if (random.chance(0.3))
            return model::Circle{at, {Length::metres(size * 80'000), ""}};
        if (random.chance(0.3)) // on a grid, so that many touch
            return rectangle(std::round(at.lon * 250) / 250, std::round(at.lat * 250) / 250,
                             std::round(at.lon * 250) / 250 + 0.004, std::round(at.lat * 250) / 250 + 0.004);
        model::Ring ring;
        for (int i = 0; i < 12; ++i) {
            const double angle = 2.0 * M_PI * i / 12, radius = size * random.between(0.5, 1.0);
            ring.corners.push_back({at.lon + radius * std::cos(angle), at.lat + radius * std::sin(angle)});
        }
        return model::DrawnPolygon{{ring, {}}};
    }
    void add(FenceKind kind) {
        auto made = fence("fence " + std::to_string(++last), kind, shape(kind));
        if (random.chance(0.3))
            made.period.season = model::Season{std::chrono::March / 1, std::chrono::July / 31};
        numbers[made.id] = ++lastNumber;
        set.fences.append(std::move(made));
    }
    void change() {
        if (random.chance(0.2))
            metres = random.magnitude(1.0, 80.0);
        if (random.chance(0.2))
            moment.date = std::chrono::year{2026} / (random.chance(0.5) ? 6 : 11) / 1;
        if (set.fences.empty() || random.chance(0.2))
            return add(random.chance(0.2) ? FenceKind::KeepIn : FenceKind::KeepOut);
        const auto at = std::size_t(random.whole(0, int(set.fences.size()) - 1));
        if (random.chance(0.2))
            return set.fences.erase(at);
        model::Fence edited = set.fences[at];
        edited.shape = shape(edited.kind);
        numbers[edited.id] = ++lastNumber;
        set.fences.replace(at, std::make_shared<const model::Fence>(edited));
    }
    geometry::KeptDifference::Result ask(airspace::KeptClearArea& kept, const Progress& progress = {}) const {
        return kept.area(
            set, airspace::outlines(set), [this](const model::FenceId& id) { return numbers.at(id); },
            Length::metres(metres), moment, {}, progress);
    }

    tests::RandomGeometry random;
    model::FenceSet set;
    std::map<model::FenceId, std::uint64_t> numbers;
    double metres = 20.0;
    airspace::Moment moment = kMoment;
    int last = 0;
    std::uint64_t lastNumber = 0;
};

} // namespace

class ClearAreaTest : public QObject {
    Q_OBJECT

private slots:
    void afterChanges_itIsWhatAFreshOneAnswers_toTheLastBit() {
        int some = 0;
        for (unsigned seed = 1; seed <= 150; ++seed) {
            Changing changing{seed};
            airspace::KeptClearArea kept;
            for (int round = 0; round < 6; ++round) {
                const auto result = changing.ask(kept);
                airspace::KeptClearArea fresh;
                const auto expected = changing.ask(fresh);
                QVERIFY2(result.surface == expected.surface && result.areas == expected.areas,
                         qPrintable(QString("seed %1, round %2").arg(seed).arg(round)));
                for (const auto& part : result.surface.parts)
                    QVERIFY(geometry::isValid(part));
                some += result.surface.empty() ? 0 : 1;
                changing.change();
            }
        }
        QVERIFY(some > 600);
    }

    void cancelledAtAnyTime_itAnswersTheSameAfterwards() {
        Changing changing{3};
        airspace::KeptClearArea fresh, kept;
        const auto expected = changing.ask(fresh);
        int cancelled = 0;
        for (int allowed = 0; allowed < 40; ++allowed) {
            int calls = 0;
            const Progress impatient{[&](double, std::string_view) { return ++calls <= allowed; }};
            try {
                (void)changing.ask(kept, impatient);
            } catch (const Cancelled&) {
                ++cancelled;
            }
        }
        QVERIFY(cancelled > 3);
        QVERIFY(changing.ask(kept).surface == expected.surface);
    }

    void aMarginOfZeroTakesOffNothing() {
        model::FenceSet set;
        set.fences.append(fence("land", FenceKind::KeepIn, rectangle(8.7, 46.2, 8.71, 46.21)));
        set.fences.append(fence("nest", FenceKind::KeepOut, rectangle(8.704, 46.204, 8.706, 46.206)));
        const auto outlines = airspace::outlines(set);
        const auto area = airspace::operatingArea(set, outlines, kMoment, {});
        QVERIFY(geometry::sameArea(clearOf(set, 0.0), area));
        QVERIFY(!geometry::sameArea(clearOf(set, 1.0), area));
        QVERIFY(geometry::contains(area, clearOf(set, 1.0)));
    }

    // Two halves of a rectangle are the rectangle; with a gap of a millimetre between them they are two.
    void keepInsThatMeet_areOne() {
        model::FenceSet whole, halves, apart;
        whole.fences.append(fence("land", FenceKind::KeepIn, rectangle(8.7, 46.2, 8.71, 46.21)));
        halves.fences.append(fence("west", FenceKind::KeepIn, rectangle(8.7, 46.2, 8.703, 46.21)));
        halves.fences.append(fence("east", FenceKind::KeepIn, rectangle(8.703, 46.2, 8.71, 46.21)));
        apart.fences.append(fence("west", FenceKind::KeepIn, rectangle(8.7, 46.2, 8.703, 46.21)));
        apart.fences.append(fence("east", FenceKind::KeepIn, rectangle(8.70300001, 46.2, 8.71, 46.21)));
        const auto clear = clearOf(whole, 30.0);
        QCOMPARE(clear.parts.size(), std::size_t{1});
        QVERIFY(std::abs(areaOf(clearOf(halves, 30.0)) - areaOf(clear)) < 1e-3);
        QCOMPARE(clearOf(apart, 30.0).parts.size(), std::size_t{2});
    }

    void nothingPermitted_isNothingClear() {
        model::FenceSet set;
        set.fences.append(fence("nest", FenceKind::KeepOut, rectangle(8.704, 46.204, 8.706, 46.206)));
        QVERIFY(clearOf(set, 10.0).empty());
        set.fences.append(fence("land", FenceKind::KeepIn, rectangle(8.7, 46.2, 8.7001, 46.2001)));
        QVERIFY(clearOf(set, 10.0).empty());
        QVERIFY(!clearOf(set, 1.0).empty());
    }

    void whereNoDistanceCanBeKept_itSaysSo() {
        model::FenceSet set;
        set.fences.append(fence("land", FenceKind::KeepIn, rectangle(8.0, 88.0, 9.0, 88.5)));
        QVERIFY_EXCEPTION_THROWN((void)clearOf(set, 190'000.0), Fault);
        QVERIFY_EXCEPTION_THROWN((void)clearOf(set, 300'000.0), Fault);
    }
};

QTEST_APPLESS_MAIN(ClearAreaTest)
#include "clear_area_test.moc"
