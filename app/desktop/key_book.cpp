#include "desktop/key_book.h"

#include "desktop/window_actions.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

bool meet(const QKeySequence& a, const QKeySequence& b) {
    return !a.isEmpty() && !b.isEmpty() &&
           (a.matches(b) != QKeySequence::NoMatch || b.matches(a) != QKeySequence::NoMatch);
}

/// Keys that always mean the same, and why.
struct FixedKeys {
    const char* shown;
    const char* does;
    const char* place;
    KeyScope scope;
    const char* why;
    std::vector<QKeySequence> keys;
};

std::vector<FixedKeys> fixedKeys() {
    const char* map = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "On the map");
    const char* calendar = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "On the calendar");
    const char* ledger = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "In the ledger");
    const char* ends =
        QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                          "It stays: forms, dialogs and lists end with the same key, and the way out is never lost.");
    const char* space = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                                          "It stays: Space presses what has the focus in every part of the window.");
    const char* hand = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                                         "It stays: it is held together with the mouse, or is the mouse itself.");
    const char* figures =
        QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "It stays: what is typed on the map begins with it.");
    const char* everyList =
        QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "It stays: lists and calendars have it everywhere.");
    std::vector<QKeySequence> digits;
    for (int key = Qt::Key_0; key <= Qt::Key_9; ++key)
        digits.push_back(QKeySequence{key});
    digits.push_back(QKeySequence{Qt::Key_Period});
    digits.push_back(QKeySequence{Qt::Key_Less});
    return {
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Enter"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Finish what is being drawn"),
         map,
         KeyScope::Map,
         ends,
         {QKeySequence{Qt::Key_Return}, QKeySequence{Qt::Key_Enter}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Esc"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Step back; once more: back to selecting"),
         map,
         KeyScope::Map,
         ends,
         {QKeySequence{Qt::Key_Escape}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Space"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                           "Click at the cross in the middle of the map; held: drag the map with any tool"),
         map,
         KeyScope::Map,
         space,
         {QKeySequence{Qt::Key_Space}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Digits, point and <"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Type a distance and a bearing"), map, KeyScope::Map,
         figures, digits},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Wheel"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Nearer, farther"),
         map,
         KeyScope::Map,
         hand,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Alt with the mouse"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Drag an edge parallel to itself"),
         map,
         KeyScope::Map,
         hand,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Shift"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                           "While drawing: keep to whole angles; while dragging the map: turn it"),
         map,
         KeyScope::Map,
         hand,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Alt or Ctrl"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "While drawing: snap to nothing"),
         map,
         KeyScope::Map,
         hand,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Left, right"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "A day; with Shift a week"),
         calendar,
         KeyScope::Calendar,
         everyList,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Page keys"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "A month; with Shift a year"),
         calendar,
         KeyScope::Calendar,
         everyList,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Home, End"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "First and last day of the year"),
         calendar,
         KeyScope::Calendar,
         everyList,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Space"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Show or hide a source"),
         ledger,
         KeyScope::Ledger,
         space,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Alt with up, down"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Move a source above or below another"),
         ledger,
         KeyScope::Ledger,
         everyList,
         {QKeySequence{Qt::ALT | Qt::Key_Up}, QKeySequence{Qt::ALT | Qt::Key_Down}}},
    };
}

/// Whether there is a place where both work.
bool meet(KeyScope a, KeyScope b) { return a == b || a == KeyScope::Window || b == KeyScope::Window; }

} // namespace

QString KeyedCommand::keyWords() const {
    return action ? QKeySequence::listToString(action->shortcuts(), QKeySequence::NativeText).replace("; ", ", ")
                  : fixedKeys;
}

KeyBook::KeyBook(session::Settings& settings, QObject* parent) : QObject{parent}, m_settings{settings} {}

