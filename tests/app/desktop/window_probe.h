#pragma once

#include <QtTest>
#include <QtWidgets>

#include "desktop/canvas/map_canvas.h"
#include "desktop/main_window.h"

#include <memory>

namespace fencewright::desktop {

/// A real window with settings and recovery of its own, and the hands to work it.
class WindowProbe {
public:
    explicit WindowProbe(const QString& document = {}) {
        options.settingsFile = folder.filePath("settings.ini");
        options.readerProgram = QStringLiteral(FENCEWRIGHT_BUILD) + "/bin/fencewright-cli";
        options.theme = session::Theme::Light;
        options.date = std::chrono::year{2026} / 5 / 14;
        session::Settings{options.settingsFile}.setLastFolder(folder.path());
        show();
        if (!document.isEmpty())
            window->open(document);
    }

    void show() {
        window = std::make_unique<MainWindow>(options);
        window->resize(1280, 800);
        window->show();
        window->activateWindow();
        (void)QTest::qWaitForWindowExposed(window.get());
        (void)QTest::qWaitForWindowActive(window.get());
        map().setFocus();
    }

    session::OpenDocument& document() { return window->document(); }
    const model::FenceSet& set() { return window->document().set(); }
    MapCanvas& map() { return window->map(); }

    template <class T> T* find(const char* name) { return window->findChild<T*>(name); }
    QWidget* dialog() { return QApplication::activeModalWidget(); }

    /// Waits until no work runs and the audit is of the set as it is.
    bool settle() {
        return QTest::qWaitFor([this] { return window->jobs().running().empty() && window->audit().isCurrent(); },
                               10000);
    }

    void look(double lon, double lat, double reach) {
        geometry::Box box;
        box.add(lon - reach, lat - reach);
        box.add(lon + reach, lat + reach);
        map().zoomTo(box);
        QTest::qWait(20);
    }
    QPoint pixel(double lon, double lat) { return map().toWidget({lon, lat}).toPoint(); }
    void clickMap(double lon, double lat) {
        QTest::mouseMove(&map(), pixel(lon, lat));
        QTest::mouseClick(&map(), Qt::LeftButton, Qt::NoModifier, pixel(lon, lat));
        // Not two clicks of a double click.
        QTest::qWait(QApplication::doubleClickInterval() / 20);
    }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(QApplication::focusWidget() ? QApplication::focusWidget() : window.get(), key, modifiers);
    }
    /// A tool's button and corners, closed by Enter.
    void draw(const char* tool, const std::vector<model::Position>& corners) {
        QTest::mouseClick(find<QWidget>(tool), Qt::LeftButton);
        for (const model::Position& corner : corners)
            clickMap(corner.lon, corner.lat);
        QTest::keyClick(&map(), Qt::Key_Return);
    }
    void square(const char* tool, double lon, double lat, double half) {
        draw(tool,
             {{lon - half, lat - half}, {lon + half, lat - half}, {lon + half, lat + half}, {lon - half, lat + half}});
    }
    /// Types into a field of a form, as a person would.
    void type(QWidget* within, const char* name, const QString& text) {
        auto* edit = within->findChild<QLineEdit*>(name);
        QVERIFY2(edit, name);
        edit->setFocus();
        QTest::keyClick(edit, Qt::Key_A, Qt::ControlModifier);
        if (text.isEmpty())
            QTest::keyClick(edit, Qt::Key_Delete);
        else
            QTest::keyClicks(edit, text);
    }
    void typeAndEnter(const char* name, const QString& text) {
        type(window.get(), name, text);
        QTest::keyClick(window->findChild<QLineEdit*>(name), Qt::Key_Return);
    }
    QString refusal(const QString& field) {
        auto* label = window->findChild<QLabel*>(field + "Refusal");
        return label && label->isVisible() ? label->text() : QString{};
    }
    QString message() {
        auto* bar = window->findChild<QWidget*>("messageBar");
        return bar->isVisible() ? bar->findChild<QLabel*>("messageWords")->text() : QString{};
    }
    /// Answers the file question on the screen.
    bool answerFile(const QString& path) {
        if (!QTest::qWaitFor([this] { return qobject_cast<QFileDialog*>(dialog()); }, 5000))
            return false;
        auto* edit = dialog()->findChild<QLineEdit*>("fileNameEdit");
        // Completions come late, and would take the Enter.
        edit->setCompleter(nullptr);
        edit->setFocus();
        edit->selectAll();
        // In one piece: typed letter by letter, the dialog would walk into each folder on the way.
        QGuiApplication::clipboard()->setText(path);
        QTest::keyClick(edit, Qt::Key_V, Qt::ControlModifier);
        return QTest::qWaitFor(
            [&] {
                if (qobject_cast<QFileDialog*>(dialog()))
                    QTest::keyClick(edit, Qt::Key_Return);
                return !qobject_cast<QFileDialog*>(dialog());
            },
            5000);
    }
    template <class T> T* waitForDialog(const char* name) {
        T* found = nullptr;
        (void)QTest::qWaitFor(
            [&] {
                found = qobject_cast<T*>(dialog());
                return found && found->objectName() == name;
            },
            10000);
        return found && found->objectName() == name ? found : nullptr;
    }
    void clickIn(QWidget* within, const char* name) {
        auto* button = within->findChild<QPushButton*>(name);
        QVERIFY2(button, name);
        QTest::mouseClick(button, Qt::LeftButton);
    }
    bool save(const QString& path) {
        key(Qt::Key_S, Qt::ControlModifier);
        return answerFile(path) && QTest::qWaitFor([this] { return !document().isModified(); }, 10000);
    }

    QTemporaryDir folder;
    WindowOptions options;
    std::unique_ptr<MainWindow> window;
};

} // namespace fencewright::desktop
