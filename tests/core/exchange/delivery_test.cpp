#include "exchange/delivery.h"

#include "airspace/outline.h"
#include "exchange/confirmation.h"
#include "exchange/delivery_draft.h"
#include "exchange/format_table.h"
#include "geodesy/edge_meaning.h"
#include "geometry/containment.h"
#include "geometry/simplify.h"
#include "support/delivered_file.h"
#include "support/delivery_sets.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QtTest>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>

#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace fencewright;
using exchange::DeliveryFormat;
using exchange::DeliveryOptions;
using model::Fence;
using model::FenceKind;
using model::FenceSet;
using model::HeightReference;

Q_DECLARE_METATYPE(fencewright::exchange::DeliveryFormat)

namespace {

QByteArray contentOf(const QString& path) {
    QFile file{path};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

QStringList namesIn(const QString& folder) {
    return QDir{folder}.entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot);
}

QString faultOf(const std::function<void()>& act) {
    try {
        act();
    } catch (const Fault& fault) {
        return QString::fromUtf8(fault.what());
    }
    return {};
}

DeliveryOptions with(DeliveryFormat format, int decimals = 7) {
    DeliveryOptions options;
    options.format = format;
    options.decimals = decimals;
    return options;
}

model::Polygon rectangle(double west, double south, double east, double north) {
    return {{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}};
}

Fence drawn(const std::string& name, FenceKind kind, model::Polygon polygon) {
    Fence fence;
    fence.id = model::freshId<Fence>();
    fence.name = name;
    fence.kind = kind;
    fence.shape = model::DrawnPolygon{std::move(polygon)};
    return fence;
}

FenceSet setOf(std::vector<Fence> fences) {
    FenceSet set;
    for (Fence& fence : fences)
        set.fences.append(std::move(fence));
    return set;
}

std::vector<support::DeliveredFence> fencesIn(DeliveryFormat format, const QByteArray& text) {
    return format == DeliveryFormat::Kml ? support::fencesOfKml(text) : support::fencesOfGeoJson(text);
}

const support::DeliveredFence* find(const std::vector<support::DeliveredFence>& fences, const std::string& id) {
    const auto at = std::find_if(fences.begin(), fences.end(),
                                 [&](const auto& fence) { return fence.properties.at("fencewright_id") == id; });
    return at == fences.end() ? nullptr : &*at;
}

/// A delivery as a text that a test may spoil before it is confirmed.
struct Written {
    exchange::DeliveryDraft draft;
    QByteArray text;
    DeliveryFormat format = DeliveryFormat::GeoJson;

    Written(const FenceSet& set, const DeliveryOptions& options)
        : draft{exchange::draftOf(set, options, exchange::writableFormat(options.format).drawsHeights, {}, {})},
          text{QByteArray::fromStdString(exchange::writableFormat(options.format).write(draft.content))},
          format{options.format} {}

    QString faultOf(const QByteArray& spoiled) const {
        return ::faultOf([&] {
            (void)exchange::confirmed(draft, exchange::writableFormat(format), spoiled.toStdString(), {}, "out");
        });
    }
};

/// The GeoJSON with its features changed.
QByteArray changed(const QByteArray& text, const std::function<void(QJsonArray&)>& change) {
    QJsonObject root = QJsonDocument::fromJson(text).object();
    QJsonArray features = root["features"].toArray();
    change(features);
    root["features"] = features;
    return QJsonDocument{root}.toJson(QJsonDocument::Compact);
}

QByteArray withProperty(const QByteArray& text, int feature, const QString& name, const QJsonValue& value) {
    return changed(text, [&](QJsonArray& features) {
        QJsonObject object = features[feature].toObject();
        QJsonObject properties = object["properties"].toObject();
        value.isUndefined() ? properties.remove(name) : void(properties[name] = value);
        object["properties"] = properties;
        features[feature] = object;
    });
}

} // namespace

class DeliveryTest : public QObject {
    Q_OBJECT

private:
    static void bothFormats() {
        QTest::addColumn<DeliveryFormat>("format");
        QTest::newRow("GeoJSON") << DeliveryFormat::GeoJson;
        QTest::newRow("KML") << DeliveryFormat::Kml;
    }

private slots:
    void formats_areListed() {
        QCOMPARE(exchange::deliveryFormats().size(), 2U);
        for (const auto& info : exchange::deliveryFormats())
            QVERIFY(!info.name.empty() && !info.id.empty() && info.suffix.front() == '.');
    }

