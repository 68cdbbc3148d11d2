#include "store/clipping.h"

#include "fault.h"
#include "geometry/containment.h"
#include "support/random_sets.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QtTest>

using namespace fencewright;

namespace {

std::vector<store::ClippedThing> allOf(const model::FenceSet& set) {
    std::vector<store::ClippedThing> things;
    for (const auto& fence : set.fences)
        things.emplace_back(fence.id);
    for (const auto& site : set.sites)
        things.emplace_back(site.id);
    for (const auto& home : set.homes)
        things.emplace_back(home.id);
    return things;
}

model::Fence drawn(const std::string& name, model::Polygon polygon) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.shape = model::DrawnPolygon{std::move(polygon)};
    return fence;
}

template <class T> bool sameInOrder(const std::vector<T>& list, const model::Roster<T>& roster) {
    model::Roster<T> other;
    for (const T& one : list)
        other.append(one);
    return other == roster;
}

double turn(const QJsonArray& ring) {
    double sum = 0.0;
    for (int i = 0; i + 1 < ring.size(); ++i) {
        const QJsonArray a = ring[i].toArray(), b = ring[i + 1].toArray();
        sum += a[0].toDouble() * b[1].toDouble() - b[0].toDouble() * a[1].toDouble();
    }
    return sum;
}

QString refusal(const std::string& text) {
    try {
        (void)store::pasted(text);
    } catch (const Fault& fault) {
        return QString::fromStdString(fault.what());
    }
    return {};
}

} // namespace

class ClippingTest : public QObject {
    Q_OBJECT

private slots:
    void pasted_givesBackWhatWasCopied_toTheLastBit() {
        constexpr unsigned seed = 20261125;
        std::mt19937_64 random{seed};
        for (int round = 0; round < 1000; ++round) {
            const model::FenceSet set = test::randomSet(random, test::Numbers::Sensible, 2);
            if (set.fences.empty() && set.sites.empty() && set.homes.empty())
                continue;
            const store::Pasting back = store::pasted(store::clipped(set, allOf(set)).text);
            const QString which = QString{"seed %1 round %2"}.arg(seed).arg(round);
            QVERIFY2(sameInOrder(back.fences, set.fences), qPrintable(which));
            QCOMPARE(back.sites.size(), set.sites.size());
            for (const model::Site& site : back.sites)
                QVERIFY2(*set.sites.find(site.id) == site, qPrintable(which));
            QVERIFY2(sameInOrder(back.homes, set.homes), qPrintable(which));
            QCOMPARE(back.foreign, std::size_t{0});
        }
    }

    // RFC 7946, 3.1.6: "A linear ring MUST follow the right-hand rule with respect to the area it bounds, i.e.,
    // exterior rings are counterclockwise, and holes are clockwise"; its first and last positions are identical.
    // 7.1: a feature has no "geometry" or "properties" of another kind beside its own.
    void clipped_followsTheRightHandRule_howeverItWasDrawn() {
        model::FenceSet set;
        // Both drawn the other way round.
        set.fences.append(drawn("Pond", {{{{8.0, 46.0}, {8.0, 46.1}, {8.1, 46.1}, {8.1, 46.0}}},
                                         {{{{8.04, 46.04}, {8.06, 46.04}, {8.06, 46.06}, {8.04, 46.06}}}}}));
        const auto document =
            QJsonDocument::fromJson(QByteArray::fromStdString(store::clipped(set, allOf(set)).text)).object();
        QCOMPARE(document["type"].toString(), QString{"FeatureCollection"});
        QVERIFY(!document.contains("crs"));
        const QJsonObject feature = document["features"].toArray()[0].toObject();
        QCOMPARE(feature["type"].toString(), QString{"Feature"});
        QCOMPARE(feature["properties"].toObject()["name"].toString(), QString{"Pond"});
        QCOMPARE(feature["geometry"].toObject()["type"].toString(), QString{"Polygon"});
        const QJsonArray rings = feature["geometry"].toObject()["coordinates"].toArray();
        QCOMPARE(rings.size(), 2);
        QVERIFY(turn(rings[0].toArray()) > 0.0);
        QVERIFY(turn(rings[1].toArray()) < 0.0);
        for (const QJsonValue ring : rings)
            QCOMPARE(ring.toArray().first(), ring.toArray().last());
    }

