#include "desktop/main_window.h"

#include "desktop/canvas/keyboard_pointer.h"
#include "desktop/canvas/map_canvas.h"
#include "desktop/canvas/pen_input.h"
#include "desktop/dialogs/deed_dialog.h"
#include "desktop/dialogs/keys_dialog.h"
#include "desktop/dialogs/words_dialog.h"
#include "desktop/map_area.h"
#include "desktop/panels/calendar_strip.h"
#include "desktop/panels/command_search.h"
#include "desktop/panels/edits_panel.h"
#include "desktop/panels/elided_label.h"
#include "desktop/panels/findings_panel.h"
#include "desktop/panels/hairline.h"
#include "desktop/panels/ledger_panel.h"
#include "desktop/panels/lower_pages.h"
#include "desktop/panels/record_panel.h"
#include "desktop/panels/start_page.h"
#include "desktop/panels/status_line.h"
#include "desktop/panels/tool_column.h"
#include "desktop/tools/new_thing.h"
#include "desktop/window_actions.h"
#include "geodesy/coordinate_notation.h"

#include <QtWidgets>

#include <array>

namespace fencewright::desktop {
namespace {

constexpr double kTurnDegrees = 15.0;
constexpr int kTopBarHeight = 44;
constexpr int kTopBarRest = 196; // beside menus and search: its margins, and a word of name and state each
constexpr int kLedgerWidth = 384;
constexpr int kWideLedgerWidth = 432;
constexpr int kWideWindow = 1500;
constexpr int kFrameMilliseconds = 150;
constexpr int kNarrowestColumn = 320;
constexpr int kNarrowestMap = 400;
constexpr int kLowerHeight = 96;
constexpr int kLowerHeightWithRepair = 220; // the list stays a list while its repair is weighed

} // namespace

MainWindow::MainWindow(const WindowOptions& options, QWidget* parent)
    : QWidget{parent}, m_settings{options.settingsFile}, m_document{options.recoveryFolder},
      m_audit{m_document, m_jobs}, m_sources{m_document, m_jobs, options.readerProgram},
      m_appearance{m_settings, options.theme}, m_model{m_document, m_outlines, m_audit, m_sources, m_settings},
      m_actions{new WindowActions{m_document.undoStack(), this}}, m_keys{m_settings}, m_arrangement{m_settings},
      m_area{new MapArea{this}}, m_map{new MapCanvas{m_document, m_outlines, m_audit, m_sources, m_settings, m_area}},
      m_ledger{new LedgerPanel{m_model, m_appearance, this}}, m_record{new RecordPanel{m_document, m_sources,
                                                                                       m_settings, m_appearance, this}},
      m_findings{new FindingsPanel{m_document, m_audit, m_appearance, this}},
      m_lower{new LowerPages{m_findings, new EditsPanel{m_document, m_appearance, this}, this}},
      m_calendar{new CalendarStrip{m_document, m_audit, m_settings, m_appearance, this}},
      m_status{new StatusLine{m_document, m_jobs, m_audit, m_settings, this}}, m_search{new CommandSearch{this}},
      m_start{new StartPage{{m_actions->addImagery, m_actions->addReference, m_actions->firstFence},
                            m_actions->sample,
                            m_actions->open,
                            m_appearance,
                            m_area}},
      m_name{new ElidedLabel{this}}, m_state{new ElidedLabel{this}}, m_column{new QWidget{this}},
      m_split{new QSplitter{Qt::Vertical, this}}, m_across{new QSplitter{Qt::Horizontal, this}},
      m_documentFlow{*this, m_document, m_jobs, m_settings, m_area->messages(), options.recoveryFolder},
      m_sourceFlow{*this, m_document, m_jobs, m_sources, m_settings, m_area->messages()},
      m_tableFlow{*this, m_document, m_jobs, m_sources, m_sourceFlow, m_area->messages()},
      m_importFlow{*this, m_document, m_jobs, m_sources, m_settings, m_area->messages(), m_sourceFlow},
      m_deliveryFlow{*this, m_document, m_jobs, m_audit, m_settings, m_appearance, m_area->messages()},
      m_clipboard{m_jobs, m_area->messages()}, m_selectionFlow{*this,  m_document,         m_jobs,     m_audit,
                                                               *m_map, m_area->messages(), m_clipboard},
      m_cornersFlow{*this, m_document, m_jobs, m_settings, *m_map, m_clipboard}, m_shapingFlow{*this, m_document,
                                                                                               m_settings, *m_map,
                                                                                               m_area->messages()},
      m_marginFlow{*this, m_document, m_settings}, m_sample{options.sampleDocument} {
    setObjectName("mainWindow");
    setAcceptDrops(true);
    if (options.date) {
        airspace::Moment moment = m_audit.moment();
        moment.date = *options.date;
        m_audit.setMoment(moment);
    }
    layOut();
    m_keys.enrol(m_actions->all() + m_map->commands());
    connectDocument();
    connectMap();
    connectPanels();
    connectActions();
    fillSearch();
    applyAppearance();
    restate();
    showStartPage();
    resize(1280, 800);
    if (const QByteArray geometry = m_settings.windowGeometry(); !geometry.isEmpty())
        restoreGeometry(geometry);
    if (!isMaximized() && !isFullScreen())
        fitOnScreen(*this);
    m_arrangement.restore();
    m_map->setFocus();
}

MainWindow::~MainWindow() {
    // Panels look at the document until they are gone: they go first, and nothing they say on the way is followed.
    m_document.disconnect(this);
    for (QObject* panel : {static_cast<QObject*>(m_map), static_cast<QObject*>(m_ledger),
                           static_cast<QObject*>(m_record), static_cast<QObject*>(m_findings)})
        panel->disconnect(this);
    for (QObject* child : findChildren<QWidget*>(Qt::FindDirectChildrenOnly))
        delete child;
}

void MainWindow::layOut() {
    auto* top = new QWidget{this};
    top->setObjectName("topBar");
    top->setAttribute(Qt::WA_StyledBackground);
    top->setFixedHeight(kTopBarHeight);
    auto* bar = new QMenuBar{top};
    bar->setNativeMenuBar(false);
    m_actions->fill(*bar);
    m_name->setObjectName("documentName");
    m_name->setProperty("heading", true);
    m_name->setTextFormat(Qt::PlainText);
    m_state->setObjectName("documentState");
    m_state->setProperty("quiet", true);
    auto* topRow = new QHBoxLayout{top};
    topRow->setContentsMargins(16, 0, 16, 0);
    topRow->setSpacing(12);
    topRow->addWidget(m_name);
    topRow->addWidget(m_state);
    topRow->addSpacing(12);
    topRow->addWidget(bar, 1, Qt::AlignVCenter);
    topRow->addWidget(m_search);

    m_column->setObjectName("rightColumn");
    m_column->setAttribute(Qt::WA_StyledBackground);
    m_split->addWidget(m_ledger);
    m_split->addWidget(m_record);
    m_split->addWidget(m_lower);
    m_split->setHandleWidth(1);
    m_split->setChildrenCollapsible(false);
    m_split->setStretchFactor(0, 3);
    m_split->setStretchFactor(1, 4);
    m_split->setStretchFactor(2, 3);
    m_ledger->setMinimumHeight(120);
    m_record->setMinimumHeight(72);
    m_lower->setMinimumHeight(kLowerHeight);
    auto* rightColumn = new QVBoxLayout{m_column};
    rightColumn->setContentsMargins(0, 0, 0, 0);
    rightColumn->addWidget(m_split);

    auto* middle = new QHBoxLayout;
    middle->setSpacing(0);
    auto* tools = new ToolColumn{m_actions->tools, m_appearance, this};
    auto* toolsLine = hairline(Qt::Vertical, this);
    middle->addWidget(tools);
    middle->addWidget(toolsLine);
    m_across->addWidget(m_area);
    m_across->addWidget(m_column);
    m_across->setHandleWidth(1);
    m_across->setChildrenCollapsible(false);
    m_across->setStretchFactor(0, 1);
    m_across->setStretchFactor(1, 0);
    m_area->setMinimumWidth(kNarrowestMap);
    m_column->setMinimumWidth(kNarrowestColumn);
    middle->addWidget(m_across, 1);
    m_area->setMap(m_map);
    m_area->setStartPage(m_start);
    m_map->setAccessibleName(tr("Map"));

    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(top);
    column->addWidget(hairline(Qt::Horizontal, this));
    column->addLayout(middle, 1);
    column->addWidget(hairline(Qt::Horizontal, this));
    auto* calendarLine = hairline(Qt::Horizontal, this);
    column->addWidget(m_calendar);
    column->addWidget(calendarLine);
    column->addWidget(m_status);
    setMinimumSize(1024, 640);
    m_arrangement.keepShown(m_actions->showTools, {tools, toolsLine});
    m_arrangement.keepShown(m_actions->showColumn, {m_column});
    m_arrangement.keepShown(m_actions->showCalendar, {m_calendar, calendarLine});
    m_arrangement.keepSplit("column", m_split, [this] { shareColumn(); });
    m_arrangement.keepSplit("across", m_across, [this] { shareWidth(); });
    m_arrangement.keepColumns("ledgerColumns", m_ledger->findChild<QTableView*>("ledgerTable")->horizontalHeader(),
                              {1, 2});
    connect(m_across, &QSplitter::splitterMoved, this, &MainWindow::shareWidth);
    new PenInput{m_map};
    new KeyboardPointer{m_map};
}

void MainWindow::connectDocument() {
    connect(&m_document, &session::OpenDocument::stateChanged, this, &MainWindow::restate);
    connect(&m_document, &session::OpenDocument::changed, &m_area->messages(), &MessageBar::somethingDone);
    connect(&m_document, &session::OpenDocument::changed, this, [this] {
        showStartPage();
        restate();
    });
    connect(&m_document, &session::OpenDocument::stateChanged, this, [this] {
        if (!m_document.isModified())
            m_area->messages().workDone();
    });
    connect(&m_documentFlow, &DocumentFlow::opened, &m_area->messages(), &MessageBar::workDone);
    connect(&m_sourceFlow, &SourceFlow::added, &m_area->messages(), &MessageBar::workDone);
    connect(&m_importFlow, &ImportFlow::imported, &m_area->messages(), &MessageBar::workDone);
    connect(&m_documentFlow, &DocumentFlow::opened, this, [this] {
        m_ledger->choose({});
        m_record->showChosen({});
        m_map->zoomToAll();
        showStartPage();
    });
    const auto placed = [this](const geometry::Box& box, bool first) {
        if (first && !box.empty())
            m_map->zoomTo(box);
    };
    connect(&m_sourceFlow, &SourceFlow::added, this, placed);
    connect(&m_sourceFlow, &SourceFlow::chosen, this, [this](const model::SourceId& id) {
        m_ledger->choose(id);
        followLedger();
    });
    connect(&m_importFlow, &ImportFlow::imported, m_map, &MapCanvas::zoomTo);
}

void MainWindow::connectMap() {
    connect(m_map, &MapCanvas::selectionChanged, this, [this](const Selection& selection) {
        if (m_following)
            return;
        // Nothing selected on the map leaves a chosen source where it is.
        if (selection.empty() && std::holds_alternative<model::SourceId>(m_ledger->chosen()))
            return;
        m_following = true;
        m_ledger->choose(selection);
        m_record->showChosen(m_ledger->chosen());
        m_following = false;
        restate();
    });
    connect(m_map, &MapCanvas::toolChanged, this, [this](const QString& id) {
        for (QAction* tool : m_actions->tools)
            if (tool->data().toString() == id)
                tool->setChecked(true);
        showStartPage();
    });
    connect(m_map, &MapCanvas::hintChanged, m_area, &MapArea::showHint);
    connect(m_map, &MapCanvas::hintChanged, this, [this](const QString& hint) {
        m_hint = hint;
        describeMap();
    });
    connect(m_map, &MapCanvas::pointerMoved, m_status, &StatusLine::showPointer);
    connect(m_map, &MapCanvas::upChanged, m_status, &StatusLine::showUp);
    connect(m_status, &StatusLine::upTyped, m_map, &MapCanvas::setTrueUpAzimuth);
    connect(m_status, &StatusLine::left, m_map, [this] { m_map->setFocus(Qt::OtherFocusReason); });
    connect(m_map, &MapCanvas::refused, &m_area->messages(), &MessageBar::showRefusal);
    connect(m_map, &MapCanvas::editRequested, m_record, &RecordPanel::focusForm);
    connect(m_map, &MapCanvas::hereRequested, this, [this](const model::Position& place) {
        if (!m_map->featuresAt(place).empty())
            showWhatIsHere(place);
    });
    connect(m_map, &MapCanvas::menuRequested, this, [this](const model::Position& place, const QPoint& at) {
        auto* menu = new QMenu{this};
        menu->setObjectName("mapMenu");
        menu->setAttribute(Qt::WA_DeleteOnClose);
        // What lies there is what the menu is about, unless it is one of several that are chosen.
        if (const Selection thing = m_map->thingsAt(place); !thing.empty()) {
            if (!m_map->selection().contains(thing.things().front()))
                m_map->select(thing);
            for (const ToolOffer& offer : m_map->offersAt(place))
                connect(menu->addAction(offer.words), &QAction::triggered, m_map,
                        [this, offer] { m_map->take(offer); });
            offerForChosen(*menu);
        } else {
            menu->addActions({m_actions->paste, m_actions->selectAll});
        }
        menu->addSeparator();
        connect(menu->addAction(tr("What is here?")), &QAction::triggered, this,
                [this, place] { showWhatIsHere(place); });
        const QString written = QString::fromStdString(geodesy::format(place, m_settings.notation()));
        connect(menu->addAction(tr("Copy %1").arg(written)), &QAction::triggered, this, [this, written] {
            m_clipboard.put({written, {}, {}});
        });
        menu->popup(at);
    });
}

/// What can be done with the chosen things, on the map and in the ledger alike.
void MainWindow::offerForChosen(QMenu& menu) {
    connect(menu.addAction(tr("Edit")), &QAction::triggered, m_record, &RecordPanel::focusForm);
    menu.addActions({m_actions->zoomSelection, m_actions->corners, m_actions->copy, m_actions->cut,
                     m_actions->duplicate, m_actions->remove});
    QMenu* shape = menu.addMenu(tr("Shape"));
    for (QAction* action : {m_actions->unite, m_actions->takeOut, m_actions->intersect, m_actions->fillHoles,
                            m_actions->makePolygon, m_actions->offsetCopy})
        if (action->isEnabled())
            shape->addAction(action);
    shape->menuAction()->setVisible(!shape->isEmpty());
    for (QAction* lock : {m_actions->lock, m_actions->unlock})
        if (lock->isEnabled())
            menu.addAction(lock);
}

void MainWindow::connectPanels() {
    connect(m_ledger, &LedgerPanel::chosenChanged, this, &MainWindow::followLedger);
    connect(m_ledger, &LedgerPanel::opened, this, [this] {
        m_map->zoomToSelection();
        m_record->focusForm();
    });
    connect(m_ledger, &LedgerPanel::moved, this, [this](const model::SourceId& id, int row) {
        const std::size_t count = m_document.set().sources.size();
        m_document.push(model::moveSource(m_document.set(), id, count - 1 - std::size_t(row))); // the topmost first
        m_ledger->choose(id);
    });
    connect(m_ledger, &LedgerPanel::toggled, this, [this](const model::SourceId& id) {
        model::Source source = *m_document.set().sources.find(id);
        source.visible = !source.visible;
        const std::string title = tr("Show or hide %1").arg(QString::fromStdString(source.name)).toStdString();
        m_document.push(model::replaceSource(m_document.set(), std::move(source), title));
    });
    auto* rows = m_ledger->findChild<QTableView*>("ledgerTable");
    rows->setContextMenuPolicy(Qt::CustomContextMenu);
    connect(rows, &QTableView::customContextMenuRequested, this, [this, rows](const QPoint& at) {
        // A click with the second button has chosen the row already.
        const auto* id = std::get_if<model::SourceId>(&m_ledger->chosen());
        if (!id && m_map->selection().empty())
            return;
        auto* menu = new QMenu{this};
        menu->setObjectName(id ? "sourceMenu" : "thingMenu");
        menu->setAttribute(Qt::WA_DeleteOnClose);
        if (id) {
            const model::Source* source = m_document.set().sources.find(*id);
            connect(menu->addAction(source && source->visible ? tr("Hide") : tr("Show")), &QAction::triggered, this,
                    [this, id = *id] { emit m_ledger->toggled(id); });
            m_record->addOffers(*menu);
        } else {
            offerForChosen(*menu);
        }
        menu->popup(rows->viewport()->mapToGlobal(at));
    });
    connect(m_record, &RecordPanel::zoomRequested, m_actions->zoomSelection, &QAction::trigger);
    connect(m_record, &RecordPanel::formLeft, m_map, [this] { m_map->setFocus(Qt::OtherFocusReason); });
    connect(m_record, &RecordPanel::cornersRequested, m_actions->corners, &QAction::trigger);
    connect(m_record, &RecordPanel::removeRequested, this, &MainWindow::removeChosen);
    connect(m_record, &RecordPanel::locateRequested, this, [this](const model::SourceId& id) {
        m_tableFlow.isTable(id) ? m_tableFlow.connectTo(id) : m_sourceFlow.locate(id);
    });
    connect(m_record, &RecordPanel::connectRequested, &m_sourceFlow, &SourceFlow::connectTo);
    connect(m_findings, &FindingsPanel::chosen, this, [this](const audit::Finding& finding) {
        if (finding.fence)
            m_map->select(*finding.fence);
        else if (finding.home)
            m_map->select(*finding.home);
        if (finding.place)
            m_map->showPlace(*finding.place);
        else if (finding.fence || finding.home)
            m_map->zoomToSelection();
    });
    connect(m_findings, &FindingsPanel::previewChanged, m_map, &MapCanvas::setPreview);
    connect(m_findings, &FindingsPanel::previewChanged, this, [this](const std::optional<model::Edit>& repair) {
        m_lower->setMinimumHeight(repair ? kLowerHeightWithRepair : kLowerHeight);
    });
    connect(m_findings, &FindingsPanel::editRequested, m_record, &RecordPanel::focusForm);
    connect(m_calendar, &CalendarStrip::fenceOpened, this, [this](const model::FenceId& id) {
        m_map->select(id);
        m_record->focusForm();
    });
    connect(m_findings, &FindingsPanel::refused, &m_area->messages(),
            qOverload<const QString&>(&MessageBar::showFault));
    connect(&m_appearance, &Appearance::changed, this, &MainWindow::applyAppearance);
    connect(&m_settings, &session::Settings::changed, this, &MainWindow::restate);
}

void MainWindow::followLedger() {
    if (m_following)
        return;
    m_following = true;
    const auto* things = std::get_if<Selection>(&m_ledger->chosen());
    m_map->select(things ? *things : Selection{});
    m_record->showChosen(m_ledger->chosen());
    m_following = false;
    restate();
}

void MainWindow::connectActions() {
    const auto on = [this](QAction* action, auto act) { connect(action, &QAction::triggered, this, act); };
    on(m_actions->make, [this] { m_documentFlow.startNew(); });
    on(m_actions->open, [this] { m_documentFlow.ask(); });
    on(m_actions->sample, [this] {
        if (QFileInfo::exists(m_sample))
            return open(m_sample);
        m_area->messages().showFault(Fault{tr("The sample is not there.").toStdString(), m_sample.toStdString(),
                                           tr("Build the target \"samples\" to make it.").toStdString()});
    });
    on(m_actions->save, [this] { m_documentFlow.save(); });
    on(m_actions->saveAs, [this] { m_documentFlow.saveAs(); });
    on(m_actions->quit, [this] { close(); });
    on(m_actions->remove, [this] { removeChosen(); });
    on(m_actions->copy, [this] { m_selectionFlow.copy(); });
    on(m_actions->cut, [this] { m_selectionFlow.cut(); });
    on(m_actions->paste, [this] { m_selectionFlow.paste(); });
    on(m_actions->lock, [this] { m_selectionFlow.setLocked(true); });
    on(m_actions->unlock, [this] { m_selectionFlow.setLocked(false); });
    on(m_actions->selectAll, [this] { m_selectionFlow.selectAll(); });
    on(m_actions->selectOthers, [this] { m_selectionFlow.selectOthers(); });
    on(m_actions->selectNone, [this] { m_selectionFlow.selectNone(); });
    on(m_actions->selectWhere, [this] { m_selectionFlow.selectWhere(); });
    on(m_actions->shareCorners, [this] { m_settings.setSharesCorners(m_actions->shareCorners->isChecked()); });
    on(m_actions->corners, [this] { m_cornersFlow.open({m_actions->undo, m_actions->redo}); });
    m_shapingFlow.connectTo(*m_actions);
    m_marginFlow.connectTo(*m_actions);
    on(m_actions->search, [this] { m_search->begin(); });
    for (QAction* action : m_actions->all())
        if (action != m_actions->search)
            on(action, [this, action] { m_settings.addRecentCommand(action->objectName()); });
    const auto showSearchKey = [this] {
        m_search->showKey(m_actions->search->shortcut().toString(QKeySequence::NativeText));
    };
    connect(&m_keys, &KeyBook::changed, this, showSearchKey);
    showSearchKey();
    on(m_actions->addImagery, [this] { m_sourceFlow.askForImagery(); });
    on(m_actions->addFolder, [this] { m_sourceFlow.askForFolder(); });
    on(m_actions->addServer, [this] { m_sourceFlow.askForServer(); });
    on(m_actions->addReference, [this] { m_sourceFlow.askForReference(); });
    on(m_actions->addTable, [this] { m_tableFlow.ask(); });
    on(m_actions->whatIsHere, [this] { showWhatIsHere(m_map->pointedAt()); });
    on(m_actions->importFences, [this] { m_importFlow.ask(ImportPurpose::Fences); });
    on(m_actions->importSites, [this] { m_importFlow.ask(ImportPurpose::Sites); });
    on(m_actions->importHomes, [this] { m_importFlow.ask(ImportPurpose::Homes); });
    on(m_actions->deed, [this] { askForDeed(); });
    on(m_actions->showSources, [this] {
        m_actions->showColumn->setChecked(true);
        m_ledger->showPage(LedgerPage::Sources);
    });
    on(m_actions->nextFinding, [this] { stepFinding(); });
    on(m_actions->listEdits, [this] {
        m_actions->showColumn->setChecked(true);
        m_lower->showEdits();
        m_lower->findChild<QListView*>("editsList")->setFocus(Qt::ShortcutFocusReason);
    });
    on(m_actions->nextPart, [this] { goToNextPart(); });
    on(m_actions->arrangeAsGiven, [this] { arrangeAsGiven(); });
    on(m_actions->goToDate, [this] {
        m_actions->showCalendar->setChecked(true);
        m_calendar->focusDate();
    });
    on(m_actions->deliver, [this] { m_deliveryFlow.ask(); });
    on(m_actions->zoomAll, [this] { m_map->zoomToAll(); });
    on(m_actions->zoomSelection, [this] {
        if (const auto* id = std::get_if<model::SourceId>(&m_ledger->chosen())) {
            geometry::Box box;
            if (const auto* loaded = m_sources.find(*id)) {
                if (loaded->layer)
                    box = loaded->layer->about().extent;
                if (loaded->raster)
                    for (const model::Position& corner : loaded->raster->corners)
                        box.add(corner.lon, corner.lat);
            }
            if (!box.empty())
                m_map->zoomTo(box);
            return;
        }
        m_map->zoomToSelection();
    });
    on(m_actions->nearer, [this] { m_map->zoomBy(1.5); });
    on(m_actions->farther, [this] { m_map->zoomBy(1 / 1.5); });
    on(m_actions->turnLeft, [this] { m_map->turnBy(-kTurnDegrees); });
    on(m_actions->turnRight, [this] { m_map->turnBy(kTurnDegrees); });
    on(m_actions->northUp, [this] { m_map->northUp(); });
    on(m_actions->metric, [this] { m_settings.setUnitSystem(units::System::Metric); });
    on(m_actions->us, [this] { m_settings.setUnitSystem(units::System::Us); });
    for (std::size_t i = 0; i < m_actions->notations.size(); ++i)
        on(m_actions->notations[i], [this, i] { m_settings.setNotation(geodesy::Notation(i)); });
    for (QAction* action : m_actions->snaps)
        on(action, [this, action] {
            QStringList off = m_settings.snapsOff();
            off.removeAll(action->data().toString());
            if (!action->isChecked())
                off << action->data().toString();
            m_settings.setSnapsOff(off);
        });
    for (std::size_t i = 0; i < m_actions->grids.size(); ++i)
        on(m_actions->grids[i], [this, i] { m_settings.setMapGrid(session::MapGrid(i)); });
    for (std::size_t i = 0; i < m_actions->themes.size(); ++i)
        on(m_actions->themes[i], [this, i] { m_appearance.choose(session::Theme(i)); });
    for (std::size_t i = 0; i < m_actions->languages.size(); ++i)
        on(m_actions->languages[i], [this, i] {
            m_settings.setLanguage(session::Language(i));
            m_area->messages().showNote(tr("The language changes when Fencewright is started again."));
        });
    on(m_actions->keys, [this] {
        auto* dialog = new KeysDialog{m_keys, this};
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->open();
    });
    on(m_actions->about, [this] {
        auto* dialog = new WordsDialog{tr("About"), aboutPage(), this};
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->open();
    });
    for (QAction* tool : m_actions->tools)
        on(tool, [this, tool] {
            m_map->chooseTool(tool->data().toString());
            m_map->setFocus();
        });
    for (QAction* tool : m_actions->tools)
        if (tool->data().toString() == m_map->toolId())
            tool->setChecked(true);
    connect(m_actions->recent, &QMenu::aboutToShow, this, &MainWindow::fillRecent);
    fillRecent();
}

void MainWindow::fillRecent() {
    m_actions->recent->clear();
    const QStringList paths = m_settings.recentDocuments();
    for (const QString& path : paths) {
        QAction* action = m_actions->recent->addAction(QFileInfo{path}.fileName().replace("&", "&&"));
        action->setToolTip(path);
        action->setData(path);
        connect(action, &QAction::triggered, this, [this, path] { open(path); });
    }
    if (!paths.isEmpty()) {
        m_actions->recent->addSeparator();
        QAction* forget = m_actions->recent->addAction(tr("Forget these"));
        connect(forget, &QAction::triggered, this, [this] { m_settings.clearRecentDocuments(); });
    } else {
        m_actions->recent->addAction(tr("None yet"))->setEnabled(false);
    }
    m_actions->recent->setToolTipsVisible(true);
}

void MainWindow::open(const QString& path) { m_documentFlow.open(path); }

void MainWindow::offerRecovery() { m_documentFlow.offerRecovery(); }

void MainWindow::removeChosen() {
    if (const auto* id = std::get_if<model::SourceId>(&m_ledger->chosen())) {
        m_document.push(model::removeSource(m_document.set(), *id));
        return;
    }
    m_map->deleteSelected();
}

void MainWindow::stepFinding() {
    auto* list = m_findings->findChild<QListView*>("findingsList");
    const int rows = list->model()->rowCount();
    if (rows == 0)
        return;
    m_lower->showFindings();
    list->setFocus(Qt::ShortcutFocusReason);
    const int now = list->currentIndex().isValid() ? list->currentIndex().row() : -1;
    list->setCurrentIndex(list->model()->index((now + 1) % rows, 0));
}

void MainWindow::askForDeed() {
    // The middle of the map, as a place to begin with.
    const model::Position middle = m_map->toEarth(QRectF{m_map->rect()}.center());
    auto* dialog = new DeedDialog{QString::fromStdString(geodesy::format(middle, m_settings.notation())),
                                  m_settings.unitSystem(), this};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    const auto edit = [this, dialog]() -> std::optional<model::Edit> {
        if (!dialog->shape())
            return std::nullopt;
        model::Fence fence;
        fence.id = model::freshId<model::Fence>();
        fence.kind = dialog->kind();
        fence.name = defaultFenceName(m_document.set(), fence.kind);
        fence.shape = *dialog->shape();
        return model::addFence(m_document.set(), std::move(fence));
    };
    connect(dialog, &DeedDialog::shapeChanged, m_map, [this, edit] { m_map->setPreview(edit()); });
    connect(dialog, &QDialog::finished, m_map, [this, edit](int result) {
        m_map->setPreview(std::nullopt);
        auto made = result == QDialog::Accepted ? edit() : std::nullopt;
        if (!made)
            return;
        m_document.push(std::move(*made));
        const auto& fences = m_document.set().fences;
        m_map->select(fences[fences.size() - 1].id);
        m_map->zoomToSelection();
    });
    dialog->open();
}

void MainWindow::shareColumn() {
    // Room goes to the form while there is one, until a person has shared it out.
    if (m_arrangement.isMoved(m_split))
        return;
    const bool form = !isNothing(m_ledger->chosen());
    const int whole = std::max(m_split->height(), 300);
    const int record = form ? whole * 42 / 100 : 72;
    const int ledger = (whole - record) * 58 / 100;
    m_split->setSizes({ledger, record, whole - record - ledger});
}

void MainWindow::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    shareWidth();
    shareColumn();
}

