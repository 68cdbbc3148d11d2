#include "desktop/clipboard_text.h"

#include "desktop/panels/message_bar.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QMimeData>

#include <utility>

namespace fencewright::desktop {

ClipboardText::ClipboardText(session::BackgroundJobs& jobs, MessageBar& messages) : m_jobs{jobs}, m_messages{messages} {
    connect(QGuiApplication::clipboard(), &QClipboard::dataChanged, this, [this] {
        if (m_writing)
            m_writing->cancel();
    });
}

void ClipboardText::put(const ClipboardEntry& entry) {
    auto* content = new QMimeData;
    content->setText(entry.text);
    if (!entry.mediaType.isEmpty())
        content->setData(entry.mediaType, entry.text.toUtf8());
    QGuiApplication::clipboard()->setMimeData(content);
    if (!entry.note.isEmpty())
        m_messages.showNote(entry.note);
}

void ClipboardText::write(const QString& title, std::function<ClipboardEntry(const Progress&)> write,
                          std::function<void()> then) {
    if (m_writing)
        m_writing->cancel();
    m_waiting.clear();
    if (then)
        m_waiting.push_back(std::move(then));
    m_writing = m_jobs.start(
        title, std::move(write),
        [this](const ClipboardEntry& entry) {
            m_writing = nullptr;
            put(entry);
            for (const auto& act : std::exchange(m_waiting, {}))
                act();
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
}

void ClipboardText::whenWritten(std::function<void()> act) {
    if (m_writing && !m_writing->isCancelled())
        m_waiting.push_back(std::move(act));
    else
        act();
}

} // namespace fencewright::desktop
