#include "app/desktop/window_probe.h"
#include "desktop/canvas/map_canvas.h"

#include "audit/audit.h"
#include "geometry/containment.h"
#include "model/margin.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = 8.7, kLat = 46.2;

/// A window with a keep-in of some 900 by 900 m and a keep-out in its middle.
class Land : public WindowProbe {
public:
    Land() {
        look(kLon, kLat, 0.006);
        square("tool_keepin", kLon, kLat, 0.004);
        square("tool_keepout", kLon, kLat, 0.001);
        QTest::mouseClick(find<QWidget>("tool_select"), Qt::LeftButton);
        (void)settle();
    }
    QDialog* open() {
        map().setFocus();
        key(Qt::Key_M, Qt::ControlModifier);
        return waitForDialog<QDialog>("marginDialog");
    }
    void fill(QDialog* dialog, const QStringList& figures) {
        const char* names[] = {"marginError",        "marginSpeed",     "marginReaction",
                               "marginDeceleration", "marginAllowance", "marginBasis"};
        for (qsizetype i = 0; i < figures.size(); ++i)
            type(dialog, names[i], figures[i]);
    }
    QString said(QDialog* dialog) { return dialog->findChild<QLabel*>("marginWords")->text(); }
    std::optional<model::MultiPolygon> clear() { return window->audit().result()->clearArea; }
    bool found(const char* rule) {
        const auto& findings = window->audit().result()->findings;
        return std::any_of(findings.begin(), findings.end(), [&](const auto& one) { return one.rule == rule; });
    }
    /// The map as it stays.
    QImage picture() {
        (void)settle();
        QImage image;
        for (int i = 0; i < 60; ++i) {
            QTest::qWait(30);
            const QImage now = map().grab().toImage();
            if (now == image)
                break;
            image = now;
        }
        return image;
    }
};

bool fits(const audit::AuditResult& result, const model::FenceSet& set, const airspace::Moment& moment) {
    const auto fresh = audit::audit(set, moment, {});
    return result.clearArea == fresh.clearArea && result.operatingArea == fresh.operatingArea;
}

} // namespace

