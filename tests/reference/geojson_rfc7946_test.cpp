// Our GeoJSON against RFC 7946 (IETF, August 2016): rule by rule with a checker of this test's own, against the
// examples printed in the RFC, and by two general linters.

#include "exchange/delivery.h"
#include "exchange/delivery_content.h"
#include "exchange/formats/geojson_writer.h"
#include "exchange/written_surface.h"
#include "geometry/containment.h"
#include "geometry/overlay.h"
#include "support/delivery_sets.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QtTest>

#include <cmath>

using namespace fencewright;

namespace {

/// What in a GeoJSON text breaks RFC 7946. `Strict` asks of a writer what the RFC says a writer should do, too.
class Rfc7946 {
public:
    enum class Strictness { Must, Strict };

    static QStringList faultsOf(const QByteArray& text, Strictness strictness) {
        Rfc7946 check;
        check.m_strict = strictness == Strictness::Strict;
        QJsonParseError error;
        const QJsonDocument document = QJsonDocument::fromJson(text, &error);
        if (error.error != QJsonParseError::NoError)
            check.fault("not JSON: " + error.errorString());
        else if (!document.isObject())
            check.fault("2: not an object");
        else
            check.object(document.object(), true);
        return check.m_faults;
    }

private:
    static bool isGeometryType(const QString& type) {
        return QStringList{"Point",   "MultiPoint",   "LineString",        "MultiLineString",
                           "Polygon", "MultiPolygon", "GeometryCollection"}
            .contains(type);
    }

    void fault(const QString& words) { m_faults.append(words); }

    void object(const QJsonObject& object, bool outermost) {
        if (object.contains("crs"))
            fault("4: a crs member");
        box(object);
        const QString type = object["type"].toString();
        if (type == "FeatureCollection") {
            if (!object["features"].isArray())
                fault("3.3: features is not an array");
            if (object.contains("coordinates") || object.contains("geometries") || object.contains("geometry") ||
                object.contains("properties"))
                fault("7.1: a collection with members of other types");
            for (const QJsonValue feature : object["features"].toArray()) {
                if (feature.toObject()["type"] != "Feature")
                    fault("3.3: a feature that is none");
                else
                    this->object(feature.toObject(), false);
            }
        } else if (type == "Feature") {
            feature(object);
        } else if (isGeometryType(type) && outermost) {
            geometry(object, 0);
        } else {
            fault("1.4, 7: the type is \"" + type + "\"");
        }
    }

    void feature(const QJsonObject& feature) {
        if (!feature.contains("properties") || !(feature["properties"].isObject() || feature["properties"].isNull()))
            fault("3.2: properties are neither an object nor null");
        if (!feature.contains("geometry") || !(feature["geometry"].isObject() || feature["geometry"].isNull()))
            fault("3.2: the geometry is neither an object nor null");
        if (feature.contains("id") && !feature["id"].isString() && !feature["id"].isDouble())
            fault("3.2: the id is neither a string nor a number");
        if (feature.contains("coordinates") || feature.contains("geometries") || feature.contains("features"))
            fault("7.1: a feature with members of other types");
        if (feature["geometry"].isObject())
            geometry(feature["geometry"].toObject(), 0);
    }

    void box(const QJsonObject& object) {
        if (!object.contains("bbox"))
            return;
        const QJsonArray box = object["bbox"].toArray();
        bool numbers = box.size() == 4 || box.size() == 6;
        for (const QJsonValue value : box)
            numbers &= value.isDouble();
        if (!numbers) {
            fault("5: the bbox is not 4 or 6 numbers");
            return;
        }
        const double south = box[1].toDouble(), north = box[box.size() / 2 + 1].toDouble();
        if (south > north || south < -90 || north > 90)
            fault("5, 5.3: the bbox is not south to north within the poles");
    }

