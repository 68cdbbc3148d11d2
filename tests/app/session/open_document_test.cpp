#include "session/open_document.h"

#include "fault.h"
#include "store/recovery.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

using namespace fencewright;
using namespace fencewright::model;
using session::DocumentChange;
using session::OpenDocument;

namespace {

Fence circle(const std::string& name, double radius) {
    Fence fence;
    fence.id = freshId<Fence>();
    fence.name = name;
    fence.shape = Circle{{-8.7, 46.2}, {Length::metres(radius), ""}};
    return fence;
}

} // namespace

class OpenDocumentTest : public QObject {
    Q_OBJECT

private slots:
    void push_isUndoneExactly() {
        OpenDocument document;
        QSignalSpy changes{&document, &OpenDocument::changed};
        document.push(addFence(document.set(), circle("A", 10)));
        const FenceSet one = document.set();
        document.push(addFence(document.set(), circle("B", 20)));
        document.undoStack().undo();
        QVERIFY(document.set() == one);
        document.undoStack().undo();
        QVERIFY(document.set() == FenceSet{});
        QVERIFY(!document.isModified());
        QCOMPARE(changes.count(), 4);
        const auto change = changes[0][0].value<DocumentChange>();
        QVERIFY(change.fences && !change.sites && !change.whole);
    }

    void push_refusesAnEditOfAnotherState_andKeepsTheStack() {
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        Fence other = document.set().fences[0];
        other.name = std::string{"B"}; // GCC 12 warns wrongly of the plain literal
        const Edit edit = replaceFence(document.set(), other, "Rename");
        document.push(edit);
        QVERIFY_EXCEPTION_THROWN(document.push(edit), Fault);
        QCOMPARE(document.undoStack().count(), 2);
        QCOMPARE(document.set().fences[0].name, "B");
    }

    void push_refusesToChangeWhatIsLocked() {
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        Fence locked = document.set().fences[0];
        locked.locked = true;
        document.push(replaceFence(document.set(), locked, "Lock"));
        const FenceSet before = document.set();
        Fence larger = locked;
        larger.shape = Circle{{-8.7, 46.2}, {Length::metres(20), ""}};
        QString words;
        try {
            document.push(replaceFence(document.set(), larger, "Change"));
        } catch (const Fault& fault) {
            words = fault.what();
        }
        QVERIFY2(words.contains("A is locked") && words.contains("Unlock it first"), qPrintable(words));
        QVERIFY_EXCEPTION_THROWN(document.push(removeFence(document.set(), locked.id)), Fault);
        QVERIFY(document.set() == before);
        QCOMPARE(document.undoStack().count(), 2);
        // Undo and redo bring back what was, locked or not.
        document.undoStack().undo();
        document.undoStack().undo();
        QVERIFY(document.set() == FenceSet{});
        document.undoStack().redo();
        document.undoStack().redo();
        QVERIFY(document.set() == before);
        Fence free = locked;
        free.locked = false;
        document.push(replaceFence(document.set(), free, "Unlock"));
        document.push(replaceFence(
            document.set(),
            [&] {
                larger.locked = false;
                return larger;
            }(),
            "Change"));
        QCOMPARE(document.undoStack().count(), 4);
    }

    void edits_ofOneGesture_areOneStep() {
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        const FenceSet before = document.set();
        for (int step = 1; step <= 5; ++step) {
            Fence fence = document.set().fences[0];
            fence.shape = Circle{{-8.7, 46.2 + step * 1e-4}, {Length::metres(10), ""}};
            Edit edit = replaceFence(document.set(), fence, "Move A");
            edit.gesture = 7;
            document.push(edit);
        }
        QCOMPARE(document.undoStack().count(), 2);
        document.undoStack().undo();
        QVERIFY(document.set() == before);
    }

    void save_thenOpen_givesTheSameSet() {
        QTemporaryDir folder;
        const QString path = folder.filePath("set.gpkg");
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        QVERIFY(document.isModified());
        document.save(path);
        QVERIFY(!document.isModified());
        QCOMPARE(document.fileName(), "set.gpkg");
        OpenDocument other;
        QSignalSpy changes{&other, &OpenDocument::changed};
        other.open(path);
        QVERIFY(other.set() == document.set());
        QVERIFY(!other.isModified());
        QCOMPARE(changes.size(), 1);
        const auto change = changes.front().front().value<DocumentChange>();
        QVERIFY(change.fences && change.sites && change.homes && change.sources && change.heading && change.margin);
        QVERIFY(change.whole);
    }

    void sources_areKeptByTheirWayFromTheDocument_soThatBothCanMoveTogether() {
        QTemporaryDir folder;
        QVERIFY(QDir{folder.path()}.mkdir("first"));
        const auto source = [](const QString& path) {
            Source one;
            one.id = freshId<struct model::Source>();
            one.name = "Photo";
            one.path = path.toStdString();
            return one;
        };
        OpenDocument document;
        document.push(addSource(document.set(), source(folder.filePath("first/photo.tif"))));
        document.push(addSource(document.set(), source("/elsewhere/parcels.gpkg")));
        const FenceSet inMemory = document.set();
        document.save(folder.filePath("first/set.gpkg"));
        QVERIFY(document.set() == inMemory);
        QVERIFY(QDir{folder.path()}.rename("first", "second"));
        OpenDocument moved;
        moved.open(folder.filePath("second/set.gpkg"));
        QCOMPARE(moved.set().sources[0].path, folder.filePath("second/photo.tif").toStdString());
        QCOMPARE(moved.set().sources[1].path, std::string{"/elsewhere/parcels.gpkg"});
        QVERIFY(!moved.isModified());
    }

