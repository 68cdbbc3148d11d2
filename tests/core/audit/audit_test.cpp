#include "audit/audit.h"

#include "model/edit.h"

#include <QtTest>

#include <cmath>
#include <limits>
#include <random>

using namespace fencewright;

namespace {

const airspace::Moment kMoment{std::chrono::year{2026} / 6 / 1, {}};

model::Ring star(model::Position centre, double reach, int corners, std::mt19937_64& random) {
    std::uniform_real_distribution<double> share(0.7, 1.0);
    model::Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * M_PI * i / corners, radius = reach * share(random);
        ring.corners.push_back({centre.lon + radius * std::cos(angle), centre.lat + radius * std::sin(angle)});
    }
    return ring;
}

model::Fence fence(std::string id, model::FenceKind kind, model::Shape shape) {
    model::Fence result;
    result.name = "Fence " + id;
    result.id = {std::move(id)};
    result.kind = kind;
    result.shape = std::move(shape);
    return result;
}

/// A set in which every second thing is wrong somehow, or depends on another, and edits of it.
class ChangingSet {
public:
    explicit ChangingSet(std::uint64_t seed) : m_random{seed} {
        set.fences.append(
            fence("land", model::FenceKind::KeepIn, model::DrawnPolygon{{star({8.7, 46.2}, 0.01, 20, m_random), {}}}));
        for (int i = 0; i < 3; ++i)
            set.sites.append(site(i));
        for (int i = 0; i < 8; ++i)
            set.fences.append(any());
        set.homes.append(home());
    }
    void change() {
        const auto at = one(set.fences.size());
        if (one(5) == 0) { // a margin, now and then one that cannot be computed
            set.margin.emplace();
            set.margin->positionError = {Length::metres(double(one(60))), ""};
            set.margin->speed = {Speed::metresPerSecond(one(8) == 0 ? 10.0 : 0.0), ""};
        } else if (one(9) == 0) {
            set.margin.reset();
        }
        switch (one(10)) {
        case 0:
            set.fences.append(any());
            return;
        case 1:
            if (set.fences.size() > 1)
                set.fences.erase(at);
            return;
        case 2:
            set.sites.replace(one(3), std::make_shared<const model::Site>(site(int(one(3)))));
            return;
        case 3:
            set.homes.replace(0, std::make_shared<const model::Home>(home()));
            return;
        case 4:
            moment.date = std::chrono::year{2026} / std::chrono::month(unsigned(1 + one(12))) / 14;
            return;
        case 5: {
            model::Fence edited = set.fences[at];
            edited.enabled = !edited.enabled;
            set.fences.replace(at, std::make_shared<const model::Fence>(edited));
            return;
        }
        default: {
            model::Fence edited = any();
            edited.id = set.fences[at].id;
            edited.kind = set.fences[at].kind;
            set.fences.replace(at, std::make_shared<const model::Fence>(edited));
        }
        }
    }

    model::FenceSet set;
    airspace::Moment moment = kMoment;

private:
    std::size_t one(std::size_t of) { return m_random() % of; }
    model::Position place() {
        std::uniform_real_distribution<double> off(-0.012, 0.012);
        return {8.7 + off(m_random), 46.2 + off(m_random)};
    }
    model::Fence any() {
        const auto kind = one(6) == 0 ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
        const auto shape = [&]() -> model::Shape {
            switch (one(6)) {
            case 0:
                return model::Circle{place(), {Length::metres(double(one(200))), ""}};
            case 1:
                return model::Setback{{"site " + std::to_string(one(4))}, {Length::metres(80), ""}};
            case 2: // crosses itself, most often
                return model::DrawnPolygon{{{{place(), place(), place(), place()}}, {}}};
            case 3: { // a spike
                const auto tip = place(), foot = place();
                return model::DrawnPolygon{{{{foot, place(), tip, foot, tip}}, {}}};
            }
            default:
                return model::DrawnPolygon{{star(place(), 0.002, 12, m_random), {}}};
            }
        };
        model::Fence made = fence(std::to_string(++m_last), kind, shape());
        made.name = "Fence " + std::to_string(one(20));
        if (one(3) == 0)
            made.period.season = model::Season{std::chrono::March / 1, std::chrono::July / 31};
        if (one(4) == 0)
            made.band = {model::HeightLimit{{Length::metres(90), ""}, model::HeightReference::Ground},
                         model::HeightLimit{{Length::metres(double(one(180))), ""}, model::HeightReference::Ground}};
        return made;
    }
    model::Site site(int number) {
        model::Site made;
        made.id = {"site " + std::to_string(number)};
        made.name = "Site";
        made.geometry = place();
        return made;
    }
    model::Home home() {
        model::Home made;
        made.id = {"home"};
        made.name = "Dam crest";
        made.place = place();
        made.landingRadius = {Length::metres(30), ""};
        return made;
    }

    std::mt19937_64 m_random;
    int m_last = 0;
};

