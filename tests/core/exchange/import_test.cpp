#include "exchange/import.h"

#include "fault.h"
#include "support/reading.h"

#include <QTemporaryDir>
#include <QtTest>

#include <set>

using namespace fencewright;
using exchange::VectorContent;
using model::FenceKind;
using model::HeightReference;

namespace {

const model::Polygon kSquare{{{{10, 50}, {10.01, 50}, {10.01, 50.01}, {10, 50.01}}, false}, {}};
const model::Polygon kTriangle{{{{11, 50}, {11.01, 50}, {11, 50.01}}, false}, {}};

exchange::Feature feature(std::vector<std::string> attributes, std::vector<exchange::FeatureGeometry> parts) {
    return {"1", std::move(attributes), std::move(parts), std::nullopt, std::nullopt};
}

VectorContent content(std::vector<std::string> fields, std::vector<exchange::Feature> features) {
    VectorContent result;
    result.path = "plots.geojson";
    result.fields = std::move(fields);
    result.features = std::move(features);
    return result;
}

/// One fence out of one square with the attributes.
model::Fence fenceWith(const std::vector<std::pair<std::string, std::string>>& attributes,
                       std::vector<exchange::ReadNote>* notes = nullptr, FenceKind kind = FenceKind::KeepOut) {
    std::vector<std::string> fields;
    std::vector<std::string> values;
    for (const auto& [field, value] : attributes) {
        fields.push_back(field);
        values.push_back(value);
    }
    const auto import = exchange::asFences(content(fields, {feature(values, {kSquare})}), kind, "");
    if (notes)
        *notes = import.notes;
    return import.fences.at(0);
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

} // namespace

class ImportTest : public QObject {
    Q_OBJECT

private slots:
    void asFences_makesAFenceOfEachSurface() {
        const auto import = exchange::asFences(
            content({"name"}, {feature({"Reservoir"}, {kSquare, kTriangle}), feature({""}, {kSquare})}),
            FenceKind::KeepIn, "");
        QCOMPARE(import.fences.size(), 3U);
        QCOMPARE(import.fences[0].name, "Reservoir (1 of 2)");
        QCOMPARE(import.fences[1].name, "Reservoir (2 of 2)");
        QCOMPARE(import.fences[2].name, "Feature 2");
        QCOMPARE(std::get<model::DrawnPolygon>(import.fences[1].shape).polygon, kTriangle);
        std::set<model::FenceId> ids;
        for (const model::Fence& fence : import.fences) {
            QCOMPARE(fence.kind, FenceKind::KeepIn);
            QVERIFY(fence.enabled);
            QVERIFY(ids.insert(fence.id).second);
        }
        QVERIFY(import.notes.empty());
    }

    void asFences_leavesOutWhatIsNoSurface() {
        const auto import = exchange::asFences(
            content({"name"}, {feature({"Mixed"}, {model::Position{1, 2}, kSquare, model::LineString{{1, 2}, {3, 4}}}),
                               feature({"Point"}, {model::Position{1, 2}})}),
            FenceKind::KeepOut, "");
        QCOMPARE(import.fences.size(), 1U);
        QCOMPARE(import.fences[0].name, "Mixed");
        QCOMPARE(import.notes.size(), 2U);
        QCOMPARE(import.notes[0].kind, exchange::ReadNote::Kind::LeftOut);
        QCOMPARE(import.notes[0].place.english(), "feature 1, Mixed");
        QVERIFY(has(import.notes[0].words.english(), "2 parts of it are no surfaces"));
        QVERIFY(has(import.notes[1].words.english(), "one part of it is no surface"));
    }

    void asFences_findsTheNames() {
        for (const char* field : {"name", "Name", "title"})
            QCOMPARE(
                exchange::asFences(content({"id", field}, {feature({"7", "Nest"}, {kSquare})}), FenceKind::KeepOut, "")
                    .fences[0]
                    .name,
                "Nest");
        const auto table = content({"name", "owner"}, {feature({"Nest", "Utility"}, {kSquare})});
        QCOMPARE(exchange::asFences(table, FenceKind::KeepOut, "owner").fences[0].name, "Utility");
        QVERIFY_EXCEPTION_THROWN((void)exchange::asFences(table, FenceKind::KeepOut, "lessee"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)exchange::asSites(table, "lessee"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)exchange::asHomes(table, "lessee"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)exchange::asParcels(table, "lessee"), Fault);
    }

