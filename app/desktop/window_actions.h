#pragma once

#include <QAction>
#include <QActionGroup>
#include <QObject>

#include "desktop/tools/tool_table.h"

#include <vector>

class QMenu;
class QMenuBar;
class QUndoStack;

namespace fencewright::desktop {

/// The words of a command as it is listed: no mark of a letter, no dots, and no title of the step it would undo.
[[nodiscard]] QString plainWords(const QAction& action);
/// Where the menus have it: "View › Grid"; of what no menu has, its property "place".
[[nodiscard]] QString menuPlace(const QAction& action);

/// Everything the window can be told to do: words, keys, icons. What each does is connected by the window.
class WindowActions : public QObject {
    Q_OBJECT

public:
    /// The actions become those of the window, so that their keys work wherever the focus is.
    WindowActions(QUndoStack& undo, QWidget* window);

    QAction* make;
    QAction* open;
    QAction* sample;
    QAction* save;
    QAction* saveAs;
    QAction* quit;
    QAction* undo;
    QAction* redo;
    QAction* remove;
    QAction* copy;
    QAction* cut;
    QAction* paste;
    QAction* lock;
    QAction* unlock;
    QAction* selectAll;
    QAction* selectOthers;
    QAction* selectNone;
    QAction* selectWhere;
    QAction* shareCorners;
    QAction* corners;
    // Of what is selected; see ShapingFlow.
    QAction* unite;
    QAction* takeOut;
    QAction* intersect;
    QAction* fillHoles;
    QAction* makePolygon;
    QAction* offsetCopy;
    QAction* duplicate;
    QAction* search;
    QAction* addImagery;
    QAction* addFolder;
    QAction* addServer;
    QAction* addReference;
    QAction* addTable;
    QAction* importFences;
    QAction* importSites;
    QAction* importHomes;
    QAction* deed;
    QAction* showSources;
    QAction* nextFinding;
    QAction* goToDate;
    QAction* margin;
    QAction* deliver;
    QAction* whatIsHere;
    QAction* zoomAll;
    QAction* zoomSelection;
    QAction* nearer;
    QAction* farther;
    QAction* turnLeft;
    QAction* turnRight;
    QAction* northUp;
    QAction* clearArea;
    QAction* nextPart;
    QAction* listEdits;
    QAction* showTools;
    QAction* showColumn;
    QAction* showCalendar;
    QAction* arrangeAsGiven;
    QAction* metric;
    QAction* us;
    QAction* keys;
    QAction* about;
    /// In the order of the tool table, with the tool's id as data.
    std::vector<QAction*> tools;
    /// The tool for a keep-in, without which nothing is permitted: where one begins.
    QAction* firstFence = nullptr;
    /// In the order of geodesy::Notation and session::Theme.
    std::vector<QAction*> notations;
    std::vector<QAction*> themes;
    std::vector<QAction*> languages; ///< in the order of session::Language
    std::vector<QAction*> grids;     ///< in the order of session::MapGrid
    std::vector<QAction*> snaps;     ///< in the order of snapSwitches(), with the switch's id as data
    QMenu* recent = nullptr;

    void fill(QMenuBar& bar);
    /// Names the fence out of which the others would be taken; empty: there is none.
    void sayTakeOut(const QString& fence) const;
    /// All of them, for the search and the page of keys.
    QList<QAction*> all() const { return m_all; }

private:
    QAction* add(const char* name, const QString& words, const QKeySequence& key = {}, const char* icon = nullptr);
    QAction* choice(QActionGroup& group, const char* name, const QString& words);
    QAction* shown(const char* name, const QString& words);
    /// Its words go on with the title of the step.
    void followSteps(QAction* action, const QString& titleNow, void (QUndoStack::*titleChanged)(const QString&),
                     void (QUndoStack::*canChanged)(bool), void (QUndoStack::*act)());
    void adopt(QAction* action, const char* name, const char* icon);

    QUndoStack& m_undo;
    QWidget* m_window;
    QList<QAction*> m_all;
};

} // namespace fencewright::desktop
