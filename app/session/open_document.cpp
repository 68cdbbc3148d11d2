#include "session/open_document.h"

#include "fault.h"
#include "model/lock.h"
#include "session/edit_command.h"
#include "session/source_library.h"
#include "session/translated.h"
#include "store/document_file.h"
#include "store/recovery.h"

#include <QFileInfo>

#include <utility>

namespace fencewright::session {
namespace {

constexpr int kRecoveryDelayMilliseconds = 3000;

struct Touched {
    DocumentChange& change;
    void operator()(const model::Replacement<model::Fence>&) const { change.fences = true; }
    void operator()(const model::Replacement<model::Site>&) const { change.sites = true; }
    void operator()(const model::Replacement<model::Home>&) const { change.homes = true; }
    void operator()(const model::Replacement<model::Source>&) const { change.sources = true; }
    void operator()(const model::HeadingReplacement&) const { change.heading = true; }
    void operator()(const model::MarginReplacement&) const { change.margin = true; }
};

template <class Rewrite> void rewritePaths(model::FenceSet& set, Rewrite rewrite) {
    for (std::size_t i = 0; i < set.sources.size(); ++i) {
        model::Source source = set.sources[i];
        source.path = rewrite(source);
        if (source.path != set.sources[i].path)
            set.sources.replace(i, std::make_shared<const model::Source>(std::move(source)));
    }
}

} // namespace

OpenDocument::OpenDocument(QString recoveryFolder, QObject* parent)
    : QObject{parent}, m_recoveryFolder{std::move(recoveryFolder)}, m_recoveryKey{model::freshIdValue()} {
    m_recoveryTimer.setSingleShot(true);
    m_recoveryTimer.setInterval(kRecoveryDelayMilliseconds);
    connect(&m_recoveryTimer, &QTimer::timeout, this, &OpenDocument::keepRecoveryCopyElsewhere);
    m_recoveryWriter.setMaxThreadCount(1);
}

OpenDocument::~OpenDocument() {
    // Whoever closes a document has asked about unsaved work: what remains was meant to go.
    discardRecoveryCopy();
}

void OpenDocument::discardRecoveryCopy() {
    m_recoveryWriter.waitForDone(); // one that is being written would come back
    if (!m_recoveryFolder.isEmpty())
        store::discardRecoveryCopy(m_recoveryFolder.toStdString(), m_recoveryKey);
}

QString OpenDocument::fileName() const { return m_path.isEmpty() ? tr("Untitled") : QFileInfo{m_path}.fileName(); }

void OpenDocument::push(model::Edit edit) {
    // QUndoStack::push applies the command; one that does not fit must not come onto the stack.
    model::requireUnlocked(m_set, edit);
    m_undo.push(new EditCommand{*this, std::move(edit)});
}

void OpenDocument::apply(const model::Edit& edit, std::uint64_t revision) {
    m_set = model::applied(m_set, edit);
    m_revision = revision;
    DocumentChange change = m_gathered.value_or(DocumentChange{});
    for (const model::Change& one : edit.changes)
        std::visit(Touched{change}, one);
    m_recoveryStale = true;
    if (!m_recoveryFolder.isEmpty() && !m_recoveryTimer.isActive())
        m_recoveryTimer.start();
    if (m_gathered)
        m_gathered = change;
    else
        say(change);
}

/// A gesture has taken itself back: the set is, by value, what it was before.
void OpenDocument::cameBackTo(std::uint64_t revision) {
    m_revision = revision;
    sayWhetherModified();
}

void OpenDocument::say(const DocumentChange& change) {
    emit changed(change);
    sayWhetherModified();
}

void OpenDocument::sayWhetherModified() {
    if (std::exchange(m_saidModified, isModified()) != isModified())
        emit stateChanged();
}

void OpenDocument::goToStep(int index) {
    if (index == m_undo.index())
        return;
    m_gathered.emplace();
    m_undo.setIndex(index);
    say(*std::exchange(m_gathered, std::nullopt));
}

void OpenDocument::replaceAll(model::FenceSet set, const QString& path, bool readOnly, bool recovered) {
    m_recoveryTimer.stop();
    discardRecoveryCopy();
    m_recoveryStale = recovered;
    m_recoveryFaultSaid = false;
    rewritePaths(set,
                 [&](const model::Source& source) { return SourceLibrary::resolvedPath(source, path).toStdString(); });
    m_set = std::move(set);
    m_path = path;
    m_readOnly = readOnly;
    ++m_serial;
    m_revision = freshRevision();
    m_savedRevision = recovered ? std::nullopt : std::optional{m_revision};
    m_saidModified = isModified();
    m_undo.clear();
    if (recovered)
        m_undo.resetClean();
    emit changed({.fences = true,
                  .sites = true,
                  .homes = true,
                  .sources = true,
                  .heading = true,
                  .margin = true,
                  .whole = true});
    emit stateChanged();
}

void OpenDocument::startNew() { replaceAll({}, {}, false, false); }

void OpenDocument::open(const QString& path) {
    auto opened = store::openDocument(path.toStdString());
    take(std::move(opened.set), path, opened.readOnly);
}

void OpenDocument::take(model::FenceSet set, const QString& path, bool readOnly) {
    replaceAll(std::move(set), QFileInfo{path}.absoluteFilePath(), readOnly, false);
}

void OpenDocument::takeRecovered(model::FenceSet set, const QString& path) {
    replaceAll(std::move(set), path, false, true);
    m_recoveryTimer.start();
}

model::FenceSet OpenDocument::setForFile(const QString& path) const {
    model::FenceSet kept = m_set;
    rewritePaths(kept, [&](const model::Source& source) {
        return SourceLibrary::keptPath(QString::fromStdString(source.path), path);
    });
    return kept;
}

void OpenDocument::save(const QString& path) {
    store::saveDocument(setForFile(path), path.toStdString());
    markSaved(path, m_revision);
}

void OpenDocument::markSaved(const QString& path, std::uint64_t revision) {
    m_path = QFileInfo{path}.absoluteFilePath();
    m_readOnly = false;
    m_savedRevision = revision;
    m_saidModified = isModified();
    if (isModified()) {
        m_undo.resetClean();
    } else {
        m_undo.setClean(); // for whoever shows the steps; and none is merged into the one that leads here
        m_recoveryTimer.stop();
        m_recoveryStale = false;
        discardRecoveryCopy();
    }
    emit stateChanged();
}

bool OpenDocument::keepRecoveryCopy() {
    m_recoveryWriter.waitForDone();
    if (m_recoveryFolder.isEmpty() || !m_recoveryStale)
        return !m_recoveryFolder.isEmpty();
    try {
        store::keepRecoveryCopy(m_recoveryFolder.toStdString(), m_recoveryKey, m_path.toStdString(), m_set);
        m_recoveryStale = false;
    } catch (const Fault& fault) {
        sayRecoveryFault(translated(fault));
    }
    return !m_recoveryStale;
}

/// The same without keeping a person waiting, for a set of ten thousand fences takes seconds.
void OpenDocument::keepRecoveryCopyElsewhere() {
    if (m_recoveryFolder.isEmpty() || !m_recoveryStale)
        return;
    if (m_recoveryWriter.activeThreadCount() > 0)
        return m_recoveryTimer.start();
    m_recoveryStale = false;
    m_recoveryWriter.start(
        [this, folder = m_recoveryFolder.toStdString(), key = m_recoveryKey, path = m_path.toStdString(), set = m_set] {
            try {
                store::keepRecoveryCopy(folder, key, path, set);
            } catch (const Fault& fault) {
                QMetaObject::invokeMethod(
                    this,
                    [this, words = translated(fault)] {
                        m_recoveryStale = true;
                        sayRecoveryFault(words);
                    },
                    Qt::QueuedConnection);
            }
        });
}

void OpenDocument::sayRecoveryFault(const QString& words) {
    if (!std::exchange(m_recoveryFaultSaid, true))
        emit recoveryFailed(words);
}

} // namespace fencewright::session
