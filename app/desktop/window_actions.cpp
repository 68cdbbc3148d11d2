#include "desktop/window_actions.h"

#include <QtWidgets>

namespace fencewright::desktop {

WindowActions::WindowActions(QUndoStack& stack, QWidget* window) : QObject{window}, m_window{window} {
    make = add("new", tr("&New"), QKeySequence::New);
    open = add("open", tr("&Open…"), QKeySequence::Open, ":/icons/open.svg");
    sample = add("sample", tr("Open the &sample"), {}, ":/icons/sample.svg");
    save = add("save", tr("&Save"), QKeySequence::Save);
    saveAs = add("saveAs", tr("Save &as…"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_S});
    quit = add("quit", tr("&Quit"), QKeySequence{Qt::CTRL | Qt::Key_Q});
    undo = stack.createUndoAction(this, tr("Undo:"));
    undo->setShortcut(QKeySequence::Undo);
    adopt(undo, "undo", nullptr);
    redo = stack.createRedoAction(this, tr("Redo:"));
    redo->setShortcuts({QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Z}, QKeySequence{Qt::CTRL | Qt::Key_Y}});
    adopt(redo, "redo", nullptr);
    remove = add("delete", tr("&Delete"), QKeySequence{Qt::Key_Delete});
    search = add("search", tr("&Find a command or place"), QKeySequence{Qt::CTRL | Qt::Key_K}, ":/icons/search.svg");
    addImagery =
        add("addImagery", tr("Add &imagery…"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_I}, ":/icons/imagery.svg");
    addImagery->setWhatsThis(tr("An orthophoto or any other raster, to draw over"));
    addFolder = add("addFolder", tr("Add a &folder…"));
    addFolder->setWhatsThis(tr("A folder of tiles, or of GeoTIFFs that make one picture"));
    addServer = add("addServer", tr("Add imagery from a &server…"));
    addServer->setWhatsThis(tr("A Web Map Tile Service, or tiles by the pattern of their addresses"));
    addReference = add("addReference", tr("Add &reference layer…"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_R},
                       ":/icons/reference.svg");
    addReference->setWhatsThis(tr("Parcels to pick from, roads, water"));
    addTable = add("addTable", tr("Add a &table from a PostGIS server…"));
    importFences = add("importFences", tr("Import &fences…"));
    importSites = add("importSites", tr("Import s&ites…"));
    importHomes = add("importHomes", tr("Import &homes…"));
    deed = add("deed", tr("From a &deed…"), QKeySequence{Qt::CTRL | Qt::Key_E});
    deed->setWhatsThis(tr("A fence from bearings and distances, with how well they close"));
    showSources = add("showSources", tr("&List sources"));
    nextFinding = add("nextFinding", tr("&Next finding"), QKeySequence{Qt::Key_F8});
    goToDate = add("goToDate", tr("Go to a &day"), QKeySequence{Qt::CTRL | Qt::Key_D});
    deliver = add("deliver", tr("&Deliver…"), QKeySequence{Qt::CTRL | Qt::Key_L}, ":/icons/deliver.svg");
    whatIsHere = add("whatIsHere", tr("&What is here?"), QKeySequence{Qt::CTRL | Qt::Key_I});
    zoomAll = add("zoomAll", tr("Show &all"), QKeySequence{Qt::CTRL | Qt::Key_0});
    zoomSelection = add("zoomSelection", tr("Show &selection"), QKeySequence{Qt::CTRL | Qt::Key_1});
    nearer = add("nearer", tr("Nea&rer"), QKeySequence{Qt::CTRL | Qt::Key_Plus});
    farther = add("farther", tr("&Farther"), QKeySequence{Qt::CTRL | Qt::Key_Minus});
    turnLeft = add("turnLeft", tr("Turn &left by 15°"), QKeySequence{Qt::CTRL | Qt::Key_Left});
    turnRight = add("turnRight", tr("Turn r&ight by 15°"), QKeySequence{Qt::CTRL | Qt::Key_Right});
    northUp = add("northUp", tr("&North up"), QKeySequence{Qt::CTRL | Qt::Key_Up});
    auto* units = new QActionGroup{this};
    metric = choice(*units, "metric", tr("&Metric units"));
    us = choice(*units, "us", tr("&US units"));
    auto* notation = new QActionGroup{this};
    notations = {choice(*notation, "notationDecimal", tr("De&cimal degrees")),
                 choice(*notation, "notationDms", tr("Degrees, minutes, &seconds")),
                 choice(*notation, "notationUtm", tr("U&TM")), choice(*notation, "notationMgrs", tr("M&GRS"))};
    auto* grid = new QActionGroup{this};
    grids = {choice(*grid, "gridNone", tr("&No grid")), choice(*grid, "gridDegrees", tr("Grid of &degrees")),
             choice(*grid, "gridUtm", tr("&UTM grid")), choice(*grid, "gridMgrs", tr("&MGRS grid"))};
    auto* theme = new QActionGroup{this};
    themes = {choice(*theme, "themeSystem", tr("As the s&ystem")), choice(*theme, "themeLight", tr("&Light")),
              choice(*theme, "themeDark", tr("Dar&k"))};
    keys = add("keys", tr("&Keys"), QKeySequence{Qt::Key_F1});
    about = add("about", tr("&About, and cautions"));

