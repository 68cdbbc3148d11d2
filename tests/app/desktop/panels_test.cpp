#include "desktop/panels/command_search.h"
#include "desktop/panels/entry_notation.h"
#include "desktop/panels/form_grid.h"
#include "desktop/panels/ledger_model.h"
#include "desktop/panels/message_bar.h"
#include "desktop/panels/symbols.h"
#include "fault.h"

#include <QtTest>
#include <QtWidgets>

using namespace fencewright;
using namespace fencewright::desktop;
using std::chrono::year;

class PanelsTest : public QObject {
    Q_OBJECT

private slots:
    // What people write for a season and a day. Common practice, no published source; the ISO forms are ISO
    // 8601-1:2019.
    void season_isReadInSeveralForms_data() {
        QTest::addColumn<QString>("text");
        QTest::newRow("day first, dash") << "1 Apr – 31 Aug";
        QTest::newRow("hyphen between blanks") << "1 Apr - 31 Aug";
        QTest::newRow("in full, to") << "1 April to 31 August";
        QTest::newRow("month first") << "April 1 to August 31";
        QTest::newRow("ISO") << "04-01 to 08-31";
        QTest::newRow("dots and blanks") << " 1. apr. until  31. aug. ";
    }
    void season_isReadInSeveralForms() {
        QFETCH(QString, text);
        const auto season = seasonFrom(text);
        QVERIFY(season);
        QVERIFY(season->from == std::chrono::April / 1);
        QVERIFY(season->to == std::chrono::August / 31);
        QCOMPARE(seasonText(season), QString::fromUtf8("1 Apr – 31 Aug"));
        QVERIFY(seasonFrom(seasonText(season)) == season);
    }
    void season_thatIsNone_isRefused() {
        QVERIFY(!seasonFrom("  "));
        for (const char* text : {"summer", "1 Apr", "31 Sep – 1 Oct", "1 Foo – 2 Bar", "1 Apr – 31 Aug – 2 Sep"})
            QVERIFY_EXCEPTION_THROWN((void)seasonFrom(QString::fromUtf8(text)), Fault);
    }

    void date_isReadInTwoForms_andOthersAreRefused() {
        QVERIFY(dateFrom("2026-05-14") == year{2026} / 5 / 14);
        QVERIFY(dateFrom("14 May 2026") == year{2026} / 5 / 14);
        QVERIFY(!dateFrom(""));
        for (const char* text : {"2026-02-30", "31 June 2026", "tomorrow", "14.5.26"})
            QVERIFY_EXCEPTION_THROWN((void)dateFrom(text), Fault);
        QCOMPARE(dateWords(year{2026} / 5 / 14), QString{"14 May 2026"});
    }

    void length_keepsItsWords_andItsRange() {
        const StatedLength quarter = lengthFrom("1/4 mi", units::System::Metric, LengthRange::Positive);
        QCOMPARE(lengthText(quarter, units::System::Metric), QString{"1/4 mi"});
        QCOMPARE(lengthAside(quarter, units::System::Metric), QString{"402.336 m"});
        QVERIFY_EXCEPTION_THROWN((void)lengthFrom("0", units::System::Metric, LengthRange::Positive), Fault);
        QVERIFY_EXCEPTION_THROWN((void)lengthFrom("-1 m", units::System::Metric, LengthRange::NotNegative), Fault);
        QCOMPARE(lengthFrom("-12 m", units::System::Metric, LengthRange::Any).length.inMetres(), -12.0);
    }

    void band_isShownShort() {
        using model::HeightReference;
        model::HeightBand band;
        QCOMPARE(bandText(band), QString{"all heights"});
        band.ceiling = model::HeightLimit{{Length::metres(120), "120 m"}, HeightReference::Ground};
        QCOMPARE(bandText(band), QString::fromUtf8("0–120 m"));
        band.floor = model::HeightLimit{{Length::metres(30), "30 m"}, HeightReference::Ground};
        QCOMPARE(bandText(band), QString::fromUtf8("30–120 m"));
        band.floor->reference = HeightReference::MeanSeaLevel;
        QCOMPARE(bandText(band), QString::fromUtf8("30 m MSL–120 m"));
        band.ceiling.reset();
        QCOMPARE(bandText(band), QString{"from 30 m MSL"});
    }

