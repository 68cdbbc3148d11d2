#include "app/desktop/held_jobs.h"
#include "app/desktop/window_probe.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

void addFence(WindowProbe& probe, model::FenceKind kind, double radius) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.kind = kind;
    fence.name = "Ring";
    fence.shape = model::Circle{{-8.7, 46.2}, {Length::metres(radius), ""}};
    probe.document().push(model::addFence(probe.set(), fence));
}

QDialog* open(WindowProbe& probe) {
    probe.window->activateWindow();
    (void)QTest::qWaitForWindowActive(probe.window.get());
    probe.map().setFocus();
    probe.key(Qt::Key_L, Qt::ControlModifier);
    return probe.waitForDialog<QDialog>("deliveryDialog");
}

/// Empty: the label is not shown.
QString shown(QDialog* dialog, const char* name) {
    auto* label = dialog->findChild<QLabel*>(name);
    return label->isVisible() ? label->text() : QString{};
}

} // namespace

class DeliveryTest : public QObject {
    Q_OBJECT

private slots:
    void caution_isOfThisSet_onceItIsAudited() {
        WindowProbe probe;
        addFence(probe, model::FenceKind::KeepIn, 100);
        QVERIFY(probe.settle());
        const std::size_t before = probe.window->audit().result()->count(audit::Severity::Error);
        HeldJobs held{probe.window->jobs()};
        addFence(probe, model::FenceKind::KeepIn, 0); // an error
        auto* dialog = open(probe);
        QVERIFY(dialog);
        QCOMPARE(shown(dialog, "deliveryCaution"), QString{"The audit of this set is not finished."});
        held.letAllGo();
        QVERIFY(probe.settle());
        const std::size_t errors = probe.window->audit().result()->count(audit::Severity::Error);
        QVERIFY(errors > before);
        QVERIFY2(shown(dialog, "deliveryCaution").contains(QString::number(errors) + " error"),
                 qPrintable(shown(dialog, "deliveryCaution")));
        dialog->reject();
    }

    void whatIsDelivered_isTheSetThatTheDialogIsAbout() {
        WindowProbe probe;
        addFence(probe, model::FenceKind::KeepIn, 100);
        QVERIFY(probe.settle());
        auto* dialog = open(probe);
        QVERIFY(dialog);
        QVERIFY(shown(dialog, "deliveryOlder").isEmpty());
        const QString caution = shown(dialog, "deliveryCaution");
        addFence(probe, model::FenceKind::KeepOut, 20);
        addFence(probe, model::FenceKind::KeepIn, 0); // an error
        QVERIFY(probe.settle());
        QVERIFY(shown(dialog, "deliveryOlder").contains("as it was before"));
        QCOMPARE(shown(dialog, "deliveryCaution"), caution); // of the set that is handed out
        probe.type(dialog, "deliveryPath", probe.folder.filePath("out.geojson"));
        probe.clickIn(dialog, "deliveryGo");
        auto* result = probe.waitForDialog<QDialog>("deliveryResult");
        QVERIFY2(result, qPrintable(probe.message()));
        QVERIFY2(result->findChild<QLabel*>("deliveryWritten")->text().startsWith("1 fences"),
                 qPrintable(result->findChild<QLabel*>("deliveryWritten")->text()));
        probe.clickIn(result, "deliveryClose");
    }

    void oneFile_isNotDeliveredTwiceAtTheSameTime() {
        WindowProbe probe;
        addFence(probe, model::FenceKind::KeepIn, 100);
        QVERIFY(probe.settle());
        const auto deliver = [&](const QString& name) {
            auto* dialog = open(probe);
            QVERIFY(dialog);
            probe.type(dialog, "deliveryPath", probe.folder.filePath(name));
            probe.clickIn(dialog, "deliveryGo");
        };
        const auto running = [&] {
            const auto& jobs = probe.window->jobs().running();
            return std::count_if(jobs.begin(), jobs.end(),
                                 [](const auto* job) { return job->title().startsWith("Delivering"); });
        };
        HeldJobs held{probe.window->jobs()};
        deliver("out.geojson");
        deliver("./out.geojson");
        QCOMPARE(running(), 1);
        QVERIFY2(probe.message().contains("being delivered already"), qPrintable(probe.message()));
        deliver("other.geojson");
        QCOMPARE(running(), 2);
        held.letAllGo();
        QTRY_COMPARE_WITH_TIMEOUT(running(), 0, 10'000);
        // Over the results of both.
        while (auto* result = probe.waitForDialog<QDialog>("deliveryResult")) {
            probe.clickIn(result, "deliveryClose");
            if (!QTest::qWaitFor([&] { return probe.dialog() && probe.dialog() != result; }, 500))
                break;
        }
        deliver("out.geojson");
        auto* result = probe.waitForDialog<QDialog>("deliveryResult");
        QVERIFY2(result, qPrintable(probe.message()));
        probe.clickIn(result, "deliveryClose");
    }
};

QTEST_MAIN(DeliveryTest)
#include "delivery_test.moc"