    void asFences_readsWhatOurDeliveriesSay() {
        const model::Fence fence = fenceWith({{"fencewright_id", "0123456789abcdef0123456789abcdef"},
                                              {"role", "fence"},
                                              {"name", "Osprey nest"},
                                              {"kind", "keep-in"},
                                              {"floor", "30"},
                                              {"floor_unit", "m"},
                                              {"floor_reference", "ellipsoid"},
                                              {"ceiling", "400"},
                                              {"ceiling_unit", "ft"},
                                              {"ceiling_reference", "mean sea level"},
                                              {"season", "10-15/07-31"},
                                              {"valid_from", "2026-05-14"},
                                              {"valid_until", "2027-05-13"},
                                              {"basis_kind", "guideline"},
                                              {"basis_citation", "Guideline, page 6"},
                                              {"notes", "Seen in May."}});
        QCOMPARE(fence.id.value, "0123456789abcdef0123456789abcdef");
        QCOMPARE(fence.name, "Osprey nest");
        QCOMPARE(fence.kind, FenceKind::KeepIn);
        QVERIFY(fence.enabled);
        QCOMPARE(fence.band.floor->value.length, Length::metres(30));
        QCOMPARE(fence.band.floor->reference, HeightReference::Ellipsoid);
        // International foot, 0.3048 m.
        QVERIFY(std::abs(fence.band.ceiling->value.length.inMetres() - 121.92) < 1e-9);
        QCOMPARE(fence.band.ceiling->value.asWritten, "400 ft");
        QCOMPARE(fence.band.ceiling->reference, HeightReference::MeanSeaLevel);
        using namespace std::chrono;
        QCOMPARE(fence.period.season, (std::optional{model::Season{October / 15, July / 31}}));
        QCOMPARE(fence.period.from, (std::optional{model::Date{2026y / May / 14}}));
        QCOMPARE(fence.period.until, (std::optional{model::Date{2027y / May / 13}}));
        QCOMPARE(fence.basis.kind, model::BasisKind::Guideline);
        QCOMPARE(fence.basis.citation, "Guideline, page 6");
        QCOMPARE(fence.notes, "Seen in May.");
    }

    void asFences_keepsToTheSafeSideOfWhatItCannotRead_data() {
        QTest::addColumn<QString>("field");
        QTest::addColumn<QString>("value");
        QTest::newRow("ceiling") << "ceiling"
                                 << "high up";
        QTest::newRow("ceiling without number") << "ceiling"
                                                << "nan";
        QTest::newRow("floor") << "floor"
                               << "1e999";
        QTest::newRow("season") << "season"
                                << "02-30/03-01";
        QTest::newRow("half a season") << "season"
                                       << "04-01";
        QTest::newRow("first day") << "valid_from"
                                   << "14 May 2026";
        QTest::newRow("last day") << "valid_until"
                                  << "2026-02-30";
    }
    void asFences_keepsToTheSafeSideOfWhatItCannotRead() {
        QFETCH(QString, field);
        QFETCH(QString, value);
        std::vector<exchange::ReadNote> notes;
        // A keep-out without the limit forbids more than it should, a keep-in would permit more.
        const model::Fence out =
            fenceWith({{"name", "Nest"}, {field.toStdString(), value.toStdString()}}, &notes, FenceKind::KeepOut);
        QVERIFY(out.enabled);
        QVERIFY(!out.band.floor && !out.band.ceiling && !out.period.season && !out.period.from && !out.period.until);
        QCOMPARE(notes.size(), 1U);
        QVERIFY2(has(notes[0].words.english(), field.toStdString() + " \"" + value.toStdString() + "\" cannot be read"),
                 notes[0].words.english().c_str());
        const model::Fence in =
            fenceWith({{"name", "Nest"}, {field.toStdString(), value.toStdString()}}, &notes, FenceKind::KeepIn);
        QVERIFY(!in.enabled);
        QVERIFY2(has(notes[0].words.english(), "switched off"), notes[0].words.english().c_str());
    }

