// The document as others see it: the GeoPackage standard's requirements, and GDAL as the foreign reader.

#include "geodesy/geodesic.h"
#include "store/document_file.h"
#include "support/memory_folder.h"

#include <QtTest>

#include <gdal/gdal.h>
#include <gdal/ogr_api.h>
#include <gdal/ogr_srs_api.h>
#include <sqlite3.h>

using namespace fencewright;

namespace {

model::FenceSet exampleSet() {
    model::FenceSet set;
    set.title = "Alder Reach";
    model::Site nest;
    nest.id = model::freshId<model::Site>();
    nest.name = "Œuf d'osprey";
    nest.geometry = model::Position{-8.70, 46.21};
    nest.positionError = {Length::metres(5), "5 m"};
    set.sites.append(nest);
    model::Site road;
    road.id = model::freshId<model::Site>();
    road.name = "County road";
    road.geometry = model::LineString{{-8.71, 46.20}, {-8.70, 46.20}, {-8.69, 46.205}};
    set.sites.append(road);
    model::Site school;
    school.id = model::freshId<model::Site>();
    school.name = "School";
    school.geometry = model::Polygon{{{{-8.72, 46.20}, {-8.72, 46.201}, {-8.719, 46.201}, {-8.719, 46.20}}}, {}};
    set.sites.append(school);

    model::Fence circle;
    circle.id = model::freshId<model::Fence>();
    circle.name = "Circle";
    circle.kind = model::FenceKind::KeepOut;
    circle.shape = model::Circle{{-8.70, 46.20}, {Length::metres(402.336), "1/4 mi"}};
    circle.band.ceiling = {{Length::feet(400), "400 ft"}, model::HeightReference::Ground};
    circle.period.season = model::Season{std::chrono::April / 1, std::chrono::August / 31};
    circle.basis = {model::BasisKind::Permit,
                    "Permit 12",
                    {{Length::metres(402.336), "1/4 mi"}},
                    std::chrono::year{2026} / 5 / 14,
                    "the county"};
    set.fences.append(circle);
    model::Fence dateline;
    dateline.id = model::freshId<model::Fence>();
    dateline.name = "Across the antimeridian";
    dateline.kind = model::FenceKind::KeepIn;
    dateline.enabled = false;
    dateline.shape = model::DrawnPolygon{{{{{179.9, -17}, {180.1, -17}, {180.1, -16.9}, {179.9, -16.9}}}, {}}};
    set.fences.append(dateline);
    model::Fence nothing;
    nothing.id = model::freshId<model::Fence>();
    nothing.name = "Setback of a site that is gone";
    nothing.shape = model::Setback{{"none"}, {Length::metres(10), "10 m"}};
    set.fences.append(nothing);

    model::Home home;
    home.id = model::freshId<model::Home>();
    home.name = "Crest";
    home.place = {-8.701, 46.202};
    set.homes.append(home);
    return set;
}

class Sqlite {
public:
    explicit Sqlite(const QString& path) { sqlite3_open_v2(path.toUtf8(), &m_handle, SQLITE_OPEN_READONLY, nullptr); }
    ~Sqlite() { sqlite3_close(m_handle); }
    Sqlite(const Sqlite&) = delete;
    Sqlite& operator=(const Sqlite&) = delete;
    QList<QStringList> rows(const QString& query) {
        QList<QStringList> rows;
        sqlite3_stmt* statement = nullptr;
        sqlite3_prepare_v2(m_handle, query.toUtf8(), -1, &statement, nullptr);
        while (sqlite3_step(statement) == SQLITE_ROW) {
            rows.emplace_back();
            for (int column = 0; column < sqlite3_column_count(statement); ++column)
                rows.back() << QString::fromUtf8(reinterpret_cast<const char*>(sqlite3_column_text(statement, column)));
        }
        sqlite3_finalize(statement);
        return rows;
    }

private:
    sqlite3* m_handle = nullptr;
};

QString field(OGRFeatureH feature, const char* name) {
    const int index = OGR_F_GetFieldIndex(feature, name);
    return index < 0 ? QString{"no such column"} : QString::fromUtf8(OGR_F_GetFieldAsString(feature, index));
}

} // namespace

class GeoPackageDocumentTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder{test::memoryFolder()};
    QString m_path = m_folder.filePath("document.gpkg");
    model::FenceSet m_set = exampleSet();

private slots:
    void initTestCase() { store::saveDocument(m_set, m_path.toStdString()); }

    // OGC 12-128, GeoPackage 1.3, spec/core/1_base.adoc in opengeospatial/geopackage. The numbers are its requirements.
    void file_meetsTheBaseRequirements() {
        QFile file{m_path};
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray header = file.read(100);
        QCOMPARE(header.left(16), QByteArray("SQLite format 3\0", 16)); // 1
        QCOMPARE(header.mid(68, 4), QByteArray{"GPKG"});                // 2: application_id, 0x47504B47
        QCOMPARE(header.mid(60, 4).toHex(), QByteArray{"0000283c"});    // 2: user_version, 10300
        file.close();
        Sqlite database{m_path};
        QCOMPARE(database.rows("PRAGMA integrity_check"), QList<QStringList>{{"ok"}}); // 6
        QVERIFY(database.rows("PRAGMA foreign_key_check").isEmpty());                  // 7
    }

    void columns_haveOnlyTheTypesListed() { // 5
        const QStringList listed{"BOOLEAN", "TINYINT", "SMALLINT", "MEDIUMINT", "INT",  "INTEGER", "FLOAT",
                                 "DOUBLE",  "REAL",    "TEXT",     "BLOB",      "DATE", "DATETIME"};
        const QStringList geometries{"GEOMETRY", "POINT", "MULTIPOLYGON"};
        Sqlite database{m_path};
        const auto tables = database.rows("SELECT table_name, data_type FROM gpkg_contents");
        QCOMPARE(tables.size(), 8);
        for (const QStringList& table : tables) {
            int keys = 0;
            for (const QStringList& column : database.rows("PRAGMA table_info(" + table[0] + ")")) {
                QVERIFY2(listed.contains(column[2]) ||
                             (table[1] == "features" && column[1] == "geom" && geometries.contains(column[2])),
                         qPrintable(table[0] + " " + column[1] + " " + column[2]));
                keys += column[5] == "1" && column[2] == "INTEGER" ? 1 : 0;
            }
            QCOMPARE(keys, 1); // 29 and 119, from memory: a table has an integer primary key
        }
        for (const QStringList& type :
             database.rows("SELECT DISTINCT typeof(active_from), typeof(geom), typeof(enabled) FROM fences"))
            QVERIFY(type[0] == "null" && (type[1] == "blob" || type[1] == "null") && type[2] == "integer");
        for (const QStringList& date : database.rows("SELECT basis_date FROM fences WHERE basis_date IS NOT NULL"))
            QCOMPARE(date[0], "2026-05-14");
    }

    void referenceSystems_areThoseRequired() { // 10, 11
        Sqlite database{m_path};
        const auto columns = database.rows("PRAGMA table_info(gpkg_spatial_ref_sys)");
        QStringList names;
        QStringList types;
        for (const QStringList& column : columns) {
            names << column[1];
            types << column[2];
        }
        QCOMPARE(types, (QStringList{"TEXT", "INTEGER", "TEXT", "INTEGER", "TEXT", "TEXT"}));
        QCOMPARE(names, (QStringList{"srs_name", "srs_id", "organization", "organization_coordsys_id", "definition",
                                     "description"}));
        const auto rows = database.rows("SELECT srs_id, organization, organization_coordsys_id, definition FROM "
                                        "gpkg_spatial_ref_sys ORDER BY srs_id");
        QCOMPARE(rows.size(), 3);
        QCOMPARE(rows[0], (QStringList{"-1", "NONE", "-1", "undefined"}));
        QCOMPARE(rows[1], (QStringList{"0", "NONE", "0", "undefined"}));
        QCOMPARE(rows[2].first(3), (QStringList{"4326", "EPSG", "4326"}));
        OGRSpatialReferenceH wgs84 = OSRNewSpatialReference(rows[2][3].toUtf8());
        OGRSpatialReferenceH epsg = OSRNewSpatialReference(nullptr);
        OSRImportFromEPSG(epsg, 4326);
        QVERIFY(wgs84 != nullptr && OSRIsSame(wgs84, epsg));
        OSRDestroySpatialReference(wgs84);
        OSRDestroySpatialReference(epsg);
    }

    void geometries_haveTheStandardsHeader() {
        // Clause 2.1.3: "GP", version 0, flags (little-endian, envelope of x and y), the id of the reference system.
        Sqlite database{m_path};
        for (const char* layer : {"fences", "sites", "homes"})
            for (const QStringList& row :
                 database.rows(QString{"SELECT hex(substr(geom, 1, 8)) FROM %1 WHERE geom NOT NULL"}.arg(layer)))
                QCOMPARE(row[0], "47500003E6100000"); // 4326 is 10E6
    }

    void layers_openInAForeignReader() {
        GDALAllRegister();
        GDALDatasetH dataset = GDALOpenEx(m_path.toUtf8(), GDAL_OF_VECTOR | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR,
                                          nullptr, nullptr, nullptr);
        QVERIFY(dataset);
        QCOMPARE(QByteArray{CPLGetLastErrorMsg()}, QByteArray{}); // no warning about the file either

        OGRLayerH fences = GDALDatasetGetLayerByName(dataset, "fences");
        QVERIFY(fences);
        QCOMPARE(OGR_L_GetGeomType(fences), wkbMultiPolygon);
        QCOMPARE(OGR_L_GetFeatureCount(fences, 1), GIntBig{3});
        QCOMPARE(QByteArray{OSRGetAuthorityCode(OGR_L_GetSpatialRef(fences), nullptr)}, QByteArray{"4326"});

        OGRFeatureH circle = OGR_L_GetNextFeature(fences);
        QCOMPARE(field(circle, "name"), "Circle");
        QCOMPARE(field(circle, "kind"), "keep-out");
        QCOMPARE(field(circle, "enabled"), "1");
        QCOMPARE(field(circle, "shape"), "circle");
        QCOMPARE(field(circle, "ceiling"), "400 ft above ground");
        QCOMPARE(field(circle, "ceiling_m"), "121.92");
        QCOMPARE(field(circle, "season_from"), "04-01");
        QCOMPARE(field(circle, "season_to"), "08-31");
        QCOMPARE(field(circle, "basis"), "permit");
        QCOMPARE(field(circle, "basis_distance"), "1/4 mi");
        QCOMPARE(field(circle, "basis_date"), "2026/05/14");
        QCOMPARE(field(circle, "id"), QString::fromStdString(m_set.fences[0].id.value));
        OGRGeometryH outline = OGR_F_GetGeometryRef(circle);
        QVERIFY(OGR_G_IsValid(outline));
        // A quarter mile's circle has 508 543 m2 (recomputed with GeographicLib); the outline is a little larger.
        OGRGeometryH ring = OGR_G_GetGeometryRef(OGR_G_GetGeometryRef(outline, 0), 0);
        model::Ring corners;
        for (int i = 0; i + 1 < OGR_G_GetPointCount(ring); ++i)
            corners.corners.push_back({OGR_G_GetX(ring, i), OGR_G_GetY(ring, i)});
        const double area = geodesy::measure(corners, geodesy::EdgeMeaning::LonLatLine).area.inSquareMetres();
        QVERIFY2(area > 508543.0 && area < 508543.0 * 1.003, qPrintable(QString::number(area)));
        QVERIFY(!OGR_G_IsEmpty(ring));
        OGR_F_Destroy(circle);

        OGRFeatureH dateline = OGR_L_GetNextFeature(fences);
        QCOMPARE(field(dateline, "enabled"), "0");
        OGRGeometryH cut = OGR_F_GetGeometryRef(dateline);
        QCOMPARE(OGR_G_GetGeometryCount(cut), 2); // RFC 7946, 3.1.9, for this as for GeoJSON
        OGREnvelope envelope;
        OGR_G_GetEnvelope(cut, &envelope);
        QCOMPARE(envelope.MinX, -180.0);
        QCOMPARE(envelope.MaxX, 180.0);
        OGR_F_Destroy(dateline);
        OGRFeatureH nothing = OGR_L_GetNextFeature(fences);
        QVERIFY(OGR_F_GetGeometryRef(nothing) == nullptr);
        OGR_F_Destroy(nothing);

        OGRLayerH sites = GDALDatasetGetLayerByName(dataset, "sites");
        QCOMPARE(OGR_L_GetFeatureCount(sites, 1), GIntBig{3});
        for (const OGRwkbGeometryType type : {wkbPoint, wkbLineString, wkbPolygon}) {
            OGRFeatureH site = OGR_L_GetNextFeature(sites);
            QCOMPARE(OGR_G_GetGeometryType(OGR_F_GetGeometryRef(site)), type);
            if (type == wkbPoint) {
                QCOMPARE(field(site, "name"), "Œuf d'osprey");
                QCOMPARE(OGR_G_GetX(OGR_F_GetGeometryRef(site), 0), -8.70);
                QCOMPARE(OGR_G_GetY(OGR_F_GetGeometryRef(site), 0), 46.21);
            }
            OGR_F_Destroy(site);
        }
        OGRLayerH homes = GDALDatasetGetLayerByName(dataset, "homes");
        QCOMPARE(OGR_L_GetGeomType(homes), wkbPoint);
        QCOMPARE(OGR_L_GetFeatureCount(homes, 1), GIntBig{1});
        OGREnvelope stated;
        QCOMPARE(OGR_L_GetExtent(homes, &stated, 0), OGRERR_NONE);
        QCOMPARE(stated.MinX, -8.701);
        QCOMPARE(stated.MaxY, 46.202);
        GDALClose(dataset);
    }

    void rings_windAsTheStandardRecommends() {
        // Shells anticlockwise: check-values of the standard, from memory. The site was given clockwise.
        GDALDatasetH dataset = GDALOpenEx(m_path.toUtf8(), GDAL_OF_VECTOR, nullptr, nullptr, nullptr);
        OGRLayerH sites = GDALDatasetGetLayerByName(dataset, "sites");
        OGR_L_SetAttributeFilter(sites, "name = 'School'");
        OGRFeatureH school = OGR_L_GetNextFeature(sites);
        QVERIFY(school);
        OGRGeometryH ring = OGR_G_GetGeometryRef(OGR_F_GetGeometryRef(school), 0);
        double turn = 0;
        for (int i = 0; i + 1 < OGR_G_GetPointCount(ring); ++i)
            turn += (OGR_G_GetX(ring, i) + 8.72) * (OGR_G_GetY(ring, i + 1) - 46.2) -
                    (OGR_G_GetX(ring, i + 1) + 8.72) * (OGR_G_GetY(ring, i) - 46.2);
        QVERIFY(turn > 0);
        QCOMPARE(OGR_G_GetX(ring, 0), OGR_G_GetX(ring, OGR_G_GetPointCount(ring) - 1));
        OGR_F_Destroy(school);
        GDALClose(dataset);
    }

    void document_survivesAForeignWriter() {
        // Another program adds a spatial index and a layer, and changes an outline: the values are ours all the same.
        const QString path = m_folder.filePath("touched.gpkg");
        QVERIFY(QFile::copy(m_path, path));
        GDALDatasetH dataset = GDALOpenEx(path.toUtf8(), GDAL_OF_VECTOR | GDAL_OF_UPDATE, nullptr, nullptr, nullptr);
        QVERIFY(dataset);
        GDALDatasetReleaseResultSet(
            dataset, GDALDatasetExecuteSQL(dataset, "SELECT CreateSpatialIndex('fences', 'geom')", nullptr, nullptr));
        QVERIFY(GDALDatasetCreateLayer(dataset, "notes", nullptr, wkbPoint, nullptr));
        OGRLayerH fences = GDALDatasetGetLayerByName(dataset, "fences");
        OGRFeatureH first = OGR_L_GetNextFeature(fences);
        OGR_F_SetFieldString(first, OGR_F_GetFieldIndex(first, "name"), "renamed there");
        QCOMPARE(OGR_L_SetFeature(fences, first), OGRERR_NONE);
        OGR_F_Destroy(first);
        GDALClose(dataset);
        QVERIFY(store::openDocument(path.toStdString()).set == m_set);
    }
};

QTEST_APPLESS_MAIN(GeoPackageDocumentTest)
#include "geopackage_document_test.moc"