    // RFC 7946, 3.1.9: what crosses the antimeridian is cut there, neither part crosses it.
    void clipped_cutsAtTheAntimeridian() {
        model::FenceSet set;
        set.fences.append(drawn("Strait", {{{{179.5, 66.0}, {180.5, 66.0}, {180.5, 66.5}, {179.5, 66.5}}}, {}}));
        model::Site cable;
        cable.id = model::freshId<model::Site>();
        cable.name = "Cable";
        cable.geometry = model::LineString{{179.0, 65.0}, {181.0, 67.0}};
        set.sites.append(cable);
        const std::string text = store::clipped(set, allOf(set)).text;
        const auto features = QJsonDocument::fromJson(QByteArray::fromStdString(text)).object()["features"].toArray();
        const QJsonObject fence = features[0].toObject()["geometry"].toObject();
        QCOMPARE(fence["type"].toString(), QString{"MultiPolygon"});
        const QJsonObject line = features[1].toObject()["geometry"].toObject();
        QCOMPARE(line["type"].toString(), QString{"MultiLineString"});
        QCOMPARE(line["coordinates"].toArray(),
                 (QJsonArray{QJsonArray{QJsonArray{179.0, 65.0}, QJsonArray{180.0, 66.0}},
                             QJsonArray{QJsonArray{-180.0, 66.0}, QJsonArray{-179.0, 67.0}}}));
        QVERIFY(store::pasted(text).fences[0] == set.fences[0]);
    }

    void clipped_takesTheSiteOfASetbackAlong_andCountsWhatIsConfidential() {
        model::FenceSet set;
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.name = "Nest";
        nest.geometry = model::Position{8.0, 46.0};
        nest.confidential = true;
        set.sites.append(nest);
        model::Fence setback;
        setback.id = model::freshId<model::Fence>();
        setback.name = "Around the nest";
        setback.shape = model::Setback{nest.id, {Length::metres(300), "300 m"}};
        set.fences.append(setback);
        const store::Clipping clipping = store::clipped(set, std::vector<store::ClippedThing>{setback.id});
        QCOMPARE(clipping.sites, std::size_t{1});
        QCOMPARE(clipping.confidential, std::size_t{1});
        // In another document: the same. In this one: both anew, and the copy follows the copied site.
        const auto there = store::pastedInto({}, store::pasted(clipping.text));
        const model::FenceSet other = model::applied({}, there.edit);
        QVERIFY(other.fences[0] == setback && other.sites[0] == nest);
        const auto here = store::pastedInto(set, store::pasted(clipping.text));
        const model::FenceSet twice = model::applied(set, here.edit);
        QCOMPARE(twice.fences[1].name, std::string{"Around the nest copy"});
        QVERIFY(twice.sites[1].id != nest.id);
        QVERIFY(std::get<model::Setback>(twice.fences[1].shape).site == twice.sites[1].id);
        QVERIFY(model::applied(twice, model::inverse(here.edit)) == set);
    }

