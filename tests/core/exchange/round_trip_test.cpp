// What we deliver, read again the way foreign files are read: through GDAL's drivers, which know nothing of our
// writers.

#include "airspace/outline.h"
#include "exchange/delivery.h"
#include "exchange/import.h"
#include "exchange/vector_reader.h"
#include "geometry/containment.h"
#include "support/delivery_sets.h"

#include <QtTest>

#include <cmath>

using namespace fencewright;
using exchange::DeliveryFormat;

namespace {

exchange::FencesImport readAgain(const QString& path) {
    exchange::ReadRequest request;
    request.path = path.toStdString();
    const auto content = exchange::readVector(request, {});
    return exchange::asFences(content, model::FenceKind::KeepOut, {});
}

double inMetres(const std::optional<model::HeightLimit>& limit) {
    return limit ? limit->value.length.inMetres() : std::nan("");
}

bool same(const std::optional<model::HeightLimit>& a, const std::optional<model::HeightLimit>& b) {
    return a.has_value() == b.has_value() && (!a || (inMetres(a) == inMetres(b) && a->reference == b->reference));
}

model::MultiPolygon surfaceOf(const model::Fence& fence) {
    return {{std::get<model::DrawnPolygon>(fence.shape).polygon}};
}

} // namespace

class RoundTripTest : public QObject {
    Q_OBJECT

private slots:
    void deliveredFences_comeBack_data() {
        QTest::addColumn<int>("format");
        QTest::addColumn<QString>("suffix");
        QTest::newRow("GeoJSON") << static_cast<int>(DeliveryFormat::GeoJson) << ".geojson";
        QTest::newRow("KML") << static_cast<int>(DeliveryFormat::Kml) << ".kml";
    }
    void deliveredFences_comeBack() {
        QFETCH(int, format);
        QFETCH(QString, suffix);
        QTemporaryDir folder;
        const QString path = folder.filePath("out" + suffix);
        const auto set = support::deliverySet();
        exchange::DeliveryOptions options;
        options.format = static_cast<DeliveryFormat>(format);
        const auto report = exchange::deliver(set, path.toStdString(), options, {});
        const auto imported = readAgain(path);
        // One fence of two parts comes back as two.
        QCOMPARE(imported.fences.size(), report.fences + 1);
        for (const model::Fence& fence : set.fences) {
            if (!fence.enabled)
                continue;
            const bool secret = fence.name.find("Heron") != std::string::npos;
            const std::string name = secret ? "Protected area 1" : fence.name;
            model::MultiPolygon surface;
            for (const model::Fence& back : imported.fences) {
                if (!back.name.starts_with(name))
                    continue;
                QCOMPARE(back.kind, fence.kind);
                QVERIFY2(same(back.band.floor, fence.band.floor), name.c_str());
                QVERIFY2(same(back.band.ceiling, fence.band.ceiling), name.c_str());
                QVERIFY2(back.period == fence.period, name.c_str());
                QCOMPARE(back.basis.kind, fence.basis.kind);
                QCOMPARE(back.basis.citation, secret ? std::string{} : fence.basis.citation);
                const auto part = surfaceOf(back);
                surface.parts.insert(surface.parts.end(), part.parts.begin(), part.parts.end());
            }
            QVERIFY2(!surface.empty(), name.c_str());
            const auto approved = airspace::outline(fence, set.sites);
            QVERIFY2(fence.kind == model::FenceKind::KeepOut ? geometry::contains(surface, approved)
                                                             : geometry::contains(approved, surface),
                     name.c_str());
        }
    }

    void sitesAndHomes_comeBack() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out.geojson");
        (void)exchange::deliver(support::deliverySet(), path.toStdString(), {}, {});
        exchange::ReadRequest request;
        request.path = path.toStdString();
        const auto content = exchange::readVector(request, {});
        const auto homes = exchange::asHomes(content, {}).homes;
        QCOMPARE(homes.size(), 2U);
        QCOMPARE(homes[1].name, "Boat yard");
        QVERIFY(homes[1].kind == model::HomeKind::Alternate);
        QCOMPARE(homes[1].landingRadius.length.inMetres(), 15.0);
        const auto sites = exchange::asSites(content, {}).sites;
        QCOMPARE(sites.size(), 2U); // the third is confidential
        QCOMPARE(sites[0].name, "School");
    }
};

QTEST_GUILESS_MAIN(RoundTripTest)
#include "round_trip_test.moc"
