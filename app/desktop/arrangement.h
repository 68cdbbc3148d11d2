#pragma once

#include <QList>
#include <QObject>
#include <QPointer>

#include "session/settings.h"

#include <functional>

class QAction;
class QHeaderView;
class QSplitter;
class QWidget;

namespace fencewright::desktop {

/// Puts a window wholly on one of the screens, smaller where it must be.
void fitOnScreen(QWidget& window);

/// How the parts of the window are arranged, from one start to the next: what is shown, how the room is shared, how
/// large each dialog was left.
class Arrangement : public QObject {
    Q_OBJECT

public:
    explicit Arrangement(session::Settings& settings, QObject* parent = nullptr);

    /// The action, checkable, shows and hides the parts.
    void keepShown(QAction* action, QList<QWidget*> parts);
    /// Once a person has moved a handle of it, the room stays shared out like that. @param given  as it came.
    void keepSplit(const char* name, QSplitter* splitter, std::function<void()> given);
    bool isMoved(const QSplitter* splitter) const;
    /// Columns as wide as what they hold, until a person drags one of them.
    void keepColumns(const char* name, QHeaderView* header, QList<int> columns);
    /// Once for all: everything as it was left.
    void restore();
    void giveBack();

    /// Dialogs with a name get the size they were left with.
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct Shown {
        QAction* action;
        QList<QWidget*> parts;
    };
    struct Split {
        QString name;
        QPointer<QSplitter> splitter;
        std::function<void()> given;
        bool moved = false;
    };

    struct Columns {
        QString name;
        QPointer<QHeaderView> header;
        QList<int> columns;
    };
    void dragColumns(const QObject* viewport);
    void restoreColumns(const Columns& one);

    session::Settings& m_settings;
    QList<Shown> m_shown;
    QList<Split> m_splits;
    QList<Columns> m_columns;
};

} // namespace fencewright::desktop
