#include "desktop/flows/file_question.h"

#include <QtWidgets>

namespace fencewright::desktop {

void askForFile(QWidget& window, session::Settings& settings, const FileQuestion& question,
                std::function<void(const QString&)> answer) {
    auto* dialog = new QFileDialog{&window, question.title, settings.lastFolder(), question.filter};
    dialog->setObjectName("fileDialog");
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(question.write ? QFileDialog::AcceptSave : QFileDialog::AcceptOpen);
    dialog->setFileMode(question.folder  ? QFileDialog::Directory
                        : question.write ? QFileDialog::AnyFile
                                         : QFileDialog::ExistingFile);
    if (!question.suffix.isEmpty())
        dialog->setDefaultSuffix(question.suffix);
    if (!question.proposal.isEmpty())
        dialog->selectFile(question.proposal);
    QObject::connect(dialog, &QFileDialog::fileSelected, &window,
                     [&settings, answer = std::move(answer)](const QString& path) {
                         settings.setLastFolder(QFileInfo{path}.absolutePath());
                         answer(path);
                     });
    dialog->open();
}

} // namespace fencewright::desktop