    void deliver_writesConfirmsAndReports_data() { bothFormats(); }
    void deliver_writesConfirmsAndReports() {
        QFETCH(DeliveryFormat, format);
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        const FenceSet set = support::deliverySet();
        const auto report = exchange::deliver(set, path.toStdString(), with(format), {});
        QVERIFY(report.confirmed);
        QCOMPARE(report.path, path.toStdString());
        QCOMPARE(report.fences, 6U); // seven, one of them disabled
        QVERIFY(report.keepOutAdded.inSquareMetres() > 0);
        QVERIFY(!compare::permitsMore(report.differences));
        const QByteArray text = contentOf(path);
        QCOMPARE(report.checksum, QCryptographicHash::hash(text, QCryptographicHash::Sha256).toHex().toStdString());
        QCOMPARE(namesIn(folder.path()), QStringList{"out"});

        const auto fences = fencesIn(format, text);
        QCOMPARE(fences.size(), report.fences);
        std::size_t corners = 0;
        for (const auto& fence : fences)
            corners += geometry::cornerCount(fence.surface);
        QCOMPARE(corners, report.corners);
        for (const Fence& fence : set.fences) {
            const auto* found = find(fences, fence.id.value);
            QCOMPARE(found != nullptr, fence.enabled);
            if (found)
                QCOMPARE(found->properties.at("kind"), fence.kind == FenceKind::KeepIn ? "keep-in" : "keep-out");
        }
    }

    void properties_areAsNamed_data() { bothFormats(); }
    void properties_areAsNamed() {
        QFETCH(DeliveryFormat, format);
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        const FenceSet set = support::deliverySet();
        (void)exchange::deliver(set, path.toStdString(), with(format), {});
        const auto fences = fencesIn(format, contentOf(path));
        const auto& land = find(fences, support::fenceNamed(set, "Utility land").value)->properties;
        QCOMPARE(land.at("name"), "Utility land");
        QCOMPARE(land.at("role"), "fence");
        QCOMPARE(land.at("ceiling"), "120");
        QCOMPARE(land.at("ceiling_unit"), "m");
        QCOMPARE(land.at("ceiling_reference"), "ground");
        QCOMPARE(land.count("floor"), 0U);
        QCOMPARE(land.at("basis_kind"), "lease");
        QCOMPARE(land.at("basis_citation"), "Lease 17/2026, p. 3");
        QCOMPARE(land.at("notes"), "First line\nsecond line");
        const auto& meadows = find(fences, support::fenceNamed(set, "Meadows").value)->properties;
        QCOMPARE(meadows.at("floor"), "30");
        QCOMPARE(meadows.at("ceiling_reference"), "ellipsoid");
        QCOMPARE(meadows.at("valid_from"), "2026-03-01");
        QCOMPARE(meadows.at("valid_until"), "2026-10-31");
        const auto& nest = find(fences, support::fenceNamed(set, "Nest on Heron Island, 1/4 mi").value)->properties;
        QCOMPARE(nest.at("season"), "04-01/08-31");
        const auto& school = find(fences, support::fenceNamed(set, "School grounds").value)->properties;
        QCOMPARE(school.at("ceiling_reference"), "mean sea level");
        const QByteArray text = contentOf(path);
        for (const char* part : {"landing_radius_m", "alternate", "Boat yard", "Weir"})
            QVERIFY2(text.contains(part), part);
    }

