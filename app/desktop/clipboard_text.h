#pragma once

#include <QObject>
#include <QPointer>
#include <QString>

#include "progress.h"
#include "session/background_jobs.h"

#include <functional>
#include <vector>

namespace fencewright::desktop {

class MessageBar;

/// What is put on the clipboard, and said when it is there.
struct ClipboardEntry {
    QString text;
    QString note;      ///< empty: nothing is said
    QString mediaType; ///< that the text is offered as besides, such as "application/geo+json"; empty: none
};

/// Puts text on the clipboard; long text once a job has written it, while the window goes on.
class ClipboardText : public QObject {
    Q_OBJECT

public:
    ClipboardText(session::BackgroundJobs& jobs, MessageBar& messages);

    /// At once; what is still being written is given up.
    void put(const ClipboardEntry& entry);
    /// @param title  of the job: "Copying 20000 corners".
    /// @param write  on another thread. What it answers is dropped if anybody has put something else on the clipboard
    /// meanwhile: that is newer.
    /// @param then   once it is there.
    void write(const QString& title, std::function<ClipboardEntry(const Progress&)> write,
               std::function<void()> then = {});
    /// At once, or when what is being written is there; not if it never comes to be there.
    void whenWritten(std::function<void()> act);

private:
    session::BackgroundJobs& m_jobs;
    MessageBar& m_messages;
    QPointer<session::BackgroundJob> m_writing;
    std::vector<std::function<void()>> m_waiting;
};

} // namespace fencewright::desktop
