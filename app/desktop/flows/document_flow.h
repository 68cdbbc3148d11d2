#pragma once

#include <QObject>

#include "desktop/panels/message_bar.h"
#include "session/background_jobs.h"
#include "session/open_document.h"
#include "session/settings.h"

#include <functional>

namespace fencewright::desktop {

/// New, open, save, and what is asked before unsaved work would go.
class DocumentFlow : public QObject {
    Q_OBJECT

public:
    /// @param recoveryFolder  empty: no copies are offered.
    DocumentFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                 session::Settings& settings, MessageBar& messages, QString recoveryFolder);

    void startNew();
    void ask();
    void open(const QString& path);
    void save() { save({}); }
    void saveAs() { saveAs({}); }
    /// Goes on at once where no dialog is open and nothing is unsaved. Else waits until the dialog is closed, which is
    /// about this document; and asks, and goes on when the work, all of it, is saved or given up.
    void whenSafe(const std::function<void()>& goOn);
    /// Offers what a crash left behind; says nothing where there is nothing.
    void offerRecovery();

signals:
    void opened();

private:
    void read(const QString& path);
    void save(const std::function<void()>& then);
    void saveAs(const std::function<void()>& then);
    void write(const QString& path, const std::function<void()>& then);

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    session::Settings& m_settings;
    MessageBar& m_messages;
    QString m_recoveryFolder;
    bool m_saving = false;
    int m_savings = 0;                   ///< that were begun
    std::function<void()> m_afterSaving; ///< what waits for the file to be written
};

} // namespace fencewright::desktop
