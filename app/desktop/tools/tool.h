#pragma once

#include <QString>

#include "desktop/canvas/selection.h"
#include "desktop/tools/corner.h"
#include "desktop/tools/running_along.h"
#include "geometry/changing_index.h"
#include "model/edit.h"
#include "model/fence_set.h"
#include "session/outline_cache.h"
#include "units/angle.h"
#include "units/measure_notation.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::desktop {

/// What the person did, as far as a tool is concerned. The canvas decodes pointer, keys and typed numbers into these.
struct ToolEvent {
    enum class Kind {
        Hover,       ///< the pointer moved, no button down
        Press,       ///< a button went down; the tool may take hold of what is there (see Tool::holds)
        Drag,        ///< the pointer moved while the tool holds something
        Drop,        ///< the button went up after a drag
        Click,       ///< down and up in one place
        DoubleClick, ///< the second click of two
        Finish,      ///< Enter
        StepBack,    ///< Backspace: takes back the last step
        Escape,      ///< lets go of what is held, or takes back everything begun
        Delete,
        Nudge,     ///< moves what is chosen by `step`
        OtherKind, ///< the key that turns keep-out into keep-in, home into alternate
        Follow,    ///< the key that lets the next leg follow a boundary, the other way round, and no more
        Typing,    ///< the typed text as it stands
        Typed      ///< the typed text, entered
    };

    Kind kind = Kind::Hover;
    model::Position place;     ///< where, snapped; the longitude lies within half a turn of the view's middle
    model::Position pointer;   ///< where, as the pointer lies: for finding what is there
    Length tolerance;          ///< how far from the pointer counts as on it: some pixels, on the ground
    bool constrain = false;    ///< Shift
    bool parallel = false;     ///< Alt: an edge is moved parallel to itself
    bool adds = false;         ///< Ctrl: what is chosen joins what is selected, or leaves it
    std::uint64_t gesture = 0; ///< the same from one press to the release
    std::string text;          ///< of Typing and Typed
    Length east, north;        ///< of Nudge: how far
};

/// The line being drawn, as far as directions are taken from it.
struct LineSoFar {
    std::vector<model::Position> last; ///< its last places, two at most, the newest at the end
    std::optional<Angle> held;         ///< the next leg has this azimuth, whatever the pointer shows
};

/// A parcel of a reference layer, as the person would pick it.
struct PickableParcel {
    std::string key; ///< tells it from every other parcel on the map
    model::Parcel parcel;
};

/// The present keys of what hints speak of, as they are said; empty: it has none.
struct ToolKeys {
    QString otherKind;
    QString follow;
};

/// What a tool sees. The references hold for one call.
struct ToolScene {
    const model::FenceSet& set;
    const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined;
    Selection selection;
    units::System units = units::System::Metric;
    /// The parcels of visible reference layers at a place, the uppermost first.
    std::function<std::vector<PickableParcel>(const model::Position&)> parcelsAt;
    /// The boxes of `outlined`, by place in it; null: there are none.
    const geometry::ChangingIndex* places = nullptr;
    /// The corners of the box, upright on the screen, that has these two as opposite ones; none: along the meridians.
    std::function<model::LineString(const model::Position&, const model::Position&)> boxBetween;
    /// Whether all of a box is in view; none: it is.
    std::function<bool(const geometry::Box&)> sees;
    Length pixel = Length::metres(1); ///< of the screen, on the ground in the middle of the view
    bool sharesCorners = false;       ///< neighbours' corners that lie together stay together
    /// The lines within reach of a place, of fences and their outlines before those of reference layers.
    BoundariesAt boundariesAt = {};
    ToolKeys keys = {};
};

/// What a tool answers to an event.
struct ToolAnswer {
    std::optional<model::Edit> edit;
    std::optional<Selection> select;
    bool leave = false; ///< nothing was begun, and the person wants out: back to selecting
};

