#include "support/reading.h"

#include <QDir>
#include <QTemporaryDir>
#include <QtTest>

#include <cstring>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace fencewright;
using exchange::ChildLimits;
using exchange::ReadRequest;
using support::dataPath;
using support::Outcome;

namespace {

constexpr int kNone = -1; ///< a fault, instead of a number of features read

QString listing(const QString& folder) {
    QString text;
    for (const QFileInfo& entry : QDir{folder}.entryInfoList(QDir::Files, QDir::Name))
        text += entry.fileName() + " " + QString::number(entry.size()) + " " +
                entry.lastModified().toString(Qt::ISODateWithMs) + "\n";
    return text;
}

/// One member, packed with deflate; the checksum is left zero, which no reader gets to look at.
QByteArray zipOf(const QByteArray& name, const QByteArray& content) {
    // Qt packs with a length of four bytes, a zlib head of two and a tail of four around the deflated bytes.
    const QByteArray packed = qCompress(content, 9).sliced(6).chopped(4);
    const auto number = [](quint64 value, int bytes) {
        QByteArray text;
        for (int i = 0; i < bytes; ++i)
            text.append(static_cast<char>(value >> (8 * i)));
        return text;
    };
    const auto size = [](const QByteArray& bytes) { return static_cast<quint64>(bytes.size()); };
    // APPNOTE.TXT of the ZIP format, 4.3.7, 4.3.12 and 4.3.16.
    const QByteArray common = number(20, 2) + number(0, 2) + number(8, 2) + number(0, 4) + number(0, 4) +
                              number(size(packed), 4) + number(size(content), 4) + number(size(name), 2) + number(0, 2);
    const QByteArray local = "PK\3\4" + common + name + packed;
    const QByteArray central = "PK\1\2" + number(20, 2) + common + number(0, 2) + number(0, 2) + number(0, 2) +
                               number(0, 4) + number(0, 4) + name;
    return local + central + "PK\5\6" + number(0, 4) + number(1, 2) + number(1, 2) + number(size(central), 4) +
           number(size(local), 4) + number(0, 2);
}

} // namespace

class HostileFilesTest : public QObject {
    Q_OBJECT

private:
    QTemporaryDir m_folder;

    std::string file(const QString& name, const QByteArray& content) {
        return support::writtenFile(m_folder.path(), name, content);
    }

    /// Read in this process and apart: both end in time, with the same account, and name the file in a fault.
    static void check(const ReadRequest& request, int features, const QString& words) {
        const Outcome here = support::tryRead(request);
        checkOne(here, request, features, words);
        const Outcome apart =
            support::tryReadApart(request, ChildLimits{std::chrono::seconds{240}, std::size_t{4} << 30});
        QCOMPARE(QString::fromStdString(apart.words), QString::fromStdString(here.words));
    }
    static void checkOne(const Outcome& outcome, const ReadRequest& request, int features, const QString& words) {
        const QString said = QString::fromStdString(outcome.words);
        QVERIFY2(outcome.fault == (features == kNone), qPrintable(said));
        if (outcome.fault)
            QVERIFY2(said.contains(QString::fromStdString(request.path)), qPrintable(said));
        else
            QVERIFY2(outcome.content.features.size() == static_cast<std::size_t>(features), qPrintable(said));
        QVERIFY2(said.contains(words), qPrintable(said));
        QVERIFY2(!said.contains("/vsi"), qPrintable(said));
    }
    static ReadRequest requestFor(const std::string& path, const char* crs = "") {
        ReadRequest request;
        request.path = path;
        request.crs = crs;
        return request;
    }

private slots:
    void initTestCase() {
        for (const char* folder :
             {"hostile", "malformed", "geojson-fixtures/invalid_structure", "kml", "vector-formats"})
            m_before[folder] = listing(QString::fromStdString(dataPath(folder)));
    }

    /// No reader writes beside what it reads: no index, no schema, no journal.
    void cleanupTestCase() {
        for (const auto& [folder, before] : m_before)
            QCOMPARE(listing(QString::fromStdString(dataPath(folder))), before);
    }

