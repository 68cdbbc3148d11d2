#pragma once

#include <QObject>
#include <QPointer>
#include <QString>

#include "progress.h"
#include "session/background_jobs.h"

#include <functional>

namespace fencewright::desktop {

class MessageBar;

/// Puts text on the clipboard; long text once a job has written it, while the window goes on.
class ClipboardText : public QObject {
    Q_OBJECT

public:
    ClipboardText(session::BackgroundJobs& jobs, MessageBar& messages);

    /// At once; what is still being written is given up.
    void put(const QString& text);
    /// @param title  of the job: "Copying 20000 corners". @param note  what is said when the text is there.
    /// @param write  on another thread. What it answers is dropped if anybody has put something else on the clipboard
    /// meanwhile: that is newer.
    void write(const QString& title, const QString& note, std::function<QString(const Progress&)> write);

private:
    session::BackgroundJobs& m_jobs;
    MessageBar& m_messages;
    QPointer<session::BackgroundJob> m_writing;
};

} // namespace fencewright::desktop