/// All that a finding says, its repair by what it would leave.
std::string said(const audit::Finding& finding, const model::FenceSet& set) {
    std::string words = finding.rule + "|" + std::to_string(int(finding.severity)) + "|" +
                        (finding.fence ? finding.fence->value : "") + "|" + (finding.home ? finding.home->value : "") +
                        "|" + finding.words.english() + "|" + finding.remedy.english();
    if (finding.place)
        words += "|" + std::to_string(finding.place->lon) + " " + std::to_string(finding.place->lat);
    if (finding.repair) {
        const auto repaired = model::applied(set, *finding.repair);
        words += "|" + finding.repair->title.english();
        for (const auto& one : repaired.fences)
            if (const auto* drawn = std::get_if<model::DrawnPolygon>(&one.shape))
                for (const auto& corner : drawn->polygon.shell.corners)
                    words += " " + std::to_string(corner.lon) + " " + std::to_string(corner.lat);
    }
    return words;
}

} // namespace

class AuditTest : public QObject {
    Q_OBJECT

private slots:
    void audit_ofNothingFindsNothing() {
        const auto result = audit::audit({}, kMoment, {});
        QVERIFY(result.findings.empty() && result.operatingArea.empty());
    }

    void audit_putsErrorsFirstAndSharesWhatItComputed() {
        std::mt19937_64 random{1};
        model::FenceSet set;
        set.fences.append(
            fence("land", model::FenceKind::KeepIn, model::DrawnPolygon{{star({8.7, 46.2}, 0.01, 50, random), {}}}));
        set.fences.append(
            fence("gone", model::FenceKind::KeepOut, model::Setback{{"nobody"}, {Length::metres(50), ""}}));
        const auto result = audit::audit(set, kMoment, {});
        QCOMPARE(result.outlines.size(), std::size_t{2});
        QVERIFY(!result.operatingArea.empty());
        QCOMPARE(result.count(audit::Severity::Error), std::size_t{2}); // the site that is gone, and no home
        QCOMPARE(result.count(audit::Severity::Doubt), std::size_t{3}); // two without basis, and no margin
        for (std::size_t i = 1; i < result.findings.size(); ++i)
            QVERIFY(result.findings[i - 1].severity >= result.findings[i].severity);
    }

    void audit_leavesDisabledFencesAlone() {
        model::FenceSet set;
        auto bad = fence("bad", model::FenceKind::KeepOut, model::Circle{{8.7, 46.2}, {Length::metres(-5), ""}});
        bad.enabled = false;
        set.fences.append(bad);
        for (const auto& finding : audit::audit(set, kMoment, {}).findings)
            QVERIFY(!finding.fence.has_value());
    }

    void audit_canBeCancelled() {
        std::mt19937_64 random{1};
        model::FenceSet set;
        set.fences.append(
            fence("land", model::FenceKind::KeepIn, model::DrawnPolygon{{star({8.7, 46.2}, 0.01, 50, random), {}}}));
        const Progress progress{[](double, std::string_view) { return false; }};
        QVERIFY_EXCEPTION_THROWN((void)audit::audit(set, kMoment, {}, progress), Cancelled);
    }

    void auditWithAMemory_afterRandomEdits_answersWhatAFreshOneAnswers() {
        std::size_t findings = 0, repairs = 0, clear = 0;
        for (std::uint64_t seed = 1; seed <= 170; ++seed) {
            ChangingSet changing{seed};
            audit::AuditMemory memory;
            for (int round = 0; round < 6; ++round) {
                const auto result = audit::audit(changing.set, changing.moment, {}, memory);
                const auto fresh = audit::audit(changing.set, changing.moment, {});
                QVERIFY2(result.operatingArea == fresh.operatingArea && result.area == fresh.area,
                         qPrintable(QString{"seed %1, round %2"}.arg(seed).arg(round)));
                QVERIFY2(result.clearArea == fresh.clearArea && result.clear == fresh.clear,
                         qPrintable(QString{"seed %1, round %2"}.arg(seed).arg(round)));
                QCOMPARE(result.clearArea.has_value(), changing.set.margin.has_value());
                clear += result.clearArea && !result.clearArea->empty() ? 1 : 0;
                QCOMPARE(result.findings.size(), fresh.findings.size());
                for (std::size_t i = 0; i < fresh.findings.size(); ++i) {
                    QVERIFY2(said(result.findings[i], changing.set) == said(fresh.findings[i], changing.set),
                             qPrintable(QString{"seed %1, round %2: %3 instead of %4"}
                                            .arg(seed)
                                            .arg(round)
                                            .arg(said(result.findings[i], changing.set).c_str())
                                            .arg(said(fresh.findings[i], changing.set).c_str())));
                    repairs += fresh.findings[i].repair ? 1 : 0;
                }
                findings += fresh.findings.size();
                for (int edits = 1 + int(seed % 3); edits > 0; --edits)
                    changing.change();
            }
        }
        QVERIFY(findings > 5000 && repairs > 100 && clear > 100);
    }

