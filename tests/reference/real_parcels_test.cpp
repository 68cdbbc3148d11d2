#include "exchange/import.h"
#include "geodesy/crs_transform.h"
#include "geodesy/geodesic.h"
#include "support/reading.h"

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>

#include <QTemporaryDir>
#include <QtTest>

using namespace fencewright;
using exchange::VectorContent;
using support::dataPath;
using support::notesOf;

namespace {

/// By GeographicLib, edges as geodesics: on parcels of some hundred metres that is no difference.
double squareMetres(const model::Ring& ring) {
    GeographicLib::PolygonArea sum{GeographicLib::Geodesic::WGS84()};
    for (const model::Position& corner : ring.corners)
        sum.AddPoint(corner.lat, corner.lon);
    double perimeter = 0.0;
    double area = 0.0;
    sum.Compute(false, true, perimeter, area);
    return std::abs(area);
}

double squareMetres(const VectorContent& content) {
    double sum = 0.0;
    for (const auto& feature : content.features)
        for (const auto& part : feature.parts) {
            const auto& polygon = std::get<model::Polygon>(part);
            sum += squareMetres(polygon.shell);
            for (const model::Ring& hole : polygon.holes)
                sum -= squareMetres(hole);
        }
    return sum;
}

std::size_t parts(const VectorContent& content) {
    std::size_t count = 0;
    for (const auto& feature : content.features)
        count += feature.parts.size();
    return count;
}

std::size_t corners(const VectorContent& content) {
    std::size_t count = 0;
    for (const auto& feature : content.features)
        for (const auto& part : feature.parts) {
            count += std::get<model::Polygon>(part).shell.corners.size();
            for (const model::Ring& hole : std::get<model::Polygon>(part).holes)
                count += hole.corners.size();
        }
    return count;
}

std::size_t holes(const VectorContent& content) {
    std::size_t count = 0;
    for (const auto& feature : content.features)
        for (const auto& part : feature.parts)
            count += std::get<model::Polygon>(part).holes.size();
    return count;
}

/// The extent back in the plane of the source, corner by corner.
geometry::Box planeExtent(const VectorContent& content, const std::string& crs) {
    const geodesy::CrsTransform transform{crs};
    geometry::Box box;
    for (const auto& feature : content.features)
        for (const auto& part : feature.parts)
            for (const auto& point : transform.fromWgs84(std::get<model::Polygon>(part).shell.corners))
                box.add(point->x, point->y);
    return box;
}

} // namespace