    void ownFiles_data() {
        QTest::addColumn<int>("features");
        QTest::addColumn<QString>("words");
        const auto row = [](const char* name, int features, const char* words) {
            QTest::newRow(name) << features << QString{words};
        };
        // GeoJSON
        row("empty.geojson", kNone, "The file is empty.");
        row("only-space.geojson", kNone, "The name says GeoJSON, but the content is plain text.");
        row("truncated.geojson", kNone, "line 1, column 121: The text is not JSON: ");
        row("web-page.geojson", kNone, "The name says GeoJSON, but the content is XML text.");
        row("nan.geojson", kNone, "line 1, column 130: The text is not JSON: ");
        row("infinity.geojson", kNone, "The text is not JSON: number overflow");
        row("crs-by-link.geojson", kNone, "does not say in which coordinate reference system");
        row("unknown-crs.geojson", kNone, "does not say in which coordinate reference system");
        row("reference-to-file.geojson", 1, "[feature 1] its geometry has no type.");
        row("metres-as-degrees.geojson", 0,
            "[feature 1] its coordinates 268469.7 4488174.8 are no longitude and latitude");
        row("not-utf8.geojson", kNone, "The text is not UTF-8, as JSON must be. Name the encoding");
        row("self-crossing.geojson", 1, "1 of 1 read.");
        row("ring-left-open.geojson", 1, "[feature 1] a ring was not closed: its last corner is joined to its first.");
        row("two-corners.geojson", 0, "[feature 1] a surface of fewer than three corners.");
        row("hole-of-words.geojson", 0,
            "[feature 1] the coordinates of its Polygon are not the lists of numbers that a Polygon has.");
        row("round-the-pole.geojson", 0, "[feature 1] it goes round the globe or a pole.");
        row("topology-arcs.json", kNone, "The object is of the type \"Topology\", which GeoJSON does not have.");
        row("list.json", kNone, "The text is JSON, but its root is a list, not an object.");
        // Tables
        row("words-as-coordinates.csv", 1, "[record 1] \"here\" and \"there\" are not coordinates.");
        row("no-coordinates.csv", kNone, "No columns with coordinates are found. The columns are name, area.");
        row("one-column.csv", kNone, "its first line does not name two columns");
        row("unbalanced.csv", 0, "is not well-known text.");
        row("nan-in-hole.csv", 0, "is not well-known text.");
        row("easting-without-crs.csv", kNone, "does not say in which coordinate reference system");
        row("nested-collections.csv", 0, "is not well-known text.");
        row("bytes.csv", kNone, "The name says CSV, but the content is of a kind unknown here.");
        row("missing-fields.csv", 0, "[record 1, record 2] 2 features have no geometry.");
        // KML and KMZ
        row("entities.kml", kNone, "line 2: The document declares entities, which are not read");
        row("network-link.kml", 1, "1 network link is not followed");
        row("track-without-when.kml", 1, "1 track is not read");
        row("words-as-coordinates.kml", kNone,
            "line 3: The coordinates \"ten,50\" are not a longitude and a latitude.");
        row("lonely-numbers.kml", kNone, "line 3: The coordinates \"10\" are not a longitude and a latitude.");
        row("nan.kml", 1, "[feature 1] a surface with a coordinate that is not a finite number.");
        row("infinity.kml", 1, "[feature 1] a surface with a coordinate that is not a finite number.");
        row("beyond-the-pole.kml", 0, "[feature 1] its coordinates 10 95 are no longitude and latitude");
        row("unclosed-tag.kml", kNone, "mismatched tag on line 4");
        row("unknown-encoding.kml", kNone, "\"KLINGON-8\" is not a text encoding that is known here.");
        row("is-gml.kml", kNone, "The content is XML, but not KML: its root is <FeatureCollection>.");
        row("plain-text.kmz", kNone, "The name says KMZ, but the content is plain text.");
        row("without-kml.kmz", kNone, "The archive holds no .kml document, so it is no KMZ.");
        row("outside-folder.kmz", kNone, "The archive holds no .kml document, so it is no KMZ.");
        row("truncated.kmz", kNone, "The ZIP archive is damaged: its table of contents cannot be read.");
        // GML
        row("external-entity.gml", kNone, "line 2: The document declares entities, which are not read");
        row("schema-from-network.gml", 1, "1 of 1 read.");
        row("linked-geometry.gml", 0, "[feature 1] 1 feature has no geometry.");
        // Shapefiles
        row("truncated-shapes.shp", 9, "[feature 10] its geometry cannot be read: ");
        row("truncated-table.shp", 0, "the file is damaged: ");
        row("without-index.shp", kNone, "The .shx file that belongs to the shapefile is missing");
        row("lying-record-length.shp", 20, "20 of 20 read.");
        row("lying-corner-count.shp", 19, "[feature 1] its geometry cannot be read: Corrupted .shp file");
        row("index-beyond-end.shp", 19, "[feature 1] its geometry cannot be read: ");
        row("infinite-corner.shp", 19, "[feature 1] a surface with a coordinate that is not a finite number.");
        row("wrong-crs.shp", kNone, "does not say in which coordinate reference system");
        row("without-shapefile.zip", kNone, "The archive holds no shapefile.");
        // Databases and binary formats
        row("truncated.gpkg", kNone, "The file cannot be read as GeoPackage: database disk image is malformed.");
        row("damaged-pages.gpkg", kNone, "The file cannot be read as GeoPackage: ");
        row("no-geopackage.gpkg", kNone, "gpkg_spatial_ref_sys or gpkg_contents, is missing.");
        row("image.gpkg", kNone, "The name says GeoPackage, but the content is of a kind unknown here.");
        row("truncated.fgb", 9, "the file is damaged: ");
        row("damaged-features.fgb", 17, "the file is damaged: ");
        row("only-magic.fgb", kNone, "There is nothing in the file that could be read as a layer.");
        row("only-words.dxf", kNone, "The name says DXF, but the content is plain text.");
        row("truncated.dxf", 0, "the file is damaged: error at line 15");
        row("infinity.dxf", 0, "[feature 1] a line with a coordinate that is not a finite number.");
        row("unknown-suffix.docx", kNone, "The name does not end as one of a format that can be read.");
    }
    void ownFiles() {
        QFETCH(int, features);
        QFETCH(QString, words);
        const QString name = QTest::currentDataTag();
        // Those that are about something else than the missing CRS get one.
        const bool given = name.endsWith("dxf") || name == "unbalanced.csv" || name == "nan-in-hole.csv" ||
                           name == "nested-collections.csv";
        check(requestFor(dataPath("hostile/" + name.toStdString()), given ? "EPSG:4326" : ""), features, words);
    }

