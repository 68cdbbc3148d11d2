#include "desktop/panels/message_bar.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kNoteMilliseconds = 12000;

} // namespace

MessageBar::MessageBar(QWidget* parent)
    : QFrame{parent}, m_words{new QLabel{this}}, m_details{new QLabel{this}}, m_action{new QPushButton{this}},
      m_leave{new QTimer{this}} {
    setObjectName("messageBar");
    m_words->setObjectName("messageWords");
    m_words->setWordWrap(true);
    m_words->setProperty("strong", true);
    m_words->setTextFormat(Qt::PlainText);
    m_details->setWordWrap(true);
    m_details->setTextFormat(Qt::PlainText);
    m_details->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_action->setObjectName("messageAction");
    m_action->setProperty("link", true);
    auto* close = new QPushButton{tr("Close"), this};
    close->setObjectName("messageClose");
    close->setProperty("link", true);
    close->setAccessibleName(tr("Close this message"));
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(m_words);
    words->addWidget(m_details);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(12, 8, 8, 8);
    row->setSpacing(8);
    row->addLayout(words, 1);
    row->addWidget(m_action, 0, Qt::AlignTop);
    row->addWidget(close, 0, Qt::AlignTop);
    connect(close, &QPushButton::clicked, this, [this] {
        hide();
        emit resized();
    });
    connect(m_action, &QPushButton::clicked, this, [this] {
        hide();
        if (m_act)
            m_act();
    });
    m_leave->setSingleShot(true);
    connect(m_leave, &QTimer::timeout, this, &QWidget::hide);
    hide();
}

void MessageBar::showFault(const Fault& fault) {
    QStringList details;
    for (const Wording* words : {&fault.words().place, &fault.words().remedy})
        if (!words->empty())
            details << session::translated(*words);
    m_action->hide();
    present(session::translated(fault.words().problem), details.join("\n"), true);
}

void MessageBar::showFault(const QString& words) {
    m_action->hide();
    present(words, {}, true);
}

void MessageBar::showRefusal(const QString& words) {
    showFault(words);
    m_refusal = true;
}

void MessageBar::somethingDone() {
    if (m_refusal)
        workDone();
}

void MessageBar::workDone() {
    if (!property("fault").toBool())
        return;
    m_refusal = false;
    hide();
    emit resized();
}

void MessageBar::showNote(const QString& words, const QString& action, std::function<void()> act) {
    m_act = std::move(act);
    m_action->setVisible(!action.isEmpty());
    m_action->setText(action);
    present(words, {}, false);
    m_leave->start(kNoteMilliseconds);
}

QString MessageBar::words() const { return isHidden() ? QString{} : m_words->text() + "\n" + m_details->text(); }

void MessageBar::present(const QString& words, const QString& details, bool fault) {
    m_leave->stop();
    m_refusal = false;
    m_words->setText(words);
    m_details->setText(details);
    m_details->setVisible(!details.isEmpty());
    setProperty("fault", fault);
    style()->unpolish(this);
    style()->polish(this);
    setAccessibleName(words + " " + details);
    show();
    raise();
    emit resized();
}

} // namespace fencewright::desktop
