#pragma once

#include <QAccessible>
#include <QWidget>

#include "desktop/canvas/identify.h"
#include "desktop/canvas/selection.h"
#include "desktop/canvas/shown_thing.h"
#include "desktop/tools/corner.h"
#include "desktop/tools/tool.h"
#include "geodesy/map_plane.h"
#include "geometry/spatial_index.h"
#include "model/edit.h"
#include "model/position.h"
#include "session/live_audit.h"
#include "session/open_document.h"
#include "session/outline_cache.h"
#include "session/settings.h"
#include "session/source_library.h"

#include <functional>
#include <memory>
#include <optional>

namespace fencewright::desktop {

/// The map: imagery, reference layers, fences, sites, homes, findings; pans and zooms, and hands events to the tool.
///
/// It reads the document and draws it; what a tool makes is pushed to the document as an edit. It owns no model data.
class MapCanvas : public QWidget {
    Q_OBJECT

public:
    MapCanvas(session::OpenDocument& document, session::OutlineCache& outlines, session::LiveAudit& audit,
              session::SourceLibrary& sources, session::Settings& settings, QWidget* parent = nullptr);
    ~MapCanvas() override;

    /// Makes the tool of that id current (see tools/tool_table.h); what the former one had begun is dropped.
    void chooseTool(const QString& id);
    QString toolId() const;

    Selection selection() const;
    void select(const Selection& selection);

    /// The corner of the selected fence that is chosen on the map; another one is chosen. None while drawing.
    std::optional<Corner> chosenCorner() const;
    void chooseCorner(const std::optional<Corner>& corner);

    /// Starts the threads that make its pictures, before there is something to show; each does the preparation first.
    void prepareThreads(const std::function<void()>& preparation);

    /// Shows all fences, sites, homes and sources; without any, the last view.
    void zoomToAll();
    void zoomToSelection();
    /// Shows the box with some room around it.
    void zoomTo(const geometry::Box& lonLatBox);
    /// Brings the place to the middle, and near enough to see what is there.
    void showPlace(const model::Position& place);
    void zoomBy(double factor);

    /// Turns the map about its middle.
    void turnBy(double clockwiseDegrees);
    /// The map lies as its plane does: grid north of the imagery up, or true north where there is none.
    void northUp();
    /// The true azimuth that is up at the middle of the view; in [0, 360).
    double trueUpAzimuth() const;
    void setTrueUpAzimuth(double degrees);
    /// What the map's plane is.
    geodesy::MapPlane::Definition plane() const;

    /// A place in widget pixels and back, for tests and for panels that point into the map.
    QPointF toWidget(const model::Position& place) const;
    model::Position toEarth(const QPointF& widget) const;
    double metresPerPixel() const;

    /// What the visible reference layers have at a place, within the pointer's reach of it.
    std::vector<FoundFeature> featuresAt(const model::Position& place) const;
    /// What they have of a search in a column.
    std::vector<FoundFeature> featuresWhere(const ColumnSearch& search, std::size_t limit) const;
    /// Where the pointer is; the middle of the view where it is elsewhere.
    model::Position pointedAt() const;

    /// An edit shown as if it were taken (a repair before it is taken); nothing: none.
    void setPreview(const std::optional<model::Edit>& edit);

    /// What is chosen or in view, for those who do not see the map; a hundred at most.
    std::vector<ShownThing> shownThings();
    std::optional<ShownThing> shownThing(const Thing& thing);
    /// Another number whenever these may be others.
    std::uint64_t looks() const;
    /// What part of the earth is shown, and how large: "2.4 km across, about 46.20000, -8.70000, north up."
    QString viewWords() const;

    /// What lies there, as a click would choose it.
    Selection thingsAt(const model::Position& place) const;
    /// What answers to keys while the map has the focus; see map_commands.h.
    const QList<QAction*>& commands() const;
    /// The tool is told of a key that has no place: StepBack, OtherKind, Follow.
    void tell(ToolEvent::Kind kind);
    /// Moves the map by a step, as an arrow key does.
    void step(Qt::ArrowType to);
    /// Moves what is chosen by one metre or foot, or by ten.
    void nudge(Qt::ArrowType to, bool far);
    /// What the tool has to copy; empty: nothing.
    QString copiedText() const;
    /// What the tool can do to what lies there, for the menu.
    std::vector<ToolOffer> offersAt(const model::Position& place);
    void take(const ToolOffer& offer);
    /// Deletes all that is selected, whatever corner is chosen.
    void deleteSelection();
    /// Deletes the selected corner of the selected fence, or else the selected thing; while something is being drawn,
    /// takes back what was set last.
    void deleteSelected();

signals:
    void selectionChanged(const fencewright::desktop::Selection& selection);
    void toolChanged(const QString& id);
    void cornerChosen(const std::optional<fencewright::desktop::Corner>& corner);
    /// What the next click or key does; empty: nothing to say.
    void hintChanged(const QString& hint);
    /// The pointer moved over the map; `inside` is false when it left.
    void pointerMoved(const fencewright::model::Position& place, bool inside);
    /// Those who do not see the map were told of a change.
    void announced(QAccessible::Event kind);
    /// The map was moved by a key.
    void stepped();
    /// Another true azimuth is up at the middle of the view.
    void upChanged(double trueAzimuthDegrees);
    /// An edit could not be made: why.
    void refused(const QString& words);
    /// A double click on a fence: the form wants the focus.
    void editRequested();
    /// A double click on empty ground.
    void hereRequested(const fencewright::model::Position& place);
    /// The second button, or the key for menus.
    void menuRequested(const fencewright::model::Position& place, const QPoint& globalPosition);

protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

} // namespace fencewright::desktop
