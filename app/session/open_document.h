#pragma once

#include <QObject>
#include <QString>
#include <QThreadPool>
#include <QTimer>
#include <QUndoStack>

#include "model/edit.h"
#include "model/fence_set.h"

#include <cstdint>
#include <optional>

namespace fencewright::session {

/// What kind of thing changed in the document.
struct DocumentChange {
    bool fences = false;
    bool sites = false;
    bool homes = false;
    bool sources = false;
    bool heading = false;
    bool margin = false;
    bool whole = false; ///< another document: everything above, and the view starts anew
};

/// The one document a window works on: the fence set, its undo, its file. Everything that changes the set is an Edit
/// pushed here.
class OpenDocument : public QObject {
    Q_OBJECT

public:
    /// @param recoveryFolder  where copies of unsaved work are kept; empty: none are.
    explicit OpenDocument(QString recoveryFolder = {}, QObject* parent = nullptr);
    ~OpenDocument() override;

    /// In memory the paths of sources are absolute, so that neither undo nor another folder can bend them.
    const model::FenceSet& set() const { return m_set; }
    /// The set as a file at `path` keeps it: sources below its folder by their way from there.
    model::FenceSet setForFile(const QString& path) const;
    QUndoStack& undoStack() { return m_undo; }

    /// Which document this is. One that takes its place (new, opened, recovered) has another serial: by it, what was
    /// begun for the one is kept from ending in the other.
    int serial() const { return m_serial; }
    /// Which state the set is in. Undo and redo come back to the revision of a state; no edit and no other document
    /// does. The undo stack's index cannot tell: further steps of a gesture leave it, another edit after an undo
    /// repeats it.
    std::uint64_t revision() const { return m_revision; }

    /// Absolute path of the file; empty while it was never saved.
    QString path() const { return m_path; }
    /// "alder-reach.gpkg", or "Untitled".
    QString fileName() const;
    bool isModified() const { return m_revision != m_savedRevision; }
    bool isReadOnly() const { return m_readOnly; }

    /// Applies the edit and makes it undoable.
    /// @throws Fault  the edit does not fit, or changes a locked thing (see model/lock.h); nothing changed. Undo and
    /// redo go over locks: they bring back what was.
    void push(model::Edit edit);

    /// To the state after that many of the steps, by undoing or redoing; said as one change.
    void goToStep(int index);

    /// An empty document; unsaved work is gone, so ask first.
    void startNew();
    /// @throws Fault  see store::openDocument; the document stays as it was.
    void open(const QString& path);
    /// Takes a document that was read elsewhere (in the background) from that path.
    void take(model::FenceSet set, const QString& path, bool readOnly);
    /// Takes recovered work: modified from the start. Until keepRecoveryCopy() says so, no copy of this document holds
    /// it.
    void takeRecovered(model::FenceSet set, const QString& path);
    /// @throws Fault  see store::saveDocument; the document stays modified.
    void save(const QString& path);
    /// After setForFile(path), as it was at that revision of this document, was saved elsewhere (in the background).
    void markSaved(const QString& path, std::uint64_t revision);

    /// Writes the recovery copy now if there is unsaved work that is not in it yet. By itself one is written, on
    /// another thread, within three seconds of a change. Answers whether all of it is in the copy now.
    bool keepRecoveryCopy();

signals:
    void changed(const fencewright::session::DocumentChange& change);
    /// File name, modified or read-only changed.
    void stateChanged();
    /// A recovery copy could not be written; said once for each document.
    void recoveryFailed(const QString& words);

private:
    friend class EditCommand;
    void apply(const model::Edit& edit, std::uint64_t revision);
    void cameBackTo(std::uint64_t revision);
    void say(const DocumentChange& change);
    void sayWhetherModified();
    void keepRecoveryCopyElsewhere();
    void discardRecoveryCopy();
    void sayRecoveryFault(const QString& words);
    void replaceAll(model::FenceSet set, const QString& path, bool readOnly, bool recovered);
    std::uint64_t freshRevision() { return ++m_lastRevision; }

    model::FenceSet m_set;
    QUndoStack m_undo;
    QString m_path;
    bool m_readOnly = false;
    int m_serial = 0;
    std::uint64_t m_revision = 0;
    std::uint64_t m_lastRevision = 0;
    std::optional<std::uint64_t> m_savedRevision = 0; ///< that the file holds; of recovered work none
    bool m_saidModified = false;
    QString m_recoveryFolder;
    std::string m_recoveryKey;
    bool m_recoveryStale = false;
    bool m_recoveryFaultSaid = false;
    std::optional<DocumentChange> m_gathered; ///< while many steps are taken at once
    QTimer m_recoveryTimer;
    QThreadPool m_recoveryWriter; ///< of one thread
};

} // namespace fencewright::session

Q_DECLARE_METATYPE(fencewright::session::DocumentChange)
