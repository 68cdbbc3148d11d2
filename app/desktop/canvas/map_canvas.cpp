#include "desktop/canvas/map_canvas.h"

#include "airspace/outline.h"
#include "desktop/canvas/hit.h"
#include "desktop/canvas/map_accessible.h"
#include "desktop/canvas/map_commands.h"
#include "desktop/canvas/map_furniture.h"
#include "desktop/canvas/map_painter.h"
#include "desktop/canvas/near_boundaries.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/canvas/snap.h"
#include "desktop/canvas/symbol.h"
#include "desktop/canvas/turn_gesture.h"
#include "desktop/canvas/typed_entry.h"
#include "desktop/canvas/view_transform.h"
#include "desktop/palette.h"
#include "desktop/tools/new_thing.h"
#include "desktop/tools/tool.h"
#include "desktop/tools/tool_table.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"
#include "session/translated.h"
#include "units/measure_notation.h"

#include <QClipboard>
#include <QContextMenuEvent>
#include <QGestureEvent>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QNativeGestureEvent>
#include <QPainter>
#include <QPinchGesture>
#include <QTimer>
#include <QToolTip>

#include <cmath>
#include <functional>
#include <unordered_set>

namespace fencewright::desktop {
namespace {

constexpr double kHitPixels = 6.0;
constexpr double kSnapPixels = 8.0;
constexpr double kDragPixels = 4.0;
constexpr double kZoomStep = 1.25;
constexpr double kBoxMarginPixels = 48.0;
constexpr int kArrowPanPixels = 80;
constexpr int kRestMilliseconds = 100;
constexpr int kTellMilliseconds = 400; // a view that rests so long is told to those who do not see it
constexpr std::size_t kMostTold = 100;
constexpr double kPinchTurnDegrees = 6.0; // fingers that only mean to zoom turn a little too

/// A box that grows by places on whatever turn they are written.
struct ContinuousBox {
    geometry::Box box;

    void add(const model::Position& place) {
        if (!std::isfinite(place.lon) || !std::isfinite(place.lat) || std::abs(place.lat) > 90.0)
            return;
        double lon = place.lon;
        if (!box.empty())
            lon = box.minX + std::remainder(lon - box.minX, 360.0);
        box.minX = std::min(box.minX, lon);
        box.maxX = std::max(box.maxX, lon);
        box.minY = std::min(box.minY, place.lat);
        box.maxY = std::max(box.maxY, place.lat);
    }
    void addBox(const geometry::Box& other) {
        if (other.empty())
            return;
        // Its width as it is, and not the short way between its ends.
        add(model::Position{other.minX, other.minY});
        if (box.empty())
            return;
        const double west = box.minX + std::remainder(other.minX - box.minX, 360.0);
        box.maxX = std::max(box.maxX, west + std::min(other.maxX - other.minX, 360.0));
        add(model::Position{other.minX, other.maxY});
    }
    void add(const model::SiteGeometry& geometry) {
        if (const auto* place = std::get_if<model::Position>(&geometry))
            add(*place);
        else if (const auto* line = std::get_if<model::LineString>(&geometry))
            std::for_each(line->begin(), line->end(), [&](const auto& one) { add(one); });
        else
            addBox(geometry::boxOf(std::get<model::Polygon>(geometry)));
    }
};

} // namespace

struct MapCanvas::Parts {
    Parts(MapCanvas& owner, session::OpenDocument& theDocument, session::OutlineCache& theOutlines,
          session::LiveAudit& theAudit, session::SourceLibrary& theSources, session::Settings& theSettings)
        : canvas{owner}, document{theDocument}, outlines{theOutlines}, audit{theAudit}, sources{theSources},
          settings{theSettings} {}

    /// A button is down, and it is not yet clear whether it will be a click or a drag.
    struct PressState {
        QPointF at;
        ToolEvent event;
        bool moved = false;
        bool held = false;
        bool dropped = false; ///< Escape let go of it; the rest of the drag means nothing
    };