    void asFences_refusesAnUnknownReference() {
        std::vector<exchange::ReadNote> notes;
        const model::Fence fence = fenceWith(
            {{"name", "Nest"}, {"ceiling", "100"}, {"ceiling_unit", "m"}, {"ceiling_reference", "flight level"}},
            &notes);
        QVERIFY(!fence.band.ceiling);
        QCOMPARE(notes.size(), 1U);
    }

    void asFences_givesFreshIdentitiesToCopies() {
        const std::string id = "0123456789abcdef0123456789abcdef";
        const auto import =
            exchange::asFences(content({"fencewright_id"}, {feature({id}, {kSquare, kTriangle}),
                                                            feature({id}, {kSquare}), feature({"not one"}, {kSquare})}),
                               FenceKind::KeepOut, "");
        QCOMPARE(import.fences[0].id.value, id);
        std::set<model::FenceId> ids;
        for (const model::Fence& fence : import.fences) {
            QVERIFY(ids.insert(fence.id).second);
            QCOMPARE(fence.id.value.size(), 32U);
        }
    }

    void roles_sortTheFeaturesOfADelivery() {
        const auto delivery = content({"name", "role"}, {feature({"Fence", "fence"}, {kSquare}),
                                                         feature({"Site", "site"}, {model::Position{1, 2}}),
                                                         feature({"Home", "home"}, {model::Position{3, 4}})});
        const auto fences = exchange::asFences(delivery, FenceKind::KeepOut, "");
        QCOMPARE(fences.fences.size(), 1U);
        QCOMPARE(fences.notes.size(), 2U);
        QVERIFY(has(fences.notes[0].words.english(), "it is a site"));
        const auto sites = exchange::asSites(delivery, "");
        QCOMPARE(sites.sites.size(), 1U);
        QCOMPARE(sites.sites[0].name, "Site");
        const auto homes = exchange::asHomes(delivery, "");
        QCOMPARE(homes.homes.size(), 1U);
        QCOMPARE(homes.homes[0].name, "Home");
    }

    void asSites_takesPointsLinesAndSurfaces() {
        const model::LineString line{{1, 2}, {3, 4}};
        const auto import = exchange::asSites(
            content({"name", "category", "position_error_m", "confidential"},
                    {feature({"Nest", "osprey nest", "12.5", "true"}, {model::Position{1, 2}}),
                     feature({"Road", "", "", ""}, {line}), feature({"School", "school", "far", ""}, {kSquare})}),
            "");
        QCOMPARE(import.sites.size(), 3U);
        QCOMPARE(std::get<model::Position>(import.sites[0].geometry), (model::Position{1, 2}));
        QCOMPARE(import.sites[0].category, "osprey nest");
        QCOMPARE(import.sites[0].positionError.length, Length::metres(12.5));
        QVERIFY(import.sites[0].confidential);
        QCOMPARE(std::get<model::LineString>(import.sites[1].geometry), line);
        QVERIFY(!import.sites[1].confidential);
        QCOMPARE(std::get<model::Polygon>(import.sites[2].geometry), kSquare);
        QCOMPARE(import.notes.size(), 1U);
        QVERIFY(has(import.notes[0].words.english(), "position error \"far\""));
    }

    void asHomes_takesPointsOnly() {
        const auto import = exchange::asHomes(content({"name", "home_kind", "landing_radius_m"},
                                                      {feature({"Dam", "home", "25"}, {model::Position{1, 2}}),
                                                       feature({"Yard", "alternate", "wide"}, {model::Position{3, 4}}),
                                                       feature({"Field", "", ""}, {kSquare})}),
                                              "");
        QCOMPARE(import.homes.size(), 2U);
        QCOMPARE(import.homes[0].landingRadius.length, Length::metres(25));
        QCOMPARE(import.homes[0].kind, model::HomeKind::Home);
        QCOMPARE(import.homes[1].kind, model::HomeKind::Alternate);
        QCOMPARE(import.homes[1].landingRadius.length, Length::metres(10));
        QCOMPARE(import.notes.size(), 2U);
    }

    void asParcels_keepsPartsTogether() {
        const auto parcels = exchange::asParcels(
            content({"number"}, {feature({"007"}, {kSquare, kTriangle}), feature({"8"}, {model::Position{1, 2}}),
                                 feature({""}, {kSquare})}),
            "number");
        QCOMPARE(parcels.size(), 2U);
        QCOMPARE(parcels[0].number, "007");
        QCOMPARE(parcels[0].surface.parts, (std::vector<model::Polygon>{kSquare, kTriangle}));
        QCOMPARE(exchange::asParcels(content({"number"}, {feature({"007"}, {kSquare})}), "")[0].number, "");
    }