    /// Each file of the folder has its row above; parts of shapefiles go with their .shp.
    void ownFiles_areAllListed() {
        ownFiles_data_names();
        for (const QString& name : QDir{QString::fromStdString(dataPath("hostile"))}.entryList(QDir::Files)) {
            const QString suffix = QFileInfo{name}.suffix();
            if (suffix == "shx" || suffix == "dbf" || suffix == "prj" || suffix == "md")
                continue;
            QVERIFY2(m_names.contains(name), qPrintable(name));
        }
    }

    void malformedFiles_data() {
        QTest::addColumn<QString>("crs");
        QTest::addColumn<int>("features");
        QTest::addColumn<QString>("words");
        const auto row = [](const char* name, const char* crs, int features, const char* words) {
            QTest::newRow(name) << QString{crs} << features << QString{words};
        };
        row("billionlaugh.gml", "", kNone, "declares entities");
        row("empty.kml", "", kNone, "There is nothing in the file that could be read as a layer.");
        row("first_geometry_null.gpkg", "", kNone, "does not say in which coordinate reference system");
        row("first_geometry_null.gpkg", "EPSG:4326", 1, "[feature 1] 1 feature has no geometry.");
        row("huge_feature_count.gpkg", "", 0,
            "the file says that it holds 9223372036854775807 features, but 1 are in it.");
        row("junk_content_after_valid_doc.kml", "", kNone, "junk after document element on line 65");
        row("non_conformant_multi.kml", "", 3, "3 of 3 read.");
        row("point_with_utf8bom.json", "", 1, "1 of 1 read.");
        row("poly_non_conformant.gpkg", "", 1, "1 of 1 read.");
        row("slightly_overlapping_polygons.shp", "", kNone, "does not say in which coordinate reference system");
        row("slightly_overlapping_polygons.shp", "EPSG:25832", 1, "1 of 1 read.");
        row("tab_separated_coord_triplet.kml", "", 1, "1 of 1 read.");
        row("truncated.kml", "", kNone, "no element found on line 35");
    }
    void malformedFiles() {
        QFETCH(QString, crs);
        QFETCH(int, features);
        QFETCH(QString, words);
        check(requestFor(dataPath(std::string{"malformed/"} + QTest::currentDataTag()), crs.toUtf8()), features, words);
    }