    const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined() {
        return outlines.outlined(document.set());
    }
    ToolScene scene() {
        const auto& list = outlined();
        return {document.set(),
                list,
                selection,
                settings.unitSystem(),
                [this](const model::Position& place) { return parcelsAt(painter.references().sources(), place); },
                &outlines.places(),
                [this](const model::Position& a, const model::Position& b) { return boxBetween(a, b); },
                [this](const geometry::Box& box) { return sees(box); },
                Length::metres(view.metresPerPixel()),
                settings.sharesCorners(),
                [this](const model::Position& place, Length reach) {
                    return boundariesAt(outlined(), outlines.places(), painter.references().sources(), place, reach);
                },
                keyNames};
    }
    void nameKeys() {
        for (const QAction* command : commands) {
            const QString key = command->shortcut().toString(QKeySequence::NativeText);
            if (command->objectName() == "mapOtherKind")
                keyNames.otherKind = key;
            else if (command->objectName() == "mapFollow")
                keyNames.follow = key;
        }
    }
    /// The command of the map whose key was pressed; null: none.
    QAction* commandOf(const QKeyEvent& event) const {
        const Qt::KeyboardModifiers held = event.modifiers() & ~Qt::KeypadModifier;
        const auto key = static_cast<Qt::Key>(event.key());
        // What stands on a key with Shift is itself, as keys are written down.
        const bool isShiftedSign = event.text().size() == 1 && !event.text()[0].isLetterOrNumber();
        for (QAction* command : commands)
            for (const QKeySequence& sequence : command->shortcuts())
                if (sequence == QKeySequence{held | key} ||
                    (isShiftedSign && sequence == QKeySequence{(held & ~Qt::ShiftModifier) | key}))
                    return command;
        return nullptr;
    }
    /// What the pointer at that place means to the tool; finds what it snaps to.
    ToolEvent decoded(ToolEvent::Kind kind, const QPointF& at, Qt::KeyboardModifiers modifiers) {
        settleTurn();
        ToolEvent event;
        event.kind = kind;
        event.pointer = view.earthAt(at);
        event.place = tool->aim(event.pointer);
        event.tolerance = Length::metres(kHitPixels * view.metresPerPixel());
        event.constrain = modifiers.testFlag(Qt::ShiftModifier);
        event.parallel = modifiers.testFlag(Qt::AltModifier);
        event.adds = modifiers.testFlag(Qt::ControlModifier);
        event.gesture = gesture;
        snap.reset();
        // Two keys for it, for some window systems keep Alt with the mouse for themselves.
        if (tool->wantsSnap() && !(modifiers & (Qt::AltModifier | Qt::ControlModifier))) {
            snapper.setFences(outlined(), outlines.places());
            const SnapBy by{SnapKinds::without(settings.snapsOff()), tool->lineSoFar(event.pointer, event.constrain)};
            snap = snapper.snap(event.place, Length::metres(kSnapPixels * view.metresPerPixel()), document.set(),
                                painter.references().sources(), tool->unsnapped(), by);
            if (snap)
                event.place = snap->place;
        }
        return event;
    }
    /// @return  the words of the fault; empty: it was taken.
    QString dispatch(const ToolEvent& event);
    QString guarded(const std::function<ToolAnswer()>& answers);
    model::LineString boxBetween(const model::Position& a, const model::Position& b) const;
    bool sees(const geometry::Box& box) const;
    void nudge(double arrow, bool far);
    bool hasBegun();
    ShownOn shownOn() { return {document.set(), outlined(), view, canvas.rect()}; }
    void tellNow(QAccessible::Event kind) {
        QAccessibleEvent event{&canvas, kind};
        QAccessible::updateAccessibility(&event);
        emit canvas.announced(kind);
    }
    bool opensEntry(const QKeyEvent& event) const;
    void settle();
    void pan(const QPointF& pixels);
    void viewMoved();
    void carryTurn(const QPointF& about, double clockwiseDegrees, double factor = 1.0, const QPointF& shift = {});
    void settleTurn();
    /// A zoom that is still running out would go on from where the view is put now.
    void endZoom() {
        zoomLeft = 0.0;
        zoomTimer.stop();
    }
    void setUp(const std::function<void()>& turn);
    void dragMap(const QPointF& to);
    void pinch(const QPinchGesture& fingers);
    bool nativeGesture(const QNativeGestureEvent& event);
    bool isOnNorthArrow(const QPointF& at) const { return northArrowPlate(QRectF{canvas.rect()}).contains(at); }
    void refreshSources();
    void preferCrsOfImagery();
    /// A modifier changes what the pointer means where it lies.
    void hoverAgain(Qt::KeyboardModifiers modifiers) {
        if (!press && pointerInside)
            dispatch(decoded(ToolEvent::Kind::Hover, pointer, modifiers));
    }
    /// The tool, or what is chosen, is another: it is told where the pointer lies before the pointer moves.
    void lookAgain() {
        if (press)
            return settle();
        dispatch(decoded(ToolEvent::Kind::Hover, placeForEntry(), {}));
        if (!pointerInside)
            snap.reset();
    }
    QString findingsAt(const QPointF& at) const;
    QPointF placeForEntry() const { return pointerInside ? pointer : QRectF{canvas.rect()}.center(); }
    bool openEntry(const QKeyEvent& event);
    void typed(ToolEvent::Kind kind, const QString& text);
    std::shared_ptr<const session::OutlinedFence> outlinedDraft(const ToolPreview& toolPreview);
    MapContents contents();
    void forgetWhatIsGone();
    void fitWhenUntouched();
    void zoomSmoothly(const QPointF& about, double factor);
    geometry::Box everything();

    MapCanvas& canvas;
    session::OpenDocument& document;
    session::OutlineCache& outlines;
    session::LiveAudit& audit;
    session::SourceLibrary& sources;
    session::Settings& settings;

    ViewTransform view;
    std::unique_ptr<Tool> tool;
    QString toolId;
    Selection selection;
    MapPainter painter{canvas.font()};
    Snapper snapper;
    std::optional<Snap> snap;
    TypedEntry entry{&canvas};
    std::vector<std::shared_ptr<const session::OutlinedFence>> previewed;
    std::shared_ptr<const session::OutlinedFence> draft; ///< kept while the tool's draft stays what it is
    std::vector<model::Site> draftSites;

    std::optional<PressState> press;
    std::optional<QPointF> panFrom;
    bool dragTurns = false; ///< the drag that moves the map turns it
    bool pressOnFurniture = false;
    TurnGesture turn;
    QTimer turnRest;
    double pinchedDegrees = 0.0;
    bool pinchTurns = false;
    double toldUp = 0.0;
    QTimer viewTold;
    std::uint64_t looks = 0;
    bool spaceHeld = false;
    bool touched = false; ///< the person has moved the view: it does not move by itself any more
    QPointF pointer;
    bool pointerInside = false;
    bool reachedByKeyboard = false; ///< shows the focus
    std::uint64_t gesture = 0;
    QList<QAction*> commands;
    ToolKeys keyNames;
    bool nudging = false; ///< the last that was done: the next nudge belongs to the same step
    QString hint;
    std::optional<Corner> toldCorner; ///< that was chosen last