void MainWindow::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (event->spontaneous())
        return;
    // Only once it stands there is it known how much the system puts around it.
    QTimer::singleShot(kFrameMilliseconds, this, [this] {
        if (!isMaximized() && !isFullScreen())
            fitOnScreen(*this);
    });
}

void MainWindow::shareWidth() {
    if (!m_arrangement.isMoved(m_across)) {
        const int column = width() >= kWideWindow ? kWideLedgerWidth : kLedgerWidth;
        m_across->setSizes({std::max(m_across->width() - column, kNarrowestMap), column});
    }
    const int column = m_column->isVisible() ? m_column->width() : kLedgerWidth;
    m_search->setFixedWidth(std::clamp(column - 32, kNarrowestColumn - 32, kWideLedgerWidth - 32));
    // No menu folds away as long as the words beside them can be cut instead.
    auto* bar = findChild<QMenuBar*>();
    const int menus = bar->sizeHint().width();
    bar->setMinimumWidth(width() - m_search->width() - menus >= kTopBarRest ? menus : 0);
}

void MainWindow::arrangeAsGiven() {
    m_arrangement.giveBack();
    m_lower->showFindings();
    if (!isMaximized() && !isFullScreen()) {
        resize(1280, 800);
        fitOnScreen(*this);
    }
}

