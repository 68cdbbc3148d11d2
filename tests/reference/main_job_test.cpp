// The main job on real input, from foreign files to a delivered fence set.
// Parcels: the 1925 urban cadastral map of Kastoria, Greece (tests/data/parcels, MIT licence).
// Orthophoto: Land Information New Zealand, Auckland rural aerial photos (tests/data/imagery, CC BY 4.0).

#include "audit/audit.h"
#include "exchange/delivery.h"
#include "exchange/import.h"
#include "exchange/vector_reader.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "model/edit.h"
#include "raster/dataset.h"
#include "store/document_file.h"

#include <GeographicLib/Geodesic.hpp>

#include <QFile>
#include <QTemporaryDir>
#include <QtTest>

using namespace fencewright;
using namespace fencewright::model;

namespace {

const std::string kData = FENCEWRIGHT_TEST_DATA;

} // namespace

class MainJobTest : public QObject {
    Q_OBJECT

private slots:
    void parcelsImageryAndSetbacks_becomeADeliveredSet() {
        FenceSet set;

        exchange::ReadRequest request;
        request.path = kData + "/parcels/kastoria_cad1925.shp";
        const auto content = exchange::readVectorApart(FENCEWRIGHT_BUILD "/bin/fencewright-cli", request,
                                                       exchange::ChildLimits{}, Progress{});
        // 493 polygons, all valid: stated with the data.
        QCOMPARE(content.features.size(), 493u);

        // The parcels within 60 m of the first one: several that touch.
        auto parcels = exchange::asParcels(content, "KAK");
        QCOMPARE(parcels.size(), 493u);
        const Position middle = parcels[100].surface.parts[0].shell.corners[0];
        const GeographicLib::Geodesic& earth = GeographicLib::Geodesic::WGS84();
        std::vector<Parcel> chosen;
        Area sum;
        for (const Parcel& parcel : parcels) {
            double metres = 0;
            const Position corner = parcel.surface.parts[0].shell.corners[0];
            earth.Inverse(middle.lat, middle.lon, corner.lat, corner.lon, metres);
            if (metres > 60)
                continue;
            sum = sum + geodesy::measure(parcel.surface).area;
            chosen.push_back(parcel);
        }
        QVERIFY2(chosen.size() >= 5, qPrintable(QString::number(chosen.size())));

        Fence land;
        land.id = freshId<Fence>();
        land.name = "Old town";
        land.kind = FenceKind::KeepIn;
        land.shape = ParcelUnion{chosen, {Length::metres(0.25), "0.25 m"}};
        land.basis = {BasisKind::Permit, "Permit 12", {}, Date{std::chrono::year{2026} / 3 / 1}, "the town"};
        set = applied(set, addFence(set, land));

        for (const auto& [name, radius, written] :
             {std::tuple{"Chimney", 8.0, "8 m"}, std::tuple{"Courtyard", 5.0, "5 m"}}) {
            Site site;
            site.id = freshId<Site>();
            site.name = name;
            site.geometry = chosen[site.name == "Chimney" ? 1 : 3].surface.parts[0].shell.corners[0];
            set = applied(set, addSite(set, site));
            Fence setback = exchange::setbackFence(site, {Length::metres(radius), written});
            setback.basis = {BasisKind::Judgement, "site walk", {}, Date{std::chrono::year{2026} / 3 / 2}, "lead"};
            set = applied(set, addFence(set, setback));
        }

        const std::string ortho = kData + "/imagery/linz_aerial.tif";
        const raster::Dataset dataset{ortho};
        QCOMPARE(dataset.description().width, 426);
        QVERIFY(dataset.description().georeferenced);
        Source aerial;
        aerial.id = freshId<Source>();
        aerial.name = "Aerial";
        aerial.path = ortho;
        set = applied(set, addSource(set, aerial));

        const airspace::Moment moment{std::chrono::year{2026} / 5 / 14, {}};
        auto result = audit::audit(set, moment, {});
        // The parcels' union is no smaller than the largest of them and no larger than their sum and the closed gaps.
        const double unionArea = geodesy::measure(result.outlines.at(land.id)).area.inSquareMetres();
        QVERIFY2(unionArea > 0.97 * sum.inSquareMetres() && unionArea < 1.03 * sum.inSquareMetres(),
                 qPrintable(QString("union %1, sum %2").arg(unionArea).arg(sum.inSquareMetres())));
        // No home yet: that is an error, and the audit says so.
        QVERIFY(result.count(audit::Severity::Error) > 0);

        Home home;
        home.id = freshId<Home>();
        home.name = "Yard";
        home.landingRadius = {Length::metres(1), "1 m"};
        home.place = *geometry::labelPlace(result.operatingArea);
        set = applied(set, addHome(set, home));
        result = audit::audit(set, moment, {});
        for (const auto& finding : result.findings)
            QVERIFY2(finding.severity != audit::Severity::Error, finding.words.english().c_str());

        QTemporaryDir folder;
        const std::string document = folder.filePath("kastoria.gpkg").toStdString();
        store::saveDocument(set, document);
        QVERIFY(store::openDocument(document).set == set);

        for (const auto& format : exchange::deliveryFormats()) {
            const std::string path = folder.filePath("kastoria").toStdString() + format.suffix;
            exchange::DeliveryOptions options;
            options.format = format.format;
            const auto report = exchange::deliver(set, path, options, {});
            QVERIFY2(report.confirmed, path.c_str());
            QCOMPARE(report.fences, 3u);
            // What was written, read like any foreign file, permits no more than the set.
            exchange::ReadRequest back;
            back.path = path;
            const auto held = exchange::readVectorApart(FENCEWRIGHT_BUILD "/bin/fencewright-cli", back,
                                                        exchange::ChildLimits{}, Progress{});
            const auto fences = exchange::asFences(held, FenceKind::KeepOut, "");
            std::size_t seen = 0;
            for (const Fence& approved : set.fences) {
                const auto& outline = result.outlines.at(approved.id);
                MultiPolygon surface;
                for (const Fence& fence : fences.fences)
                    if (fence.name.starts_with(approved.name)) {
                        QCOMPARE(fence.kind, approved.kind);
                        surface.parts.push_back(std::get<DrawnPolygon>(fence.shape).polygon);
                    }
                QVERIFY2(!surface.empty(), approved.name.c_str());
                QVERIFY(approved.kind == FenceKind::KeepIn ? geometry::contains(outline, surface)
                                                           : geometry::contains(surface, outline));
                ++seen;
            }
            QCOMPARE(seen, 3u);
        }
    }
};

QTEST_APPLESS_MAIN(MainJobTest)
#include "main_job_test.moc"