    void form_commitsAtEnter_refusesInWords_andEscapeGivesBack() {
        FormGrid form;
        QString value = "first";
        FormField field;
        field.name = "field";
        field.label = "Field";
        field.read = [&] { return value; };
        field.write = [&](const QString& text) {
            if (text == "bad")
                throw Fault{"That is bad.", "", "Type something good."};
            value = text;
        };
        form.setFields({field});
        form.show();
        form.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&form));
        auto* edit = form.findChild<QLineEdit*>("field");
        auto* refusal = form.findChild<QLabel*>("fieldRefusal");
        QCOMPARE(edit->text(), QString{"first"});
        edit->setFocus();
        edit->selectAll();
        QTest::keyClicks(edit, "second");
        QCOMPARE(value, QString{"first"});
        QSignalSpy left{&form, &FormGrid::left};
        QTest::keyClick(edit, Qt::Key_Return);
        QCOMPARE(value, QString{"second"});
        QCOMPARE(left.size(), 1);
        edit->selectAll();
        QTest::keyClicks(edit, "bad");
        QTest::keyClick(edit, Qt::Key_Return);
        QCOMPARE(value, QString{"second"});
        QCOMPARE(left.size(), 1); // what was refused is to be mended first
        QVERIFY(refusal->isVisible());
        QCOMPARE(refusal->text(), QString{"That is bad. Type something good."});
        QCOMPARE(edit->text(), QString{"bad"}); // what was typed stays, to be mended
        QTest::keyClick(edit, Qt::Key_Escape);
        QCOMPARE(edit->text(), QString{"second"});
        QVERIFY(!refusal->isVisible());
        QCOMPARE(left.size(), 2);
    }

    void form_keepsWhatIsBeingTyped_whenAnotherValueComes() {
        FormGrid form;
        QString value = "first";
        FormField field;
        field.name = "field";
        field.read = [&] { return value; };
        field.write = [&](const QString& text) { value = text; };
        form.setFields({field});
        form.show();
        form.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&form));
        auto* edit = form.findChild<QLineEdit*>("field");
        edit->setFocus();
        QTest::keyClicks(edit, "x");
        value = "from elsewhere";
        form.refresh();
        QVERIFY(edit->text().contains('x'));
        QTest::keyClick(edit, Qt::Key_Escape);
        QCOMPARE(edit->text(), value);
    }

    void form_maybeRebuiltByItsOwnCommit() {
        FormGrid form;
        int commits = 0;
        std::function<std::vector<FormField>()> fields = [&] {
            FormField field;
            field.name = "field";
            field.read = [] { return QString{"v"}; };
            field.write = [&](const QString&) {
                ++commits;
                form.setFields(fields());
            };
            return std::vector{field};
        };
        form.setFields(fields());
        form.show();
        form.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&form));
        for (int i = 1; i <= 3; ++i) {
            auto* edit = form.findChild<QLineEdit*>("field");
            edit->setFocus();
            QTest::keyClicks(edit, "x");
            QTest::keyClick(edit, Qt::Key_Return);
            QCOMPARE(commits, i);
            QTest::qWait(5);
        }
    }

    void severity_isToldByForm_notByColourAlone() {
        // In one colour for all, the three marks still differ.
        Palette grey = lightPalette();
        grey.error = grey.doubt = grey.quietText = Qt::black;
        QList<QImage> marks;
        for (const auto severity : {audit::Severity::Error, audit::Severity::Doubt, audit::Severity::Note}) {
            QImage image{16, 16, QImage::Format_RGB32};
            image.fill(Qt::white);
            QPainter painter{&image};
            paintSeverity(painter, QRectF{1, 1, 14, 14}, severity, grey);
            painter.end();
            marks << image;
        }
        QVERIFY(marks[0] != marks[1] && marks[1] != marks[2] && marks[0] != marks[2]);
        Palette fences = lightPalette();
        fences.keepIn = fences.keepOut = Qt::black;
        QList<QImage> combs;
        for (const auto kind : {model::FenceKind::KeepIn, model::FenceKind::KeepOut}) {
            QImage image{16, 16, QImage::Format_RGB32};
            image.fill(Qt::white);
            QPainter painter{&image};
            paintFenceSymbol(painter, QRectF{0, 0, 16, 16}, kind, true, fences);
            painter.end();
            combs << image;
        }
        QVERIFY(combs[0] != combs[1]);
    }

    // WCAG 2.1, success criterion 1.4.3: text has a contrast of at least 4.5 to 1; the formulas are its definitions of
    // relative luminance and contrast ratio.
    void text_isReadable_inBothAppearances() {
        const auto luminance = [](const QColor& colour) {
            const auto channel = [](double c) { return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
            return 0.2126 * channel(colour.redF()) + 0.7152 * channel(colour.greenF()) +
                   0.0722 * channel(colour.blueF());
        };
        const auto contrast = [&](const QColor& a, const QColor& b) {
            const double x = luminance(a);
            const double y = luminance(b);
            return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
        };
        for (const Palette& p : {lightPalette(), darkPalette()})
            for (const QColor& ground : {p.ground, p.panel, p.field, p.selection}) {
                QCOMPARE_GE(contrast(p.text, ground), 4.5);
                // On the selection, what is quiet elsewhere is written in the text colour.
                if (ground != p.selection)
                    QCOMPARE_GE(contrast(p.quietText, ground), 4.5);
                QCOMPARE_GE(contrast(p.error, ground), 4.5);
                QCOMPARE_GE(contrast(p.keepIn, ground), 4.5);
                QCOMPARE_GE(contrast(p.keepOut, ground), 4.5);
            }
    }

    void message_staysUntilClosed_andSaysAllThreeParts() {
        QWidget window;
        window.resize(600, 300);
        MessageBar bar{&window};
        window.show();
        QVERIFY(QTest::qWaitForWindowExposed(&window));
        bar.showFault(Fault{"It is broken.", "file.gpkg", "Mend it."});
        QVERIFY(bar.isVisible());
        QVERIFY(bar.words().contains("It is broken."));
        QVERIFY(bar.words().contains("file.gpkg"));
        QVERIFY(bar.words().contains("Mend it."));
        QTest::mouseClick(bar.findChild<QPushButton*>("messageClose"), Qt::LeftButton);
        QVERIFY(!bar.isVisible());
    }

    void search_offersLines_andTakesTheMarkedOne() {
        QWidget window;
        window.resize(600, 300);
        CommandSearch search{&window};
        int taken = -1;
        search.addProvider([&](const QString& typed) {
            std::vector<SearchHit> hits;
            for (int i = 0; i < 3; ++i)
                hits.push_back({typed + QString::number(i), "", [&taken, i] { taken = i; }});
            return hits;
        });
        window.show();
        window.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&window));
        search.setFocus();
        QTest::keyClicks(&search, "a");
        QCOMPARE(search.offered(), (QStringList{"a0", "a1", "a2"}));
        QTest::keyClick(&search, Qt::Key_Down);
        QTest::keyClick(&search, Qt::Key_Return);
        QCOMPARE(taken, 1);
        QVERIFY(search.offered().isEmpty());
        search.setFocus();
        QTest::keyClicks(&search, "b");
        QTest::keyClick(&search, Qt::Key_Escape);
        QVERIFY(search.text().isEmpty() && search.offered().isEmpty());
    }
};

QTEST_MAIN(PanelsTest)
#include "panels_test.moc"