/// Something that can be done where the pointer is, for the menu there.
struct ToolOffer {
    QString words;
    /// @throws Fault  it cannot be done.
    std::function<ToolAnswer(const ToolScene&)> take;
};

/// What something is turned and scaled by: a ring about a middle, and squares outside it. As large on the screen
/// whatever the scale, so that it can be taken hold of beside the smallest thing and amid the largest.
struct Dial {
    static constexpr double kRingPixels = 62.0;
    static constexpr double kSquarePixels = 88.0; ///< from the middle to the middle of a square

    enum class Part { None, Middle, Ring, Square };

    model::Position middle;
    std::vector<model::Position> squares;
    Part held = Part::None; ///< or under the pointer
    /// While it is turned or scaled: the place that was taken hold of, and where it is now.
    std::optional<std::pair<model::Position, model::Position>> hand;
};

/// What the canvas paints for the tool, over everything else.
struct ToolPreview {
    /// A fence as it would be, painted as fences are.
    std::optional<model::Fence> draft;
    /// Sites the draft needs and the set has not yet.
    std::vector<model::Site> draftSites;
    /// The line being drawn; the last place is the pointer's where `follows`.
    model::LineString line;
    bool follows = false;
    bool closed = false;                  ///< the line is a ring: its comb is drawn
    std::optional<model::FenceKind> kind; ///< of the line; none: a measured line
    std::vector<model::Position> handles; ///< places that were set, or can be taken hold of
    /// The fence whose corners and midpoints can be taken hold of, and the chosen one of them.
    std::optional<model::FenceId> editable;
    std::optional<Corner> activeCorner;
    std::optional<Edge> activeEdge; ///< chosen, or to be taken hold of
    std::optional<Dial> dial;
    std::optional<model::Home> home; ///< a home as it would be
    std::vector<std::pair<model::Position, QString>> labels;
    QString readout;         ///< beside the pointer
    model::LineString swept; ///< a ring that is being swept, to choose what lies in it
};

/// A canvas tool: a state machine fed with events. It paints nothing, changes nothing, and knows no widget.
class Tool {
public:
    virtual ~Tool() = default;

    /// @throws Fault  what was typed or asked for cannot be done; the state stays as it was.
    virtual ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) = 0;
    virtual ToolPreview preview(const ToolScene& scene) const = 0;
    /// What the next click or key does.
    virtual QString hint(const ToolScene& scene) const = 0;
    /// What can be typed now, with an example; empty: nothing.
    virtual QString typedPrompt() const { return {}; }
    /// What Ctrl+C puts on the clipboard; empty: nothing.
    virtual QString copiedText(const ToolScene&) const { return {}; }
    /// Whether the press just handled took hold of something: then a drag moves it, and not the map.
    virtual bool holds() const { return false; }
    /// Whether places are to be snapped now; `unsnapped` is what moves itself.
    virtual bool wantsSnap() const { return false; }
    virtual Selection unsnapped() const { return {}; }
    /// The place that is to be snapped where the pointer is there: what is held may be held beside it.
    virtual model::Position aim(const model::Position& pointer) const { return pointer; }
    /// Whether a letter begins what is typed, as a digit does.
    virtual bool beginsTyping(QChar /*letter*/) const { return false; }
    /// What can be done to what lies there, beside what is done to things as a whole.
    virtual std::vector<ToolOffer> offersAt(const ToolEvent& /*event*/, const ToolScene& /*scene*/) { return {}; }
    /// What right angles and the like are taken from.
    /// @param wholeBearings  Shift is held.
    virtual LineSoFar lineSoFar(const model::Position& /*pointer*/, bool /*wholeBearings*/) const { return {}; }
    /// The corner that is chosen to be worked on.
    virtual std::optional<Corner> chosenCorner() const { return std::nullopt; }
    /// Another one is chosen, elsewhere than on the map; of a tool that knows none, nothing.
    virtual void chooseCorner(const std::optional<Corner>&) {}
    virtual Qt::CursorShape cursor() const { return Qt::CrossCursor; }
};

} // namespace fencewright::desktop
