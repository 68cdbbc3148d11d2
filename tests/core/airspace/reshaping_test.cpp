#include "airspace/reshaping.h"

#include "airspace/outline.h"
#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/offset.h"

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <functional>

using namespace fencewright;
using airspace::Reshaped;
using model::Fence;
using model::FenceId;
using model::FenceKind;
using model::FenceSet;
using model::MultiPolygon;
using model::Position;

namespace {

model::Polygon box(double west, double south, double east, double north) {
    return {{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}};
}

Fence fence(const char* name, FenceKind kind, model::Shape shape) {
    Fence made;
    made.id = model::freshId<Fence>();
    made.name = name;
    made.kind = kind;
    made.shape = std::move(shape);
    made.basis.kind = model::BasisKind::Lease;
    made.basis.citation = std::string{"of "} + name;
    return made;
}

Fence drawn(const char* name, const model::Polygon& polygon, FenceKind kind = FenceKind::KeepOut) {
    return fence(name, kind, model::DrawnPolygon{polygon});
}

FenceSet setOf(std::vector<Fence> fences) {
    FenceSet set;
    for (auto& one : fences)
        set.fences.append(std::move(one));
    return set;
}

std::vector<FenceId> idsOf(const FenceSet& set) {
    std::vector<FenceId> ids;
    for (const auto& one : set.fences)
        ids.push_back(one.id);
    return ids;
}

MultiPolygon surface(const model::Polygon& polygon) { return MultiPolygon{{polygon}}; }

const model::Polygon& polygonOf(const Fence& one) { return std::get<model::DrawnPolygon>(one.shape).polygon; }

std::vector<std::string> namesOf(const FenceSet& set) {
    std::vector<std::string> names;
    for (const auto& one : set.fences)
        names.push_back(one.name);
    return names;
}

std::string refusalOf(const std::function<void()>& work) {
    try {
        work();
    } catch (const Fault& fault) {
        return fault.what();
    }
    return {};
}

/// The set after the edit, and back again.
FenceSet afterStep(const FenceSet& set, const model::Edit& edit) {
    auto after = model::applied(set, edit);
    if (!(model::applied(after, model::inverse(edit)) == set))
        throw std::runtime_error{"undoing does not lead back"};
    return after;
}

} // namespace

class ReshapingTest : public QObject {
    Q_OBJECT

private slots:
    void united_keepsTheFirst_inItsPlace() {
        auto set = setOf({drawn("Before", box(20, 0, 21, 1)), drawn("Reservoir", box(0, 0, 2, 2)),
                          drawn("Dam", box(1, 1, 3, 3)), drawn("Behind", box(30, 0, 31, 1))});
        const auto ids = idsOf(set);
        const Reshaped result = airspace::united(set, std::vector{ids[1], ids[2]});
        const auto after = afterStep(set, result.edit);
        QCOMPARE(namesOf(after), (std::vector<std::string>{"Before", "Reservoir", "Behind"}));
        QCOMPARE(result.fences, std::vector{ids[1]});
        QCOMPARE(after.fences[1].basis.citation, std::string{"of Reservoir"});
        QCOMPARE(geodesy::measure(polygonOf(after.fences[1])).area.inSquareKilometres() > 0, true);
        QVERIFY(geometry::contains(surface(polygonOf(after.fences[1])), surface(box(0, 0, 2, 2))));
        QVERIFY(geometry::contains(surface(polygonOf(after.fences[1])), surface(box(1, 1, 3, 3))));
        QCOMPARE(polygonOf(after.fences[1]).shell.corners.size(), std::size_t{8});
        QCOMPARE(result.edit.title.english(), std::string{"Unite Reservoir and Dam"});
        QVERIFY(result.notes.empty());
    }

    void united_ofWhatLiesApart_staysInParts() {
        auto set = setOf({drawn("A", box(0, 0, 1, 1)), drawn("B", box(5, 0, 8, 1)), drawn("A 2", box(0, 5, 1, 6))});
        const auto ids = idsOf(set);
        const auto result = airspace::united(set, std::vector{ids[0], ids[1]});
        const auto after = afterStep(set, result.edit);
        QCOMPARE(namesOf(after), (std::vector<std::string>{"A", "A 3", "A 2"}));
        QVERIFY(geometry::sameArea(surface(polygonOf(after.fences[0])), surface(box(5, 0, 8, 1)))); // the largest first
        QCOMPARE(result.notes.size(), std::size_t{1});
        QCOMPARE(result.fences.size(), std::size_t{2});
    }