    void open_ofABadFile_leavesTheDocumentAsItWas() {
        QTemporaryDir folder;
        const QString path = folder.filePath("bad.gpkg");
        QFile file{path};
        QVERIFY(file.open(QFile::WriteOnly));
        file.write("not a document");
        file.close();
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        const FenceSet before = document.set();
        QVERIFY_EXCEPTION_THROWN(document.open(path), Fault);
        QVERIFY(document.set() == before);
        QCOMPARE(document.undoStack().count(), 1);
    }

    void recoveryCopy_holdsUnsavedWork_andGoesWithTheSave() {
        QTemporaryDir folder;
        const auto copies = [&] { return QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden).size(); };
        OpenDocument document{folder.path()};
        document.push(addFence(document.set(), circle("A", 10)));
        document.keepRecoveryCopy();
        QVERIFY(copies() > 0);
        // The program runs: its copy is not one that was left behind.
        QVERIFY(store::leftBehind(folder.path().toStdString()).empty());
        QTemporaryDir elsewhere;
        document.save(elsewhere.filePath("set.gpkg"));
        QVERIFY(store::leftBehind(folder.path().toStdString()).empty());
    }

    void markSaved_afterFurtherEdits_staysModified() {
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        const auto revision = document.revision();
        document.push(addFence(document.set(), circle("B", 10)));
        document.markSaved("/nowhere/set.gpkg", revision);
        QVERIFY(document.isModified());
        QSignalSpy said{&document, &OpenDocument::stateChanged};
        document.undoStack().undo();
        QVERIFY(!document.isModified()); // that very state is in the file
        document.undoStack().redo();
        QVERIFY(document.isModified());
        QCOMPARE(said.count(), 2);
    }

    void markSaved_afterFurtherStepsOfTheGesture_staysModified() {
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        const auto nudge = [&](double by) {
            Fence fence = document.set().fences[0];
            std::get<Circle>(fence.shape).centre.lat += by;
            Edit edit = replaceFence(document.set(), fence, "Move A");
            edit.gesture = 7;
            document.push(edit);
        };
        nudge(0.25);
        const int index = document.undoStack().index();
        const auto revision = document.revision();
        nudge(0.25);
        QCOMPARE(document.undoStack().index(), index); // one step, two states
        document.markSaved("/nowhere/set.gpkg", revision);
        QVERIFY(document.isModified());
        document.undoStack().undo();
        QVERIFY(document.isModified());
        document.undoStack().redo();
        QVERIFY(document.isModified());
    }

    void markSaved_afterAnotherEditInPlaceOfOneTakenBack_staysModified() {
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        const int index = document.undoStack().index();
        const auto revision = document.revision();
        document.undoStack().undo();
        document.push(addFence(document.set(), circle("B", 10)));
        QCOMPARE(document.undoStack().index(), index); // the same place among the steps
        document.markSaved("/nowhere/set.gpkg", revision);
        QVERIFY(document.isModified());
        document.undoStack().undo();
        QVERIFY(document.isModified());
    }

    void gesture_thatTakesItselfBack_isTheSavedStateAgain() {
        QTemporaryDir folder;
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        document.save(folder.filePath("set.gpkg"));
        const Fence before = document.set().fences[0];
        Fence moved = before;
        moved.shape = Circle{{-8.7, 46.3}, {Length::metres(10), ""}};
        QSignalSpy said{&document, &OpenDocument::stateChanged};
        for (const Fence& fence : {moved, before}) {
            Edit edit = replaceFence(document.set(), fence, "Move A");
            edit.gesture = 7;
            document.push(edit);
            QCOMPARE(document.isModified(), fence == moved);
        }
        QCOMPARE(document.undoStack().count(), 1);
        QCOMPARE(said.count(), 2);
    }

    void goToStep_saysWhetherItIsTheSavedState() {
        QTemporaryDir folder;
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        document.save(folder.filePath("set.gpkg"));
        document.push(addFence(document.set(), circle("B", 10)));
        document.push(addFence(document.set(), circle("C", 10)));
        QSignalSpy said{&document, &OpenDocument::stateChanged};
        document.goToStep(1);
        QVERIFY(!document.isModified());
        document.goToStep(0);
        QVERIFY(document.isModified());
        QCOMPARE(said.count(), 2);
    }

    void anotherDocument_hasAnotherSerial_andNoRevisionOfTheFormer() {
        OpenDocument document;
        document.push(addFence(document.set(), circle("A", 10)));
        const int serial = document.serial();
        const auto revision = document.revision();
        document.push(addFence(document.set(), circle("B", 10)));
        QCOMPARE(document.serial(), serial);
        document.startNew();
        QVERIFY(document.serial() != serial);
        QVERIFY(document.revision() > revision + 1);
        QVERIFY(!document.isModified());
        document.takeRecovered({}, "/nowhere/set.gpkg");
        QVERIFY(document.isModified());
        // Whoever lists the steps would call it saved.
        QVERIFY(!document.undoStack().isClean());
    }

    void recoveredWork_saysWhetherItHasACopyOfItsOwn() {
        QTemporaryDir folder;
        QFile file{folder.filePath("file")};
        QVERIFY(file.open(QFile::WriteOnly));
        OpenDocument barred{folder.filePath("file/recovery")}; // nothing can lie in a file
        QSignalSpy said{&barred, &OpenDocument::recoveryFailed};
        barred.takeRecovered({}, {});
        QVERIFY(!barred.keepRecoveryCopy());
        QCOMPARE(said.count(), 1);
        OpenDocument without;
        without.takeRecovered({}, {});
        QVERIFY(!without.keepRecoveryCopy());
        OpenDocument document{folder.path()};
        document.takeRecovered({}, {});
        QVERIFY(document.keepRecoveryCopy());
    }
};

QTEST_GUILESS_MAIN(OpenDocumentTest)
#include "open_document_test.moc"
