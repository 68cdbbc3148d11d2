#include "desktop/canvas/map_commands.h"

#include "desktop/canvas/map_canvas.h"

#include <QCoreApplication>

#include <functional>

namespace fencewright::desktop {
namespace {

/// One line a command: where a key of the map is added.
struct MapCommand {
    const char* id;
    const char* words; ///< translated where shown
    QKeySequence key;
    std::function<void(MapCanvas&)> act;
};

std::vector<MapCommand> mapCommands() {
    using Kind = ToolEvent::Kind;
    const auto tells = [](Kind kind) { return [kind](MapCanvas& map) { map.tell(kind); }; };
    const auto steps = [](Qt::ArrowType to) { return [to](MapCanvas& map) { map.step(to); }; };
    const auto nudges = [](Qt::ArrowType to, bool far) { return [to, far](MapCanvas& map) { map.nudge(to, far); }; };
    constexpr auto far = Qt::ALT | Qt::SHIFT;
    return {
        {"mapStepBack", QT_TRANSLATE_NOOP("MapCommands", "Take back the last corner"), QKeySequence{Qt::Key_Backspace},
         tells(Kind::StepBack)},
        {"mapOtherKind", QT_TRANSLATE_NOOP("MapCommands", "Keep-in or keep-out, home or alternate"),
         QKeySequence{Qt::Key_K}, tells(Kind::OtherKind)},
        {"mapFollow", QT_TRANSLATE_NOOP("MapCommands", "Follow the boundary; the other way; straight"),
         QKeySequence{Qt::Key_W}, tells(Kind::Follow)},
        {"mapLeft", QT_TRANSLATE_NOOP("MapCommands", "Go left on the map"), QKeySequence{Qt::Key_Left},
         steps(Qt::LeftArrow)},
        {"mapRight", QT_TRANSLATE_NOOP("MapCommands", "Go right on the map"), QKeySequence{Qt::Key_Right},
         steps(Qt::RightArrow)},
        {"mapUp", QT_TRANSLATE_NOOP("MapCommands", "Go up on the map"), QKeySequence{Qt::Key_Up}, steps(Qt::UpArrow)},
        {"mapDown", QT_TRANSLATE_NOOP("MapCommands", "Go down on the map"), QKeySequence{Qt::Key_Down},
         steps(Qt::DownArrow)},
        {"nudgeLeft", QT_TRANSLATE_NOOP("MapCommands", "Nudge left by 1 m or 1 ft"),
         QKeySequence{Qt::ALT | Qt::Key_Left}, nudges(Qt::LeftArrow, false)},
        {"nudgeRight", QT_TRANSLATE_NOOP("MapCommands", "Nudge right by 1 m or 1 ft"),
         QKeySequence{Qt::ALT | Qt::Key_Right}, nudges(Qt::RightArrow, false)},
        {"nudgeUp", QT_TRANSLATE_NOOP("MapCommands", "Nudge up by 1 m or 1 ft"), QKeySequence{Qt::ALT | Qt::Key_Up},
         nudges(Qt::UpArrow, false)},
        {"nudgeDown", QT_TRANSLATE_NOOP("MapCommands", "Nudge down by 1 m or 1 ft"),
         QKeySequence{Qt::ALT | Qt::Key_Down}, nudges(Qt::DownArrow, false)},
        {"nudgeFarLeft", QT_TRANSLATE_NOOP("MapCommands", "Nudge left by 10 m or 10 ft"),
         QKeySequence{far | Qt::Key_Left}, nudges(Qt::LeftArrow, true)},
        {"nudgeFarRight", QT_TRANSLATE_NOOP("MapCommands", "Nudge right by 10 m or 10 ft"),
         QKeySequence{far | Qt::Key_Right}, nudges(Qt::RightArrow, true)},
        {"nudgeFarUp", QT_TRANSLATE_NOOP("MapCommands", "Nudge up by 10 m or 10 ft"), QKeySequence{far | Qt::Key_Up},
         nudges(Qt::UpArrow, true)},
        {"nudgeFarDown", QT_TRANSLATE_NOOP("MapCommands", "Nudge down by 10 m or 10 ft"),
         QKeySequence{far | Qt::Key_Down}, nudges(Qt::DownArrow, true)},
    };
}

} // namespace

QList<QAction*> makeMapCommands(MapCanvas& map) {
    const QString place = QCoreApplication::translate("MapCommands", "On the map");
    QList<QAction*> actions;
    for (const MapCommand& command : mapCommands()) {
        auto* action = new QAction{QCoreApplication::translate("MapCommands", command.words), &map};
        action->setObjectName(command.id);
        action->setProperty("place", place);
        action->setShortcut(command.key);
        action->setShortcutContext(Qt::WidgetShortcut); // tells the page of keys where it works
        QObject::connect(action, &QAction::triggered, &map, [&map, act = command.act] { act(map); });
        actions << action;
    }
    return actions;
}

} // namespace fencewright::desktop