    void united_refusesWhatOneFenceCannotSay() {
        auto other = drawn("Dam", box(1, 1, 3, 3));
        const auto first = drawn("Reservoir", box(0, 0, 2, 2));
        const auto refusal = [&](const Fence& changed) {
            const auto set = setOf({first, changed});
            return refusalOf([&] { (void)airspace::united(set, idsOf(set)); });
        };
        QCOMPARE(refusal(other), std::string{});
        auto in = other;
        in.kind = FenceKind::KeepIn;
        QVERIFY(refusal(in).find("Keep-ins and keep-outs") != std::string::npos);
        auto high = other;
        high.band.floor = model::HeightLimit{{Length::metres(60), "60 m"}, model::HeightReference::Ground};
        QVERIFY(refusal(high).find("other heights or times than Reservoir") != std::string::npos);
        auto seasonal = other;
        seasonal.period.season = model::Season{};
        QVERIFY(!refusal(seasonal).empty());
        auto off = other;
        off.enabled = false;
        QVERIFY(!refusal(off).empty());
        const auto alone = setOf({first});
        QVERIFY(refusalOf([&] { (void)airspace::united(alone, idsOf(alone)); }).find("two fences") !=
                std::string::npos);
        QVERIFY(!refusalOf([&] {
                     (void)airspace::united(alone, std::vector{alone.fences[0].id, FenceId{"gone"}});
                 }).empty());
    }

    void setbacksAndCircles_becomePolygons_andSaySo() {
        FenceSet set;
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.name = "Nest";
        nest.geometry = Position{8.0, 47.0};
        nest.positionError = {Length::metres(10), "10 m"};
        set.sites.append(nest);
        set.fences.append(fence("Osprey", FenceKind::KeepOut, model::Setback{nest.id, {Length::metres(200), "200 m"}}));
        set.fences.append(
            fence("Store", FenceKind::KeepOut, model::Circle{{8.003, 47.0}, {Length::metres(150), "150 m"}}));
        const auto before = airspace::outline(set.fences[0], set.sites);
        const auto circle = airspace::outline(set.fences[1], set.sites);
        const auto result = airspace::united(set, idsOf(set));
        const auto after = afterStep(set, result.edit);
        QCOMPARE(after.fences.size(), std::size_t{1});
        QVERIFY(geometry::contains(surface(polygonOf(after.fences[0])), before));
        QVERIFY(geometry::contains(surface(polygonOf(after.fences[0])), circle));
        QCOMPARE(result.notes.size(), std::size_t{1});
        QCOMPARE(result.notes[0].english(), std::string{"Osprey follows its site no more."});

        const auto polygons = airspace::asPolygons(set, idsOf(set));
        const auto loose = afterStep(set, polygons.edit);
        QVERIFY(geometry::sameArea(surface(polygonOf(loose.fences[0])), before));
        QVERIFY(geometry::sameArea(surface(polygonOf(loose.fences[1])), circle));
        QCOMPARE(polygons.edit.title.english(), std::string{"Make polygons of 2 fences"});
        QCOMPARE(polygons.notes.size(), std::size_t{1});
        QVERIFY(!refusalOf([&] { (void)airspace::asPolygons(loose, idsOf(loose)); }).empty());
    }

