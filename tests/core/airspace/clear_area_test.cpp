#include "airspace/clear_area.h"

#include "airspace/outline.h"
#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "geometry/overlay.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

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

/// A heap of fences that overlap, some with holes, of which a person drags corners.
struct Heap {
    explicit Heap(unsigned seed) : random{seed} {
        for (int i = random.whole(1, 2); i > 0; --i)
            add(FenceKind::KeepIn, 0.02);
        for (int i = random.whole(6, 14); i > 0; --i)
            add(FenceKind::KeepOut, 0.003);
    }
    void add(FenceKind kind, double size) {
        const double reach = kind == FenceKind::KeepIn ? 0.004 : 0.012;
        const Position at{8.7 + random.between(-reach, reach), 46.2 + random.between(-reach, reach)};
        const auto ring = [&](double radius, int corners) {
            model::Ring made;
            for (int i = 0; i < corners; ++i) {
                const double angle = 2.0 * M_PI * i / corners, r = radius * random.between(0.75, 1.0);
                made.corners.push_back({at.lon + r * std::cos(angle), at.lat + r * std::sin(angle)});
            }
            return made;
        };
        model::DrawnPolygon shape{{ring(size, random.whole(5, 24)), {}}};
        if (random.chance(0.3))
            shape.polygon.holes.push_back(ring(size * 0.4, 6));
        set.fences.append(fence("fence " + std::to_string(set.fences.size()), kind, std::move(shape)));
        numbers[set.fences[set.fences.size() - 1].id] = ++last;
    }
    void drag(std::size_t at) {
        model::Fence edited = set.fences[at];
        auto& corners = std::get<model::DrawnPolygon>(edited.shape).polygon.shell.corners;
        auto& corner = corners[std::size_t(random.whole(0, int(corners.size()) - 1))];
        corner.lon += random.between(-2e-4, 2e-4);
        corner.lat += random.between(-2e-4, 2e-4);
        numbers[edited.id] = ++last;
        set.fences.replace(at, std::make_shared<const model::Fence>(edited));
    }
    void step() {
        if (random.chance(0.15) && before) { // undone: the numbers of then, too
            std::tie(set, numbers) = *before;
            before.reset();
            return;
        }
        before = {set, numbers};
        if (random.chance(0.1))
            metres = random.between(5.0, 60.0);
        for (int several = random.chance(0.2) ? 4 : 1; several > 0; --several)
            drag(std::size_t(random.whole(0, int(set.fences.size()) - 1)));
    }
    geometry::KeptDifference::Result ask(airspace::KeptClearArea& kept) const {
        return kept.area(set, airspace::outlines(set), [this](const model::FenceId& id) { return numbers.at(id); },
                         Length::metres(metres), kMoment, {});
    }
    /// By overlays of everything, which know nothing of what was before nor of neighbours.
    [[nodiscard]] MultiPolygon byOverlay() const {
        std::vector<MultiPolygon> keepIns, grown;
        for (const auto& [id, outline] : airspace::outlines(set))
            for (const auto& one : set.fences)
                if (one.id == id && one.kind == FenceKind::KeepIn)
                    keepIns.push_back(outline);
                else if (one.id == id)
                    grown.push_back(geometry::grown(outline, Length::metres(metres), geometry::Side::Grow));
        const auto inner = geometry::eroded(geometry::united(keepIns), Length::metres(metres), geometry::Side::Shrink);
        return geometry::difference(inner, geometry::united(grown));
    }

    tests::RandomGeometry random;
    model::FenceSet set;
    std::map<model::FenceId, std::uint64_t> numbers;
    std::optional<std::pair<model::FenceSet, std::map<model::FenceId, std::uint64_t>>> before;
    double metres = 30.0;
    std::uint64_t last = 0;
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

    // While corners are dragged, with what is kept: to the last bit what is computed from nothing, nothing but rounding
    // apart from overlays of everything, and no corner nearer to a keep-out than the margin.
    void dragged_itIsAtEveryStepWhatItWouldBeFromNothing() {
        int corners = 0;
        for (unsigned seed = 1; seed <= 8; ++seed) {
            Heap heap{seed};
            airspace::KeptClearArea kept;
            for (int number = 0; number < 9; ++number, heap.step()) {
                const auto where = QString("seed %1, step %2").arg(seed).arg(number);
                const auto result = heap.ask(kept);
                airspace::KeptClearArea fresh;
                const auto expected = heap.ask(fresh);
                QVERIFY2(result.surface == expected.surface && result.areas == expected.areas, qPrintable(where));
                const auto whole = heap.byOverlay();
                const double apart = areaOf(geometry::difference(result.surface, whole)) +
                                     areaOf(geometry::difference(whole, result.surface));
                QVERIFY2(apart < 1e-3, qPrintable(where + QString(": %1 m²").arg(apart)));
                for (const auto& part : result.surface.parts)
                    QVERIFY2(geometry::isValid(part), qPrintable(where));
                if (number % 4 != 0)
                    continue;
                for (const auto& one : heap.set.fences) {
                    const auto outline = airspace::outline(one, heap.set.sites);
                    if (one.kind == FenceKind::KeepOut)
                        for (const auto& part : result.surface.parts)
                            for (const Position& corner : part.shell.corners) {
                                ++corners;
                                QVERIFY2(geometry::distanceTo(outline, corner).inMetres() > heap.metres - 0.002,
                                         qPrintable(where));
                            }
                }
            }
        }
        QVERIFY(corners > 10'000);
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
