#include "airspace/activity.h"

#include <QtTest>

#include <chrono>

using namespace fencewright;
using namespace std::chrono;
using model::Date;
using model::HeightReference;
using model::Season;

namespace {

const geodesy::GroundHeight kNoGround = [](model::Position) { return std::optional<Length>{}; };
const geodesy::GroundHeight kFlatGround = [](model::Position) { return std::optional{Length::metres(300)}; };

model::HeightLimit limit(double metres, HeightReference reference) { return {{Length::metres(metres), ""}, reference}; }

int daysInYear(const Season& season, int year) {
    int count = 0;
    for (auto day = sys_days{std::chrono::year{year} / 1 / 1}; Date{day}.year() == std::chrono::year{year};
         day += days{1})
        count += airspace::inSeason(season, Date{day});
    return count;
}

Date date(const char* text) { return model::parseIsoDate(text).value(); }

} // namespace

Q_DECLARE_METATYPE(Season)

class ActivityTest : public QObject {
    Q_OBJECT

private slots:
    // Raptor seasons: State of Colorado, Division of Reclamation, Mining and Safety, document 948905, page 28, Table 10
    // ("Timing and buffer recommendations for active raptor nests"). The counts of days are by the calendar.
    void season_hasItsDays_data() {
        QTest::addColumn<Season>("season");
        QTest::addColumn<int>("daysOfCommonYear");
        QTest::newRow("bald eagle, 15 Oct to 31 Jul") << Season{October / 15, July / 31} << 290;
        QTest::newRow("golden eagle, 15 Dec to 15 Jul") << Season{December / 15, July / 15} << 213;
        QTest::newRow("osprey, 1 Apr to 31 Aug") << Season{April / 1, August / 31} << 153;
        QTest::newRow("a day") << Season{May / 14, May / 14} << 1;
        QTest::newRow("all year") << Season{} << 365;
        QTest::newRow("all year, from the middle of it") << Season{July / 1, June / 30} << 365;
    }
    void season_hasItsDays() {
        QFETCH(Season, season);
        QFETCH(int, daysOfCommonYear);
        QCOMPARE(daysInYear(season, 2025), daysOfCommonYear);
        const bool leap = airspace::inSeason(season, date("2024-02-29"));
        QCOMPARE(daysInYear(season, 2024), daysOfCommonYear + (leap ? 1 : 0));
    }

    void season_runsOverTheTurnOfTheYear_bothEndsIncluded() {
        const Season eagle{October / 15, July / 31};
        for (const char* day : {"2025-10-15", "2025-12-31", "2026-01-01", "2024-02-29", "2026-07-31"})
            QVERIFY2(airspace::inSeason(eagle, date(day)), day);
        for (const char* day : {"2026-08-01", "2025-10-14", "2025-09-01"})
            QVERIFY2(!airspace::inSeason(eagle, date(day)), day);
    }

    void season_toLeapDay_endsOn28FebruaryOfCommonYears() {
        const Season winter{December / 1, February / 29};
        QVERIFY(airspace::inSeason(winter, date("2024-02-29")));
        QVERIFY(airspace::inSeason(winter, date("2025-02-28")));
        QVERIFY(!airspace::inSeason(winter, date("2025-03-01")));
        QVERIFY(!airspace::inSeason(winter, date("2024-03-01")));
    }

    void period_needsDatesAndSeason() {
        model::ActivePeriod period{date("2026-05-14"), date("2027-05-14"), Season{April / 1, August / 31}};
        QVERIFY(!airspace::inPeriod(period, date("2026-05-13")));
        QVERIFY(airspace::inPeriod(period, date("2026-05-14")));
        QVERIFY(!airspace::inPeriod(period, date("2026-09-01")));
        QVERIFY(airspace::inPeriod(period, date("2027-05-14")));
        QVERIFY(!airspace::inPeriod(period, date("2027-05-15")));
        QVERIFY(airspace::inPeriod({}, date("1900-01-01")));
        period.from.reset();
        QVERIFY(airspace::inPeriod(period, date("1999-04-01")));
    }

    void nextChange_isTheFirstDayThatDiffers() {
        const model::ActivePeriod osprey{{}, {}, Season{April / 1, August / 31}};
        QCOMPARE(airspace::nextChange(osprey, date("2026-01-01")), std::optional{date("2026-04-01")});
        QCOMPARE(airspace::nextChange(osprey, date("2026-04-01")), std::optional{date("2026-09-01")});
        QCOMPARE(airspace::nextChange(osprey, date("2026-08-31")), std::optional{date("2026-09-01")});
        QCOMPARE(airspace::nextChange({}, date("2026-01-01")), std::optional<Date>{});
        const model::ActivePeriod later{date("2030-01-01"), {}, {}};
        QCOMPARE(airspace::nextChange(later, date("2026-01-01")), std::optional<Date>{});
        QCOMPARE(airspace::nextChange(later, date("2028-06-01")), std::optional{date("2030-01-01")});
    }

    void meetsHeight_comparesWithinOneReference_withoutGround() {
        model::Fence fence;
        fence.band = {limit(50, HeightReference::Ground), limit(120, HeightReference::Ground)};
        for (const auto kind : {model::FenceKind::KeepIn, model::FenceKind::KeepOut}) {
            fence.kind = kind;
            const auto meets = [&](double metres) {
                return airspace::meetsHeight(fence, limit(metres, HeightReference::Ground), {}, kNoGround);
            };
            QVERIFY(!meets(49.9) && meets(50) && meets(80) && meets(120) && !meets(120.1));
            QVERIFY(airspace::meetsHeight(fence, std::nullopt, {}, kNoGround));
        }
    }

    void meetsHeight_errsToTheSafeSide_whereTheGroundIsNotKnown() {
        model::Fence fence;
        fence.band = {limit(50, HeightReference::Ground), limit(1000, HeightReference::Ellipsoid)};
        const auto meets = [&](double metres, const geodesy::GroundHeight& ground) {
            return airspace::meetsHeight(fence, limit(metres, HeightReference::Ellipsoid), {10, 50}, ground);
        };
        fence.kind = model::FenceKind::KeepOut;
        QVERIFY(meets(320, kNoGround));
        QVERIFY(!meets(1001, kNoGround)); // above its ceiling for certain
        QVERIFY(!meets(349, kFlatGround));
        QVERIFY(meets(351, kFlatGround));
        fence.kind = model::FenceKind::KeepIn;
        QVERIFY(!meets(320, kNoGround));
        QVERIFY(!meets(349, kFlatGround));
        QVERIFY(meets(351, kFlatGround));
    }

    void isActive_needsAllThree() {
        model::Fence fence;
        fence.period.season = Season{April / 1, August / 31};
        fence.band.ceiling = limit(120, HeightReference::Ground);
        const airspace::Moment moment{date("2026-05-14"), limit(100, HeightReference::Ground)};
        QVERIFY(airspace::isActive(fence, moment, {}, kNoGround));
        fence.enabled = false;
        QVERIFY(!airspace::isActive(fence, moment, {}, kNoGround));
        fence.enabled = true;
        QVERIFY(!airspace::isActive(fence, {date("2026-10-14"), moment.height}, {}, kNoGround));
        QVERIFY(!airspace::isActive(fence, {moment.date, limit(121, HeightReference::Ground)}, {}, kNoGround));
    }
};

QTEST_APPLESS_MAIN(ActivityTest)
#include "activity_test.moc"