    void subtracted_takesOnlyWhatIsCertain_outOfAKeepOut() {
        FenceSet set;
        set.fences.append(drawn("Area", box(8.0, 47.0, 8.02, 47.01)));
        set.fences.append(
            fence("Gate", FenceKind::KeepOut, model::Circle{{8.01, 47.005}, {Length::metres(100), "100 m"}}));
        const auto ids = idsOf(set);
        const auto result = airspace::subtracted(set, ids[0], std::vector{ids[1]});
        const auto after = afterStep(set, result.edit);
        QCOMPARE(result.edit.title.english(), std::string{"Take Gate out of Area"});
        QCOMPARE(after.fences.size(), std::size_t{2});
        const auto& polygon = polygonOf(after.fences[0]);
        QCOMPARE(polygon.holes.size(), std::size_t{1});
        // All of the hole lies within the true radius.
        for (const auto& corner : polygon.holes[0].corners)
            QVERIFY(geodesy::inverse({8.01, 47.005}, corner).length.inMetres() <= 100.0 + 1e-8);
        // Of a keep-in, all that might be within it is taken.
        auto permitted = set.fences[0];
        permitted.kind = FenceKind::KeepIn;
        FenceSet other = setOf({permitted, set.fences[1]});
        const auto less = afterStep(other, airspace::subtracted(other, ids[0], std::vector{ids[1]}).edit);
        const auto rest = surface(polygonOf(less.fences[0]));
        QVERIFY(geometry::distanceTo(rest, {8.01, 47.005}) >= Length::metres(100.0 - 1e-3));
        QVERIFY(!geometry::contains(rest, geodesy::direct({8.01, 47.005}, Angle::degrees(77), Length::metres(99.999))));
    }

    void subtracted_mayLeaveParts_orNothing() {
        auto set = setOf({drawn("Strip", box(0, 0, 9, 1)), drawn("Road", box(4, -1, 5, 2)),
                          drawn("Far", box(20, 0, 21, 1)), drawn("All", box(-1, -1, 10, 2))});
        const auto ids = idsOf(set);
        const auto after = afterStep(set, airspace::subtracted(set, ids[0], std::vector{ids[1]}).edit);
        QCOMPARE(namesOf(after), (std::vector<std::string>{"Strip", "Strip 2", "Road", "Far", "All"}));
        QVERIFY(refusalOf([&] {
                    (void)airspace::subtracted(set, ids[0], std::vector{ids[2]});
                }).find("do not overlap Strip") != std::string::npos);
        QVERIFY(refusalOf([&] {
                    (void)airspace::subtracted(set, ids[0], std::vector{ids[3]});
                }).find("Nothing would be left") != std::string::npos);
        QVERIFY(!refusalOf([&] { (void)airspace::subtracted(set, ids[0], std::vector{ids[0]}); }).empty());
    }

    void intersected_keepsWhatAllShare() {
        auto set =
            setOf({drawn("A", box(0, 0, 4, 4), FenceKind::KeepIn), drawn("B", box(2, 0, 6, 4), FenceKind::KeepIn),
                   drawn("C", box(0, 2, 6, 6), FenceKind::KeepIn)});
        const auto result = airspace::intersected(set, idsOf(set));
        const auto after = afterStep(set, result.edit);
        QCOMPARE(namesOf(after), std::vector<std::string>{"A"});
        QVERIFY(geometry::sameArea(surface(polygonOf(after.fences[0])), surface(box(2, 2, 4, 4))));
        QCOMPARE(result.edit.title.english(), std::string{"Keep what A and 2 other fences share"});
        auto apart = setOf({drawn("A", box(0, 0, 1, 1)), drawn("B", box(2, 0, 3, 1))});
        QVERIFY(refusalOf([&] { (void)airspace::intersected(apart, idsOf(apart)); }).find("share nothing") !=
                std::string::npos);
    }

    void cutAlong_cutsThoseItCrosses() {
        auto set = setOf({drawn("A", box(0, 0, 4, 1)), drawn("B", box(0, 2, 4, 3)), drawn("C", box(0, 4, 0.5, 5))});
        const model::LineString line{{1, -1}, {1, 6}};
        const auto result = airspace::cutAlong(set, idsOf(set), line);
        const auto after = afterStep(set, result.edit);
        QCOMPARE(namesOf(after), (std::vector<std::string>{"A", "A 2", "B", "B 2", "C"}));
        QVERIFY(geometry::sameArea(surface(polygonOf(after.fences[0])), surface(box(1, 0, 4, 1))));
        QCOMPARE(after.fences[0].id, set.fences[0].id);
        QCOMPARE(after.fences[1].basis, set.fences[0].basis);
        QCOMPARE(result.fences.size(), std::size_t{4});
        QVERIFY(!refusalOf([&] { (void)airspace::cutAlong(set, std::vector{set.fences[2].id}, line); }).empty());
        QVERIFY(refusalOf([&] {
                    (void)airspace::cutAlong(set, idsOf(set), {{1, -1}, {1, 0.5}});
                }).find("A: The line ends inside") != std::string::npos);
    }

