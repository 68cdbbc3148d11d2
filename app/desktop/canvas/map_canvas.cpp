#include "desktop/canvas/map_canvas.h"

#include "desktop/canvas/fence_painter.h"
#include "desktop/canvas/view_transform.h"
#include "desktop/palette.h"
#include "desktop/tools/tool.h"
#include "desktop/tools/tool_table.h"
#include "fault.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QTimer>

#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr double kHitPixels = 6.0;
constexpr double kDragPixels = 4.0;
constexpr double kZoomStep = 1.25;
constexpr double kBoxMarginPixels = 48.0;
constexpr int kArrowPanPixels = 80;

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
    void add(const model::MultiPolygon& surface) {
        for (const model::Polygon& part : surface.parts)
            for (const model::Position& corner : part.shell.corners)
                add(corner);
    }
    void add(const model::SiteGeometry& geometry) {
        if (const auto* place = std::get_if<model::Position>(&geometry))
            add(*place);
        else if (const auto* line = std::get_if<model::LineString>(&geometry))
            std::for_each(line->begin(), line->end(), [&](const auto& one) { add(one); });
        else
            add(model::MultiPolygon{{std::get<model::Polygon>(geometry)}});
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
        return {document.set(), outlined(), selection, settings.unitSystem(),
                [](const model::Position&) { return std::vector<PickableParcel>{}; }};
    }
    ToolEvent decoded(ToolEvent::Kind kind, const QPointF& at, Qt::KeyboardModifiers modifiers) const {
        ToolEvent event;
        event.kind = kind;
        event.pointer = view.earthAt(at);
        event.place = event.pointer;
        event.tolerance = Length::metres(kHitPixels * view.metresPerPixel());
        event.constrain = modifiers.testFlag(Qt::ShiftModifier);
        event.gesture = gesture;
        return event;
    }
    void dispatch(const ToolEvent& event);
    void settle();
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
    FencePainter fencePainter;
    std::optional<model::Edit> preview;

    std::optional<PressState> press;
    std::optional<QPointF> panFrom;
    bool spaceHeld = false;
    bool touched = false; ///< the person has moved the view: it does not move by itself any more
    QPointF pointer;
    std::uint64_t gesture = 0;
    QString hint;

    QTimer zoomTimer;
    QPointF zoomAbout;
    double zoomLeft = 0.0; ///< logarithm of the factor still to come
};

MapCanvas::MapCanvas(session::OpenDocument& document, session::OutlineCache& outlines, session::LiveAudit& audit,
                     session::SourceLibrary& sources, session::Settings& settings, QWidget* parent)
    : QWidget{parent}, m_parts{std::make_unique<Parts>(*this, document, outlines, audit, sources, settings)} {
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
        parts.view.recentreIfFar();
        update();
    });
    connect(&document, &session::OpenDocument::changed, this, [this](const session::DocumentChange& change) {
        if (change.whole) {
            m_parts->touched = false;
            m_parts->preview.reset();
            chooseTool(toolId());
            m_parts->fitWhenUntouched();
        }
        m_parts->forgetWhatIsGone();
        m_parts->settle();
    });
    connect(&audit, &session::LiveAudit::momentChanged, this, qOverload<>(&QWidget::update));
    connect(&audit, &session::LiveAudit::audited, this, qOverload<>(&QWidget::update));
    connect(&sources, &session::SourceLibrary::sourceChanged, this, [this] {
        m_parts->fitWhenUntouched();
        update();
    });
    connect(&sources, &session::SourceLibrary::listChanged, this, qOverload<>(&QWidget::update));
    connect(&settings, &session::Settings::changed, this, qOverload<>(&QWidget::update));
    m_parts->view.setOrigin({0.0, 45.0});
    chooseTool(toolTable().front().id);
    m_parts->fitWhenUntouched();
}

MapCanvas::~MapCanvas() = default;

void MapCanvas::chooseTool(const QString& id) {
    for (const ToolDescription& description : toolTable()) {
        if (id != QLatin1String{description.id})
            continue;
        const bool another = m_parts->toolId != id;
        m_parts->tool = description.make();
        m_parts->toolId = id;
        m_parts->press.reset();
        if (another)
            emit toolChanged(id);
        m_parts->settle();
        return;
    }
}

QString MapCanvas::toolId() const { return m_parts->toolId; }

Selection MapCanvas::selection() const { return m_parts->selection; }