    QTimer zoomTimer;
    QPointF zoomAbout;
    double zoomLeft = 0.0; ///< logarithm of the factor still to come
};

MapCanvas::MapCanvas(session::OpenDocument& document, session::OutlineCache& outlines, session::LiveAudit& audit,
                     session::SourceLibrary& sources, session::Settings& settings, QWidget* parent)
    : QWidget{parent} {
    // Not among the initialisers: the parts are children, and adding them is an event of this widget.
    m_parts = std::make_unique<Parts>(*this, document, outlines, audit, sources, settings);
    installMapAccessible();
    setAccessibleName(tr("Map"));
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAttribute(Qt::WA_OpaquePaintEvent);
    grabGesture(Qt::PinchGesture);
    m_parts->zoomTimer.setInterval(15);
    connect(&m_parts->zoomTimer, &QTimer::timeout, this, [this] {
        Parts& parts = *m_parts;
        const double step = std::abs(parts.zoomLeft) < 0.01 ? parts.zoomLeft : parts.zoomLeft * 0.3;
        parts.zoomLeft -= step;
        parts.view.zoomAbout(parts.zoomAbout, std::exp(step));
        if (parts.zoomLeft == 0.0)
            parts.zoomTimer.stop();
        parts.viewMoved();
    });
    m_parts->turnRest.setSingleShot(true);
    m_parts->turnRest.setInterval(kRestMilliseconds);
    connect(&m_parts->turnRest, &QTimer::timeout, this, [this] { m_parts->settleTurn(); });
    m_parts->viewTold.setSingleShot(true);
    m_parts->viewTold.setInterval(kTellMilliseconds);
    connect(&m_parts->viewTold, &QTimer::timeout, this, [this] { m_parts->tellNow(QAccessible::DescriptionChanged); });
    connect(&document, &session::OpenDocument::changed, this, [this](const session::DocumentChange& change) {
        if (change.whole) {
            m_parts->touched = false;
            m_parts->previewed.clear();
            chooseTool(toolTable().front().id);
        }
        if (change.sources)
            m_parts->refreshSources();
        m_parts->fitWhenUntouched();
        m_parts->forgetWhatIsGone();
        m_parts->settle();
    });
    connect(&audit, &session::LiveAudit::momentChanged, this, qOverload<>(&QWidget::update));
    connect(&audit, &session::LiveAudit::audited, this, qOverload<>(&QWidget::update));
    const auto refresh = [this] {
        m_parts->refreshSources();
        m_parts->fitWhenUntouched();
    };
    connect(&sources, &session::SourceLibrary::sourceChanged, this, refresh);
    connect(&sources, &session::SourceLibrary::listChanged, this, refresh);
    connect(&m_parts->painter.underlay(), &Underlay::ready, this, qOverload<>(&QWidget::update));
    connect(&m_parts->painter.underlay().tiles(), &TileLayer::sourceFailed, this,
            [this, &sources](const QString& id, const QString& words, const QString& reason) {
                sources.noteTrouble(model::SourceId{id.toStdString()}, reason);
                emit refused(words);
            });
    connect(&m_parts->painter.underlay().tiles(), &TileLayer::sourceWhole, this,
            [&sources](const QString& id) { sources.noteTrouble(model::SourceId{id.toStdString()}, {}); });
    connect(&m_parts->painter, &MapPainter::arrived, this, qOverload<>(&QWidget::update));
    connect(&outlines, &session::OutlineCache::settled, this, [this] {
        m_parts->fitWhenUntouched();
        update();
    });
    connect(&m_parts->entry, &TypedEntry::edited, this,
            [this](const QString& text) { m_parts->typed(ToolEvent::Kind::Typing, text); });
    connect(&m_parts->entry, &TypedEntry::entered, this,
            [this](const QString& text) { m_parts->typed(ToolEvent::Kind::Typed, text); });
    connect(&m_parts->entry, &TypedEntry::abandoned, this, [this] { m_parts->typed(ToolEvent::Kind::Typing, {}); });
    connect(&settings, &session::Settings::changed, this, qOverload<>(&QWidget::update));
    m_parts->view.setOrigin({0.0, 45.0});
    m_parts->commands = makeMapCommands(*this);
    for (const QAction* command : m_parts->commands)
        connect(command, &QAction::changed, this, [this] {
            m_parts->nameKeys();
            m_parts->settle(); // hints say its key
        });
    m_parts->nameKeys();
    chooseTool(toolTable().front().id);
    refresh();
}

MapCanvas::~MapCanvas() = default;

void MapCanvas::chooseTool(const QString& id) {
    for (const ToolDescription& description : toolTable()) {
        if (id != QLatin1String{description.id})
            continue;
        const bool another = m_parts->toolId != id;
        m_parts->tool = description.make();
        m_parts->toolId = id;
        m_parts->nudging = false;
        m_parts->press.reset();
        m_parts->snap.reset();
        m_parts->entry.done();
        if (another)
            emit toolChanged(id);
        m_parts->lookAgain();
        return;
    }
}

QString MapCanvas::toolId() const { return m_parts->toolId; }

Selection MapCanvas::selection() const { return m_parts->selection; }

void MapCanvas::select(const Selection& selection) {
    if (selection == m_parts->selection)
        return;
    m_parts->selection = selection;
    m_parts->nudging = false;
    emit selectionChanged(selection);
    m_parts->lookAgain();
    m_parts->tellNow(QAccessible::SelectionWithin);
}

std::optional<Corner> MapCanvas::chosenCorner() const { return m_parts->tool->chosenCorner(); }

void MapCanvas::chooseCorner(const std::optional<Corner>& corner) {
    m_parts->tool->chooseCorner(corner);
    m_parts->settle();
}

geometry::Box MapCanvas::Parts::everything() {
    ContinuousBox all;
    for (const auto& one : outlined())
        all.addBox(one->box);
    for (const model::Site& site : document.set().sites)
        all.add(site.geometry);
    for (const model::Home& home : document.set().homes)
        all.add(home.place);
    for (const model::Source& source : document.set().sources) {
        const session::LoadedSource* loaded = sources.find(source.id);
        if (!loaded || !source.visible)
            continue;
        if (loaded->raster)
            for (const model::Position& corner : loaded->raster->corners)
                all.add(corner);
        if (loaded->layer && !loaded->layer->about().extent.empty()) {
            const geometry::Box& extent = loaded->layer->about().extent;
            all.add({extent.minX, extent.minY});
            all.add({extent.maxX, extent.maxY});
        }
    }
    return all.box;
}

void MapCanvas::Parts::fitWhenUntouched() {
    if (touched)
        return;
    if (const geometry::Box box = everything(); !box.empty()) {
        view.showBox(box, kBoxMarginPixels);
        viewMoved();
    }
}

void MapCanvas::prepareThreads(const std::function<void()>& preparation) {
    m_parts->painter.underlay().prepareThreads(preparation);
}

void MapCanvas::zoomToAll() {
    m_parts->settleTurn();
    if (const geometry::Box box = m_parts->everything(); !box.empty())
        m_parts->view.showBox(box, kBoxMarginPixels);
    m_parts->viewMoved();
}

void MapCanvas::zoomToSelection() {
    ContinuousBox box;
    const Selection& selection = m_parts->selection;
    for (const auto& one : m_parts->outlined())
        if (selection.contains(one->fence->id))
            box.addBox(one->box);
    for (const model::Site& site : m_parts->document.set().sites)
        if (selection.contains(site.id))
            box.add(site.geometry);
    for (const model::Home& home : m_parts->document.set().homes)
        if (selection.contains(home.id))
            box.add(home.place);
    if (!box.box.empty())
        zoomTo(box.box);
}

void MapCanvas::zoomTo(const geometry::Box& lonLatBox) {
    m_parts->endZoom();
    m_parts->settleTurn();
    m_parts->touched = true;
    m_parts->view.showBox(lonLatBox, kBoxMarginPixels);
    m_parts->viewMoved();
}

void MapCanvas::showPlace(const model::Position& place) {
    m_parts->endZoom();
    m_parts->settleTurn();
    m_parts->touched = true;
    constexpr double nearEnough = 1.0; // metres a pixel: a corner and its neighbours are seen
    const double scale = std::min(m_parts->view.metresPerPixel(), nearEnough);
    m_parts->view.setMetresPerPixel(scale);
    m_parts->view.setOrigin(place);
    m_parts->viewMoved();
}

void MapCanvas::turnBy(double clockwiseDegrees) {
    m_parts->setUp([&] { m_parts->view.setUpAzimuth(m_parts->view.upAzimuthDegrees() - clockwiseDegrees); });
}

void MapCanvas::northUp() {
    m_parts->setUp([&] { m_parts->view.setUpAzimuth(0.0); });
}

double MapCanvas::trueUpAzimuth() const { return m_parts->view.trueUpAzimuth(); }

void MapCanvas::setTrueUpAzimuth(double degrees) {
    m_parts->setUp([&] { m_parts->view.setTrueUpAzimuth(degrees); });
}

geodesy::MapPlane::Definition MapCanvas::plane() const { return m_parts->view.plane().definition(); }

void MapCanvas::zoomBy(double factor) { m_parts->zoomSmoothly(QRectF{rect()}.center(), factor); }

void MapCanvas::Parts::zoomSmoothly(const QPointF& about, double factor) {
    settleTurn();
    touched = true;
    zoomAbout = about;
    zoomLeft += std::log(factor);
    zoomTimer.start();
}

QPointF MapCanvas::toWidget(const model::Position& place) const {
    return m_parts->view.widgetOf(place).value_or(QPointF{-1e6, -1e6});
}

model::Position MapCanvas::toEarth(const QPointF& widget) const { return m_parts->view.earthAt(widget); }

double MapCanvas::metresPerPixel() const { return m_parts->view.metresPerPixel(); }

void MapCanvas::setPreview(const std::optional<model::Edit>& edit) {
    Parts& parts = *m_parts;
    parts.previewed.clear();
    if (edit) {
        try {
            const model::FenceSet after = model::applied(parts.document.set(), *edit);
            // Of the set after the edit, what differs from the set as it is.
            const auto& set = parts.document.set();
            std::unordered_set<const void*> there;
            for (std::size_t i = 0; i < set.fences.size(); ++i)
                there.insert(set.fences.pointer(i).get());
            for (std::size_t i = 0; i < set.sites.size(); ++i)
                there.insert(set.sites.pointer(i).get());
            for (std::size_t i = 0; i < after.fences.size(); ++i) {
                const auto& fence = after.fences.pointer(i);
                const auto* setback = std::get_if<model::Setback>(&fence->shape);
                const auto site = setback ? after.sites.findPointer(setback->site) : nullptr;
                if (!there.contains(fence.get()) || (site && !there.contains(site.get())))
                    parts.previewed.push_back(session::outlinedFence(fence, site));
            }
        } catch (const Fault& fault) {
            emit refused(session::translated(fault));
        }
    }
    update();
}

void MapCanvas::deleteSelection() {
    // A tool that begins anew has no chosen corner, which else would go instead.
    chooseTool(toolTable().front().id);
    deleteSelected();
}

std::vector<ShownThing> MapCanvas::shownThings() {
    return desktop::shownThings(m_parts->shownOn(), m_parts->selection, kMostTold);
}

std::optional<ShownThing> MapCanvas::shownThing(const Thing& thing) {
    return desktop::shownThing(m_parts->shownOn(), thing);
}

std::uint64_t MapCanvas::looks() const { return m_parts->looks; }

QString MapCanvas::viewWords() const {
    const session::Settings& settings = m_parts->settings;
    const QString across =
        QString::fromStdString(units::formatLength(Length::metres(metresPerPixel() * width()), settings.unitSystem()));
    const QString middle =
        QString::fromStdString(geodesy::format(toEarth(QRectF{rect()}.center()), settings.notation()));
    const int up = int(std::lround(trueUpAzimuth())) % 360;
    return up == 0 ? tr("The map is %1 across, about %2, north up.").arg(across, middle)
                   : tr("The map is %1 across, about %2, with %3° up.").arg(across, middle).arg(up);
}

Selection MapCanvas::thingsAt(const model::Position& place) const {
    return thingAt(m_parts->document.set(), m_parts->outlined(), place, Length::metres(kHitPixels * metresPerPixel()),
                   &m_parts->outlines.places());
}

QString MapCanvas::copiedText() const { return m_parts->tool->copiedText(m_parts->scene()); }

/// Upright on the screen; along the meridians where a corner cannot be seen.
model::LineString MapCanvas::Parts::boxBetween(const model::Position& a, const model::Position& b) const {
    const auto from = view.widgetOf(a), to = view.widgetOf(b);
    if (!from || !to)
        return {a, {b.lon, a.lat}, b, {a.lon, b.lat}};
    return {a, continued(view.earthAt({to->x(), from->y()}), a), b, continued(view.earthAt({from->x(), to->y()}), a)};
}

/// All corners of the box are in view.
bool MapCanvas::Parts::sees(const geometry::Box& box) const {
    const QRectF screen{canvas.rect()};
    for (const double lon : {box.minX, box.maxX})
        for (const double lat : {box.minY, box.maxY})
            if (const auto at = view.widgetOf({lon, lat}); !at || !screen.contains(*at))
                return false;
    return true;
}

/// A step of one metre or foot, or ten, in the whole bearing that is nearest to the arrow's on the screen: a map whose
/// grid leans a little still has its steps along the meridian.
/// @param arrow  degrees clockwise from what is up on the screen.
void MapCanvas::Parts::nudge(double arrow, bool far) {
    constexpr double wholeBearing = 15.0;
    const double azimuth = std::round((view.trueUpAzimuth() + arrow) / wholeBearing) * wholeBearing;
    const bool metric = settings.unitSystem() == units::System::Metric;
    const Length step = (metric ? Length::metres(1) : Length::feet(1)) * (far ? 10.0 : 1.0);
    if (!nudging)
        ++gesture;
    ToolEvent event = decoded(ToolEvent::Kind::Nudge, pointer, {});
    const bool isAcross = std::fmod(azimuth, 180.0) != 0.0, isAlong = std::fmod(azimuth, 180.0) != 90.0;
    const double radians = Angle::degrees(azimuth).inRadians();
    event.east = isAcross ? step * std::sin(radians) : Length{};
    event.north = isAlong ? step * std::cos(radians) : Length{};
    nudging = dispatch(event).isEmpty();
}

const QList<QAction*>& MapCanvas::commands() const { return m_parts->commands; }

void MapCanvas::tell(ToolEvent::Kind kind) { m_parts->dispatch(m_parts->decoded(kind, m_parts->pointer, {})); }

void MapCanvas::step(Qt::ArrowType to) {
    const double x = to == Qt::LeftArrow ? 1.0 : to == Qt::RightArrow ? -1.0 : 0.0;
    const double y = to == Qt::UpArrow ? 1.0 : to == Qt::DownArrow ? -1.0 : 0.0;
    m_parts->pan({x * kArrowPanPixels, y * kArrowPanPixels});
    emit stepped();
}

void MapCanvas::nudge(Qt::ArrowType to, bool far) {
    m_parts->nudge(to == Qt::RightArrow ? 90.0 : to == Qt::DownArrow ? 180.0 : to == Qt::LeftArrow ? 270.0 : 0.0, far);
}

std::vector<ToolOffer> MapCanvas::offersAt(const model::Position& place) {
    return m_parts->tool->offersAt(m_parts->decoded(ToolEvent::Kind::Hover, toWidget(place), {}), m_parts->scene());
}

void MapCanvas::take(const ToolOffer& offer) {
    m_parts->guarded([&] { return offer.take(m_parts->scene()); });
}

void MapCanvas::deleteSelected() {
    ToolEvent event;
    event.kind = ToolEvent::Kind::Delete;
    // Only selecting knows corners; while drawing, what is selected goes as a whole.
    const bool selecting = m_parts->toolId == QLatin1String{toolTable().front().id};
    if (!selecting && m_parts->hasBegun())
        return tell(ToolEvent::Kind::StepBack);
    if (!selecting)
        chooseTool(toolTable().front().id);
    m_parts->dispatch(event);
}

/// The tool shows places that were set.
bool MapCanvas::Parts::hasBegun() {
    const ToolPreview shown = tool->preview(scene());
    return shown.draft || !shown.handles.empty() || !shown.line.empty() || !shown.swept.empty();
}

QString MapCanvas::Parts::dispatch(const ToolEvent& event) {
    if (event.kind != ToolEvent::Kind::Hover && event.kind != ToolEvent::Kind::Nudge)
        nudging = false;
    return guarded([&] { return tool->handle(event, scene()); });
}

/// Does what the tool answers.
QString MapCanvas::Parts::guarded(const std::function<ToolAnswer()>& answers) {
    QString refusal;
    try {
        ToolAnswer answer = answers();
        // What moves nothing is no step to undo.
        if (answer.edit && !answer.edit->changes.empty())
            document.push(std::move(*answer.edit));
        if (answer.select)
            canvas.select(*answer.select);
        if (answer.leave)
            canvas.chooseTool(toolTable().front().id);
    } catch (const Fault& fault) {
        refusal = session::translated(fault);
        emit canvas.refused(refusal);
    }
    settle();
    return refusal;
}

/// A digit begins what is typed; "<" a bearing; "=" opens the entry empty, for what begins with a letter or a sign.
bool MapCanvas::Parts::opensEntry(const QKeyEvent& event) const {
    const QString text = event.text();
    if (text.size() != 1 || tool->typedPrompt().isEmpty() ||
        (event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)))
        return false;
    return text[0] == '=' || text[0].isDigit() || text[0] == '.' || text[0] == '<' || tool->beginsTyping(text[0]);
}