    auto* group = new QActionGroup{this};
    for (const ToolDescription& tool : toolTable()) {
        QAction* action = add(tool.id, QCoreApplication::translate("Tools", tool.name),
                              QKeySequence{QString::fromLatin1(tool.key)}, tool.icon);
        action->setData(QString::fromLatin1(tool.id));
        action->setCheckable(true);
        action->setProperty("tool", true);
        action->setToolTip(tr("%1 (%2)").arg(action->text(), QString::fromLatin1(tool.key)));
        action->setWhatsThis(tr("Click its corners on the map, or type distances and bearings"));
        group->addAction(action);
        tools.push_back(action);
        if (!firstFence || action->data().toString() == "keepin")
            firstFence = action;
    }
    firstFence->setProperty("step words", tr("Draw a keep-in"));
}

QAction* WindowActions::add(const char* name, const QString& words, const QKeySequence& key, const char* icon) {
    auto* action = new QAction{words, this};
    action->setShortcut(key);
    adopt(action, name, icon);
    return action;
}

QAction* WindowActions::choice(QActionGroup& group, const char* name, const QString& words) {
    QAction* action = add(name, words);
    action->setCheckable(true);
    group.addAction(action);
    return action;
}

void WindowActions::adopt(QAction* action, const char* name, const char* icon) {
    action->setObjectName(name);
    if (icon)
        action->setProperty("icon path", QString::fromLatin1(icon));
    m_window->addAction(action);
    m_all << action;
}

void WindowActions::fill(QMenuBar& bar) {
    QMenu* file = bar.addMenu(tr("&File"));
    file->addActions({make, open});
    recent = file->addMenu(tr("Open &recent"));
    recent->setObjectName("recentMenu");
    file->addAction(sample);
    file->addSeparator();
    file->addActions({save, saveAs});
    file->addSeparator();
    file->addActions({importFences, importSites, importHomes});
    file->addSeparator();
    file->addAction(quit);
    QMenu* edit = bar.addMenu(tr("&Edit"));
    edit->addActions({undo, redo});
    edit->addSeparator();
    edit->addAction(remove);
    edit->addSeparator();
    edit->addAction(search);
    QMenu* draw = bar.addMenu(tr("&Draw"));
    for (QAction* tool : tools)
        draw->addAction(tool);
    draw->addSeparator();
    draw->addAction(deed);
    QMenu* sources = bar.addMenu(tr("&Sources"));
    sources->addActions({addImagery, addFolder, addServer, addReference, addTable});
    sources->addSeparator();
    sources->addAction(showSources);
    sources->addAction(whatIsHere);
    QMenu* audit = bar.addMenu(tr("&Audit"));
    audit->addActions({nextFinding, goToDate});
    QMenu* handOut = bar.addMenu(tr("De&liver"));
    handOut->addAction(deliver);
    QMenu* view = bar.addMenu(tr("&View"));
    view->addActions({zoomAll, zoomSelection, nearer, farther});
    view->addSeparator();
    view->addActions({turnLeft, turnRight, northUp});
    view->addSeparator();
    view->addMenu(tr("&Grid"))->addActions(QList<QAction*>(grids.begin(), grids.end()));
    view->addMenu(tr("&Units"))->addActions({metric, us});
    view->addMenu(tr("&Coordinates"))->addActions(QList<QAction*>(notations.begin(), notations.end()));
    view->addMenu(tr("A&ppearance"))->addActions(QList<QAction*>(themes.begin(), themes.end()));
    QMenu* help = bar.addMenu(tr("&Help"));
    help->addActions({keys, about});
}

} // namespace fencewright::desktop
