#include "desktop/clipboard_text.h"

#include "desktop/panels/message_bar.h"

#include <QClipboard>
#include <QGuiApplication>

#include <utility>

namespace fencewright::desktop {

ClipboardText::ClipboardText(session::BackgroundJobs& jobs, MessageBar& messages) : m_jobs{jobs}, m_messages{messages} {
    connect(QGuiApplication::clipboard(), &QClipboard::dataChanged, this, [this] {
        if (m_writing)
            m_writing->cancel();
    });
}

void ClipboardText::put(const QString& text) { QGuiApplication::clipboard()->setText(text); }

void ClipboardText::write(const QString& title, const QString& note, std::function<QString(const Progress&)> write) {
    if (m_writing)
        m_writing->cancel();
    m_writing = m_jobs.start(
        title, std::move(write),
        [this, note](const QString& text) {
            m_writing = nullptr;
            put(text);
            m_messages.showNote(note);
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
}

} // namespace fencewright::desktop