    void sitesAndHomes_areLeftOutWhereAsked() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        DeliveryOptions options;
        options.withSites = options.withHomes = false;
        (void)exchange::deliver(support::deliverySet(), path.toStdString(), options, {});
        const QByteArray text = contentOf(path);
        QVERIFY(!text.contains("\"site\"") && !text.contains("\"home\"") && text.contains("\"fence\""));
    }

    // RFC 7946, 10 warns of the places of sensitive animals; what "confidential" promises is in model/site.h.
    void confidentialSites_neitherPlaceNorNameLeaves_data() { bothFormats(); }
    void confidentialSites_neitherPlaceNorNameLeaves() {
        QFETCH(DeliveryFormat, format);
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        FenceSet set = support::deliverySet();
        set.title = "Around nest on heron island";
        Fence detached = drawn("Detached", FenceKind::KeepOut, rectangle(8.03, 50.02, 8.033, 50.022));
        detached.notes = "Was drawn for NEST ON HERON ISLAND.";
        set.fences.append(detached);
        const auto report = exchange::deliver(set, path.toStdString(), with(format), {});
        const QByteArray text = contentOf(path);
        QVERIFY(text.contains("Protected area 1") && text.contains("Protected area 2"));
        for (const char* secret : {"eron", "ERON", "osprey", "ferry", "8.0312345", "50.0212345"})
            QVERIFY2(!text.contains(secret), secret);
        QVERIFY(text.contains("School"));
        const QString cautions = QString::fromStdString(
            std::accumulate(report.cautions.begin(), report.cautions.end(), std::string{},
                            [](std::string all, const Wording& each) { return all + each.english() + "\n"; }));
        QVERIFY2(cautions.contains("neutral names") && cautions.contains("gives the place away"), qPrintable(cautions));
        QVERIFY(!cautions.contains("eron"));
        for (const auto& difference : report.differences)
            QVERIFY(QString::fromStdString(difference.words.english()).indexOf("eron") < 0);
    }

    void texts_comeBackWhatever_data() {
        QTest::addColumn<QByteArray>("name");
        QTest::newRow("quotes") << QByteArray{R"(a "b" 'c' \d\ /e/)"};
        QTest::newRow("markup") << QByteArray{"<b>&amp; ]]> <!-- --> <![CDATA[x]]> </Placemark>"};
        QTest::newRow("entities") << QByteArray{"&#0; &#x41; &lt; &unknown; %s"};
        QTest::newRow("other scripts") << QByteArray{
            "\xCE\xA6\xCF\x81 \xE6\xB0\xB4 \xF0\x9F\x9A\x81 \xE2\x80\x8F\xD7\x90"};
        QTest::newRow("not UTF-8") << QByteArray{"\xFF\xFE\x80"};
        QTest::newRow("controls") << QByteArray("a\0\x01\x1B[31mb\r\nc\td", 14);
        QTest::newRow("white ends") << QByteArray{"  a  b  "};
        QTest::newRow("none") << QByteArray{};
        QTest::newRow("long") << QByteArray(100'000, 'x');
    }
    void texts_comeBackWhatever() {
        QFETCH(QByteArray, name);
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        Fence land = drawn(name.toStdString(), FenceKind::KeepIn, rectangle(8, 50, 8.01, 50.01));
        land.notes = land.basis.citation = name.toStdString();
        for (const auto format : {DeliveryFormat::GeoJson, DeliveryFormat::Kml}) {
            FenceSet set = setOf({land});
            set.title = name.toStdString();
            QVERIFY(exchange::deliver(set, path.toStdString(), with(format), {}).confirmed);
            const auto fences = fencesIn(format, contentOf(path));
            QString expected = QString::fromUtf8(name);
            expected.replace(QRegularExpression{"[\\x00-\\x08\\x0B-\\x1F]"}, " ");
            QCOMPARE(QString::fromStdString(fences.at(0).properties.at("name")), expected.trimmed());
        }
    }

    void whatIsNoNumber_isRefusedOrLeftOut() {
        QTemporaryDir folder;
        const std::string path = folder.filePath("out").toStdString();
        for (const double bad : {std::nan(""), HUGE_VAL}) {
            Fence land = drawn("Land", FenceKind::KeepIn, rectangle(8, 50, 8.01, 50.01));
            FenceSet set = setOf({land});
            set.homes.append({{"h"}, "Nowhere", model::HomeKind::Home, {bad, 50}, {Length::metres(bad), ""}, ""});
            model::Site site;
            site.name = "Lost";
            site.geometry = model::LineString{{8, 50}, {8, bad}};
            set.sites.append(site);
            const auto report = exchange::deliver(set, path, {}, {});
            QCOMPARE(std::count_if(
                         report.cautions.begin(), report.cautions.end(),
                         [](const auto& each) { return each.english().find("not on the earth") != std::string::npos; }),
                     2);
            land.band.ceiling = support::heightLimit(bad, HeightReference::Ground);
            const QString ceiling = faultOf([&] { (void)exchange::deliver(setOf({land}), path, {}, {}); });
            QVERIFY2(ceiling.contains("Land") && ceiling.contains("height limit"), qPrintable(ceiling));
            land = drawn("Nan land", FenceKind::KeepIn, rectangle(8, 50, bad, 50.01));
            const QString corner = faultOf([&] { (void)exchange::deliver(setOf({land}), path, {}, {}); });
            QVERIFY2(corner.contains("Nan land"), qPrintable(corner));
        }
    }

    void cautions_tellWhatAPersonShouldKnow() {
        QTemporaryDir folder;
        const auto report = exchange::deliver(support::deliverySet(), folder.filePath("out").toStdString(),
                                              with(DeliveryFormat::Kml), {});
        const auto has = [&](const char* words) {
            return std::any_of(report.cautions.begin(), report.cautions.end(),
                               [&](const Wording& each) { return each.english().find(words) != std::string::npos; });
        };
        QVERIFY(has("disabled: \"Old yard\""));
        QVERIFY(has("Keep-ins with dates"));
        QVERIFY(has("Keep-outs with dates"));
        QVERIFY(has("does not follow the ground: \"Utility land\", \"Road strip\""));
        QVERIFY(has("Floors are written as data"));
    }

    void keepOutWithoutSurface_isRefused() {
        QTemporaryDir folder;
        FenceSet set = support::deliverySet();
        Fence lost = drawn("Lost", FenceKind::KeepOut, {});
        lost.shape = model::Setback{model::freshId<model::Site>(), {Length::metres(50), ""}};
        set.fences.append(lost);
        const QString fault =
            faultOf([&] { (void)exchange::deliver(set, folder.filePath("out").toStdString(), {}, {}); });
        QVERIFY2(fault.contains("Lost") && fault.contains("no surface"), qPrintable(fault));
        QVERIFY(namesIn(folder.path()).isEmpty());
    }

    void keepInWithoutSurface_isLeftOutUnlessItIsTheLast() {
        QTemporaryDir folder;
        const std::string path = folder.filePath("out").toStdString();
        const Fence empty = drawn("Empty", FenceKind::KeepIn, {});
        const Fence land = drawn("Land", FenceKind::KeepIn, rectangle(8, 50, 8.01, 50.01));
        const Fence nest = drawn("Nest", FenceKind::KeepOut, rectangle(8, 50, 8.001, 50.001));
        const auto report = exchange::deliver(setOf({empty, land}), path, {}, {});
        QCOMPARE(report.fences, 1U);
        QVERIFY(report.cautions.at(0).english().find("without a surface: \"Empty\"") != std::string::npos);
        const QString fault = faultOf([&] { (void)exchange::deliver(setOf({empty, nest}), path, {}, {}); });
        QVERIFY2(fault.contains("No keep-in"), qPrintable(fault));
    }

    void emptySet_isRefused() {
        QTemporaryDir folder;
        const std::string path = folder.filePath("out").toStdString();
        QVERIFY(faultOf([&] { (void)exchange::deliver({}, path, {}, {}); }).contains("no fence to deliver"));
        QVERIFY(namesIn(folder.path()).isEmpty());
    }

    void tooFewDecimals_areRefused() {
        QTemporaryDir folder;
        const std::string path = folder.filePath("out").toStdString();
        for (const int decimals : {-1, 0, 3, 13})
            QVERIFY(faultOf([&] {
                        (void)exchange::deliver(support::deliverySet(), path, with(DeliveryFormat::GeoJson, decimals),
                                                {});
                    }).contains("decimals"));
        // A keep-in of one square metre has no place of one metre's grid inside.
        const auto tiny =
            setOf({drawn("Tiny", FenceKind::KeepIn, rectangle(8.000001, 50.000001, 8.000009, 50.000009))});
        const QString fault =
            faultOf([&] { (void)exchange::deliver(tiny, path, with(DeliveryFormat::GeoJson, 5), {}); });
        QVERIFY2(fault.contains("Tiny"), qPrintable(fault));
        QVERIFY(namesIn(folder.path()).isEmpty());
    }

    void cornerBudget_isKept() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        DeliveryOptions options;
        options.cornerBudget = 20;
        const FenceSet set = support::deliverySet();
        const auto report = exchange::deliver(set, path.toStdString(), options, {});
        QVERIFY(report.confirmed);
        for (const auto& fence : support::fencesOfGeoJson(contentOf(path)))
            QVERIFY(geometry::cornerCount(fence.surface) <= 20);
    }

    // The design's bound: no edge parts from the geodesic between its ends by more than 0.1 m.
    void longEdges_getCorners_data() { bothFormats(); }
    void longEdges_getCorners() {
        QFETCH(DeliveryFormat, format);
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        const auto set = setOf({drawn("County", FenceKind::KeepIn, rectangle(8, 60, 8.5, 60.2)),
                                drawn("Slanted", FenceKind::KeepOut, {{{{8, 60}, {8.4, 60.1}, {8.1, 60.2}}}, {}})});
        const auto report = exchange::deliver(set, path.toStdString(), with(format), {});
        QVERIFY(std::any_of(report.cautions.begin(), report.cautions.end(),
                            [](const auto& each) { return each.english().find("more corners") != std::string::npos; }));
        for (const auto& fence : fencesIn(format, contentOf(path))) {
            const auto& corners = fence.surface.parts.at(0).shell.corners;
            QVERIFY(corners.size() > 10);
            for (std::size_t i = 0; i < corners.size(); ++i) {
                const auto parting = geodesy::partingFromGeodesic(corners[i], corners[(i + 1) % corners.size()]);
                QVERIFY2(parting.inMetres() <= 0.1, qPrintable(QString::number(parting.inMetres())));
            }
        }
    }

    void failure_leavesWhatWasThere_data() { bothFormats(); }
    void failure_leavesWhatWasThere() {
        QFETCH(DeliveryFormat, format);
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        const FenceSet set = support::deliverySet();
        (void)exchange::deliver(set, path.toStdString(), with(format), {});
        const QByteArray before = contentOf(path);

        // Cancelled at each place where it can be.
        for (int allowed = 0;; ++allowed) {
            int asked = 0;
            const Progress progress{[&](double, std::string_view) { return asked++ < allowed; }};
            FenceSet other = set;
            other.title = "Other";
            try {
                (void)exchange::deliver(other, path.toStdString(), with(format), {}, progress);
                QVERIFY(allowed > 5);
                break;
            } catch (const Cancelled&) {
                QCOMPARE(contentOf(path), before);
                QCOMPARE(namesIn(folder.path()), QStringList{"out"});
            }
        }
        QVERIFY(contentOf(path) != before);
    }

    void fullDisk_leavesWhatWasThere() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out.geojson");
        const FenceSet set = support::deliverySet();
        (void)exchange::deliver(set, path.toStdString(), {}, {});
        const QByteArray before = contentOf(path);
        const pid_t child = ::fork();
        if (child == 0) {
            ::signal(SIGXFSZ, SIG_IGN);
            const rlimit limit{2000, 2000}; // less than the file: writing fails as on a full disk
            ::setrlimit(RLIMIT_FSIZE, &limit);
            const QString fault = faultOf([&] { (void)exchange::deliver(set, path.toStdString(), {}, {}); });
            ::_exit(fault.contains("could not be written") && fault.contains(path) ? 0 : 1);
        }
        int status = -1;
        ::waitpid(child, &status, 0);
        QCOMPARE(status, 0);
        QCOMPARE(contentOf(path), before);
        QCOMPARE(namesIn(folder.path()), QStringList{"out.geojson"});
    }

    void folderInTheWay_isRefused() {
        QTemporaryDir folder;
        QVERIFY(faultOf([&] {
                    (void)exchange::deliver(support::deliverySet(), folder.path().toStdString(), {}, {});
                }).contains("folder"));
        QVERIFY(faultOf([&] {
                    (void)exchange::deliver(support::deliverySet(), folder.filePath("a/b").toStdString(), {}, {});
                }).contains("a/b"));
    }

    // Files that a writer's fault, a failing disk or a careless hand would make.
    void spoiledGeoJson_isRefused() {
        const Written written{support::deliverySet(), with(DeliveryFormat::GeoJson)};
        const QByteArray& text = written.text;
        QCOMPARE(written.faultOf(text), QString{});
        // Features in the order of the set: 0 Utility land (in), 1 Meadows (in), 2 protected area (out), 3 School
        // (out), 4 Road strip (out), 5 Chlorine store (out).
        const auto refused = [&](const QByteArray& spoiled) { return !written.faultOf(spoiled).isEmpty(); };
        QVERIFY(!refused(changed(text, [](QJsonArray&) {})));

        QVERIFY(refused(changed(text, [](QJsonArray& features) { features.removeAt(2); })));
        QVERIFY(refused(changed(text, [](QJsonArray& features) { features.removeAt(0); })));
        QVERIFY(refused(changed(text, [](QJsonArray& features) { features.append(features[0]); })));
        QVERIFY(refused(changed(text, [](QJsonArray& features) { features.append(features[3]); })));
        QVERIFY(refused(withProperty(text, 3, "kind", "keep-in")));
        QVERIFY(refused(withProperty(text, 0, "kind", "keep-out")));
        QVERIFY(refused(withProperty(text, 0, "kind", QJsonValue::Undefined)));
        QVERIFY(refused(withProperty(text, 2, "role", "site")));
        QVERIFY(refused(withProperty(text, 2, "role", QJsonValue::Undefined)));
        QVERIFY(refused(withProperty(text, 0, "ceiling", 121)));
        QVERIFY(refused(withProperty(text, 0, "ceiling", QJsonValue::Undefined)));
        QVERIFY(refused(withProperty(text, 0, "ceiling", "high")));
        QVERIFY(refused(withProperty(text, 0, "ceiling_unit", "ft")));
        QVERIFY(refused(withProperty(text, 0, "ceiling_reference", "mean sea level")));
        QVERIFY(refused(withProperty(text, 3, "ceiling", 299)));
        QVERIFY(refused(withProperty(text, 5, "floor", 101)));
        QVERIFY(refused(withProperty(text, 1, "floor", 29)));
        QVERIFY(refused(withProperty(text, 0, "name", "Other land")));
        QVERIFY(refused(withProperty(text, 0, "fencewright_id", "0")));
        QVERIFY(refused(withProperty(text, 0, "notes", QJsonArray{})));

        const auto withGeometry = [&](int feature, const std::function<void(QJsonObject&)>& change) {
            return changed(text, [&](QJsonArray& features) {
                QJsonObject object = features[feature].toObject();
                QJsonObject geometry = object["geometry"].toObject();
                change(geometry);
                object["geometry"] = geometry;
                features[feature] = object;
            });
        };
        const auto withRings = [&](int feature, const std::function<void(QJsonArray&)>& change) {
            return withGeometry(feature, [&](QJsonObject& geometry) {
                QJsonArray rings = geometry["coordinates"].toArray();
                change(rings);
                geometry["coordinates"] = rings;
            });
        };
        QVERIFY(refused(withRings(0, [](QJsonArray& rings) { rings.removeAt(1); }))); // the hole
        QVERIFY(refused(withRings(0, [](QJsonArray& rings) { rings = {}; })));
        QVERIFY(refused(withRings(5, [](QJsonArray& rings) { // not closed
            QJsonArray ring = rings[0].toArray();
            ring.removeLast();
            rings[0] = ring;
        })));
        QVERIFY(refused(withRings(5, [](QJsonArray& rings) { // a corner less
            QJsonArray ring = rings[0].toArray();
            ring.removeAt(ring.size() / 2);
            rings[0] = ring;
        })));
        QVERIFY(refused(withRings(5, [](QJsonArray& rings) { // latitude first
            QJsonArray ring;
            for (const QJsonValue place : rings[0].toArray())
                ring.append(QJsonArray{place.toArray()[1], place.toArray()[0]});
            rings[0] = ring;
        })));
        QVERIFY(refused(withRings(5, [](QJsonArray& rings) { // a third number
            QJsonArray ring = rings[0].toArray();
            ring[1] = QJsonArray{ring[1].toArray()[0], ring[1].toArray()[1], 120};
            rings[0] = ring;
        })));
        QVERIFY(refused(withGeometry(5, [](QJsonObject& geometry) { geometry["type"] = "LineString"; })));
        QVERIFY(refused(withGeometry(5, [](QJsonObject& geometry) { geometry.remove("coordinates"); })));

        QVERIFY(refused(""));
        QVERIFY(refused("null"));
        QVERIFY(refused("[]"));
        for (int part = 1; part < 20; ++part)
            QVERIFY(refused(text.left(text.size() * part / 20)));
    }

    void spoiledKml_isRefused() {
        const Written written{support::deliverySet(), with(DeliveryFormat::Kml)};
        const QByteArray& text = written.text;
        QCOMPARE(written.faultOf(text), QString{});
        const auto refused = [&](const char* from, const char* to) {
            QByteArray spoiled = text;
            const auto at = spoiled.indexOf(from);
            if (at < 0)
                return false;
            spoiled.replace(at, qsizetype(qstrlen(from)), to);
            return !written.faultOf(spoiled).isEmpty();
        };
        QVERIFY(refused("<value>keep-out</value>", "<value>keep-in</value>"));
        QVERIFY(refused("<value>120</value>", "<value>121</value>"));
        QVERIFY(refused(",120 ", ",121 ")); // drawn higher than it is written: a keep-in
        QVERIFY(refused("relativeToGround", "absolute"));
        QVERIFY(refused("relativeToGround", "clampToGround"));
        QVERIFY(refused("<extrude>0</extrude>", "<extrude>1</extrude>")); // walls below a keep-in's floor
        QVERIFY(refused("<altitudeMode>clampToGround</altitudeMode>", ""
                                                                      "<extrude>1</extrude>"));
        QVERIFY(refused(",300 ", ",299 ")); // a keep-out drawn lower than it is written
        QVERIFY(refused("<value>fence</value>", "<value>site</value>"));
        QVERIFY(refused("<innerBoundaryIs>", "<!-- ") || refused("<innerBoundaryIs>", "<outerBoundaryIs>"));
        QVERIFY(refused("http://www.opengis.net/kml/2.2", "http://www.opengis.net/kml/2.1"));
        // The first corner of the first fence, a keep-in at 8 E, moved out, and made no number.
        const auto withFirstLongitude = [&](const char* longitude) {
            QByteArray spoiled = text;
            const auto from = spoiled.indexOf("<coordinates>", spoiled.indexOf("<Polygon>")) + 13;
            return spoiled.replace(from, spoiled.indexOf(',', from) - from, longitude);
        };
        QVERIFY(!written.faultOf(withFirstLongitude("7.9")).isEmpty());
        QVERIFY(!written.faultOf(withFirstLongitude("8.00x")).isEmpty());
        for (int part = 1; part < 20; ++part)
            QVERIFY(!written.faultOf(text.left(text.size() * part / 20)).isEmpty());
    }

    // The whole way, over random sets: what a reader of its own finds in the file never permits more than the outlines.
    void deliveries_neverPermitMore() {
        constexpr unsigned kSeed = 7946;
        constexpr int kRuns = 1000;
        std::mt19937 random{kSeed};
        QTemporaryDir folder;
        const QString path = folder.filePath("out");
        int refused = 0;
        int crossing = 0;
        for (int run = 0; run < kRuns; ++run) {
            const FenceSet set = support::randomFenceSet(random);
            DeliveryOptions options = with(run % 2 ? DeliveryFormat::Kml : DeliveryFormat::GeoJson, 5 + run % 5);
            if (run % 7 == 0)
                options.cornerBudget = 12;
            const QString where = QString{"seed %1, run %2"}.arg(kSeed).arg(run);
            QFile::remove(path);
            try {
                QVERIFY2(exchange::deliver(set, path.toStdString(), options, {}).confirmed, qPrintable(where));
            } catch (const Fault& fault) {
                // Only small keep-ins may have no room on a coarse grid, or in a small budget.
                QVERIFY2(!QFile::exists(path), qPrintable(where));
                QVERIFY2(fault.place() != path.toStdString(), qPrintable(where + ": " + fault.what()));
                ++refused;
                continue;
            }
            const auto fences = fencesIn(options.format, contentOf(path));
            for (const Fence& fence : set.fences) {
                const auto* found = find(fences, fence.id.value);
                const auto approved = airspace::outline(fence, set.sites);
                if (!found) {
                    QVERIFY2(fence.kind == FenceKind::KeepIn && approved.empty(), qPrintable(where));
                    continue;
                }
                const auto held = support::joinedBeside(found->surface, approved);
                crossing += held.parts.size() < found->surface.parts.size();
                const bool safe = fence.kind == FenceKind::KeepOut ? geometry::contains(held, approved)
                                                                   : geometry::contains(approved, held);
                QVERIFY2(safe, qPrintable(where + " " + QString::fromStdString(fence.name)));
                if (options.cornerBudget > 0)
                    continue;
                // And no fence runs far off: every corner lies near the other's boundary.
                QVERIFY2(geometry::touches(held, approved), qPrintable(where));
            }
        }
        qInfo("%d of %d refused, %d fences across the antimeridian", refused, kRuns, crossing);
        QVERIFY(refused < kRuns / 10);
        QVERIFY(crossing > 50);
    }

    // A fence or a ring dropped, a kind swapped, a limit moved or lost to the side that permits more.
    void spoiledRandomSets_areCaught() {
        constexpr unsigned kSeed = 1018;
        std::mt19937 random{kSeed};
        std::array<int, 6> caught{};
        for (int run = 0; std::accumulate(caught.begin(), caught.end(), 0) < 1000; ++run) {
            QVERIFY(run < 3000);
            const FenceSet set = support::randomFenceSet(random);
            std::optional<Written> written;
            try {
                written.emplace(set, with(DeliveryFormat::GeoJson, 5 + run % 5));
            } catch (const Fault&) {
                continue;
            }
            const auto& approved = written->draft.approved;
            const int index = std::uniform_int_distribution<int>{0, static_cast<int>(approved.size()) - 1}(random);
            const compare::HeldFence& fence = approved[static_cast<std::size_t>(index)];
            const bool keepIn = fence.kind == FenceKind::KeepIn;
            QByteArray spoiled;
            const int way = run % static_cast<int>(caught.size());
            if (way == 0) {
                spoiled = changed(written->text, [&](QJsonArray& features) { features.removeAt(index); });
            } else if (way == 1) {
                spoiled = withProperty(written->text, index, "kind", keepIn ? "keep-out" : "keep-in");
            } else if (way == 2 && fence.ceiling) {
                const double metres = fence.ceiling->value.length.inMetres();
                spoiled = withProperty(written->text, index, "ceiling", metres + (keepIn ? 0.001 : -0.001));
            } else if (way == 3 && fence.floor) {
                const double metres = fence.floor->value.length.inMetres();
                spoiled = withProperty(written->text, index, "floor", metres + (keepIn ? -0.001 : 0.001));
            } else if (way == 4 && fence.ceiling) {
                spoiled = withProperty(written->text, index, "ceiling", QJsonValue::Undefined);
            } else if (way == 5 && (keepIn ? !fence.surface.parts[0].holes.empty() : true)) {
                spoiled =
                    changed(written->text, [&](QJsonArray& features) { // a keep-in's hole, a keep-out's part or shell
                        QJsonObject object = features[index].toObject();
                        QJsonObject geometry = object["geometry"].toObject();
                        QJsonArray coordinates = geometry["coordinates"].toArray();
                        const bool parts = geometry["type"] == "MultiPolygon";
                        if (keepIn && parts) {
                            for (qsizetype i = 0; i < coordinates.size(); ++i)
                                coordinates[i] = QJsonArray{coordinates[i][0]};
                        } else if (keepIn || parts) {
                            coordinates.removeLast();
                        } else {
                            coordinates.removeFirst(); // the shell; a hole less only makes a keep-out larger
                        }
                        geometry["coordinates"] = coordinates;
                        object["geometry"] = geometry;
                        features[index] = object;
                    });
                // A hole that rounding closed, or that the antimeridian cut into the shell, is no ring to drop.
                const auto rings = [&](const QByteArray& text) {
                    std::size_t count = 0;
                    const QJsonArray features = QJsonDocument::fromJson(text)["features"].toArray();
                    const QJsonObject geometry = features[index].toObject()["geometry"].toObject();
                    for (const QJsonValue each : geometry["coordinates"].toArray())
                        count +=
                            geometry["type"] == "MultiPolygon" ? static_cast<std::size_t>(each.toArray().size()) : 1;
                    return count;
                };
                if (keepIn && rings(spoiled) == rings(written->text))
                    continue;
            } else {
                continue;
            }
            QVERIFY2(!written->faultOf(spoiled).isEmpty(),
                     qPrintable(QString{"seed %1, run %2, way %3"}.arg(kSeed).arg(run).arg(way)));
            ++caught[static_cast<std::size_t>(way)];
        }
        for (const int count : caught)
            QVERIFY(count > 40);
    }

    // One corner of one fence moved so that the file permits more, by plain comparison of the westernmost longitudes.
    void movedCorners_areCaught() {
        constexpr unsigned kSeed = 20260401;
        std::mt19937 random{kSeed};
        int caught = 0;
        for (int run = 0; caught < 1000; ++run) {
            QVERIFY(run < 2000);
            const FenceSet set = support::randomFenceSet(random);
            const QString where = QString{"seed %1, run %2"}.arg(kSeed).arg(run);
            std::optional<Written> written;
            try {
                written.emplace(set, with(DeliveryFormat::GeoJson, 5 + run % 5));
            } catch (const Fault&) {
                continue;
            }
            const auto& approved = written->draft.approved;
            const int index = std::uniform_int_distribution<int>{0, static_cast<int>(approved.size()) - 1}(random);
            const auto westOf = [](const model::MultiPolygon& surface) {
                double west = 1e9;
                for (const auto& part : surface.parts)
                    for (const auto corner : part.shell.corners)
                        west = std::min(west, corner.lon);
                return west;
            };
            const auto& fence = approved[static_cast<std::size_t>(index)];
            const auto fences = support::fencesOfGeoJson(written->text);
            const auto& surface = fences[static_cast<std::size_t>(index)].surface;
            if (surface.parts.size() != 1)
                continue; // on the antimeridian the least longitude is not the westernmost
            const double turn = 360 * std::round((westOf(fence.surface) - westOf(surface)) / 360);
            const double step = (fence.kind == FenceKind::KeepOut ? 1 : -1) *
                                std::pow(10, -std::uniform_real_distribution<double>{3, 7}(random));
            const double moved = westOf(surface) + step;
            // All corners at the western end move; where the next lies still farther west than approved, the run is
            // void.
            const QByteArray spoiled = changed(written->text, [&](QJsonArray& features) {
                QJsonObject object = features[index].toObject();
                QJsonObject geometry = object["geometry"].toObject();
                QJsonArray rings = geometry["coordinates"].toArray();
                QJsonArray ring = rings[0].toArray();
                const double west = westOf(surface);
                for (qsizetype i = 0; i < ring.size(); ++i)
                    if (ring[i][0].toDouble() == west)
                        ring[i] = QJsonArray{moved, ring[i][1]};
                rings[0] = ring;
                geometry["coordinates"] = rings;
                object["geometry"] = geometry;
                features[index] = object;
            });
            const double heldWest =
                westOf(support::fencesOfGeoJson(spoiled)[static_cast<std::size_t>(index)].surface) + turn;
            const double approvedWest = westOf(fence.surface);
            const bool permits = fence.kind == FenceKind::KeepOut ? heldWest > approvedWest : heldWest < approvedWest;
            if (!permits)
                continue;
            QVERIFY2(!written->faultOf(spoiled).isEmpty(), qPrintable(where));
            ++caught;
        }
    }
};

QTEST_GUILESS_MAIN(DeliveryTest)
#include "delivery_test.moc"
