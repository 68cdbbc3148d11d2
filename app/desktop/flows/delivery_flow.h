#pragma once

#include <QObject>

#include "desktop/panels/message_bar.h"
#include "desktop/theme.h"
#include "session/live_audit.h"

#include <set>

namespace fencewright::desktop {

/// Hands out the set: asks how, writes and reads back in the background, and shows what became of it.
class DeliveryFlow : public QObject {
    Q_OBJECT

public:
    DeliveryFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                 session::LiveAudit& audit, session::Settings& settings, Appearance& appearance, MessageBar& messages);

    void ask();

private:
    QWidget& m_window;
    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    session::LiveAudit& m_audit;
    session::Settings& m_settings;
    Appearance& m_appearance;
    MessageBar& m_messages;
    std::set<QString> m_underWay; ///< files that are being delivered
};

} // namespace fencewright::desktop
