#pragma once

#include <QAction>
#include <QKeySequence>
#include <QList>
#include <QObject>

#include "session/settings.h"

#include <vector>

namespace fencewright::desktop {

/// Where a key works. What works in the whole window works in its parts, too.
enum class KeyScope { Window, Map, Ledger, Calendar };

/// A command with its keys, or a key that always means the same.
struct KeyedCommand {
    QString words;
    QString place;             ///< in the menus, or where the key works
    QList<QKeySequence> given; ///< as the program came
    QAction* action = nullptr; ///< null: it always means the same
    QString fixedKeys;         ///< of one that always means the same: "Enter", "Digits"
    QString why;               ///< it always means the same
    KeyScope scope = KeyScope::Window;

    /// The keys as they are now, in words; empty: none.
    QString keyWords() const;
    bool isAsGiven() const { return !action || action->shortcuts() == given; }
};

/// Which key does what: as given, as a person has chosen since, and what always means the same.
/// Every tooltip of a command says its present key.
class KeyBook : public QObject {
    Q_OBJECT

public:
    explicit KeyBook(session::Settings& settings, QObject* parent = nullptr);

    /// Takes their keys as the given ones, and puts those that were chosen before in their place. A key that is
    /// chosen for one and given to another belongs to the chosen one.
    void enrol(const QList<QAction*>& actions);

    const std::vector<KeyedCommand>& commands() const { return m_commands; }
    /// What already answers to the key where `except` works, beside it: the same key, or one that begins with it.
    std::vector<const KeyedCommand*> clashes(const QKeySequence& key, const QAction* except) const;
    /// Gives the command that key alone and takes it from every other command; empty: none. Lasts.
    /// What always means the same keeps its keys: ask clashes() first.
    void assign(QAction* action, const QKeySequence& key);
    /// The given keys again, taken from whoever has them now.
    void giveBack(QAction* action);
    void giveAllBack();

signals:
    void changed();

private:
    void put(QAction* action, const QList<QKeySequence>& keys);
    void takeFromOthers(const QAction* from, const QList<QKeySequence>& keys);
    void retip(const KeyedCommand& command);
    const KeyedCommand* find(const QAction* action) const;

    session::Settings& m_settings;
    std::vector<KeyedCommand> m_commands;
};

} // namespace fencewright::desktop