void KeyBook::enrol(const QList<QAction*>& actions) {
    for (QAction* action : actions)
        m_commands.push_back({plainWords(*action),
                              menuPlace(*action),
                              action->shortcuts(),
                              action,
                              {},
                              {},
                              action->shortcutContext() == Qt::WidgetShortcut ? KeyScope::Map : KeyScope::Window});
    for (const FixedKeys& fixed : fixedKeys()) {
        QList<QKeySequence> keys;
        for (const QKeySequence& key : fixed.keys)
            keys << key;
        m_commands.push_back(
            {tr(fixed.does), tr(fixed.place), keys, nullptr, tr(fixed.shown), tr(fixed.why), fixed.scope});
    }
    for (QAction* action : actions) {
        const auto chosen = m_settings.chosenKeys(action->objectName());
        if (!chosen)
            continue;
        const auto keys = QKeySequence::listFromString(*chosen, QKeySequence::PortableText);
        const bool readable = std::none_of(keys.begin(), keys.end(),
                                           [](const QKeySequence& key) { return key[0].key() == Qt::Key_unknown; });
        if (!readable)
            continue;
        action->setShortcuts(keys);
        for (const QKeySequence& key : keys)
            for (const KeyedCommand* other : clashes(key, action)) {
                // What always means the same cannot give way, and of two that were chosen the later is as good.
                QList<QKeySequence> left = other->action ? other->action->shortcuts() : QList<QKeySequence>{};
                left.removeIf([&](const QKeySequence& one) { return meet(one, key); });
                if (other->action)
                    other->action->setShortcuts(left);
            }
    }
    for (const KeyedCommand& command : m_commands)
        retip(command);
}

const KeyedCommand* KeyBook::find(const QAction* action) const {
    for (const KeyedCommand& command : m_commands)
        if (command.action == action)
            return &command;
    return nullptr;
}

std::vector<const KeyedCommand*> KeyBook::clashes(const QKeySequence& key, const QAction* except) const {
    const KeyedCommand* asking = except ? find(except) : nullptr;
    const KeyScope scope = asking ? asking->scope : KeyScope::Window;
    std::vector<const KeyedCommand*> found;
    for (const KeyedCommand& command : m_commands) {
        if ((command.action && command.action == except) || !meet(command.scope, scope))
            continue;
        const QList<QKeySequence> keys = command.action ? command.action->shortcuts() : command.given;
        if (std::any_of(keys.begin(), keys.end(), [&](const QKeySequence& one) { return meet(one, key); }))
            found.push_back(&command);
    }
    return found;
}

void KeyBook::put(QAction* action, const QList<QKeySequence>& keys) {
    const KeyedCommand* command = find(action);
    if (!command)
        return;
    action->setShortcuts(keys);
    if (keys == command->given)
        m_settings.forgetKeys(action->objectName());
    else
        m_settings.chooseKeys(action->objectName(), QKeySequence::listToString(keys, QKeySequence::PortableText));
    retip(*command);
}

void KeyBook::takeFromOthers(const QAction* from, const QList<QKeySequence>& keys) {
    for (const QKeySequence& key : keys)
        for (const KeyedCommand* other : clashes(key, from)) {
            if (!other->action)
                continue;
            QList<QKeySequence> left = other->action->shortcuts();
            left.removeIf([&](const QKeySequence& one) { return meet(one, key); });
            put(other->action, left);
        }
}

void KeyBook::assign(QAction* action, const QKeySequence& key) {
    const QList<QKeySequence> keys = key.isEmpty() ? QList<QKeySequence>{} : QList<QKeySequence>{key};
    takeFromOthers(action, keys);
    put(action, keys);
    emit changed();
}

void KeyBook::giveBack(QAction* action) {
    const KeyedCommand* command = find(action);
    if (!command)
        return;
    takeFromOthers(action, command->given);
    put(action, command->given);
    emit changed();
}

void KeyBook::giveAllBack() {
    m_settings.forgetAllKeys();
    for (const KeyedCommand& command : m_commands)
        if (command.action) {
            command.action->setShortcuts(command.given);
            retip(command);
        }
    emit changed();
}

void KeyBook::retip(const KeyedCommand& command) {
    if (!command.action)
        return;
    const QString keys = command.keyWords();
    command.action->setToolTip(keys.isEmpty() ? command.words : tr("%1 (%2)").arg(command.words, keys));
}

} // namespace fencewright::desktop