void MapCanvas::select(const Selection& selection) {
    if (selection == m_parts->selection)
        return;
    m_parts->selection = selection;
    emit selectionChanged(selection);
    m_parts->settle();
}

geometry::Box MapCanvas::Parts::everything() {
    ContinuousBox all;
    for (const auto& one : outlined())
        all.add(one->surface);
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
        if (loaded->content && !loaded->content->extent.empty()) {
            const geometry::Box& extent = loaded->content->extent;
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
        canvas.update();
    }
}

void MapCanvas::zoomToAll() {
    if (const geometry::Box box = m_parts->everything(); !box.empty())
        m_parts->view.showBox(box, kBoxMarginPixels);
    update();
}

void MapCanvas::zoomToSelection() {
    ContinuousBox box;
    if (const auto* id = std::get_if<model::FenceId>(&m_parts->selection)) {
        for (const auto& one : m_parts->outlined())
            if (one->fence->id == *id)
                box.add(one->surface);
    } else if (const auto* siteId = std::get_if<model::SiteId>(&m_parts->selection)) {
        if (const model::Site* site = m_parts->document.set().sites.find(*siteId))
            box.add(site->geometry);
    } else if (const auto* homeId = std::get_if<model::HomeId>(&m_parts->selection)) {
        if (const model::Home* home = m_parts->document.set().homes.find(*homeId))
            box.add(home->place);
    }
    if (!box.box.empty())
        zoomTo(box.box);
}

void MapCanvas::zoomTo(const geometry::Box& lonLatBox) {
    m_parts->touched = true;
    m_parts->view.showBox(lonLatBox, kBoxMarginPixels);
    update();
}

void MapCanvas::showPlace(const model::Position& place) {
    m_parts->touched = true;
    constexpr double nearEnough = 1.0; // metres a pixel: a corner and its neighbours are seen
    const double scale = std::min(m_parts->view.metresPerPixel(), nearEnough);
    m_parts->view.setOrigin(place);
    m_parts->view.setMetresPerPixel(scale);
    update();
}

void MapCanvas::zoomBy(double factor) { m_parts->zoomSmoothly(QRectF{rect()}.center(), factor); }

void MapCanvas::Parts::zoomSmoothly(const QPointF& about, double factor) {
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
    m_parts->preview = edit;
    update();
}

void MapCanvas::deleteSelected() {
    ToolEvent event;
    event.kind = ToolEvent::Kind::Delete;
    m_parts->dispatch(event);
}

void MapCanvas::Parts::dispatch(const ToolEvent& event) {
    try {
        ToolAnswer answer = tool->handle(event, scene());
        if (answer.edit)
            document.push(std::move(*answer.edit));
        if (answer.select)
            canvas.select(*answer.select);
        if (answer.leave)
            canvas.chooseTool(toolTable().front().id);
    } catch (const Fault& fault) {
        emit canvas.refused(QString::fromUtf8(fault.what()));
    }
    settle();
}

/// Brings hint and cursor in line with the tool's state.
void MapCanvas::Parts::settle() {
    if (!tool)
        return;
    const QString words = tool->hint(scene());
    if (words != hint) {
        hint = words;
        emit canvas.hintChanged(hint);
    }
    canvas.setCursor(panFrom ? Qt::ClosedHandCursor : spaceHeld ? Qt::OpenHandCursor : tool->cursor());
    canvas.update();
}

void MapCanvas::Parts::forgetWhatIsGone() {
    const model::FenceSet& set = document.set();
    const auto* fence = std::get_if<model::FenceId>(&selection);
    const auto* site = std::get_if<model::SiteId>(&selection);
    const auto* home = std::get_if<model::HomeId>(&selection);
    if ((fence && !set.fences.find(*fence)) || (site && !set.sites.find(*site)) || (home && !set.homes.find(*home)))
        canvas.select({});
}

void MapCanvas::paintEvent(QPaintEvent*) {
    Parts& parts = *m_parts;
    QPainter painter{this};
    painter.fillRect(rect(), lightPalette().ground);
    parts.fencePainter.paint(painter, parts.view, parts.outlined());
}

void MapCanvas::resizeEvent(QResizeEvent*) {
    m_parts->view.setSize(size());
    m_parts->fitWhenUntouched();
}

bool MapCanvas::event(QEvent* event) { return QWidget::event(event); }

