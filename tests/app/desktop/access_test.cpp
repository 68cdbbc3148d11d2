// Every control has a name for those who do not see it, and shows when the keys go to it.
// The rules: WCAG 2.1 (W3C, 5 June 2018), 4.1.2 Name, Role, Value; 2.4.7 Focus Visible; 2.1.1 Keyboard.
#include "app/desktop/window_probe.h"

#include "desktop/dialogs/connect_dialog.h"
#include "desktop/dialogs/corners_dialog.h"
#include "desktop/dialogs/deed_dialog.h"
#include "desktop/dialogs/delivery_dialog.h"
#include "desktop/dialogs/delivery_result_dialog.h"
#include "desktop/dialogs/door_dialog.h"
#include "desktop/dialogs/features_dialog.h"
#include "desktop/dialogs/import_dialog.h"
#include "desktop/dialogs/keys_dialog.h"
#include "desktop/dialogs/margin_dialog.h"
#include "desktop/dialogs/offset_dialog.h"
#include "desktop/dialogs/pasted_corners_dialog.h"
#include "desktop/dialogs/recovery_dialog.h"
#include "desktop/dialogs/server_dialog.h"
#include "desktop/dialogs/summary_dialog.h"
#include "desktop/dialogs/table_dialog.h"
#include "desktop/dialogs/words_dialog.h"
#include "desktop/key_book.h"
#include "desktop/line_icon.h"
#include "desktop/window_actions.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;

bool takesKeys(const QWidget* widget) {
    // A part of a control, such as the line of a number field, speaks for the whole.
    return (widget->focusPolicy() & Qt::TabFocus) && !widget->objectName().startsWith("qt_") && !widget->focusProxy();
}

QString described(const QWidget* widget) {
    return QString{"%1 \"%2\" in %3"}.arg(widget->metaObject()->className(), widget->objectName(),
                                          widget->window()->objectName());
}

QStringList nameless(QWidget* within) {
    QStringList found;
    for (QWidget* widget : within->findChildren<QWidget*>()) {
        // A button that is not shown gets its words when it is; the list of a box speaks for the box.
        if (!takesKeys(widget) ||
            (!widget->isVisible() && qobject_cast<QAbstractButton*>(widget) &&
             qobject_cast<QAbstractButton*>(widget)->text().isEmpty()) ||
            qobject_cast<QComboBox*>(widget->window()) || widget->inherits("QComboBoxListView"))
            continue;
        auto* accessible = QAccessible::queryAccessibleInterface(widget);
        QString name = accessible ? accessible->text(QAccessible::Name).trimmed() : QString{};
        // What a box holds now is no name.
        if (auto* box = qobject_cast<QComboBox*>(widget); box && box->accessibleName().isEmpty()) {
            const auto labels = box->window()->findChildren<QLabel*>();
            if (std::none_of(labels.begin(), labels.end(), [&](QLabel* label) { return label->buddy() == box; }))
                name.clear();
        }
        const bool spoken = !name.isEmpty();
        if (!spoken)
            found << described(widget);
    }
    return found;
}

int differing(const QImage& a, const QImage& b) {
    int count = 0;
    for (int y = 0; y < a.height(); ++y)
        for (int x = 0; x < a.width(); ++x)
            count += a.pixel(x, y) != b.pixel(x, y);
    return count;
}

/// Those that look the same with the keys as without.
QStringList unseen(QWidget* within) {
    QStringList found;
    // Somewhere to go meanwhile.
    QWidget* window = within->window();
    for (QWidget* widget : within->findChildren<QWidget*>()) {
        if (!takesKeys(widget) || !widget->isVisible() || !widget->isEnabled())
            continue;
        for (QWidget* around = widget->parentWidget(); around; around = around->parentWidget())
            if (auto* area = qobject_cast<QScrollArea*>(around))
                area->ensureWidgetVisible(widget);
        QCoreApplication::processEvents();
        const QRect place{widget->mapTo(window, QPoint{}), widget->size()};
        const auto picture = [&] { return window->grab(place.adjusted(-2, -2, 2, 2)).toImage(); };
        if (QWidget* now = window->focusWidget())
            now->clearFocus();
        QCoreApplication::processEvents();
        const QImage without = picture();
        widget->setFocus(Qt::TabFocusReason);
        QCoreApplication::processEvents();
        if (!widget->hasFocus())
            continue;
        if (auto* line = qobject_cast<QLineEdit*>(widget)) {
            // Neither the caret nor a selection is enough.
            line->deselect();
            line->setCursorPosition(0);
        }
        // A frame of one pixel round a control, or a mark of some size in it; a caret is about twenty.
        if (differing(without, picture()) < 36)
            found << described(widget);
    }
    return found;
}

