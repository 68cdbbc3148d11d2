#include "desktop/window_actions.h"

#include "desktop/canvas/snap_kind.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString withoutMarks(QString words) {
    const QString kept = QStringLiteral("\x1f"); // "&&" is one that is meant
    words.replace(QStringLiteral("&&"), kept).remove('&').replace(kept, QStringLiteral("&"));
    return words.remove(QStringLiteral("…"));
}

QChar letterOf(const QString& words) {
    const qsizetype at = QString{words}.replace(QStringLiteral("&&"), QStringLiteral("  ")).indexOf('&');
    return at >= 0 && at + 1 < words.size() ? words[at + 1].toLower() : QChar{};
}

/// Each line of a menu has a letter of its own, whatever language its words are in: one that has none, or another's,
/// gets the first that is free.
void markLetters(const QList<QAction*>& lines) {
    QString taken;
    QList<QAction*> without;
    for (QAction* line : lines) {
        const QChar letter = letterOf(line->text());
        if (line->isSeparator())
            continue;
        if (!letter.isNull() && !taken.contains(letter))
            taken += letter;
        else
            without << line;
    }
    for (QAction* line : without) {
        QString words = line->text();
        if (!letterOf(words).isNull())
            words.remove(words.indexOf(QRegularExpression{QStringLiteral("&(?!&)")}), 1);
        QList<qsizetype> places;
        for (qsizetype at = 0; at < words.size(); ++at)
            if (words[at].isLetterOrNumber())
                places.append(at);
        std::stable_sort(places.begin(), places.end(), [&](qsizetype a, qsizetype b) {
            const auto begins = [&](qsizetype at) { return at == 0 || !words[at - 1].isLetterOrNumber(); };
            return begins(a) > begins(b);
        });
        for (const qsizetype at : places)
            if (!taken.contains(words[at].toLower())) {
                taken += words[at].toLower();
                line->setText(words.insert(at, '&'));
                break;
            }
    }
}

} // namespace

QString plainWords(const QAction& action) {
    const QString own = action.property("plain words").toString();
    return own.isEmpty() ? withoutMarks(action.text()) : own;
}

QString menuPlace(const QAction& action) {
    QStringList way;
    const QAction* at = &action;
    while (at) {
        const QMenu* menu = nullptr;
        for (QObject* shower : at->associatedObjects())
            if (auto* one = qobject_cast<QMenu*>(shower); one && !one->title().isEmpty()) // a bar has a menu inside
                menu = one;
        at = menu ? menu->menuAction() : nullptr;
        if (at)
            way.prepend(withoutMarks(at->text()));
    }
    return way.isEmpty() ? action.property("place").toString() : way.join(QStringLiteral(" › "));
}

