#include "airspace/operating_area.h"
#include "airspace/outline.h"
#include "alder_reach/document.h"
#include "alder_reach/land_records.h"
#include "alder_reach/scene.h"
#include "audit/audit.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"

#include <QtTest>

#include <set>

using namespace fencewright;

namespace {

double areaOf(const alder_reach::Ring& ring) {
    double twice = 0;
    for (std::size_t index = 0; index < ring.size(); ++index) {
        const auto a = ring[index];
        const auto b = ring[(index + 1) % ring.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return std::abs(twice) / 2;
}

const model::Fence& fenceNamed(const model::FenceSet& set, const std::string& name) {
    for (const model::Fence& fence : set.fences)
        if (fence.name == name)
            return fence;
    qFatal("no fence %s", name.c_str());
}

} // namespace

// The demo is what the design says of it: these are its own promises, checked by the core's proven parts.
class AlderReachTest : public QObject {
    Q_OBJECT

    const alder_reach::Scene m_scene = alder_reach::makeScene();
    const model::FenceSet m_set = alder_reach::makeFenceSet(m_scene);

    static std::set<std::string> rulesOf(const audit::AuditResult& result) {
        std::set<std::string> rules;
        for (const audit::Finding& finding : result.findings)
            rules.insert(finding.rule);
        return rules;
    }
    [[nodiscard]] audit::AuditResult auditOn(model::Date date) const {
        airspace::Moment moment;
        moment.date = date;
        return audit::audit(m_set, moment, {});
    }

private slots:
    void parcels_tileTheGround() {
        QCOMPARE(m_scene.parcels.size(), std::size_t{60});
        std::set<std::string> numbers;
        double area = 0;
        for (const auto& parcel : m_scene.parcels) {
            numbers.insert(parcel.number);
            area += areaOf(parcel.ring);
            for (const auto& hole : parcel.holes)
                area -= areaOf(hole);
        }
        QCOMPARE(numbers.size(), m_scene.parcels.size());
        // Gaps and overlaps of centimetres along 30 km of boundary, and nothing more.
        QCOMPARE_LE(std::abs(area - alder_reach::kWidth * alder_reach::kHeight), 500.0);
        QVERIFY(std::abs(area - alder_reach::kWidth * alder_reach::kHeight) > 1.0);
    }
    void land_isOnePieceAroundTheParcelInTheMiddle() {
        const auto land = airspace::outline(fenceNamed(m_set, "Utility land"), m_set.sites);
        QCOMPARE(land.parts.size(), std::size_t{1});
        QCOMPARE(land.parts.front().holes.size(), std::size_t{1});
        const auto enclosed = airspace::outline(fenceNamed(m_set, "Parcel 17, no consent"), m_set.sites);
        const auto& corners = enclosed.parts.front().shell.corners;
        model::Position middle;
        for (const model::Position& corner : corners)
            middle = {middle.lon + corner.lon / static_cast<double>(corners.size()),
                      middle.lat + corner.lat / static_cast<double>(corners.size())};
        QVERIFY(geometry::contains(enclosed, middle));
        QVERIFY(!geometry::contains(land, middle));
        // Four parcels of the land record.
        QCOMPARE(std::get<model::ParcelUnion>(fenceNamed(m_set, "Utility land").shape).parcels.size(), std::size_t{4});
    }
    void nest_keepsAQuarterMileAndItsError() {
        const auto outline = airspace::outline(fenceNamed(m_set, "Osprey nest"), m_set.sites);
        const auto nest = std::get<model::Position>(m_set.sites[0].geometry);
        for (const auto& corner : outline.parts.front().shell.corners)
            QVERIFY(geodesy::inverse(nest, corner).length.inMetres() >= 402.336 + 5);
        for (const model::Home& home : m_set.homes)
            QVERIFY(geodesy::inverse(nest, home.place).length.inMetres() >
                    402.336 + 5 + home.landingRadius.length.inMetres());
    }
    void audit_findsOnlyTheFenceWithoutBasis_data() {
        QTest::addColumn<int>("month");
        for (const int month : {1, 5, 7, 11})
            QTest::addRow("month %d", month) << month;
    }
    void audit_findsOnlyTheFenceWithoutBasis() {
        QFETCH(int, month);
        using namespace std::chrono;
        const auto result = auditOn(year{2026} / std::chrono::month{static_cast<unsigned>(month)} / 14);
        QCOMPARE(rulesOf(result), (std::set<std::string>{"basis.missing"}));
        QCOMPARE(result.findings.size(), std::size_t{1});
        QCOMPARE(result.operatingArea.parts.size(), std::size_t{1});
        for (const model::Home& home : m_set.homes)
            QVERIFY(geometry::contains(result.operatingArea, home.place));
    }
    void nest_closesMoreInItsSeason() {
        using namespace std::chrono;
        const auto winter = geodesy::measure(auditOn(year{2026} / January / 14).operatingArea).area;
        const auto spring = geodesy::measure(auditOn(year{2026} / May / 14).operatingArea).area;
        // A circle of 407.336 m: pi r^2.
        QCOMPARE_LE(std::abs((winter.inSquareMetres() - spring.inSquareMetres()) / (M_PI * 407.336 * 407.336) - 1),
                    2e-3);
    }
    void scenario_isTheSameEachTime() { QVERIFY(alder_reach::makeFenceSet(alder_reach::makeScene()) == m_set); }

    void olderFences_holdTheirPlantedFaults() {
        const QTemporaryDir folder;
        alder_reach::writeOlderFences(m_scene, folder.filePath("older-fences.geojson").toStdString());
        const QString cli = QStringLiteral(FENCEWRIGHT_BUILD "/bin/fencewright-cli");
        const QString older = folder.filePath("older-fences.geojson");
        const auto run = [&](const QStringList& arguments) {
            QProcess process;
            process.start(cli, arguments);
            process.waitForFinished(60'000);
            return QString::fromUtf8(process.readAllStandardOutput() + process.readAllStandardError());
        };
        const QString document = folder.filePath("older.gpkg");
        const QString created = run({"create", document, "--keep-in", older, "--where", "kind = 'keep-in'",
                                     "--keep-out", older, "--where", "kind = 'keep-out'"});
        const QString said = run({"audit", document, "--date", "2026-05-14"});
        for (const char* rule :
             {"ring.self-crossing", "ring.closure-assumed", "ring.spike", "hole.outside-shell", "fence.duplicate",
              "basis.missing", "ring.repeated-corner", "band.ceiling-not-above-floor", "fence.tiny-area",
              "keep-out.no-effect", "home.missing"})
            QVERIFY2(said.contains(rule), qPrintable(QString{rule} + " is not among: " + created + said));
    }
};

QTEST_GUILESS_MAIN(AlderReachTest)
#include "alder_reach_test.moc"
