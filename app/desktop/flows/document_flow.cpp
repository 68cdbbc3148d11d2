#include "desktop/flows/document_flow.h"

#include "desktop/dialogs/recovery_dialog.h"
#include "desktop/flows/file_question.h"
#include "store/document_file.h"
#include "store/recovery.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kDialogMilliseconds = 50; // between two looks whether a dialog is still open

} // namespace

DocumentFlow::DocumentFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                           session::Settings& settings, MessageBar& messages, QString recoveryFolder)
    : m_window{window}, m_document{document}, m_jobs{jobs}, m_settings{settings}, m_messages{messages},
      m_recoveryFolder{std::move(recoveryFolder)} {
    connect(&document, &session::OpenDocument::recoveryFailed, &messages,
            qOverload<const QString&>(&MessageBar::showFault));
}

void DocumentFlow::startNew() {
    whenSafe([this] {
        m_document.startNew();
        emit opened();
    });
}

void DocumentFlow::ask() {
    whenSafe([this] {
        askForFile(m_window, m_settings, {tr("Open document"), tr("Fence sets (*.gpkg);;All files (*)"), {}, {}, false},
                   [this](const QString& path) { open(path); });
    });
}

void DocumentFlow::open(const QString& path) {
    whenSafe([this, path] { read(path); });
}

void DocumentFlow::read(const QString& path) {
    if (m_saving) { // into that very file, it may be
        m_afterSaving = [this, path] { read(path); };
        return;
    }
    m_jobs.start(
        tr("Opening %1").arg(QFileInfo{path}.fileName()),
        [file = path.toStdString()](const Progress&) { return store::openDocument(file); },
        [this, path, savings = m_savings](store::OpenedDocument opened) {
            // Something may have been drawn while the file was read.
            whenSafe([this, path, savings, opened] {
                if (savings != m_savings)
                    return read(path); // what was read may be older than the file
                m_document.take(opened.set, path, opened.readOnly);
                m_settings.addRecentDocument(path);
                // What is brought in next mostly lies beside the document.
                m_settings.setLastFolder(QFileInfo{path}.absolutePath());
                if (opened.readOnly)
                    m_messages.showNote(tr("This file cannot be written. Save under another name to keep changes."));
                emit this->opened();
            });
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
}

void DocumentFlow::whenSafe(const std::function<void()>& goOn) {
    if (QApplication::activeModalWidget())
        return QTimer::singleShot(kDialogMilliseconds, this, [this, goOn] { whenSafe(goOn); });
    if (!m_document.isModified())
        return goOn();
    auto* question = new QMessageBox{&m_window};
    question->setObjectName("unsavedQuestion");
    question->setAttribute(Qt::WA_DeleteOnClose);
    question->setIcon(QMessageBox::NoIcon);
    question->setWindowTitle(tr("Unsaved work"));
    question->setText(tr("<b>Save the changes in %1?</b>").arg(m_document.fileName().toHtmlEscaped()));
    question->setInformativeText(tr("Without saving they are gone."));
    question->setStandardButtons(QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel);
    question->setDefaultButton(QMessageBox::Save);
    connect(question, &QMessageBox::finished, this, [this, goOn, revision = m_document.revision()](int answer) {
        if (answer != QMessageBox::Save && answer != QMessageBox::Discard)
            return;
        if (revision != m_document.revision())
            return whenSafe(goOn); // the answer was about other work than what is there now
        if (answer == QMessageBox::Save)
            save(goOn);
        else
            goOn();
    });
    question->open();
}

void DocumentFlow::save(const std::function<void()>& then) {
    if (m_document.path().isEmpty() || m_document.isReadOnly())
        saveAs(then);
    else
        write(m_document.path(), then);
}

void DocumentFlow::saveAs(const std::function<void()>& then) {
    const QString name = m_document.path().isEmpty() ? tr("fence-set.gpkg") : m_document.fileName();
    askForFile(m_window, m_settings, {tr("Save document as"), tr("Fence sets (*.gpkg)"), name, "gpkg", true},
               [this, then, document = m_document.serial()](const QString& path) {
                   if (document == m_document.serial()) // or the name was not meant for this one
                       write(path, then);
               });
}

void DocumentFlow::write(const QString& path, const std::function<void()>& then) {
    if (m_saving) {
        m_messages.showNote(tr("The document is being saved; try again when that is done."));
        return;
    }
    m_saving = true;
    ++m_savings;
    auto* job = m_jobs.start(
        tr("Saving %1").arg(QFileInfo{path}.fileName()),
        [set = m_document.setForFile(path), file = path.toStdString()](const Progress& progress) {
            store::saveDocument(set, file, progress);
            return true;
        },
        [this, path, document = m_document.serial(), revision = m_document.revision(), then](bool) {
            m_settings.addRecentDocument(path);
            if (document != m_document.serial())
                return; // another has taken its place, and is not in that file
            m_document.markSaved(path, revision);
            if (then)
                whenSafe(then); // something may have been drawn while the file was written
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
    connect(job, &session::BackgroundJob::finished, this, [this] {
        m_saving = false;
        if (const auto act = std::exchange(m_afterSaving, {}))
            act();
    });
}

void DocumentFlow::offerRecovery() {
    if (m_recoveryFolder.isEmpty())
        return;
    std::vector<store::RecoveryCopy> copies;
    try {
        copies = store::leftBehind(m_recoveryFolder.toStdString());
    } catch (const Fault& fault) {
        m_messages.showFault(fault);
    }
    if (copies.empty())
        return;
    auto* dialog = new RecoveryDialog{std::move(copies), &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &RecoveryDialog::discardRequested, this, [this](const store::RecoveryCopy& copy) {
        try {
            store::discardRecoveryCopy(copy);
        } catch (const Fault& fault) {
            m_messages.showFault(fault);
        }
    });
    connect(dialog, &RecoveryDialog::recoverRequested, this, [this](const store::RecoveryCopy& copy) {
        m_jobs.start(
            tr("Recovering unsaved work"), [copy](const Progress&) { return store::readRecoveryCopy(copy); },
            [this, copy](model::FenceSet set) {
                whenSafe([this, copy, set] {
                    m_document.takeRecovered(set, QString::fromStdString(copy.documentPath));
                    emit opened();
                    // Until it has a copy of its own, that one is the only one.
                    if (m_document.keepRecoveryCopy())
                        store::discardRecoveryCopy(copy);
                });
            },
            [this](const Fault& fault) { m_messages.showFault(fault); });
    });
    dialog->open();
}

} // namespace fencewright::desktop