void MainWindow::goToNextPart() {
    const std::array<QWidget*, 5> parts{m_map, m_ledger, m_record, m_lower, m_calendar};
    const QWidget* now = focusWidget();
    std::size_t at = parts.size() - 1;
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (now && (parts[i] == now || parts[i]->isAncestorOf(now)))
            at = i;
    const auto takesFocus = [](const QWidget* widget) {
        return widget->isVisible() && widget->isEnabled() && (widget->focusPolicy() & Qt::TabFocus);
    };
    for (std::size_t step = 1; step <= parts.size(); ++step) {
        QWidget* part = parts[(at + step) % parts.size()];
        if (!part->isVisible())
            continue;
        // A list before the words that turn its pages: it is what one comes for.
        QWidget* found = takesFocus(part) ? part : nullptr;
        const auto inside = part->findChildren<QWidget*>();
        for (QWidget* widget : inside)
            if (takesFocus(widget) && (!found || (qobject_cast<QAbstractItemView*>(widget) &&
                                                  !qobject_cast<QAbstractItemView*>(found) && found != part)))
                found = widget;
        if (found)
            return found->setFocus(Qt::TabFocusReason);
    }
}

/// What one who does not see the map is told of it.
void MainWindow::describeMap() {
    QStringList words;
    for (const QAction* tool : m_actions->tools)
        if (tool->isChecked())
            words << tr("Tool: %1.").arg(plainWords(*tool));
    const auto& things = m_map->selection().things();
    const auto& set = m_document.set();
    const auto nameIn = [](const auto& roster, const auto& id) {
        const auto* one = roster.find(id);
        return one ? QString::fromStdString(one->name) : QString{};
    };
    constexpr std::size_t mostNames = 3;
    QStringList names;
    for (std::size_t i = 0; i < things.size() && i < mostNames; ++i)
        if (const auto* fence = std::get_if<model::FenceId>(&things[i]))
            names << nameIn(set.fences, *fence);
        else if (const auto* site = std::get_if<model::SiteId>(&things[i]))
            names << nameIn(set.sites, *site);
        else
            names << nameIn(set.homes, std::get<model::HomeId>(things[i]));
    QString chosen = names.join(", ");
    if (things.size() > mostNames)
        chosen = tr("%1, and %2 more").arg(chosen).arg(things.size() - mostNames);
    words << (chosen.isEmpty() ? tr("Nothing is chosen.") : tr("Chosen: %1.").arg(chosen));
    words << m_hint;
    const QString all = words.join(' ').trimmed();
    if (all == m_map->accessibleDescription())
        return;
    m_map->setAccessibleDescription(all);
}