    void holesFilled_swallowsWhatLayInThem() {
        auto ring = box(0, 0, 9, 9);
        ring.holes = {{{{1, 1}, {1, 8}, {8, 8}, {8, 1}}}};
        auto set =
            setOf({drawn("Lake", ring, FenceKind::KeepIn), drawn("Plain", box(20, 0, 21, 1), FenceKind::KeepIn)});
        const auto result = airspace::holesFilled(set, idsOf(set));
        const auto after = afterStep(set, result.edit);
        QVERIFY(geometry::sameArea(surface(polygonOf(after.fences[0])), surface(box(0, 0, 9, 9))));
        QCOMPARE(result.fences, std::vector{set.fences[0].id});
        QCOMPARE(result.notes.size(), std::size_t{1}); // a keep-in grew
        QVERIFY(!refusalOf([&] { (void)airspace::holesFilled(set, std::vector{set.fences[1].id}); }).empty());
    }

    void offsetCopy_standsAtTheTrueDistance() {
        const auto polygon = box(8.0, 69.9, 8.03, 69.91);
        auto set = setOf({drawn("Area", polygon)});
        const StatedLength distance{Length::metres(50), "50 m"};
        for (const auto kind : {FenceKind::KeepOut, FenceKind::KeepIn})
            for (const auto direction : {airspace::OffsetDirection::Outward, airspace::OffsetDirection::Inward}) {
                const auto result = airspace::offsetCopy(set, set.fences[0].id, distance, direction, kind);
                const auto after = afterStep(set, result.edit);
                QCOMPARE(after.fences.size(), std::size_t{2});
                QCOMPARE(after.fences[0], set.fences[0]);
                const auto& copy = after.fences[1];
                const bool outward = direction == airspace::OffsetDirection::Outward;
                QCOMPARE(copy.name, std::string{outward ? "Area + 50 m" : "Area \u2212 50 m"});
                QCOMPARE(copy.kind, kind);
                QCOMPARE(copy.basis.kind, model::BasisKind::None);
                QVERIFY(copy.id != set.fences[0].id && result.fences == std::vector{copy.id});
                for (const auto& corner : polygonOf(copy).shell.corners) {
                    const double metres = geometry::distanceToBoundary(surface(polygon), corner).inMetres();
                    QVERIFY2(std::abs(metres - 50.0) < 0.06, qPrintable(QString::number(metres)));
                    // The corners of a keep-out's outward copy stand outside of the true line, those of a keep-in's on
                    // it.
                    if (outward && kind == FenceKind::KeepIn)
                        QVERIFY(metres <= 50.0 + 1e-6);
                    if (!outward && kind == FenceKind::KeepIn)
                        QVERIFY(metres >= 50.0 - 1e-6);
                }
            }
        QVERIFY(refusalOf([&] {
                    (void)airspace::offsetCopy(set, set.fences[0].id, {Length::metres(900), "900 m"},
                                               airspace::OffsetDirection::Inward, FenceKind::KeepOut);
                }).find("Nothing is left that far inside Area") != std::string::npos);
        QVERIFY(!refusalOf([&] {
                     (void)airspace::offsetCopy(set, set.fences[0].id, {}, airspace::OffsetDirection::Outward,
                                                FenceKind::KeepOut);
                 }).empty());
    }

    void offsetCopy_ofCirclesAndSetbacks_keepsTheForm() {
        FenceSet set;
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.geometry = Position{8.0, 47.0};
        set.sites.append(nest);
        set.fences.append(fence("Osprey", FenceKind::KeepOut, model::Setback{nest.id, {Length::metres(200), "200 m"}}));
        set.fences.append(fence("Store", FenceKind::KeepOut, model::Circle{{8, 47}, {Length::metres(150), "150 m"}}));
        const StatedLength distance{Length::metres(50), ""};
        const auto copied = [&](std::size_t index, airspace::OffsetDirection direction) {
            const auto result =
                airspace::offsetCopy(set, set.fences[index].id, distance, direction, FenceKind::KeepOut);
            const auto after = afterStep(set, result.edit);
            return after.fences[2];
        };
        using enum airspace::OffsetDirection;
        QCOMPARE(std::get<model::Setback>(copied(0, Outward).shape).distance.length, Length::metres(250));
        QVERIFY(std::holds_alternative<model::DrawnPolygon>(copied(0, Inward).shape));
        QCOMPARE(std::get<model::Circle>(copied(1, Outward).shape).radius.length, Length::metres(200));
        QCOMPARE(std::get<model::Circle>(copied(1, Inward).shape).radius.length, Length::metres(100));
        QCOMPARE(copied(1, Outward).name, std::string{"Store + 50.0 m"});
    }

