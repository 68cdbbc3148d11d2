#include "desktop/key_book.h"

#include "desktop/window_actions.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

bool meet(const QKeySequence& a, const QKeySequence& b) {
    return !a.isEmpty() && !b.isEmpty() &&
           (a.matches(b) != QKeySequence::NoMatch || b.matches(a) != QKeySequence::NoMatch);
}

/// Keys that the map, the lists and the calendar answer themselves.
struct FixedKeys {
    const char* shown;
    const char* does;
    const char* place;
    std::vector<QKeySequence> keys;
};

std::vector<FixedKeys> fixedKeys() {
    const char* map = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "On the map");
    const char* calendar = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "On the calendar");
    const char* ledger = QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "In the ledger");
    std::vector<QKeySequence> digits;
    for (int key = Qt::Key_0; key <= Qt::Key_9; ++key)
        digits.push_back(QKeySequence{key});
    digits.push_back(QKeySequence{Qt::Key_Period});
    const std::vector<QKeySequence> arrows{QKeySequence{Qt::Key_Left}, QKeySequence{Qt::Key_Right},
                                           QKeySequence{Qt::Key_Up}, QKeySequence{Qt::Key_Down}};
    return {
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Enter"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Finish what is being drawn"),
         map,
         {QKeySequence{Qt::Key_Return}, QKeySequence{Qt::Key_Enter}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Backspace"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Take back the last corner"),
         map,
         {QKeySequence{Qt::Key_Backspace}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Esc"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Step back; once more: back to selecting"),
         map,
         {QKeySequence{Qt::Key_Escape}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Space"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                           "Click at the cross in the middle of the map; held: drag the map with any tool"),
         map,
         {QKeySequence{Qt::Key_Space}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Arrow keys"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Move the map below the cross"), map, arrows},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Alt with arrow keys"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Move what is chosen by 1 m or 1 ft; with Shift by ten"),
         map,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Alt with the mouse"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Drag an edge parallel to itself"),
         map,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "+ and −, wheel"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Nearer, farther"),
         map,
         {QKeySequence{Qt::Key_Plus}, QKeySequence{Qt::Key_Equal}, QKeySequence{Qt::Key_Minus}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Digits"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Type a distance and a bearing"), map, digits},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "K"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                           "While drawing or on a choice: keep-in or keep-out, home or alternate"),
         map,
         {QKeySequence{Qt::Key_K}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "W"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                           "While drawing: along the boundary on which the last corner lies; the other way; straight"),
         map,
         {QKeySequence{Qt::Key_W}}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Shift"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook",
                           "While drawing: keep to whole angles; while dragging the map: turn it"),
         map,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Alt or Ctrl"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "While drawing: snap to nothing"),
         map,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Left, right"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "A day; with Shift a week"),
         calendar,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Page keys"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "A month; with Shift a year"),
         calendar,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Home, End"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "First and last day of the year"),
         calendar,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Space"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Show or hide a source"),
         ledger,
         {}},
        {QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Alt with up, down"),
         QT_TRANSLATE_NOOP("fencewright::desktop::KeyBook", "Move a source above or below another"),
         ledger,
         {QKeySequence{Qt::ALT | Qt::Key_Up}, QKeySequence{Qt::ALT | Qt::Key_Down}}},
    };
}

} // namespace

QString KeyedCommand::keyWords() const {
    return action ? QKeySequence::listToString(action->shortcuts(), QKeySequence::NativeText).replace("; ", ", ")
                  : fixedKeys;
}

KeyBook::KeyBook(session::Settings& settings, QObject* parent) : QObject{parent}, m_settings{settings} {}

void KeyBook::enrol(const QList<QAction*>& actions) {
    for (QAction* action : actions)
        m_commands.push_back({plainWords(*action), menuPlace(*action), action->shortcuts(), action, {}});
    for (const FixedKeys& fixed : fixedKeys()) {
        QList<QKeySequence> keys;
        for (const QKeySequence& key : fixed.keys)
            keys << key;
        m_commands.push_back({tr(fixed.does), tr(fixed.place), keys, nullptr, tr(fixed.shown)});
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
    std::vector<const KeyedCommand*> found;
    for (const KeyedCommand& command : m_commands) {
        if (command.action && command.action == except)
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