bool MapCanvas::Parts::openEntry(const QKeyEvent& event) {
    if (!opensEntry(event))
        return false;
    entry.open(tool->typedPrompt(), event.text() == "=" ? QString{} : event.text(), placeForEntry());
    return true;
}

void MapCanvas::Parts::typed(ToolEvent::Kind kind, const QString& text) {
    ToolEvent event = decoded(kind, pointer, {});
    event.text = text.trimmed().toStdString();
    if (kind == ToolEvent::Kind::Typed && event.text.empty()) {
        entry.done();
        event.kind = ToolEvent::Kind::Finish;
        dispatch(event);
        return;
    }
    const QString refusal = dispatch(event);
    if (kind != ToolEvent::Kind::Typed) {
        entry.echo(event.text.empty() ? QString{} : tool->preview(scene()).readout);
        return;
    }
    if (!refusal.isEmpty()) {
        entry.refuse(refusal);
        return;
    }
    entry.done();
    // A typed corner may lie far out of sight: the map follows it.
    const ToolPreview shown = tool->preview(scene());
    if (shown.editable)
        return; // what was there before has been changed, and is in sight
    const std::vector<model::Position>& handles = shown.handles;
    const auto last = handles.empty() ? std::nullopt : view.widgetOf(handles.back());
    if (last && !QRectF{canvas.rect()}.contains(*last)) {
        pan(QRectF{canvas.rect()}.center() - *last);
        settle();
    }
}