WindowActions::WindowActions(QUndoStack& stack, QWidget* window) : QObject{window}, m_undo{stack}, m_window{window} {
    make = add("new", tr("&New"), QKeySequence::New);
    open = add("open", tr("&Open…"), QKeySequence::Open, ":/icons/open.svg");
    sample = add("sample", tr("Open the &sample"), {}, ":/icons/sample.svg");
    save = add("save", tr("&Save"), QKeySequence::Save);
    saveAs = add("saveAs", tr("Save &as…"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_S});
    quit = add("quit", tr("&Quit"), QKeySequence{Qt::CTRL | Qt::Key_Q});
    undo = add("undo", tr("&Undo"), QKeySequence::Undo);
    followSteps(undo, stack.undoText(), &QUndoStack::undoTextChanged, &QUndoStack::canUndoChanged, &QUndoStack::undo);
    redo = add("redo", tr("&Redo"));
    redo->setShortcuts({QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_Z}, QKeySequence{Qt::CTRL | Qt::Key_Y}});
    followSteps(redo, stack.redoText(), &QUndoStack::redoTextChanged, &QUndoStack::canRedoChanged, &QUndoStack::redo);
    listEdits = add("listEdits", tr("&List of edits"), QKeySequence{Qt::CTRL | Qt::Key_H});
    remove = add("delete", tr("&Delete"), QKeySequence{Qt::Key_Delete});
    copy = add("copy", tr("&Copy"), QKeySequence::Copy);
    cut = add("cut", tr("Cu&t"), QKeySequence::Cut);
    paste = add("paste", tr("&Paste"), QKeySequence::Paste);
    paste->setWhatsThis(tr("Fences, sites and homes copied here or in another document, or GeoJSON text"));
    lock = add("lock", tr("Loc&k"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_L});
    lock->setWhatsThis(tr("Nothing changes what is chosen until it is unlocked"));
    unlock = add("unlock", tr("U&nlock"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_U});
    selectAll = add("selectAll", tr("Choose &all"), QKeySequence::SelectAll);
    selectOthers =
        add("selectOthers", tr("Choose the &others instead"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_A});
    selectNone = add("selectNone", tr("Choose &nothing"));
    selectWhere = add("selectWhere", tr("Choose &where…"), QKeySequence{Qt::CTRL | Qt::Key_F});
    shareCorners = add("shareCorners", tr("&Move shared corners together"));
    shareCorners->setWhatsThis(tr("Corners of neighbours that lie within 1 cm of each other"));
    shareCorners->setCheckable(true);
    corners = add("corners", tr("Co&rners…"), QKeySequence{Qt::CTRL | Qt::Key_T});
    corners->setWhatsThis(tr("The corners of the chosen fence as a table: to be typed, copied and pasted"));
    unite = add("unite", tr("&Unite"), QKeySequence{Qt::CTRL | Qt::Key_U});
    unite->setWhatsThis(tr("The chosen fences become one"));
    takeOut = add("takeOut", tr("Take the others &out of the first"));
    takeOut->setWhatsThis(tr("The fence that was chosen first loses what the others cover"));
    takeOut->setProperty("plain words", withoutMarks(takeOut->text()));
    intersect = add("intersect", tr("Keep what they &share"));
    intersect->setWhatsThis(tr("The chosen fences become what lies in all of them"));
    fillHoles = add("fillHoles", tr("Fill the &holes"));
    makePolygon = add("makePolygon", tr("Make a &polygon of it"));
    makePolygon->setWhatsThis(tr("A circle, corridor, setback or fence of parcels, drawn corner by corner"));
    offsetCopy = add("offsetCopy", tr("Copy at a &distance…"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_O});
    offsetCopy->setWhatsThis(tr("A fence at the same distance all round, outside or inside"));
    duplicate = add("duplicate", tr("D&uplicate"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_D});
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
    margin = add("margin", tr("&Margin…"), QKeySequence{Qt::CTRL | Qt::Key_M});
    margin->setWhatsThis(tr("How far the aircraft keeps from every boundary: position error, reaction, braking"));
    deliver = add("deliver", tr("&Deliver…"), QKeySequence{Qt::CTRL | Qt::Key_L}, ":/icons/deliver.svg");
    whatIsHere = add("whatIsHere", tr("&What is here?"), QKeySequence{Qt::CTRL | Qt::Key_I});
    zoomAll = add("zoomAll", tr("Show &all"), QKeySequence{Qt::CTRL | Qt::Key_0});
    zoomAll->setWhatsThis(tr("Zoom to everything"));
    zoomSelection = add("zoomSelection", tr("Show &selection"), QKeySequence{Qt::CTRL | Qt::Key_1});
    zoomSelection->setWhatsThis(tr("Zoom to what is chosen"));
    nearer = add("nearer", tr("Nea&rer"));
    nearer->setShortcuts({QKeySequence{Qt::CTRL | Qt::Key_Plus}, QKeySequence{Qt::Key_Plus}, // and where + needs Shift:
                          QKeySequence{Qt::Key_Equal}});
    nearer->setWhatsThis(tr("Zoom in"));
    farther = add("farther", tr("&Farther"));
    farther->setWhatsThis(tr("Zoom out"));
    farther->setShortcuts({QKeySequence{Qt::CTRL | Qt::Key_Minus}, QKeySequence{Qt::Key_Minus}});
    turnLeft = add("turnLeft", tr("Turn &left by 15°"), QKeySequence{Qt::CTRL | Qt::Key_Left});
    turnRight = add("turnRight", tr("Turn r&ight by 15°"), QKeySequence{Qt::CTRL | Qt::Key_Right});
    northUp = add("northUp", tr("&North up"), QKeySequence{Qt::CTRL | Qt::Key_Up});
    clearArea = add("clearArea", tr("Line of the &margin"), QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_M});
    clearArea->setWhatsThis(tr("What the margin leaves of the operating area: the row of dots"));
    clearArea->setCheckable(true);
    clearArea->setProperty("plain words", tr("Show %1").arg(withoutMarks(clearArea->text())));
    nextPart = add("nextPart", tr("Ne&xt part of the window"), QKeySequence{Qt::Key_F6});
    showTools = shown("showTools", tr("&Tools"));
    showColumn = shown("showColumn", tr("&Ledger, form and findings"));
    showCalendar = shown("showCalendar", tr("&Calendar"));
    arrangeAsGiven = add("arrangeAsGiven", tr("&Arrange as given"));
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
    for (const SnapSwitch& one : snapSwitches()) {
        const QString id = QString::fromLatin1(one.id);
        QAction* action = add(("snap-" + id.toStdString()).c_str(), QCoreApplication::translate("Snaps", one.words));
        action->setData(id);
        action->setCheckable(true);
        snaps.push_back(action);
    }
    auto* theme = new QActionGroup{this};
    themes = {choice(*theme, "themeSystem", tr("As the s&ystem")), choice(*theme, "themeLight", tr("&Light")),
              choice(*theme, "themeDark", tr("Dar&k"))};
    auto* language = new QActionGroup{this};
    // Each language names itself, so that whoever cannot read the window finds the way.
    languages = {choice(*language, "languageSystem", tr("As the s&ystem")),
                 choice(*language, "languageEnglish", "&English"), choice(*language, "languageGerman", "&Deutsch")};
    keys = add("keys", tr("&Keys…"), QKeySequence{Qt::Key_F1});
    about = add("about", tr("&About, and cautions"));

    auto* group = new QActionGroup{this};
    for (const ToolDescription& tool : toolTable()) {
        QAction* action = add(tool.id, QCoreApplication::translate("Tools", tool.name),
                              QKeySequence{QString::fromLatin1(tool.key)}, tool.icon);
        action->setData(QString::fromLatin1(tool.id));
        action->setCheckable(true);
        action->setProperty("tool", true);
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

QAction* WindowActions::shown(const char* name, const QString& words) {
    QAction* action = add(name, words);
    action->setCheckable(true);
    action->setChecked(true);
    action->setProperty("plain words", tr("Show %1").arg(withoutMarks(words)));
    return action;
}

void WindowActions::followSteps(QAction* action, const QString& titleNow,
                                void (QUndoStack::*titleChanged)(const QString&), void (QUndoStack::*canChanged)(bool),
                                void (QUndoStack::*act)()) {
    const QString words = action->text();
    action->setProperty("plain words", withoutMarks(words));
    const auto title = [action, words](const QString& step) {
        QString shown = step;
        action->setText(step.isEmpty() ? words : tr("%1: %2").arg(words, shown.replace('&', QStringLiteral("&&"))));
        action->setEnabled(!step.isEmpty());
    };
    title(titleNow);
    connect(&m_undo, titleChanged, action, title);
    // A step may have no title; whether it is there is said apart, and later.
    connect(&m_undo, canChanged, action, &QAction::setEnabled);
    connect(action, &QAction::triggered, &m_undo, act);
}

void WindowActions::adopt(QAction* action, const char* name, const char* icon) {
    action->setObjectName(name);
    if (icon)
        action->setProperty("icon path", QString::fromLatin1(icon));
    m_window->addAction(action);
    m_all << action;
}

void WindowActions::sayTakeOut(const QString& fence) const {
    QString name = fence;
    takeOut->setText(fence.isEmpty() ? tr("Take the others &out of the first")
                                     : tr("Take the others &out of %1").arg(name.replace('&', QStringLiteral("&&"))));
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
    edit->addActions({undo, redo, listEdits});
    edit->addSeparator();
    edit->addActions({copy, cut, paste, duplicate, remove});
    edit->addMenu(tr("&Shape"))->addActions({unite, takeOut, intersect, fillHoles, makePolygon, offsetCopy});
    edit->addSeparator();
    edit->addActions({lock, unlock});
    edit->addSeparator();
    edit->addActions({selectAll, selectOthers, selectNone, selectWhere});
    edit->addSeparator();
    edit->addActions({corners, shareCorners});
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
    audit->addActions({nextFinding, goToDate, margin});
    QMenu* handOut = bar.addMenu(tr("De&liver"));
    handOut->addAction(deliver);
    QMenu* view = bar.addMenu(tr("&View"));
    view->addActions({zoomAll, zoomSelection, nearer, farther});
    view->addSeparator();
    view->addActions({turnLeft, turnRight, northUp});
    view->addSeparator();
    view->addAction(clearArea);
    view->addMenu(tr("Gri&d"))->addActions(QList<QAction*>(grids.begin(), grids.end()));
    view->addMenu(tr("Snap &to"))->addActions(QList<QAction*>(snaps.begin(), snaps.end()));
    view->addMenu(tr("&Units"))->addActions({metric, us});
    view->addMenu(tr("&Coordinates"))->addActions(QList<QAction*>(notations.begin(), notations.end()));
    view->addMenu(tr("Appearanc&e"))->addActions(QList<QAction*>(themes.begin(), themes.end()));
    view->addMenu(tr("Lan&guage"))->addActions(QList<QAction*>(languages.begin(), languages.end()));
    view->addSeparator();
    view->addMenu(tr("&Panels"))->addActions({showTools, showColumn, showCalendar, arrangeAsGiven});
    view->addAction(nextPart);
    QMenu* help = bar.addMenu(tr("&Help"));
    help->addActions({keys, about});
    markLetters(bar.actions());
    for (const QMenu* menu : bar.findChildren<QMenu*>())
        if (menu != recent)
            markLetters(menu->actions());
}

} // namespace fencewright::desktop