    // The geometries of RFC 7946, appendix A (Point, LineString, Polygon with hole, MultiPolygon, collection).
    void pasted_makesKeepOutsAndSites_ofOtherPrograms() {
        const store::Pasting taken = store::pasted(R"({"type":"FeatureCollection","features":[
            {"type":"Feature","properties":{"name":"Well"},"geometry":{"type":"Point","coordinates":[100.0,0.0,12]}},
            {"type":"Feature","properties":null,"geometry":{"type":"LineString","coordinates":[[100.0,0.0],[101.0,1.0]]}},
            {"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[
                [[100.0,0.0],[101.0,0.0],[101.0,1.0],[100.0,1.0],[100.0,0.0]],
                [[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8]]]}},
            {"type":"Feature","properties":{},"geometry":null},
            {"type":"Feature","properties":{},"geometry":{"type":"GeometryCollection","geometries":[
                {"type":"MultiPolygon","coordinates":[[[[102.0,2.0],[103.0,2.0],[103.0,3.0],[102.0,2.0]]]]},
                {"type":"MultiPoint","coordinates":[[100.0,0.0],[101.0,1.0]]}]}}]})");
        QCOMPARE(taken.fences.size(), std::size_t{2});
        QCOMPARE(taken.sites.size(), std::size_t{4});
        QCOMPARE(taken.foreign, std::size_t{4});
        QCOMPARE(taken.unreadable, std::size_t{1});
        QCOMPARE(taken.heights, std::size_t{1});
        QCOMPARE(taken.leftOpen, std::size_t{1});
        QCOMPARE(taken.sites[0].name, std::string{"Well"});
        QCOMPARE(taken.fences[0].kind, model::FenceKind::KeepOut);
        const auto& polygon = std::get<model::DrawnPolygon>(taken.fences[0].shape).polygon;
        QCOMPARE(polygon.shell.corners.size(), std::size_t{4});
        QCOMPARE(polygon.holes.size(), std::size_t{1});
        QVERIFY(polygon.holes[0].closureAssumed && !polygon.shell.closureAssumed);
    }

    // RFC 7946, 3.1.9 asks writers to cut at the antimeridian; from one that does not, the area meant is the narrow
    // one.
    void pasted_goesTheShortWay_acrossTheAntimeridian() {
        const store::Pasting taken = store::pasted(R"({"type":"GeometryCollection","geometries":[
            {"type":"Polygon","coordinates":[[[179,10],[-179,10],[-179,11],[179,11],[179,10]],
                                             [[-179.8,10.2],[-179.8,10.8],[-179.4,10.8],[-179.8,10.2]]]},
            {"type":"LineString","coordinates":[[-179,0],[179,1]]}]})");
        QCOMPARE(taken.unwrapped, std::size_t{2});
        const auto& polygon = std::get<model::DrawnPolygon>(taken.fences.at(0).shape).polygon;
        QVERIFY(geometry::contains({{polygon}}, model::Position{180.9, 10.5}));
        QVERIFY(!geometry::contains({{polygon}}, model::Position{0.0, 10.5}));
        QVERIFY(!geometry::contains({{polygon}}, model::Position{180.3, 10.7})); // in the hole
        QCOMPARE(std::get<model::LineString>(taken.sites.at(0).geometry)[1].lon, -181.0);
    }

    void pasted_refusesHostileText_withWords_data() {
        QTest::addColumn<QByteArray>("text");
        QTest::addColumn<QString>("words");
        QTest::newRow("empty") << QByteArray{} << "neither a copy from here nor GeoJSON";
        QTest::newRow("prose") << QByteArray{"keep out"} << "neither a copy from here nor GeoJSON";
        QTest::newRow("100 MB") << QByteArray(100 * 1024 * 1024, '[') << "longer than 16 MB";
        QTest::newRow("nested") << QByteArray(1'000'000, '[') << "nests deeper";
        QTest::newRow("a list") << QByteArray{"[1,2]"} << "not GeoJSON";
        QTest::newRow("a number") << QByteArray{"17"} << "not GeoJSON";
        QTest::newRow("NaN") << QByteArray{R"({"type":"Point","coordinates":[NaN,1]})"} << "neither a copy from here";
        QTest::newRow("infinite") << QByteArray{R"({"type":"Point","coordinates":[1e999,1]})"} << "neither a copy";
        QTest::newRow("beyond the pole") << QByteArray{R"({"type":"Point","coordinates":[1,91]})"} << "no place on the";
        QTest::newRow("projected") << QByteArray{R"({"type":"Point","coordinates":[500000,5100000]})"} << "no place on";
        QTest::newRow("texts for numbers") << QByteArray{R"({"type":"Point","coordinates":["1","2"]})"} << "longitude";
        QTest::newRow("one number") << QByteArray{R"({"type":"Point","coordinates":[1]})"} << "longitude and a lat";
        QTest::newRow("depth") << QByteArray{R"({"type":"Polygon","coordinates":[[1,2],[3,4]]})"} << "lists of the";
        QTest::newRow("two corners") << QByteArray{R"({"type":"Polygon","coordinates":[[[1,2],[3,4],[1,2]]]})"}
                                     << "fewer than three";
        QTest::newRow("no ring") << QByteArray{R"({"type":"Polygon","coordinates":[]})"} << "without a ring";
        QTest::newRow("no features") << QByteArray{R"({"type":"FeatureCollection","features":{}})"} << "no list";
        QTest::newRow("empty list") << QByteArray{R"({"type":"FeatureCollection","features":[]})"} << "no area";
        QTest::newRow("unknown") << QByteArray{R"({"type":"Torus","coordinates":[1,2]})"} << "not one of GeoJSON";
        QTest::newRow("other CRS") << QByteArray{R"({"type":"FeatureCollection","crs":{"type":"name","properties":)"
                                                 R"({"name":"EPSG:25832"}},"features":[]})"}
                                   << "coordinate reference system";
        QTest::newRow("own, newer")
            << QByteArray{R"({"type":"Feature","geometry":null,"properties":{},"fencewright":{"version":1000}})"}
            << "newer version";
        QTest::newRow("own, wrong type") << QByteArray{R"({"type":"Feature","geometry":null,"properties":{},)"
                                                       R"("fencewright":{"version":1,"kind":"fence","value":[7]}})"}
                                         << "feature";
        QByteArray many{R"({"type":"FeatureCollection","features":[)"};
        for (int i = 0; i < 20'001; ++i)
            many += "{},";
        QTest::newRow("many features") << many + "{}]}"
                                       << "more than 20000";
    }
    void pasted_refusesHostileText_withWords() {
        QFETCH(QByteArray, text);
        QFETCH(QString, words);
        const QString said = refusal(text.toStdString());
        QVERIFY2(said.contains(words), qPrintable(said));
    }

    void pasted_refusesOwnThings_withNumbersThatAreNone() {
        model::FenceSet set;
        set.fences.append(drawn("Broken", {{{{std::nan(""), 46.0}, {8.0, 46.1}, {8.1, 46.1}}}, {}}));
        QVERIFY(refusal(store::clipped(set, allOf(set)).text).contains("no place on the earth"));
    }

    // Whether a fence is the same that somebody holds is asked by identity, years later.
    void pastedInto_keepsIdentities_whereTheyAreFree_andGivesCopiesTheirOwn() {
        model::FenceSet set;
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.name = "Nest";
        nest.geometry = model::Position{8.0, 46.0};
        set.sites.append(nest);
        model::Fence setback;
        setback.id = model::freshId<model::Fence>();
        setback.name = "Nest";
        setback.shape = model::Setback{nest.id, {Length::metres(300), "300 m"}};
        setback.locked = true;
        set.fences.append(setback);
        const std::string text = store::clipped(set, allOf(set)).text;
        // Into another document, and back into this one after it was cut out: the same fence, locked as it was.
        const model::FenceSet other =
            model::applied(model::FenceSet{}, store::pastedInto(model::FenceSet{}, store::pasted(text)).edit);
        QVERIFY(other.fences[0] == setback);
        QVERIFY(other.sites[0] == nest);
        // A second time: copies beside the originals, which follow each other and not the originals.
        const auto again = store::pastedInto(other, store::pasted(text));
        const model::FenceSet twice = model::applied(other, again.edit);
        QCOMPARE(twice.fences.size(), std::size_t{2});
        QVERIFY(twice.fences[0] == setback && twice.sites[0] == nest);
        QVERIFY(twice.fences[1].id != setback.id && twice.sites[1].id != nest.id);
        QVERIFY(std::get<model::Setback>(twice.fences[1].shape).site == twice.sites[1].id);
        QVERIFY(!twice.fences[1].locked);
        // One of them is there already: the other keeps its identity, and they stay together.
        model::FenceSet siteAlone;
        siteAlone.sites.append(nest);
        const model::FenceSet mixed = model::applied(siteAlone, store::pastedInto(siteAlone, store::pasted(text)).edit);
        QVERIFY(mixed.fences[0].id == setback.id);
        QVERIFY(std::get<model::Setback>(mixed.fences[0].shape).site == mixed.sites[1].id);
    }

    void pasted_cutsLongNamesBetweenLetters() {
        for (const char* letter : {"n", "ä", "岩", "🦅"})
            for (std::size_t before = 194; before <= 200; ++before) {
                std::string name(before, 'a');
                for (int i = 0; i < 60; ++i)
                    name += letter;
                const model::Site site = store::pasted(R"({"type":"Feature","properties":{"name":")" + name +
                                                       R"("},"geometry":{"type":"Point","coordinates":[-8.7,46.2]}})")
                                             .sites.at(0);
                QVERIFY(name.starts_with(site.name) && site.name.size() > 196 && site.name.size() <= 200);
                const QString read = QString::fromStdString(site.name); // half a letter becomes another one
                QCOMPARE(read.toStdString(), site.name);
                // And it can be copied, for which it is written again.
                model::FenceSet set;
                set.sites.append(site);
                QVERIFY(store::pasted(store::clipped(set, allOf(set)).text).sites.at(0) == site);
            }
    }

    void pastedInto_refusesASetbackWithoutItsSite() {
        model::Fence setback;
        setback.id = model::freshId<model::Fence>();
        setback.name = "Around nothing";
        setback.shape = model::Setback{model::freshId<model::Site>(), {Length::metres(300), "300 m"}};
        store::Pasting pasting;
        pasting.fences.push_back(setback);
        QVERIFY_EXCEPTION_THROWN((void)store::pastedInto({}, pasting), Fault);
    }
};

QTEST_APPLESS_MAIN(ClippingTest)
#include "clipping_test.moc"