/// By whole device pixels, so that what is painted already can stay.
void MapCanvas::Parts::pan(const QPointF& pixels) {
    settleTurn();
    touched = true;
    const double ratio = canvas.devicePixelRatioF();
    view.panBy({std::round(pixels.x() * ratio) / ratio, std::round(pixels.y() * ratio) / ratio});
    viewMoved();
}

/// The view shows another part of the earth: the plane follows, and who wants to know what is up is told.
void MapCanvas::Parts::viewMoved() {
    const ViewTransform before = view;
    if (view.settlePlane())
        painter.keepPicture(before, contents(), canvas.devicePixelRatioF());
    constexpr double worthTelling = 0.01; // degrees
    if (const double up = view.trueUpAzimuth(); std::abs(std::remainder(up - toldUp, 360.0)) >= worthTelling) {
        toldUp = up;
        emit canvas.upChanged(up);
    }
    ++looks;
    viewTold.start();
    canvas.update();
}

void MapCanvas::Parts::carryTurn(const QPointF& about, double clockwiseDegrees, double factor, const QPointF& shift) {
    touched = true;
    if (!turn.isUnderWay())
        painter.keepPicture(view, contents(), canvas.devicePixelRatioF());
    turn.carry(about, clockwiseDegrees, factor, shift);
    turnRest.start();
    canvas.update();
}