    /// chrieke/geojson-validator's valid files: every feature of theirs that has a geometry is read.
    void validGeoJson_data() {
        QTest::addColumn<int>("features");
        QTest::addColumn<int>("without");
        const QDir folder{QString::fromStdString(dataPath("geojson-fixtures/valid"))};
        const QStringList names = folder.entryList({"*.geojson"});
        QCOMPARE(names.size(), 22);
        for (const QString& name : names) {
            const bool empty = name.contains("empty_features");
            const bool null = name.contains("null_geometry") || name.contains("empty_geometries");
            const int count = name.contains("multiple_feature_types")            ? 4
                              : name == "valid_featurecollection_bboxes.geojson" ? 2
                                                                                 : 1;
            QTest::newRow(qPrintable(name)) << (empty || null ? 0 : count) << (null ? 1 : 0);
        }
    }
    void validGeoJson() {
        QFETCH(int, features);
        QFETCH(int, without);
        const Outcome outcome =
            support::tryRead(requestFor(dataPath(std::string{"geojson-fixtures/valid/"} + QTest::currentDataTag())));
        QVERIFY2(!outcome.fault, outcome.words.c_str());
        QCOMPARE(outcome.content.features.size(), static_cast<std::size_t>(features));
        QCOMPARE(outcome.content.featuresLeftOut, static_cast<std::size_t>(without));
        QCOMPARE(outcome.content.notes.size(), static_cast<std::size_t>(without));
    }

    void invalidGeoJson_data() {
        QTest::addColumn<int>("features");
        QTest::addColumn<QString>("words");
        const auto row = [](const char* name, int features, const char* words) {
            QTest::newRow(name) << features << QString{words};
        };
        const char* const read = "1 of 1 read.";
        const char* const none = "[feature 1] 1 feature has no geometry.";
        row("invalid_geometries/invalid_exterior_not_ccw", 1, read);
        row("invalid_geometries/invalid_incorrect_geometry_data_type", 0, "the coordinates of its LineString are not");
        row("invalid_geometries/invalid_inner_and_exterior_ring_intersect", 1, read);
        row("invalid_geometries/invalid_interior_not_cw", 1, read);
        row("invalid_geometries/invalid_less_three_unique_nodes", 0, "a surface of fewer than three corners");
        row("invalid_geometries/invalid_unclosed", 1, "a ring was not closed");
        row("invalid_structure/invalid_feature_geometry_is_string", 0, "its geometry is not an object");
        row("invalid_structure/invalid_feature_id_type", 1, read);
        row("invalid_structure/invalid_feature_no_porperties", 1, "a ring was not closed");
        row("invalid_structure/invalid_feature_properties_is_array", 0, none);
        row("invalid_structure/invalid_feature_properties_is_int", 0, none);
        row("invalid_structure/invalid_feature_wrong_geometry_key", 0, none);
        row("invalid_structure/invalid_featurecollcetion_features_is_object", kNone,
            "The FeatureCollection has no list of features.");
        row("invalid_structure/invalid_featurecollcetion_no_features_member", kNone,
            "The FeatureCollection has no list of features.");
        row("invalid_structure/invalid_featurecollection_crs_defined", 1, read);
        row("invalid_structure/invalid_featurecollection_feature_nullfeature", 0,
            "1 entry of \"features\" is no feature.");
        row("invalid_structure/invalid_featurecollection_nulltype", kNone,
            "The object has no type, so it is not GeoJSON.");
        row("invalid_structure/invalid_featurecollection_type_lowercase", kNone, "of the type \"featurecollection\"");
        row("invalid_structure/invalid_featurecollection_unknown_type", kNone, "of the type \"notafc\"");
        row("invalid_structure/invalid_geometry_bbox_not4or6", 1, read);
        row("invalid_structure/invalid_geometry_bbox_not_list", 1, read);
        row("invalid_structure/invalid_geometry_bbox_not_numbers", 1, read);
        row("invalid_structure/invalid_geometry_coordinates_1d", kNone,
            "Feature 1 cannot be read: the coordinates of its Polygon are not");
        row("invalid_structure/invalid_geometry_coordinates_4d", 1, read);
        row("invalid_structure/invalid_geometry_coordinates_empty_position", kNone,
            "the coordinates of its Polygon are not");
        row("invalid_structure/invalid_geometry_coordinates_missing", kNone, "its Polygon has no list of coordinates");
        row("invalid_structure/invalid_geometry_coordinates_string", kNone, "the coordinates of its Point are not");
        row("invalid_structure/invalid_geometry_depth_deep_point", kNone, "the coordinates of its Point are not");
        row("invalid_structure/invalid_geometry_depth_deep_polygon", kNone, "the coordinates of its Polygon are not");
        row("invalid_structure/invalid_geometry_depth_shallow_linestring", kNone,
            "the coordinates of its LineString are not");
        row("invalid_structure/invalid_geometry_depth_shallow_multipolygon", 0,
            "the coordinates of its MultiPolygon are not");
        row("invalid_structure/invalid_geometry_depth_shallow_polygon", kNone,
            "the coordinates of its Polygon are not");
        row("invalid_structure/invalid_geometry_geometrycollection_nested", 1, read);
        row("invalid_structure/invalid_geometry_geometrycollection_null_geometry", 0,
            "a member of its GeometryCollection is not a geometry");
        row("invalid_structure/invalid_geometry_geometrycollection_single", 1, read);
        row("invalid_structure/invalid_geometry_missing_type", kNone, "The object has no type, so it is not GeoJSON.");
        row("invalid_structure/invalid_geometry_misslabeled_point", 0, "the coordinates of its MultiPolygon are not");
        row("invalid_structure/invalid_geometry_wrong_geometry_type", kNone, "of the type \"SomeThingElse\"");
    }
    void invalidGeoJson() {
        QFETCH(int, features);
        QFETCH(QString, words);
        check(requestFor(dataPath(std::string{"geojson-fixtures/"} + QTest::currentDataTag() + ".geojson")), features,
              words);
    }