/// Every dialog with something in it.
std::vector<std::unique_ptr<QDialog>> dialogs(WindowProbe& probe, KeyBook& book) {
    std::vector<std::unique_ptr<QDialog>> all;
    const auto add = [&](QDialog* dialog) { all.emplace_back(dialog); };
    exchange::VectorDescription description{"/data/parcels.gpkg", "GeoPackage", {}};
    for (const char* layer : {"parcels", "roads"})
        description.layers.push_back({layer, "Polygon", 12, "", {"fid", "parcel_no", "owner", "name"}});
    for (const ImportPurpose purpose :
         {ImportPurpose::Reference, ImportPurpose::Fences, ImportPurpose::Sites, ImportPurpose::Homes})
        add(new ImportDialog{purpose, description, probe.window->settings(), nullptr});
    exchange::DeliveryReport report;
    report.path = "/tmp/set.kml";
    report.confirmed = true;
    report.fences = 5;
    report.corners = 120;
    report.cautions = {"One confidential site was left out."};
    report.checksum = std::string(64, 'a');
    add(new DeliveryResultDialog{report, units::System::Metric, lightPalette(), nullptr});
    add(new DeliveryDialog{probe.folder.filePath("set"), 3, 1, nullptr});
    exchange::VectorContent content;
    content.path = "/data/parcels.gpkg";
    content.notes = {{exchange::ReadNote::Kind::LeftOut, "feature 12", "It has no place."}};
    add(new SummaryDialog{"Import", "3 fences added", content, {}, nullptr});
    add(new RecoveryDialog{{{"/tmp/copy", "/data/set.gpkg", std::chrono::system_clock::now()}}, nullptr});
    add(new DeedDialog{"46.208844 N 8.733936 W", units::System::Us, nullptr});
    add(new FeaturesDialog{"What is here", "Two parcels", {}, FeaturesDialog::Opened::All, nullptr});
    add(new ConnectDialog{"https://tiles.example/{z}/{x}/{y}.png", {}, "It asks for a name.", nullptr});
    add(new DoorDialog{"postgresql://someone@db.example/land", "It asks for a password.", nullptr});
    add(new ServerDialog{probe.window->jobs(), std::make_shared<raster::ServerAccess>(), nullptr});
    add(new TableDialog{probe.window->jobs(), probe.options.readerProgram, nullptr});
    add(new KeysDialog{book, nullptr});
    MessageBar messages{nullptr};
    ClipboardText clipboard{probe.window->jobs(), messages};
    auto* corners =
        new CornersDialog{probe.document(), probe.window->settings(), probe.window->jobs(), clipboard, nullptr};
    corners->showFence(probe.set().fences[0].id);
    add(corners);
    add(new PastedCornersDialog{geodesy::readPlaceRows("46.2,8.7\n46.3,8.7"),
                                {{PastedCornersDialog::Where::InsteadOfAll, "Instead of all"}},
                                geodesy::Notation::DecimalDegrees,
                                nullptr});
    add(new MarginDialog{model::Margin{}, units::System::Metric, nullptr});
    add(new OffsetDialog{"Reservoir", model::FenceKind::KeepOut, units::System::Metric, nullptr});
    add(new WordsDialog{"About", aboutPage(), nullptr});
    return all;
}

void fillSet(WindowProbe& probe) {
    probe.look(kLon, kLat, 0.01);
    probe.square("tool_keepin", kLon, kLat, 0.006);
    model::Site site;
    site.id = model::freshId<struct model::Site>();
    site.name = "Nest";
    site.geometry = model::Position{kLon, kLat};
    probe.document().push(model::addSite(probe.set(), site));
    model::Home home;
    home.id = model::freshId<struct model::Home>();
    home.name = "Crest";
    home.place = {kLon + 0.001, kLat};
    probe.document().push(model::addHome(probe.set(), home));
    probe.settle();
}

} // namespace