void MapCanvas::Parts::settleTurn() {
    turnRest.stop();
    if (!turn.isUnderWay())
        return;
    turn.settle(view);
    viewMoved();
}

/// A turn that is done at once; until the map has been drawn anew, its last picture is shown turned.
void MapCanvas::Parts::setUp(const std::function<void()>& turnView) {
    settleTurn();
    touched = true;
    painter.keepPicture(view, contents(), canvas.devicePixelRatioF());
    turnView();
    viewMoved();
}

/// The pointer holds the map, and has come there.
void MapCanvas::Parts::dragMap(const QPointF& to) {
    const QPointF from = *std::exchange(panFrom, to);
    if (!dragTurns) {
        pan(to - from);
        return;
    }
    const QPointF middle = QRectF{canvas.rect()}.center();
    constexpr double tooNear = 8.0; // pixels from the middle, where a step would be a whole turn
    if (distanceBetween(from, middle) < tooNear || distanceBetween(to, middle) < tooNear)
        return;
    const double degrees = QLineF{middle, from}.angleTo(QLineF{middle, to}); // counterclockwise
    carryTurn(middle, -std::remainder(degrees, 360.0));
}

void MapCanvas::Parts::pinch(const QPinchGesture& fingers) {
    if (fingers.state() == Qt::GestureStarted) {
        pinchedDegrees = 0.0;
        pinchTurns = false;
    }
    touched = true;
    const QPointF centre = canvas.mapFromGlobal(fingers.centerPoint());
    const QPointF before = canvas.mapFromGlobal(fingers.lastCenterPoint());
    const double degrees = std::remainder(fingers.rotationAngle() - fingers.lastRotationAngle(), 360.0);
    pinchedDegrees += degrees;
    if (!pinchTurns && std::abs(pinchedDegrees) >= kPinchTurnDegrees) {
        pinchTurns = true;
    } else if (pinchTurns) {
        carryTurn(before, degrees, fingers.scaleFactor(), centre - before);
    } else {
        view.panBy(centre - before);
        view.zoomAbout(centre, fingers.scaleFactor());
        viewMoved();
    }
    if (fingers.state() == Qt::GestureFinished || fingers.state() == Qt::GestureCanceled)
        settleTurn();
}

bool MapCanvas::Parts::nativeGesture(const QNativeGestureEvent& event) {
    switch (event.gestureType()) {
    case Qt::RotateNativeGesture:
        carryTurn(event.position(), event.value()); // clockwise
        return true;
    case Qt::ZoomNativeGesture:
        if (turn.isUnderWay()) {
            carryTurn(event.position(), 0.0, 1.0 + event.value());
            return true;
        }
        touched = true;
        view.zoomAbout(event.position(), 1.0 + event.value());
        viewMoved();
        return true;
    case Qt::EndNativeGesture:
        settleTurn();
        return true;
    default:
        return false;
    }
}

void MapCanvas::Parts::refreshSources() {
    std::vector<ImagerySource> imagery;
    std::vector<ReferenceSource> references;
    for (const model::Source& source : document.set().sources) {
        const session::LoadedSource* loaded = sources.find(source.id);
        if (!source.visible || !loaded)
            continue;
        const bool isReady = loaded->state == session::LoadedSource::State::Ready;
        if (!isReady && !loaded->outlines)
            continue;
        const QString id = QString::fromStdString(source.id.value);
        if (loaded->raster) {
            imagery.push_back({id, loaded->path, loaded->opening, loaded->raster, loaded->levels, loaded->tilePixels,
                               source.opacity, loaded->spare, loaded->glance});
        } else if (loaded->layer) {
            references.push_back({id, QString::fromStdString(source.name), loaded->layer,
                                  loaded->layer->column(source.labelField), loaded->layer->column(source.numberField),
                                  source.opacity});
        } else if (loaded->outlines) {
            references.push_back(
                {id, QString::fromStdString(source.name), loaded->outlines, {}, {}, source.opacity, false});
        }
    }
    painter.underlay().setImagery(std::move(imagery));
    painter.underlay().setReferences(std::move(references));
    preferCrsOfImagery();
    viewMoved();
}

/// The plane of the first orthophoto that a map can be drawn in, over all the imagery that lies in the same.
void MapCanvas::Parts::preferCrsOfImagery() {
    std::string crs;
    ContinuousBox box;
    for (const model::Source& source : document.set().sources) {
        const session::LoadedSource* loaded = sources.find(source.id);
        if (!source.visible || !loaded || !loaded->raster || loaded->raster->crsDefinition.empty())
            continue;
        const raster::RasterDescription& raster = *loaded->raster;
        if (crs.empty() && loaded->servesAsPlane)
            crs = raster.crsDefinition;
        if (crs == raster.crsDefinition)
            for (const model::Position& corner : raster.corners)
                box.add(corner);
    }
    view.setPreferredCrs(crs, box.box);
}

/// The tool's draft with its outline, worked out only when the draft is another.
std::shared_ptr<const session::OutlinedFence> MapCanvas::Parts::outlinedDraft(const ToolPreview& toolPreview) {
    if (!toolPreview.draft) {
        draft.reset();
        return nullptr;
    }
    if (draft && *draft->fence == *toolPreview.draft && draftSites == toolPreview.draftSites)
        return draft;
    auto outlinedFence = std::make_shared<session::OutlinedFence>();
    outlinedFence->fence = std::make_shared<const model::Fence>(*toolPreview.draft);
    draftSites = toolPreview.draftSites;
    try {
        model::Roster<model::Site> sitesWithDraft = document.set().sites;
        for (const model::Site& site : draftSites)
            sitesWithDraft.append(site);
        outlinedFence->surface = airspace::outline(*outlinedFence->fence, sitesWithDraft);
        outlinedFence->closedGaps = airspace::closedGaps(*outlinedFence->fence);
    } catch (const Fault& fault) {
        outlinedFence->fault = fault.what();
    }
    draft = outlinedFence;
    return draft;
}