/// Figures measured with GDAL 3.6.2 and GEOS 3.11.1 on the files themselves, in their own plane (tests/data/parcels).
class RealParcelsTest : public QObject {
    Q_OBJECT

private slots:
    void kastoria_isReadInFull() {
        const VectorContent content = support::read(dataPath("parcels/kastoria_cad1925.shp"));
        QCOMPARE(content.features.size(), 493U);
        QCOMPARE(content.featuresLeftOut, 0U);
        QCOMPARE(parts(content), 493U);
        QCOMPARE(holes(content), 0U);
        QCOMPARE(content.fields, std::vector<std::string>{"KAK"});
        // 6,486 vertices with the closing ones: one a ring. None is added on edges of a few metres.
        QCOMPARE(corners(content), 6486U - 493U);
        QVERIFY2(content.crs.find("Greek Grid") != std::string::npos, content.crs.c_str());
        // 158,928 m2 in the plane, whose scale is 0.9996 on its meridian of 24 E and here, 225 km west of it, 1.00022.
        QVERIFY2(std::abs(squareMetres(content) - 158'928.0) <= 158.9,
                 qPrintable(QString::number(squareMetres(content), 'f', 1)));
        const geometry::Box box = planeExtent(content, "EPSG:2100");
        QVERIFY(std::abs(box.minX - 268469.69) < 0.01 && std::abs(box.minY - 4488174.79) < 0.01);
        QVERIFY(std::abs(box.maxX - 269065.06) < 0.01 && std::abs(box.maxY - 4488717.55) < 0.01);
    }

    void kastoria_liesOnItsPeninsula() {
        // The town of Kastoria, 40.52 N 21.27 E (from memory): a swap of axes or a wrong datum would be hundreds of
        // metres to thousands of kilometres off.
        const VectorContent content = support::read(dataPath("parcels/kastoria_cad1925.shp"));
        QVERIFY(content.extent.minX > 21.25 && content.extent.maxX < 21.30);
        QVERIFY(content.extent.minY > 40.50 && content.extent.maxY < 40.54);
    }

    void newZealand_isReadInFull() {
        const VectorContent content = support::read(dataPath("parcels/nz-waca-adjustments.gpkg"));
        QCOMPARE(content.features.size(), 228U);
        QCOMPARE(content.fields.size(), 3U);
        // 3,153 vertices with the closing ones.
        std::size_t rings = 0;
        for (const auto& feature : content.features)
            for (const auto& part : feature.parts)
                rings += 1 + std::get<model::Polygon>(part).holes.size();
        QCOMPARE(corners(content) + rings, 3153U);
        // EPSG:4167 is WGS 84 to within its accuracy.
        QVERIFY(std::abs(content.extent.minX - 172.32) < 0.001 && std::abs(content.extent.minY - -43.6357) < 0.001);
        QVERIFY(std::abs(content.extent.maxX - 176.987) < 0.001 && std::abs(content.extent.maxY - -35.6891) < 0.001);
    }

    void netherlands_isReadFromATable() {
        QFile wkt{QString::fromStdString(dataPath("parcels/nl_plots_epsg_28992.wkt"))};
        QVERIFY(wkt.open(QIODevice::ReadOnly));
        QTemporaryDir folder;
        const std::string path =
            support::writtenFile(folder.path(), "plots.csv", "name,wkt\nplots,\"" + wkt.readAll().trimmed() + "\"\n");
        const VectorContent content = support::read(path, "EPSG:28992");
        QVERIFY2(content.features.size() == 1, notesOf(content).c_str());
        QCOMPARE(parts(content), 316U);
        QCOMPARE(holes(content), 27U);
        // 3,791 vertices with the closing ones, and those added on long edges, which are told.
        const std::size_t added = corners(content) - (3791U - 316U - 27U);
        QVERIFY2(notesOf(content).find(std::to_string(added) + " corners were added") != std::string::npos,
                 notesOf(content).c_str());
        QVERIFY2(std::abs(squareMetres(content) - 763'889.0) <= 763.9,
                 qPrintable(QString::number(squareMetres(content), 'f', 1)));
        // Within the Netherlands (EPSG's area of use of 28992).
        QVERIFY(content.extent.minX > 3.3 && content.extent.maxX < 7.3 && content.extent.minY > 50.7 &&
                content.extent.maxY < 53.6);
    }

    void inspire_isReadWithItsOpenRings() {
        const VectorContent content = support::read(dataPath("parcels/inspire_cadastralparcel.xml"));
        QCOMPARE(content.features.size(), 2U);
        for (const auto& feature : content.features)
            QVERIFY(std::get<model::Polygon>(feature.parts.at(0)).shell.closureAssumed);
        QVERIFY(notesOf(content).find("a ring was not closed") != std::string::npos);
        // The sample's envelope: latitude 49 to 50, longitude 2 to 3, latitude first in the file.
        QCOMPARE(content.extent, (geometry::Box{2, 49, 3, 50}));
    }

    void parcels_areAsMeasuredByTheOtherLibrary() {
        const VectorContent content = support::read(dataPath("parcels/kastoria_cad1925.shp"));
        const auto parcels = exchange::asParcels(content, "KAK");
        QCOMPARE(parcels.size(), 493U);
        for (const model::Parcel& parcel : parcels) {
            const double ours = geodesy::measure(parcel.surface).area.inSquareMetres();
            QVERIFY2(std::abs(ours - squareMetres(parcel.surface.parts[0].shell)) < 0.01, parcel.number.c_str());
        }
    }
};

QTEST_APPLESS_MAIN(RealParcelsTest)
#include "real_parcels_test.moc"