    void geometry(const QJsonObject& geometry, int depth) {
        box(geometry);
        const QString type = geometry["type"].toString();
        if (!isGeometryType(type)) {
            fault("1.4: no geometry type \"" + type + "\"");
            return;
        }
        if (geometry.contains("geometry") || geometry.contains("properties") || geometry.contains("features"))
            fault("7.1: a geometry with members of other types");
        if (type == "GeometryCollection") {
            collection(geometry, depth);
            return;
        }
        const QJsonValue coordinates = geometry["coordinates"];
        if (!coordinates.isArray())
            fault("3.1: coordinates are not an array");
        else if (type == "Point")
            position(coordinates);
        else if (type == "MultiPoint")
            each(coordinates, [this](const QJsonValue& v) { position(v); });
        else if (type == "LineString")
            line(coordinates);
        else if (type == "MultiLineString")
            each(coordinates, [this](const QJsonValue& v) { line(v); });
        else if (type == "Polygon")
            polygon(coordinates);
        else
            each(coordinates, [this](const QJsonValue& v) { polygon(v); });
    }

    void collection(const QJsonObject& geometry, int depth) {
        if (!geometry["geometries"].isArray())
            fault("3.1.8: geometries is not an array");
        if (m_strict && depth > 0)
            fault("3.1.8: a nested collection");
        if (m_strict && geometry["geometries"].toArray().size() == 1)
            fault("3.1.8: a collection of one");
        each(geometry["geometries"], [&](const QJsonValue& v) {
            if (v.isObject())
                this->geometry(v.toObject(), depth + 1);
            else
                fault("3.1.8: a geometry that is none");
        });
    }

    template <class Act> void each(const QJsonValue& list, Act act) {
        if (!list.isArray())
            fault("3.1: an array was expected");
        for (const QJsonValue value : list.toArray())
            act(value);
    }

    QPointF position(const QJsonValue& value) {
        const QJsonArray numbers = value.toArray();
        bool good = value.isArray() && (numbers.size() == 2 || numbers.size() == 3);
        for (const QJsonValue number : numbers)
            good &= number.isDouble();
        if (!good) {
            fault("3.1.1: a position is not 2 or 3 numbers");
            return {};
        }
        const QPointF place{numbers[0].toDouble(), numbers[1].toDouble()};
        if (m_strict && (std::abs(place.x()) > 180 || std::abs(place.y()) > 90))
            fault("3.1.9, 4: a position off the earth, or not cut at the antimeridian");
        if (m_strict && numbers.size() != 2)
            fault("4: a third value, and nothing says it is above the ellipsoid");
        return place;
    }

    QVector<QPointF> line(const QJsonValue& value) {
        QVector<QPointF> places;
        each(value, [&](const QJsonValue& v) { places.append(position(v)); });
        if (places.size() < 2)
            fault("3.1.4: a line of fewer than two positions");
        crossing(places);
        return places;
    }

    void crossing(const QVector<QPointF>& places) {
        for (qsizetype i = 1; m_strict && i < places.size(); ++i)
            if (std::abs(places[i].x() - places[i - 1].x()) > 180)
                fault("3.1.9: an edge that was not cut at the antimeridian");
    }

    void polygon(const QJsonValue& value) {
        bool exterior = true;
        each(value, [&](const QJsonValue& v) {
            QVector<QPointF> ring;
            each(v, [&](const QJsonValue& p) { ring.append(position(p)); });
            crossing(ring);
            if (ring.size() < 4)
                fault("3.1.6: a ring of fewer than four positions");
            else if (ring.first() != ring.last())
                fault("3.1.6: a ring that is not closed");
            else if (m_strict && (twiceArea(ring) > 0) != exterior)
                fault(exterior ? "3.1.6: an exterior ring that runs clockwise"
                               : "3.1.6: a hole that runs counter-clockwise");
            exterior = false;
        });
    }

    static double twiceArea(const QVector<QPointF>& ring) {
        double sum = 0;
        for (qsizetype i = 1; i < ring.size(); ++i) {
            const QPointF a = ring[i - 1] - ring[0], b = ring[i] - ring[0];
            sum += a.x() * b.y() - b.x() * a.y();
        }
        return sum;
    }