void MainWindow::showStartPage() {
    const auto& set = m_document.set();
    const bool empty = set.fences.empty() && set.sites.empty() && set.homes.empty() && set.sources.empty();
    m_record->setVisible(!empty);
    m_start->setVisible(empty && m_map->toolId() == m_actions->tools.front()->data().toString());
}

void MainWindow::restate() {
    m_name->setText(m_document.fileName());
    m_name->setToolTip(m_document.path());
    QString state;
    if (m_document.isModified())
        state = m_document.path().isEmpty() ? tr("not yet saved") : tr("changed, not yet saved");
    else if (m_document.isReadOnly())
        state = tr("read-only");
    m_state->setText(state);
    setWindowTitle(tr("%1 – Fencewright").arg(m_document.fileName() + (m_document.isModified() ? "*" : "")));
    m_actions->save->setEnabled(m_document.isModified() || m_document.path().isEmpty());
    const auto& set = m_document.set();
    m_actions->deliver->setEnabled(!set.fences.empty());
    const bool chosen = !isNothing(m_ledger->chosen());
    if (std::exchange(m_formShown, chosen) != chosen)
        shareColumn();
    m_actions->remove->setEnabled(chosen);
    m_actions->lock->setEnabled(m_selectionFlow.hasSelected(false));
    m_actions->unlock->setEnabled(m_selectionFlow.hasSelected(true));
    m_actions->cut->setEnabled(chosen && !std::holds_alternative<model::SourceId>(m_ledger->chosen()));
    m_shapingFlow.restate(*m_actions);
    m_marginFlow.restate(*m_actions);
    describeMap();
    m_actions->zoomSelection->setEnabled(chosen);
    (m_settings.unitSystem() == units::System::Metric ? m_actions->metric : m_actions->us)->setChecked(true);
    m_actions->notations[std::size_t(m_settings.notation())]->setChecked(true);
    m_actions->grids[std::size_t(m_settings.mapGrid())]->setChecked(true);
    m_actions->shareCorners->setChecked(m_settings.sharesCorners());
    for (QAction* action : m_actions->snaps)
        action->setChecked(!m_settings.snapsOff().contains(action->data().toString()));
    m_actions->themes[std::size_t(m_appearance.theme())]->setChecked(true);
    m_actions->languages[std::size_t(m_settings.language())]->setChecked(true);
}

