#include "session/live_audit.h"

#include "model/edit.h"

#include <QSignalSpy>
#include <QtTest>

using namespace fencewright;
using namespace fencewright::session;

class LiveAuditTest : public QObject {
    Q_OBJECT

    struct Bench {
        OpenDocument document;
        BackgroundJobs jobs;
        LiveAudit audit{document, jobs};

        /// A change that an audit has something to say about: two of one name.
        void addFence() {
            model::Fence fence;
            fence.id = model::freshId<model::Fence>();
            fence.name = "North";
            model::Ring ring;
            ring.corners = {{-8.70, 46.20}, {-8.69, 46.20}, {-8.69, 46.21}};
            fence.shape = model::DrawnPolygon{{ring, {}}};
            document.push(model::addFence(document.set(), fence));
        }
        /// As the window's button does.
        void cancelByHand() { jobs.running().front()->cancel(); }
    };

private slots:
    void aCancelledAudit_saysNothing_untilSomethingChanges() {
        Bench bench;
        QSignalSpy audited{&bench.audit, &LiveAudit::audited};
        bench.cancelByHand();
        QTRY_VERIFY(bench.jobs.running().empty());
        QTest::qWait(50);
        QVERIFY(bench.jobs.running().empty());
        QCOMPARE(audited.count(), 0);
        QVERIFY(!bench.audit.isCurrent());
        bench.addFence();
        QTRY_COMPARE(audited.count(), 1);
        QVERIFY(bench.audit.isCurrent());
    }

    void aChange_betweenTheCancellingAndTheEnd_isAudited() {
        Bench bench;
        QTRY_VERIFY(bench.audit.isCurrent());
        QCOMPARE(bench.audit.result()->findings.size(), std::size_t{0});
        bench.addFence();
        bench.cancelByHand();
        bench.addFence();
        QVERIFY(!bench.audit.isCurrent());
        QTRY_VERIFY(bench.audit.isCurrent());
        QVERIFY(!bench.audit.result()->findings.empty());
    }

    void aChange_beforeTheCancelling_isAudited() {
        Bench bench;
        bench.addFence();
        bench.addFence();
        bench.cancelByHand();
        QTRY_VERIFY(bench.audit.isCurrent());
        QVERIFY(!bench.audit.result()->findings.empty());
    }
};

QTEST_MAIN(LiveAuditTest)
#include "live_audit_test.moc"