    void setbackFence_followsItsSite() {
        model::Site site;
        site.id = model::freshId<model::Site>();
        site.name = "Osprey nest";
        const StatedLength distance{Length::statuteMiles(0.25), "1/4 mi"};
        const model::Fence fence = exchange::setbackFence(site, distance);
        QCOMPARE(fence.kind, FenceKind::KeepOut);
        QCOMPARE(std::get<model::Setback>(fence.shape), (model::Setback{site.id, distance}));
        QCOMPARE(fence.name, "Osprey nest, setback");
        QVERIFY(!fence.id.empty());
        QVERIFY(fence.enabled);
    }

    /// What our deliveries write, through the drivers: GeoJSON makes dates of texts, KML hides attributes in
    /// ExtendedData.
    void delivered_comesBackThroughTheFile_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QByteArray>("text");
        QTest::newRow("geojson")
            << "set.geojson"
            << QByteArray{
                   R"({"type":"FeatureCollection","features":[{"type":"Feature","id":"0123456789abcdef0123456789abcdef","properties":)"
                   R"({"fencewright_id":"0123456789abcdef0123456789abcdef","role":"fence","name":"Nest","kind":"keep-out",)"
                   R"("ceiling":121.92,"ceiling_unit":"m","ceiling_reference":"ground","season":"04-01/08-31","valid_from":"2026-05-14",)"
                   R"("basis_kind":"permit"},"geometry":{"type":"Polygon","coordinates":[[[10,50],[10.01,50],[10.01,50.01],[10,50.01],[10,50]]]}}]})"};
        QTest::newRow("kml")
            << "set.kml"
            << QByteArray{
                   R"(<?xml version="1.0" encoding="UTF-8"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>Set</name>)"
                   R"(<Placemark id="f"><name>Nest</name><ExtendedData><Data name="fencewright_id"><value>0123456789abcdef0123456789abcdef</value></Data>)"
                   R"(<Data name="role"><value>fence</value></Data><Data name="name"><value>Nest</value></Data><Data name="kind"><value>keep-out</value></Data>)"
                   R"(<Data name="ceiling"><value>121.92</value></Data><Data name="ceiling_unit"><value>m</value></Data>)"
                   R"(<Data name="ceiling_reference"><value>ground</value></Data><Data name="season"><value>04-01/08-31</value></Data>)"
                   R"(<Data name="valid_from"><value>2026-05-14</value></Data><Data name="basis_kind"><value>permit</value></Data></ExtendedData>)"
                   R"(<Polygon><outerBoundaryIs><LinearRing><coordinates>10,50 10.01,50 10.01,50.01 10,50.01 10,50</coordinates></LinearRing></outerBoundaryIs></Polygon>)"
                   R"(</Placemark></Document></kml>)"};
    }
    void delivered_comesBackThroughTheFile() {
        QFETCH(QString, name);
        QFETCH(QByteArray, text);
        QTemporaryDir folder;
        const auto import =
            exchange::asFences(support::read(support::writtenFile(folder.path(), name, text)), FenceKind::KeepIn, "");
        QCOMPARE(import.fences.size(), 1U);
        const model::Fence& fence = import.fences[0];
        QVERIFY(import.notes.empty());
        QCOMPARE(fence.id.value, "0123456789abcdef0123456789abcdef");
        QCOMPARE(fence.name, "Nest");
        QCOMPARE(fence.kind, FenceKind::KeepOut);
        QCOMPARE(fence.band.ceiling->value.length, Length::metres(121.92));
        QCOMPARE(fence.period.season, (std::optional{model::Season{std::chrono::April / 1, std::chrono::August / 31}}));
        QCOMPARE(fence.period.from, model::parseIsoDate("2026-05-14"));
        QCOMPARE(fence.basis.kind, model::BasisKind::Permit);
        QCOMPARE(std::get<model::DrawnPolygon>(fence.shape).polygon, kSquare);
    }
};

QTEST_APPLESS_MAIN(ImportTest)
#include "import_test.moc"