    bool m_strict = false;
    QStringList m_faults;
};

QByteArray contentOf(const QString& path) {
    QFile file{path};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

exchange::DeliveredFeature site(std::variant<model::Position, exchange::Lines, model::MultiPolygon> geometry) {
    exchange::DeliveredFeature feature;
    feature.role = exchange::DeliveredFeature::Role::Site;
    feature.id = "1";
    feature.geometry = std::move(geometry);
    return feature;
}

QJsonObject written(const exchange::DeliveredFeature& feature) {
    exchange::DeliveryContent content;
    content.notice = "notice";
    content.decimals = 4;
    content.features = {feature};
    return QJsonDocument::fromJson(QByteArray::fromStdString(exchange::writeGeoJson(content))).object();
}

QJsonArray json(const char* text) { return QJsonDocument::fromJson(text).array(); }

QJsonObject geometryOf(const QJsonObject& collection) { return collection["features"][0]["geometry"].toObject(); }

/// The corners where a ring turns, beginning with the least, so that two ways of writing one ring compare equal.
QVector<QPair<double, double>> turns(const QJsonArray& ring) {
    QVector<QPair<double, double>> corners;
    const qsizetype count = ring.size() - 1;
    for (qsizetype i = 0; i < count; ++i) {
        const auto at = [&](qsizetype k) {
            return QPointF{ring[(k + count) % count][0].toDouble(), ring[(k + count) % count][1].toDouble()};
        };
        const QPointF before = at(i) - at(i - 1), after = at(i + 1) - at(i);
        if (before.x() * after.y() != before.y() * after.x())
            corners.append({at(i).x(), at(i).y()});
    }
    std::rotate(corners.begin(), std::min_element(corners.begin(), corners.end()), corners.end());
    return corners;
}

model::FenceSet antimeridianSet() {
    model::FenceSet set;
    const auto add = [&](const char* name, model::FenceKind kind, model::Shape shape) {
        model::Fence fence;
        fence.id = model::freshId<model::Fence>();
        fence.name = name;
        fence.kind = kind;
        fence.shape = std::move(shape);
        set.fences.append(fence);
    };
    // Slanted edges cross the antimeridian where no corner is; one fence is written from the west, one from the east.
    add("Strait", model::FenceKind::KeepIn,
        model::DrawnPolygon{{{{{179.97, -16.83}, {180.04, -16.81}, {180.03, -16.77}, {179.96, -16.79}}}, {}}});
    add("Reef", model::FenceKind::KeepOut,
        model::DrawnPolygon{{{{{-180.01, -16.82}, {-179.99, -16.815}, {-179.995, -16.80}}}, {}}});
    add("Rock", model::FenceKind::KeepOut, model::Circle{{180, -16.8}, {Length::metres(100), ""}});
    add("East of it", model::FenceKind::KeepOut, model::Circle{{-179.98, -16.8}, {Length::metres(100), ""}});
    return set;
}

} // namespace

class GeoJsonRfc7946Test : public QObject {
    Q_OBJECT

private slots:
    // The checker itself: fixtures of a validator that is not ours (tests/data/geojson-fixtures).
    void checker_takesTheValidFixtures() {
        const QDir folder{FENCEWRIGHT_TEST_DATA "/geojson-fixtures/valid"};
        QCOMPARE(folder.entryList(QDir::Files).size(), 22);
        for (const QString& name : folder.entryList(QDir::Files)) {
            const QStringList faults = Rfc7946::faultsOf(contentOf(folder.filePath(name)), Rfc7946::Strictness::Must);
            QVERIFY2(faults.isEmpty(), qPrintable(name + ": " + faults.join("; ")));
        }
    }
    void checker_refusesTheInvalidFixtures() {
        int refused = 0;
        for (const char* folderName : {"invalid_structure", "invalid_geometries"}) {
            const QDir folder{QString{FENCEWRIGHT_TEST_DATA "/geojson-fixtures/"} + folderName};
            for (const QString& name : folder.entryList(QDir::Files)) {
                if (name == "invalid_inner_and_exterior_ring_intersect.geojson")
                    continue; // breaks the rules of surfaces, not one of the RFC
                const QStringList faults =
                    Rfc7946::faultsOf(contentOf(folder.filePath(name)), Rfc7946::Strictness::Strict);
                QVERIFY2(!faults.isEmpty(), qPrintable(name));
                ++refused;
            }
        }
        QCOMPARE(refused, 37);
    }