MapContents MapCanvas::Parts::contents() {
    ToolPreview toolPreview = tool->preview(scene());
    const auto& list = outlined();
    MapContents all{document.set(),
                    list,
                    outlines.places(),
                    outlines.number(),
                    selection,
                    audit.moment(),
                    audit.result(),
                    previewed,
                    {},
                    {},
                    snap,
                    {}};
    all.draft = outlinedDraft(toolPreview);
    all.tool = std::move(toolPreview);
    if (pointerInside && !panFrom && !entry.isOpen()) // what is typed has the read-out beside it
        all.pointer = pointer;
    all.units = settings.unitSystem();
    all.notation = settings.notation();
    all.grid = settings.mapGrid();
    all.clearArea = settings.showsClearArea();
    all.dark = canvas.palette().color(QPalette::Window).lightnessF() < 0.5F;
    all.inMotion = zoomTimer.isActive();
    return all;
}

/// Brings hint and cursor in line with the tool's state.
void MapCanvas::Parts::settle() {
    if (!tool)
        return;
    ++looks;
    const QString words = tool->hint(scene()).trimmed();
    if (words != hint) {
        hint = words;
        emit canvas.hintChanged(hint);
    }
    if (const auto chosen = tool->chosenCorner(); chosen != toldCorner) {
        toldCorner = chosen;
        emit canvas.cornerChosen(toldCorner);
    }
    canvas.setCursor(panFrom ? Qt::ClosedHandCursor : spaceHeld ? Qt::OpenHandCursor : tool->cursor());
    canvas.update();
}

void MapCanvas::Parts::forgetWhatIsGone() {
    if (selection.empty())
        return;
    const model::FenceSet& set = document.set();
    std::unordered_set<std::string> there;
    const auto collect = [&](const auto& roster) {
        for (const auto& one : roster)
            there.insert(one.id.value);
    };
    if (selection.size() > 1) {
        collect(set.fences);
        collect(set.sites);
        collect(set.homes);
    }
    const auto isThere = [&](const Thing& thing) {
        if (selection.size() > 1)
            return std::visit([&](const auto& id) { return there.contains(id.value); }, thing);
        struct Find {
            const model::FenceSet& set;
            bool operator()(const model::FenceId& id) const { return set.fences.find(id); }
            bool operator()(const model::SiteId& id) const { return set.sites.find(id); }
            bool operator()(const model::HomeId& id) const { return set.homes.find(id); }
        };
        return std::visit(Find{set}, thing);
    };
    std::vector<Thing> left;
    std::copy_if(selection.things().begin(), selection.things().end(), std::back_inserter(left), isThere);
    if (left.size() != selection.size())
        canvas.select(Selection{std::move(left)});
}

void MapCanvas::paintEvent(QPaintEvent*) {
    Parts& parts = *m_parts;
    QPainter painter{this};
    const MapContents contents = parts.contents();
    if (parts.turn.isUnderWay())
        parts.painter.paintCarried(painter, parts.view, contents, parts.turn.carried(), parts.turn.clockwiseDegrees());
    else
        parts.painter.paint(painter, parts.view, contents);
    if (hasFocus() && parts.reachedByKeyboard) {
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{(contents.dark ? darkPalette() : lightPalette()).accent, 2.0});
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void MapCanvas::resizeEvent(QResizeEvent*) {
    m_parts->view.setSize(size());
    m_parts->fitWhenUntouched();
}

bool MapCanvas::event(QEvent* event) {
    switch (event->type()) {
    case QEvent::ToolTip: {
        const auto* help = static_cast<QHelpEvent*>(event);
        const QString words = m_parts->isOnNorthArrow(help->pos()) ? tr("True north. Double click: north up")
                                                                   : m_parts->findingsAt(help->pos());
        if (words.isEmpty())
            QToolTip::hideText();
        else
            QToolTip::showText(help->globalPos(), words, this);
        return true;
    }
    case QEvent::Gesture:
        if (const auto* pinch =
                static_cast<QPinchGesture*>(static_cast<QGestureEvent*>(event)->gesture(Qt::PinchGesture))) {
            m_parts->pinch(*pinch);
            return true;
        }
        break;
    case QEvent::NativeGesture:
        if (m_parts->nativeGesture(*static_cast<QNativeGestureEvent*>(event)))
            return true;
        break;
    case QEvent::ShortcutOverride: {
        // Keys that mean something to the map go before the window's; so does what begins what is typed.
        const auto& key = *static_cast<QKeyEvent*>(event);
        const bool isFixed = key.key() == Qt::Key_Escape || key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
        if (isFixed || m_parts->commandOf(key) || m_parts->opensEntry(key)) {
            event->accept();
            return true;
        }
        break;
    }
    default:
        break;
    }
    return QWidget::event(event);
}

/// The words of the findings whose marks lie there.
QString MapCanvas::Parts::findingsAt(const QPointF& at) const {
    const auto result = audit.result();
    QStringList words;
    if (result)
        for (const audit::Finding& finding : result->findings)
            if (finding.place)
                if (const auto mark = view.widgetOf(*finding.place);
                    mark && distanceBetween(*mark, at) <= kFindingRadiusPixels + 2.0)
                    words << (session::translated(finding.words) + ' ' + session::translated(finding.remedy)).trimmed();
    return words.join('\n');
}

void MapCanvas::mousePressEvent(QMouseEvent* event) {
    Parts& parts = *m_parts;
    setFocus(Qt::MouseFocusReason);
    parts.reachedByKeyboard = false;
    // What is held goes on being held, whatever other buttons do. Its own button again: its release was lost.
    if (parts.press && event->button() != Qt::LeftButton)
        return;
    if (parts.entry.isOpen()) {
        parts.typed(ToolEvent::Kind::Typing, {}); // and means nothing any more
        parts.entry.done();
    }
    parts.pointer = event->position();
    if (event->button() == Qt::MiddleButton || (event->button() == Qt::LeftButton && parts.spaceHeld)) {
        parts.panFrom = event->position();
        parts.dragTurns = event->modifiers().testFlag(Qt::ShiftModifier);
        parts.settle();
        return;
    }
    if (event->button() != Qt::LeftButton)
        return;
    parts.pressOnFurniture = parts.isOnNorthArrow(event->position());
    if (parts.pressOnFurniture)
        return;
    ++parts.gesture;
    const ToolEvent press = parts.decoded(ToolEvent::Kind::Press, event->position(), event->modifiers());
    parts.dispatch(press);
    parts.press = Parts::PressState{event->position(), press, false, parts.tool->holds(), false};
}

void MapCanvas::mouseMoveEvent(QMouseEvent* event) {
    Parts& parts = *m_parts;
    parts.pointer = event->position();
    parts.pointerInside = rect().contains(event->position().toPoint());
    // What a touch screen tells of fingers that turn the map is told by their gesture already.
    if (parts.pressOnFurniture || (parts.turn.isUnderWay() && !parts.panFrom))
        return;
    // While figures are typed, the pointer lies where it lies.
    if (parts.entry.isOpen() && !parts.panFrom)
        return;
    const auto tell = [&](const ToolEvent& decoded) {
        emit pointerMoved(decoded.place, parts.pointerInside);
        parts.dispatch(decoded);
    };
    if (parts.panFrom) {
        emit pointerMoved(toEarth(event->position()), parts.pointerInside);
        parts.dragMap(event->position());
        return;
    }
    if (!parts.press) {
        tell(parts.decoded(ToolEvent::Kind::Hover, event->position(), event->modifiers()));
        return;
    }
    if (!parts.press->moved) {
        const QPointF way = event->position() - parts.press->at;
        if (std::hypot(way.x(), way.y()) < kDragPixels)
            return;
        parts.press->moved = true;
        if (!parts.press->held) {
            parts.panFrom = parts.press->at;
            parts.dragTurns = event->modifiers().testFlag(Qt::ShiftModifier);
            parts.press.reset();
            mouseMoveEvent(event);
            parts.settle();
            return;
        }
    }
    if (!parts.press->dropped)
        tell(parts.decoded(ToolEvent::Kind::Drag, event->position(), event->modifiers()));
}

void MapCanvas::mouseReleaseEvent(QMouseEvent* event) {
    Parts& parts = *m_parts;
    if (std::exchange(parts.pressOnFurniture, false))
        return;
    if (parts.panFrom) {
        parts.panFrom.reset();
        parts.settleTurn();
        parts.settle();
        return;
    }
    if (event->button() != Qt::LeftButton || !parts.press)
        return;
    const Parts::PressState press = *std::exchange(parts.press, std::nullopt);
    if (press.dropped)
        return;
    if (press.moved) {
        parts.dispatch(parts.decoded(ToolEvent::Kind::Drop, event->position(), event->modifiers()));
        parts.snap.reset();
    } else {
        ToolEvent click = press.event;
        click.kind = ToolEvent::Kind::Click;
        parts.dispatch(click);
    }
}

void MapCanvas::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton)
        return;
    Parts& parts = *m_parts;
    if (parts.isOnNorthArrow(event->position())) {
        parts.pressOnFurniture = true;
        return northUp();
    }
    parts.dispatch(parts.decoded(ToolEvent::Kind::DoubleClick, event->position(), event->modifiers()));
    if (parts.toolId == QLatin1String{toolTable().front().id} && parts.selection.only<model::FenceId>())
        emit editRequested();
    else if (parts.toolId == QLatin1String{toolTable().front().id} && parts.selection.empty())
        emit hereRequested(toEarth(event->position()));
}