    void kmlSamples_data() {
        QTest::addColumn<int>("features");
        QTest::addColumn<QString>("words");
        QTest::newRow("Document-clean.kml") << 5 << "the file has 3 layers";
        QTest::newRow("Document-places.kml") << 2 << "2 of 2 read.";
        QTest::newRow("Document-deprecated.kml") << 1 << "1 picture is laid over the map: not read.";
        // Not KML documents but single elements.
        QTest::newRow("LinearRingWith1DTuple.kml")
            << kNone << "line 4: The coordinates \"-118.0,\" are not a longitude and a latitude.";
        QTest::newRow("LinearRingWithInvalidLat.kml") << kNone << "its root is <LinearRing>";
    }
    void kmlSamples() {
        QFETCH(int, features);
        QFETCH(QString, words);
        check(requestFor(dataPath(std::string{"kml/"} + QTest::currentDataTag())), features, words);
    }

    void names_data() {
        QTest::addColumn<QString>("path");
        QTest::addColumn<QString>("words");
        QTest::newRow("folder") << QString::fromStdString(dataPath("hostile")) << "This is a folder, not a file.";
        QTest::newRow("nothing there") << "/nowhere/plots.geojson"
                                       << "The file cannot be found";
        QTest::newRow("device") << "/dev/zero"
                                << "This is not an ordinary file.";
        for (const char* address :
             {"/vsicurl/http://127.0.0.1:9/plots.geojson", "http://127.0.0.1:9/plots.geojson",
              "WFS:http://127.0.0.1:9/", "PG:host=127.0.0.1", "/vsistdin/plots.geojson", "/vsizip//tmp/a.zip/plots.shp",
              "GPKG:plots.gpkg", "<OGRVRTDataSource><OGRVRTLayer name=\"a\"/></OGRVRTDataSource>", "CSV:/etc/passwd"})
            QTest::newRow(address) << address << "The file cannot be found";
    }
    void names() {
        QFETCH(QString, path);
        QFETCH(QString, words);
        const Outcome outcome = support::tryRead(requestFor(path.toStdString()));
        QVERIFY(outcome.fault);
        QVERIFY2(QString::fromStdString(outcome.words).contains(words), outcome.words.c_str());
    }

    void aPipe() {
        const std::string path = m_folder.filePath("pipe.geojson").toStdString();
        QCOMPARE(::mkfifo(path.c_str(), 0600), 0);
        check(requestFor(path), kNone, "This is not an ordinary file.");
    }

    void aLinkToItself() {
        const std::string path = m_folder.filePath("loop.geojson").toStdString();
        QCOMPARE(::symlink(path.c_str(), path.c_str()), 0);
        check(requestFor(path), kNone, "The file cannot be found");
    }