void MapCanvas::mousePressEvent(QMouseEvent* event) {
    Parts& parts = *m_parts;
    setFocus(Qt::MouseFocusReason);
    parts.pointer = event->position();
    if (event->button() == Qt::MiddleButton || (event->button() == Qt::LeftButton && parts.spaceHeld)) {
        parts.panFrom = event->position();
        parts.settle();
        return;
    }
    if (event->button() != Qt::LeftButton)
        return;
    ++parts.gesture;
    const ToolEvent press = parts.decoded(ToolEvent::Kind::Press, event->position(), event->modifiers());
    parts.dispatch(press);
    parts.press = Parts::PressState{event->position(), press, false, parts.tool->holds(), false};
}

void MapCanvas::mouseMoveEvent(QMouseEvent* event) {
    Parts& parts = *m_parts;
    parts.pointer = event->position();
    emit pointerMoved(toEarth(event->position()), rect().contains(event->position().toPoint()));
    if (parts.panFrom) {
        parts.touched = true;
        parts.view.panBy(event->position() - *parts.panFrom);
        parts.panFrom = event->position();
        parts.view.recentreIfFar();
        update();
        return;
    }
    if (!parts.press) {
        parts.dispatch(parts.decoded(ToolEvent::Kind::Hover, event->position(), event->modifiers()));
        return;
    }
    if (!parts.press->moved) {
        const QPointF way = event->position() - parts.press->at;
        if (std::hypot(way.x(), way.y()) < kDragPixels)
            return;
        parts.press->moved = true;
        if (!parts.press->held) {
            parts.panFrom = parts.press->at;
            parts.press.reset();
            mouseMoveEvent(event);
            parts.settle();
            return;
        }
    }
    if (!parts.press->dropped)
        parts.dispatch(parts.decoded(ToolEvent::Kind::Drag, event->position(), event->modifiers()));
}

void MapCanvas::mouseReleaseEvent(QMouseEvent* event) {
    Parts& parts = *m_parts;
    if (parts.panFrom) {
        parts.panFrom.reset();
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
    parts.dispatch(parts.decoded(ToolEvent::Kind::DoubleClick, event->position(), event->modifiers()));
    if (parts.toolId == QLatin1String{toolTable().front().id} &&
        std::holds_alternative<model::FenceId>(parts.selection))
        emit editRequested();
}

void MapCanvas::wheelEvent(QWheelEvent* event) {
    Parts& parts = *m_parts;
    if (!event->pixelDelta().isNull() && !event->modifiers().testFlag(Qt::ControlModifier)) {
        parts.touched = true;
        parts.view.panBy(event->pixelDelta());
        parts.view.recentreIfFar();
        update();
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
    const auto pan = [&](double x, double y) {
        parts.touched = true;
        parts.view.panBy({x, y});
        parts.view.recentreIfFar();
        update();
    };
    switch (event->key()) {
    case Qt::Key_Left:
        return pan(kArrowPanPixels, 0);
    case Qt::Key_Right:
        return pan(-kArrowPanPixels, 0);
    case Qt::Key_Up:
        return pan(0, kArrowPanPixels);
    case Qt::Key_Down:
        return pan(0, -kArrowPanPixels);
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        return zoomBy(kZoomStep);
    case Qt::Key_Minus:
        return zoomBy(1.0 / kZoomStep);
    case Qt::Key_Return:
    case Qt::Key_Enter:
        return send(ToolEvent::Kind::Finish);
    case Qt::Key_Backspace:
        return send(ToolEvent::Kind::StepBack);
    case Qt::Key_Delete:
        return send(ToolEvent::Kind::Delete);
    case Qt::Key_Escape:
        if (parts.press)
            parts.press->dropped = true;
        return send(ToolEvent::Kind::Escape);
    case Qt::Key_Space:
        parts.spaceHeld = true;
        return parts.settle();
    default:
        QWidget::keyPressEvent(event);
    }
}

void MapCanvas::keyReleaseEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Space && !event->isAutoRepeat()) {
        m_parts->spaceHeld = false;
        m_parts->settle();
        return;
    }
    QWidget::keyReleaseEvent(event);
}

void MapCanvas::leaveEvent(QEvent*) { emit pointerMoved({}, false); }

void MapCanvas::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void MapCanvas::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    m_parts->spaceHeld = false;
    update();
}

} // namespace fencewright::desktop