void MainWindow::applyAppearance() {
    for (QAction* tool : m_actions->tools)
        tool->setIcon(m_appearance.icon(tool->property("icon path").toString()));
    m_actions->themes[std::size_t(m_appearance.theme())]->setChecked(true);
    m_search->update();
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (!m_closing && m_document.isModified()) {
        event->ignore();
        m_documentFlow.whenSafe([this] {
            m_closing = true;
            close();
        });
        return;
    }
    m_settings.setWindowGeometry(saveGeometry());
    event->accept();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    const auto urls = event->mimeData()->urls();
    if (urls.size() == 1 && urls.front().isLocalFile())
        event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QString path = event->mimeData()->urls().front().toLocalFile();
    const QString suffix = "." + QFileInfo{path}.suffix().toLower();
    event->acceptProposedAction();
    if (QFileInfo{path}.isDir())
        return m_sourceFlow.addImagery(path); // a folder of tiles
    for (const raster::RasterFormat& format : raster::rasterFormats())
        for (const std::string& known : format.suffixes)
            if (suffix == QString::fromStdString(known) && suffix != ".gpkg")
                return m_sourceFlow.addImagery(path);
    if (suffix == ".gpkg")
        return open(path);
    m_sourceFlow.addReference(path);
}

} // namespace fencewright::desktop