    // RFC 7946, 3.1.9: the line from 45 N 170 E to 45 N 170 W.
    void line_isCutAsInTheRfc() {
        const auto lines = exchange::writtenLines({{170, 45}, {190, 45}}, 4);
        const QJsonObject geometry = geometryOf(written(site(lines)));
        QCOMPARE(geometry["type"], "MultiLineString");
        QCOMPARE(geometry["coordinates"].toArray(), json("[[[170,45],[180,45]],[[-180,45],[-170,45]]]"));
    }
    void line_isCutFromEitherSideAndAlongIt() {
        using Lines = std::vector<model::LineString>;
        QCOMPARE(exchange::writtenLines({{-170, 45}, {-190, 45}}, 4),
                 (Lines{{{-170, 45}, {-180, 45}}, {{180, 45}, {170, 45}}}));
        QCOMPARE(exchange::writtenLines({{170, 0}, {190, 2}, {170, 4}}, 4),
                 (Lines{{{170, 0}, {180, 1}}, {{-180, 1}, {-170, 2}, {-180, 3}}, {{180, 3}, {170, 4}}}));
        QCOMPARE(exchange::writtenLines({{10, 1}, {11, 2}, {12, 1}}, 4), (Lines{{{10, 1}, {11, 2}, {12, 1}}}));
        QCOMPARE(exchange::writtenLines({{179, 1}, {180, 2}}, 4), (Lines{{{179, 1}, {180, 2}}}));
        QCOMPARE(exchange::writtenLines({{180, 1}, {181, 2}}, 4), (Lines{{{-180, 1}, {-179, 2}}}));
        QCOMPARE(exchange::writtenLines({{179, 1}, {180, 2}, {181, 1}}, 4),
                 (Lines{{{179, 1}, {180, 2}}, {{-180, 2}, {-179, 1}}}));
    }

    // RFC 7946, 3.1.9: the rectangle from 40 N to 50 N and 170 E to 170 W. Ours has more corners on its edges.
    void rectangle_isCutAsInTheRfc() {
        const model::MultiPolygon rectangle{{{{{{170, 40}, {190, 40}, {190, 50}, {170, 50}}}, {}}}};
        const auto result = exchange::writtenSurface(rectangle, geometry::Side::Grow, 6, 0);
        QVERIFY(result.cornersAdded > 0);
        const QJsonObject geometry = geometryOf(written(site(result.surface)));
        QCOMPARE(geometry["type"], "MultiPolygon");
        QJsonArray ours = geometry["coordinates"].toArray();
        const QJsonArray printed = json("[[[[180,40],[180,50],[170,50],[170,40],[180,40]]],"
                                        "[[[-170,40],[-170,50],[-180,50],[-180,40],[-170,40]]]]");
        QCOMPARE(ours.size(), 2);
        if (ours[0][0][0][0].toDouble() < 0)
            ours = QJsonArray{ours[1], ours[0]};
        for (int part = 0; part < 2; ++part)
            QCOMPARE(turns(ours[part][0].toArray()), turns(printed[part][0].toArray()));
    }

    // RFC 7946, 5.2: Fiji, from 177 E to 178 W and 20 S to 16 S.
    void box_acrossTheAntimeridianIsAsInTheRfc() {
        exchange::DeliveryContent content;
        content.decimals = 4;
        content.features = {site(model::Position{177, -20}), site(model::Position{-178, -16})};
        const auto box =
            QJsonDocument::fromJson(QByteArray::fromStdString(exchange::writeGeoJson(content)))["bbox"].toArray();
        QCOMPARE(box, json("[177,-20,-178,-16]"));
    }
    void box_elsewhereIsWestToEast() {
        exchange::DeliveryContent content;
        content.decimals = 4;
        content.features = {site(model::Position{-60, 5}), site(model::Position{60, -5}), site(model::Position{0, 1})};
        const auto box =
            QJsonDocument::fromJson(QByteArray::fromStdString(exchange::writeGeoJson(content)))["bbox"].toArray();
        QCOMPARE(box, json("[-60,-5,60,5]"));
    }

