#pragma once

#include <QFrame>

#include "fault.h"

#include <functional>

class QLabel;
class QPushButton;
class QTimer;

namespace fencewright::desktop {

/// What went wrong or was done, over the map, without standing in the way: problem, place, remedy, and a way to close
/// it.
class MessageBar : public QFrame {
    Q_OBJECT

public:
    explicit MessageBar(QWidget* parent);

    /// Stays until closed or until another takes its place.
    void showFault(const Fault& fault);
    void showFault(const QString& words);
    /// What could not be done just now: goes as soon as something is done.
    void showRefusal(const QString& words);
    void somethingDone();
    /// A piece of work has gone well: what an earlier one could not do is of the past. A note stays.
    void workDone();
    /// Goes by itself after a while. With an action: a link that does it.
    void showNote(const QString& words, const QString& action = {}, std::function<void()> act = {});
    QString words() const;

signals:
    /// It appeared, grew or went: whoever places it must do so anew.
    void resized();

private:
    void present(const QString& words, const QString& details, bool fault);

    QLabel* m_words;
    QLabel* m_details;
    QPushButton* m_action;
    std::function<void()> m_act;
    QTimer* m_leave;
    bool m_refusal = false; ///< what is shown is one
};

} // namespace fencewright::desktop