    void duplicated_movesAlongTheGround_andKeepsLinks() {
        FenceSet set;
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.name = "Nest";
        nest.geometry = Position{179.999, 70.0};
        set.sites.append(nest);
        model::Home home;
        home.id = model::freshId<model::Home>();
        home.name = "Dam";
        home.place = {-179.998, 70.0};
        set.homes.append(home);
        set.fences.append(fence("Osprey", FenceKind::KeepOut, model::Setback{nest.id, {Length::metres(200), "200 m"}}));
        set.fences.append(drawn("Area", box(179.99, 70.0, 180.01, 70.01)));
        set.fences.append(
            fence("Leased", FenceKind::KeepIn, model::ParcelUnion{{{"12", {{box(179.99, 70.01, 180.0, 70.02)}}}}, {}}));
        const std::vector<airspace::Thing> things{set.fences[0].id, nest.id, set.fences[1].id, home.id,
                                                  set.fences[2].id};
        const airspace::GroundShift shift{Length::metres(300), Length::metres(-400)};
        const auto result = airspace::duplicated(set, things, shift);
        const auto after = afterStep(set, result.edit);
        QCOMPARE(namesOf(after),
                 (std::vector<std::string>{"Osprey", "Area", "Leased", "Osprey copy", "Area copy", "Leased copy"}));
        QCOMPARE(after.sites[1].name, std::string{"Nest copy"});
        QVERIFY(after.sites[1].id != nest.id);
        QCOMPARE(std::get<model::Setback>(after.fences[3].shape).site, after.sites[1].id);
        QCOMPARE(result.things.size(), std::size_t{5});
        QCOMPARE(result.notes.size(), std::size_t{1}); // of the parcels
        // North turns by 0.0001 over 300 m at 70 degrees, and what is copied turns with it.
        const auto way = [](const Position& from, const Position& to) {
            return geodesy::inverse(from, to).length.inMetres();
        };
        QVERIFY(std::abs(way({179.999, 70.0}, std::get<Position>(after.sites[1].geometry)) - 500.0) < 0.2);
        QVERIFY(std::abs(way(home.place, after.homes[1].place) - 500.0) < 0.2);
        QVERIFY(std::abs(after.homes[1].place.lon) <= 180.0 &&
                std::abs(std::get<Position>(after.sites[1].geometry).lon) <= 180.0);
        const auto &from = polygonOf(set.fences[1]).shell.corners, &to = polygonOf(after.fences[4]).shell.corners;
        for (std::size_t i = 0; i < from.size(); ++i) {
            const std::size_t next = (i + 1) % from.size();
            QVERIFY(std::abs(way(from[i], to[i]) - 500.0) < 0.2);
            QVERIFY(std::abs(way(from[i], from[next]) - way(to[i], to[next])) < 1e-3);
        }
        auto locked = home;
        locked.locked = true;
        FenceSet kept;
        kept.homes.append(locked);
        const auto second = airspace::duplicated(kept, std::vector<airspace::Thing>{home.id}, shift);
        QVERIFY(!afterStep(kept, second.edit).homes[1].locked);
        // Alone, the setback still follows the nest.
        const auto alone = airspace::duplicated(set, std::vector<airspace::Thing>{set.fences[0].id}, shift);
        const auto beside = afterStep(set, alone.edit);
        QCOMPARE(std::get<model::Setback>(beside.fences[3].shape).site, nest.id);
        QCOMPARE(alone.notes.size(), std::size_t{1});
        QCOMPARE(alone.edit.title.english(), std::string{"Duplicate Osprey"});
        QVERIFY(!refusalOf([&] { (void)airspace::duplicated(set, {}, shift); }).empty());
    }
};

QTEST_APPLESS_MAIN(ReshapingTest)
#include "reshaping_test.moc"