class AccessTest : public QObject {
    Q_OBJECT

private slots:
    void everyControl_hasAName() {
        WindowProbe probe;
        QStringList found = nameless(probe.window.get());
        fillSet(probe);
        for (const Selection& chosen : {Selection{probe.set().fences[0].id}, Selection{probe.set().sites[0].id},
                                        Selection{probe.set().homes[0].id}}) {
            probe.map().select(chosen);
            found << nameless(probe.window.get());
        }
        KeyBook book{probe.window->settings()};
        book.enrol(probe.find<WindowActions>("")->all());
        for (const auto& dialog : dialogs(probe, book)) {
            dialog->show();
            found << nameless(dialog.get());
        }
        found.removeDuplicates();
        QVERIFY2(found.isEmpty(), qPrintable(found.join("\n")));
    }

    void everyControl_showsThatTheKeysGoThere_data() {
        QTest::addColumn<int>("theme");
        QTest::newRow("light") << int(session::Theme::Light);
        QTest::newRow("dark") << int(session::Theme::Dark);
    }
    void everyControl_showsThatTheKeysGoThere() {
        QFETCH(int, theme);
        WindowProbe probe;
        probe.find<QAction>(theme == int(session::Theme::Light) ? "themeLight" : "themeDark")->trigger();
        fillSet(probe);
        QStringList found;
        for (const Selection& chosen : {Selection{}, Selection{probe.set().fences[0].id},
                                        Selection{probe.set().sites[0].id}, Selection{probe.set().homes[0].id}}) {
            probe.map().select(chosen);
            QTest::qWait(1);
            found << unseen(probe.window.get());
        }
        KeyBook book{probe.window->settings()};
        book.enrol(probe.find<WindowActions>("")->all());
        for (const auto& dialog : dialogs(probe, book)) {
            dialog->show();
            dialog->activateWindow();
            QVERIFY(QTest::qWaitForWindowActive(dialog.get()));
            found << unseen(dialog.get());
            dialog->hide();
        }
        found.removeDuplicates();
        QVERIFY2(found.isEmpty(), qPrintable(found.join("\n")));
    }

    void tab_reachesEveryControlOfTheWindow() {
        WindowProbe probe;
        fillSet(probe);
        probe.map().select(probe.set().fences[0].id);
        probe.map().setFocus();
        QSet<const QWidget*> reached;
        for (int i = 0; i < 200; ++i) {
            reached << QApplication::focusWidget();
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
        }
        for (const QWidget* widget : probe.window->findChildren<QWidget*>()) {
            if (!takesKeys(widget) || !widget->isVisible() || !widget->isEnabled())
                continue;
            QVERIFY2(reached.contains(widget), qPrintable(described(widget)));
        }
    }

    void icon_isDrawnAtTheScaleOfTheScreen() {
        WindowProbe probe; // loads the resources
        QIcon icon{new LineIcon{":/icons/measure.svg", Qt::black, Qt::gray}};
        for (const double ratio : {1.0, 1.25, 1.5, 1.75, 2.0, 3.0}) {
            QImage sheet{(QSizeF{24, 24} * ratio).toSize(), QImage::Format_ARGB32_Premultiplied};
            sheet.setDevicePixelRatio(ratio);
            sheet.fill(Qt::transparent);
            QPainter painter{&sheet};
            icon.paint(&painter, QRect{0, 0, 24, 24});
            painter.end();
            // Pixel for pixel what the drawing gives at that size: nothing was stretched.
            QPixmap straight = LineIcon{":/icons/measure.svg", Qt::black, Qt::gray}.scaledPixmap(
                sheet.size(), QIcon::Normal, QIcon::Off, ratio);
            sheet.setDevicePixelRatio(1.0);
            const QImage drawn = straight.toImage().convertToFormat(sheet.format());
            QVERIFY(drawn.size() == sheet.size());
            QVERIFY2(differing(drawn, sheet) == 0, qPrintable(QString::number(ratio)));
        }
    }
};

QTEST_MAIN(AccessTest)
#include "access_test.moc"