    void auditWithAMemory_cancelledAtAnyTime_answersTheSameAfterwards() {
        ChangingSet changing{5};
        const auto fresh = audit::audit(changing.set, changing.moment, {});
        audit::AuditMemory memory;
        for (int allowed = 0; allowed < 60; ++allowed) {
            int calls = 0;
            const Progress impatient{[&](double, std::string_view) { return ++calls <= allowed; }};
            try {
                (void)audit::audit(changing.set, changing.moment, {}, memory, impatient);
            } catch (const Cancelled&) {
            }
        }
        const auto result = audit::audit(changing.set, changing.moment, {}, memory);
        QCOMPARE(result.findings.size(), fresh.findings.size());
        QVERIFY(result.operatingArea == fresh.operatingArea);
    }

    // Whatever is in a set becomes findings, never an exception; and every fence that is bad in a way that is known
    // gets an error.
    void audit_neverThrowsForWhatIsInTheSet() {
        const double nan = std::numeric_limits<double>::quiet_NaN(), infinite = std::numeric_limits<double>::infinity();
        // Near or impossible, not far: outlines of shapes thousands of kilometres long take seconds.
        const std::vector<double> numbers{89.5, -91.0, 541.0, -1e9, nan, infinite, 1e300};
        for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
            std::mt19937_64 random{seed};
            const auto one = [&](std::size_t of) {
                return std::uniform_int_distribution<std::size_t>(0, of - 1)(random);
            };
            const auto place = [&]() -> model::Position {
                if (one(8) != 0)
                    return {8.7 + 0.001 * static_cast<double>(one(9)), 46.2 + 0.001 * static_cast<double>(one(9))};
                return {one(2) ? 8.7 : numbers[one(numbers.size())], numbers[one(numbers.size())]};
            };
            const auto ring = [&] {
                model::Ring result;
                for (auto corners = one(6); corners > 0; --corners)
                    result.corners.push_back(place());
                result.closureAssumed = one(4) == 0;
                return result;
            };
            const auto polygon = [&] {
                model::Polygon result{ring(), {}};
                for (auto holes = one(3); holes > 0; --holes)
                    result.holes.push_back(ring());
                return result;
            };
            const auto length = [&]() -> StatedLength {
                const std::vector<double> metres{0.0, -1.0, 50.0, 3e5, nan, infinite};
                return {Length::metres(metres[one(metres.size())]), ""};
            };
            model::FenceSet set;
            for (std::size_t i = 0; i < 4; ++i) {
                model::Shape shape;
                switch (one(5)) {
                case 0:
                    shape = model::DrawnPolygon{polygon()};
                    break;
                case 1:
                    shape = model::Circle{place(), length()};
                    break;
                case 2:
                    shape = model::Corridor{ring().corners, length(), length()};
                    break;
                case 3:
                    shape = model::Setback{{one(2) ? "site" : "gone"}, length()};
                    break;
                default:
                    shape = model::ParcelUnion{{{"1", {{polygon(), polygon()}}}, {"2", {}}}, length()};
                }
                auto added =
                    fence(std::to_string(i), one(2) ? model::FenceKind::KeepIn : model::FenceKind::KeepOut, shape);
                if (one(3) == 0)
                    added.band.ceiling = model::HeightLimit{length(), one(2) ? model::HeightReference::Ground
                                                                             : model::HeightReference::MeanSeaLevel};
                if (one(3) == 0)
                    added.band.floor = model::HeightLimit{length(), model::HeightReference::Ellipsoid};
                set.fences.append(std::move(added));
            }
            model::Site site;
            site.id = {"site"};
            if (one(2))
                site.geometry = polygon();
            else
                site.geometry = place();
            set.sites.append(site);
            model::Home home;
            home.id = {"home"};
            home.place = place();
            home.landingRadius = length();
            set.homes.append(home);
            auto moment = kMoment;
            if (one(2))
                moment.height = model::HeightLimit{{Length::metres(50), ""}, model::HeightReference::Ground};
            try {
                const auto result = audit::audit(set, moment, {});
                for (const auto& finding : result.findings) {
                    QVERIFY(!finding.words.empty() && !finding.remedy.empty() && !finding.rule.empty());
                    if (finding.place)
                        QVERIFY(std::isfinite(finding.place->lon) && std::isfinite(finding.place->lat));
                    if (finding.repair)
                        (void)model::applied(set, *finding.repair);
                }
                for (const auto& one_ : set.fences)
                    if (!result.outlines.contains(one_.id))
                        QVERIFY(result.count(audit::Severity::Error) > 0);
            } catch (const std::exception& exception) {
                QFAIL(qPrintable(QString{"seed %1: %2"}.arg(seed).arg(exception.what())));
            }
        }
    }
};

QTEST_APPLESS_MAIN(AuditTest)
#include "audit_test.moc"
