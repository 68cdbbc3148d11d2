#include "desktop/tools/leg.h"

#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;

class LegTest : public QObject {
    Q_OBJECT

private slots:
    void parseLeg_tellsDistanceFromBearing_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("metres");
        QTest::addColumn<double>("bearing"); // negative: none
        // Units by definition: foot 0.3048 m, statute mile 1609.344 m, chain 20.1168 m (NIST SP 811, appendix B).
        QTest::newRow("metres and bearing") << "120 m 45" << 120.0 << 45.0;
        QTest::newRow("bare numbers") << "120 45" << 120.0 << 45.0;
        QTest::newRow("degree sign") << "120 m 45.5°" << 120.0 << 45.5;
        QTest::newRow("fraction of a mile") << "1/4 mi 274.25" << 402.336 << 274.25;
        QTest::newRow("distance alone") << "120 m" << 120.0 << -1.0;
        QTest::newRow("bare distance") << "120" << 120.0 << -1.0;
        QTest::newRow("mixed number alone") << "1 1/2 mi" << 2414.016 << -1.0;
        QTest::newRow("mixed number and bearing") << "1 1/2 mi 90" << 2414.016 << 90.0;
        QTest::newRow("chains") << "20 ch 0" << 402.336 << 0.0;
        QTest::newRow("full turn") << " 10 ft  360 " << 3.048 << 360.0;
    }
    void parseLeg_tellsDistanceFromBearing() {
        QFETCH(QString, text);
        QFETCH(double, metres);
        QFETCH(double, bearing);
        const Leg leg = parseLeg(text.toStdString(), units::System::Metric);
        QCOMPARE_LE(std::abs(leg.length.length.inMetres() - metres), 1e-9);
        QCOMPARE(leg.bearing ? leg.bearing->inDegrees() : -1.0, bearing);
    }

    void parseLeg_refuses_data() {
        QTest::addColumn<QString>("text");
        QTest::newRow("nothing") << "";
        QTest::newRow("a bearing of 361") << "120 m 361";
        QTest::newRow("a negative bearing") << "120 m -5";
        QTest::newRow("coordinates without a comma") << "46.208844 8.733936";
        QTest::newRow("words") << "towards 120";
    }
    void parseLeg_refuses() {
        QFETCH(QString, text);
        QVERIFY_EXCEPTION_THROWN(parseLeg(text.toStdString(), units::System::Metric), Fault);
    }

    void typedPlace_isTold_fromAQuadrantBearing_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("latitude"); // negative: none
        QTest::addColumn<double>("longitude");
        QTest::newRow("a distance with its unit") << "N 45 E 120 m" << -1.0 << -1.0;
        QTest::newRow("coordinates to a metre") << "N 46.20884 E 8.73394" << 46.20884 << 8.73394;
        QTest::newRow("degree signs") << "N 46.2° E 8.7°" << 46.2 << 8.7;
        QTest::newRow("degrees and minutes") << "N 46 12 30 E 8 44 2" << 46.208333333333336 << 8.733888888888889;
        QTest::newRow("letters behind") << "46.2 N, 8.7 E" << 46.2 << 8.7;
        QTest::newRow("a sign") << "46.2088 -8.7339" << 46.2088 << -8.7339;
    }
    void typedPlace_isTold_fromAQuadrantBearing() {
        QFETCH(QString, text);
        QFETCH(double, latitude);
        QFETCH(double, longitude);
        const auto place = typedPlace(text.toStdString());
        QCOMPARE(place.has_value(), latitude >= 0.0);
        if (place) {
            QCOMPARE_LE(std::abs(place->lat - latitude), 1e-12);
            QCOMPARE_LE(std::abs(place->lon - longitude), 1e-12);
        }
    }
    void typedPlace_refusesWhatMayBeEither_data() {
        QTest::addColumn<QString>("text");
        QTest::newRow("whole numbers") << "N 45 E 120";
        QTest::newRow("one of them precise") << "N 45.5 E 120.1234";
        QTest::newRow("minutes and a bare number") << "S 12°30' E 120";
    }
    void typedPlace_refusesWhatMayBeEither() {
        QFETCH(QString, text);
        QVERIFY_EXCEPTION_THROWN(typedPlace(text.toStdString()), Fault);
    }

    void typedLeg_readsDirectionsAndTurns_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("metres"); // negative: none, and so below
        QTest::addColumn<double>("bearing");
        QTest::addColumn<double>("turn");
        QTest::newRow("bearing alone") << "<45" << -1.0 << 45.0 << 999.0;
        QTest::newRow("bearing alone, b") << "b 274.5" << -1.0 << 274.5 << 999.0;
        QTest::newRow("quadrant bearing alone") << "S 68°30' W" << -1.0 << 248.5 << 999.0;
        QTest::newRow("turn alone") << "90 right" << -1.0 << -1.0 << 90.0;
        QTest::newRow("turn with a distance") << "120 m 45.5 left" << 120.0 << -1.0 << -45.5;
        QTest::newRow("turn by a letter") << "200 ft 30 r" << 60.96 << -1.0 << 30.0;
        QTest::newRow("leg as ever") << "120 m 45" << 120.0 << 45.0 << 999.0;
        QTest::newRow("course of a deed") << "N 45 E 100 ft" << 30.48 << 45.0 << 999.0;
        QTest::newRow("distance alone") << "1/4 mi" << 402.336 << -1.0 << 999.0;
    }
    void typedLeg_readsDirectionsAndTurns() {
        QFETCH(QString, text);
        QFETCH(double, metres);
        QFETCH(double, bearing);
        QFETCH(double, turn);
        const TypedLeg leg = parseTypedLeg(text.toStdString(), units::System::Metric);
        QCOMPARE_LE(std::abs((leg.length ? leg.length->length.inMetres() : -1.0) - metres), 1e-9);
        QCOMPARE_LE(std::abs((leg.bearing ? leg.bearing->inDegrees() : -1.0) - bearing), 1e-9);
        QCOMPARE(leg.turn ? leg.turn->inDegrees() : 999.0, turn);
    }
    void typedLeg_refuses_data() {
        QTest::addColumn<QString>("text");
        QTest::newRow("no number") << "<";
        QTest::newRow("over a turn") << "<361";
        QTest::newRow("a side alone") << "left";
        QTest::newRow("words before a turn") << "far 90 right";
    }
    void typedLeg_refuses() {
        QFETCH(QString, text);
        QVERIFY_EXCEPTION_THROWN(parseTypedLeg(text.toStdString(), units::System::Metric), Fault);
    }
};

QTEST_GUILESS_MAIN(LegTest)
#include "leg_test.moc"