    // RFC 7946, appendix A.3: a polygon with a hole, in the winding printed there; ours is given the other way round.
    void polygonWithHole_isWoundAsInTheRfc() {
        const model::MultiPolygon surface{{{{{{100, 0}, {100, 1}, {101, 1}, {101, 0}}},
                                            {{{{100.8, 0.8}, {100.2, 0.8}, {100.2, 0.2}, {100.8, 0.2}}}}}}};
        const QJsonObject geometry = geometryOf(written(site(surface)));
        QCOMPARE(geometry["type"], "Polygon");
        QCOMPARE(geometry["coordinates"].toArray(),
                 json("[[[100,0],[101,0],[101,1],[100,1],[100,0]],"
                      "[[100.8,0.8],[100.8,0.2],[100.2,0.2],[100.2,0.8],[100.8,0.8]]]"));
    }

    void deliveries_keepEveryRule_data() {
        QTest::addColumn<bool>("antimeridian");
        QTest::addColumn<int>("decimals");
        for (const int decimals : {5, 6, 7, 9}) {
            QTest::addRow("every kind of thing, %d decimals", decimals) << false << decimals;
            QTest::addRow("on the antimeridian, %d decimals", decimals) << true << decimals;
        }
    }
    void deliveries_keepEveryRule() {
        QFETCH(bool, antimeridian);
        QFETCH(int, decimals);
        QTemporaryDir folder;
        const QString path = folder.filePath("out.geojson");
        exchange::DeliveryOptions options;
        options.decimals = decimals;
        const auto report = exchange::deliver(antimeridian ? antimeridianSet() : support::deliverySet(),
                                              path.toStdString(), options, {});
        QVERIFY(report.confirmed);
        const QByteArray text = contentOf(path);
        const QStringList faults = Rfc7946::faultsOf(text, Rfc7946::Strictness::Strict);
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join("; ")));
        // The stated decimals: each coordinate has exactly so many.
        const QRegularExpression number{R"((?<=[\[,])-?\d+\.(\d+)(?=[,\]]))"};
        int coordinates = 0;
        for (auto match = number.globalMatch(text); match.hasNext(); ++coordinates)
            QCOMPARE(match.next().captured(1).size(), decimals);
        QVERIFY(coordinates >= 2 * static_cast<int>(report.corners));
        const QJsonArray box = QJsonDocument::fromJson(text)["bbox"].toArray();
        QCOMPARE(box[0].toDouble() > box[2].toDouble(), antimeridian);
        // 6.1: further members are allowed; the notice is one.
        QVERIFY(QJsonDocument::fromJson(text)["notice"].toString().contains("not a licence to fly"));
    }

    // @mapbox/geojsonhint 2.2.0 (checks winding) and @placemarkio/check-geojson 0.1.14, from npm: tests/lint.
    void linters_objectToNothing() {
        const QString lint = FENCEWRIGHT_SOURCE "/tests/lint";
        if (!QDir{lint + "/node_modules"}.exists()) {
            if (qEnvironmentVariableIsSet("FENCEWRIGHT_REQUIRE_LINT"))
                QFAIL("The linters are missing: npm install --prefix tests/lint");
            QSKIP("The linters are not installed: npm install --prefix tests/lint");
        }
        QTemporaryDir folder;
        QStringList arguments{lint + "/check_geojson.js"};
        const auto lintErrors = [&](const QStringList& files) {
            QProcess node;
            node.setProcessChannelMode(QProcess::MergedChannels);
            node.start("node", arguments + files);
            if (!node.waitForFinished(60'000) || node.exitStatus() != QProcess::NormalExit)
                return QString{"node did not run: "} + node.errorString();
            return node.exitCode() == 0 ? QString{} : QString::fromUtf8(node.readAll());
        };
        QStringList files;
        for (const auto& [name, set] :
             {std::pair{"all", support::deliverySet()}, std::pair{"antimeridian", antimeridianSet()}}) {
            files.append(folder.filePath(QString{name} + ".geojson"));
            QVERIFY(exchange::deliver(set, files.last().toStdString(), {}, {}).confirmed);
        }
        QCOMPARE(lintErrors(files), QString{});
        // That they would object: a ring the wrong way round.
        const QString wrong =
            lintErrors({FENCEWRIGHT_TEST_DATA "/geojson-fixtures/invalid_geometries/invalid_exterior_not_ccw.geojson"});
        QVERIFY2(wrong.contains("right-hand rule"), qPrintable(wrong));
    }
};

QTEST_GUILESS_MAIN(GeoJsonRfc7946Test)
#include "geojson_rfc7946_test.moc"