class MarginTest : public QObject {
    Q_OBJECT

private slots:
    void aMargin_isStated_shownOnTheMap_andHidden() {
        Land land;
        QVERIFY(land.found("margin.missing"));
        QVERIFY(!land.clear());
        const QImage without = land.picture();
        QDialog* dialog = land.open();
        QVERIFY(dialog);
        QVERIFY(!dialog->findChild<QPushButton*>("marginGo")->isEnabled());
        land.fill(dialog, {"3 m", "12 m/s", "1,5 s", "4 m/s2", "", "The maker's manual"});
        QVERIFY2(land.said(dialog).contains("keeps 39.0 m (128 ft)"), qPrintable(land.said(dialog)));
        QTest::keyClick(dialog->findChild<QLineEdit*>("marginBasis"), Qt::Key_Return);
        QVERIFY(land.set().margin.has_value());
        QCOMPARE(model::distances(*land.set().margin).total, Length::metres(39));
        QCOMPARE(land.set().margin->basis, "The maker's manual");
        QVERIFY(land.settle());
        QVERIFY(land.clear() && land.clear()->parts.size() == 1 && land.clear()->parts.front().holes.size() == 1);
        QVERIFY(!land.found("margin.missing"));
        QVERIFY(land.find<QLabel>("operatingArea")->text().contains("Clear area"));

        // A row of dots, and nothing else, is new on the map.
        const QImage with = land.picture();
        int changed = 0;
        for (int y = 0; y < with.height(); ++y)
            for (int x = 0; x < with.width(); ++x)
                changed += with.pixel(x, y) != without.pixel(x, y) ? 1 : 0;
        QVERIFY2(changed > 1'000 && changed < with.width() * with.height() / 20, qPrintable(QString::number(changed)));
        land.find<QAction>("clearArea")->trigger();
        QVERIFY(land.picture() == without);
        land.find<QAction>("clearArea")->trigger();
        QVERIFY(land.picture() == with);
    }

    void aSlip_isUndone_andAMarginTakenBack() {
        Land land;
        const model::FenceSet before = land.set();
        QDialog* dialog = land.open();
        QVERIFY(dialog);
        land.fill(dialog, {"3 m", "12 m/s", "1 s", "4 m/s²", "2 m", "Judgement"});
        land.clickIn(dialog, "marginGo");
        const model::FenceSet stated = land.set();
        dialog = land.open();
        QVERIFY(dialog);
        QCOMPARE(dialog->findChild<QLineEdit*>("marginSpeed")->text(), "12 m/s");
        land.type(dialog, "marginSpeed", "120 m/s"); // a slip: nothing is left to fly in
        land.clickIn(dialog, "marginGo");
        QVERIFY(land.settle());
        QVERIFY(land.found("clear-area.empty"));
        land.map().setFocus();
        land.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(land.set() == stated);
        QVERIFY(land.settle());
        QVERIFY(!land.found("clear-area.empty"));
        // Escape leaves it as it was, and so does stating it again unchanged.
        dialog = land.open();
        QVERIFY(dialog);
        land.type(dialog, "marginSpeed", "1 m/s");
        QTest::keyClick(dialog, Qt::Key_Escape);
        QVERIFY(land.set() == stated);
        const int steps = land.document().undoStack().count();
        dialog = land.open();
        QVERIFY(dialog);
        land.clickIn(dialog, "marginGo");
        QCOMPARE(land.document().undoStack().count(), steps);
        dialog = land.open();
        QVERIFY(dialog);
        land.clickIn(dialog, "marginBack");
        QVERIFY(land.set() == before);
        land.map().setFocus();
        land.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(land.set() == stated);
    }

    void aMargin_isNotPutIntoAnotherDocument() {
        Land land;
        QDialog* dialog = land.open();
        QVERIFY(dialog);
        land.fill(dialog, {"3 m", "12 m/s", "1 s", "4 m/s²", "2 m", "Judgement"});
        land.document().startNew();
        land.clickIn(dialog, "marginGo");
        QVERIFY(!land.dialog());
        QVERIFY(land.set() == model::FenceSet{});
    }

    void figures_areReadInAnyUnit_andWhatIsWrongIsSaid() {
        Land land;
        land.window->settings().setUnitSystem(units::System::Us);
        QDialog* dialog = land.open();
        QVERIFY(dialog);
        land.fill(dialog, {"10 ft", "36 kn", "1.5", "0.5 g", "5", "Test flight of 3 May"});
        QVERIFY(dialog->findChild<QPushButton*>("marginGo")->isEnabled());
        land.type(dialog, "marginDeceleration", "0");
        QVERIFY2(land.said(dialog).contains("never stops"), qPrintable(land.said(dialog)));
        QVERIFY(!dialog->findChild<QPushButton*>("marginGo")->isEnabled());
        land.type(dialog, "marginDeceleration", "fast");
        QVERIFY2(land.said(dialog).contains("not a deceleration"), qPrintable(land.said(dialog)));
        land.type(dialog, "marginDeceleration", "0.5 g");
        land.type(dialog, "marginBasis", "");
        QVERIFY(!dialog->findChild<QPushButton*>("marginGo")->isEnabled());
        land.type(dialog, "marginBasis", "Test flight of 3 May");
        land.clickIn(dialog, "marginGo");
        QVERIFY(land.set().margin.has_value());
        const model::Margin& margin = *land.set().margin;
        QCOMPARE(margin.speed.asWritten, "36 kn");
        QCOMPARE(margin.allowance.asWritten, "5 ft");
        // 3.048 + 18.52 * 1.5 + 18.52^2 / (2 * 4.903325) + 1.524 = 67.327 m, by hand.
        QVERIFY(std::abs(model::distances(margin).total.inMetres() - 67.327) < 0.001);
    }

    // While a corner is dragged, and when it is let go, the clear area is that of the set as it is.
    void theClearArea_followsACornerThatIsDragged() {
        Land land;
        QDialog* dialog = land.open();
        QVERIFY(dialog);
        land.fill(dialog, {"3 m", "6 m/s", "1 s", "4 m/s²", "", "Judgement"});
        land.clickIn(dialog, "marginGo");
        QVERIFY(land.settle());
        land.map().setFocus();
        land.clickMap(kLon, kLat);
        const auto before = land.clear();
        const QPoint from = land.pixel(kLon + 0.001, kLat + 0.001);
        QTest::mousePress(&land.map(), Qt::LeftButton, Qt::NoModifier, from);
        for (int i = 1; i <= 8; ++i) {
            QTest::mouseMove(&land.map(), from + QPoint{6 * i, -4 * i});
            QVERIFY(land.settle());
            QVERIFY(fits(*land.window->audit().result(), land.set(), land.window->audit().moment()));
        }
        QTest::mouseRelease(&land.map(), Qt::LeftButton, Qt::NoModifier, from + QPoint{48, -32});
        QVERIFY(land.settle());
        QVERIFY(land.clear() != before);
        land.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(land.settle());
        QVERIFY(land.clear() == before);
    }
};

QTEST_MAIN(MarginTest)
#include "margin_test.moc"