    void noRights() {
        QTemporaryDir folder;
        const std::string path = support::writtenFile(folder.path(), "secret.geojson", "{}");
        ::chmod(path.c_str(), 0);
        ::chmod(folder.path().toUtf8(), 0755);
        const pid_t child = ::fork();
        if (child == 0) {
            // Root may read anything: nobody may not.
            if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0))
                ::_exit(2);
            const std::string words = support::tryRead(requestFor(path)).words;
            ::_exit(words.find("The file cannot be opened: Permission denied.") != std::string::npos ? 0 : 1);
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        QVERIFY(WIFEXITED(status));
        QCOMPARE(WEXITSTATUS(status), 0);
    }

    void aVirtualDataSetByAnotherName() {
        // Would let a file name any other file or database.
        check(
            requestFor(file("virtual.xml",
                            "<OGRVRTDataSource><OGRVRTLayer "
                            "name=\"a\"><SrcDataSource>/etc/passwd</SrcDataSource></OGRVRTLayer></OGRVRTDataSource>")),
            kNone, "cannot be read as GML");
    }

    void deepLists() {
        check(requestFor(file("deep.geojson", "{\"a\":" + QByteArray{"["}.repeated(1'000'000))), kNone,
              "nested more than 64 deep");
    }

    void deepElements() {
        check(requestFor(file("deep.kml", "<kml xmlns=\"http://www.opengis.net/kml/2.2\">" +
                                              QByteArray{"<Folder>"}.repeated(100'000))),
              kNone, "nested more than 200 deep");
    }

    void anUnendingTag() {
        check(requestFor(file("tag.kml", "<kml " + QByteArray{"a"}.repeated(10'000'000))), kNone,
              "cannot be read as KML");
    }

    void aZipBomb() {
        const QByteArray head = "<?xml version=\"1.0\"?><kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document><name>";
        check(requestFor(file("bomb.kmz", zipOf("doc.kml", head + QByteArray{40'000'000, ' '}))), kNone,
              "which is more than is read here");
        check(requestFor(file("bomb.zip", zipOf("plots.shp", QByteArray{40'000'000, '\0'}))), kNone,
              "which is more than is read here");
    }

    void aSoundArchive() {
        // That the bombs above are refused for their size, not for how they are made here.
        const QByteArray document =
            "<?xml version=\"1.0\"?><kml xmlns=\"http://www.opengis.net/kml/2.2\"><Placemark><name>A</name>"
            "<Point><coordinates>1,2</coordinates></Point></Placemark></kml>";
        check(requestFor(file("sound.kmz", zipOf("doc.kml", document))), 1, "1 of 1 read.");
    }

    void aRingOfTenMillionCorners_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QByteArray>("head");
        QTest::addColumn<QByteArray>("corners");
        QTest::addColumn<QByteArray>("tail");
        QTest::addColumn<int>("features");
        QTest::addColumn<QString>("words");
        QTest::newRow("geojson")
            << "ring.geojson"
            << QByteArray{R"({"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[)"}
            << QByteArray{"[10.1,50.1],[10.2,50.2],"} << QByteArray{"[10,50],[10.1,50.1]]]}}"} << kNone
            << "Feature 1 has more than 2000000 corners.";
        QTest::newRow("table") << "ring.csv" << QByteArray{"name;wkt\nring;POLYGON(("}
                               << QByteArray{"10.1 50.1,10.2 50.2,"} << QByteArray{"10 50,10.1 50.1))\n"} << 0
                               << "Maximum number of characters allowed reached";
    }
    void aRingOfTenMillionCorners() {
        QFETCH(QString, name);
        QFETCH(QByteArray, head);
        QFETCH(QByteArray, corners);
        QFETCH(QByteArray, tail);
        QFETCH(int, features);
        QFETCH(QString, words);
        const ReadRequest request = requestFor(file(name, head + corners.repeated(5'000'000) + tail), "EPSG:4326");
        checkOne(support::tryReadApart(request, ChildLimits{std::chrono::seconds{240}, std::size_t{4} << 30}), request,
                 features, words);
        QFile::remove(QString::fromStdString(request.path));
    }

private:
    std::map<std::string, QString> m_before;
    QSet<QString> m_names;

    void ownFiles_data_names() {
        QFile source{QStringLiteral(FENCEWRIGHT_SOURCE "/tests/core/exchange/hostile_files_test.cpp")};
        QVERIFY(source.open(QIODevice::ReadOnly));
        const QString text = QString::fromUtf8(source.readAll());
        static const QRegularExpression name{"row\\(\"([^\"]+)\""};
        for (auto at = name.globalMatch(text); at.hasNext();)
            m_names.insert(at.next().captured(1));
    }
};

int main(int argc, char** argv) {
    if (argc > 1 && std::strcmp(argv[1], "foreign") == 0)
        return exchange::answerForeignRequest();
    HostileFilesTest test;
    return QTest::qExec(&test, argc, argv);
}
#include "hostile_files_test.moc"