void MapCanvas::contextMenuEvent(QContextMenuEvent* event) {
    const bool byMouse = event->reason() == QContextMenuEvent::Mouse;
    event->accept();
    if (byMouse && m_parts->press) // a menu would swallow the release of what is held
        return;
    const model::Position place = byMouse ? toEarth(event->pos()) : pointedAt();
    emit menuRequested(place, byMouse ? event->globalPos() : mapToGlobal(toWidget(place).toPoint()));
}

std::vector<FoundFeature> MapCanvas::featuresAt(const model::Position& place) const {
    return desktop::featuresAt(m_parts->painter.references().sources(), place,
                               Length::metres(kHitPixels * metresPerPixel()));
}

std::vector<FoundFeature> MapCanvas::featuresWhere(const ColumnSearch& search, std::size_t limit) const {
    return desktop::featuresWhere(m_parts->painter.references().sources(), search, limit);
}

model::Position MapCanvas::pointedAt() const { return toEarth(m_parts->placeForEntry()); }

void MapCanvas::wheelEvent(QWheelEvent* event) {
    Parts& parts = *m_parts;
    if (!event->pixelDelta().isNull() && !event->modifiers().testFlag(Qt::ControlModifier)) {
        parts.pan(event->pixelDelta());
    } else {
        parts.zoomSmoothly(event->position(), std::pow(kZoomStep, event->angleDelta().y() / 120.0));
    }
    event->accept();
}

void MapCanvas::keyPressEvent(QKeyEvent* event) {
    Parts& parts = *m_parts;
    const auto send = [&](ToolEvent::Kind kind) {
        parts.dispatch(parts.decoded(kind, parts.pointer, event->modifiers()));
    };
    if (QAction* command = parts.commandOf(*event)) // before what begins what is typed: a person may have chosen so
        return command->trigger();
    switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
        return send(ToolEvent::Kind::Finish);
    case Qt::Key_Escape:
        if (parts.press)
            parts.press->dropped = true;
        return send(ToolEvent::Kind::Escape);
    case Qt::Key_Space:
        parts.spaceHeld = true;
        return parts.settle();
    case Qt::Key_Shift:
        return parts.hoverAgain(event->modifiers() | Qt::ShiftModifier);
    case Qt::Key_Alt:
        parts.hoverAgain(event->modifiers() | Qt::AltModifier);
        break;
    case Qt::Key_Control:
        return parts.hoverAgain(event->modifiers() | Qt::ControlModifier);
    default:
        if (parts.openEntry(*event))
            return;
    }
    QWidget::keyPressEvent(event);
}

void MapCanvas::keyReleaseEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
        m_parts->spaceHeld = false;
        m_parts->settle();
        return;
    }
    if (event->key() == Qt::Key_Shift || event->key() == Qt::Key_Alt || event->key() == Qt::Key_Control)
        m_parts->hoverAgain(event->modifiers());
    QWidget::keyReleaseEvent(event);
}

void MapCanvas::leaveEvent(QEvent*) {
    m_parts->pointerInside = false;
    m_parts->snap.reset();
    emit pointerMoved({}, false);
    update();
}

void MapCanvas::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    m_parts->reachedByKeyboard = event->reason() == Qt::TabFocusReason || event->reason() == Qt::BacktabFocusReason ||
                                 event->reason() == Qt::ShortcutFocusReason;
    update();
}

void MapCanvas::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    m_parts->spaceHeld = false;
    update();
}

} // namespace fencewright::desktop
