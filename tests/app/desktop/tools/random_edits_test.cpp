#include "airspace/outline.h"
#include "airspace/reshaping.h"
#include "app/desktop/tools/tool_driver.h"
#include "app/session/edit_desk.h"
#include "desktop/panels/corner_model.h"
#include "desktop/tools/corner_rows.h"
#include "desktop/tools/cut_tool.h"
#include "desktop/tools/hole_tool.h"
#include "desktop/tools/polygon_tool.h"
#include "desktop/tools/rectangle_tool.h"
#include "desktop/tools/select_tool.h"
#include "desktop/tools/turn_tool.h"
#include "geodesy/coordinate_notation.h"
#include "session/settings.h"
#include "store/clipping.h"
#include "store/document_file.h"

#include <QtTest>

#include <map>
#include <random>
#include <set>

using namespace fencewright;
using namespace fencewright::desktop;
using namespace fencewright::model;
using test::Deed;
using test::Desk;
using test::Replay;

// Everything that makes other fences out of those that are there, in long random sequences, through the functions and
// tools that the window uses.

namespace {

constexpr int kSteps = 10'000;
constexpr int kStepsBetweenSaves = 500;
constexpr std::size_t kMostFences = 11;
constexpr std::size_t kMostCorners = 90; ///< of a fence that is kept
constexpr std::size_t kLongestName = 48;

template <class... Cases> struct Overloaded : Cases... { using Cases::operator()...; };
template <class... Cases> Overloaded(Cases...) -> Overloaded<Cases...>;

template <class Visit> void visitCorners(const Polygon& polygon, Visit visit) {
    std::for_each(polygon.shell.corners.begin(), polygon.shell.corners.end(), visit);
    for (const Ring& hole : polygon.holes)
        std::for_each(hole.corners.begin(), hole.corners.end(), visit);
}
template <class Visit> void visitCorners(const Shape& shape, Visit visit) {
    std::visit(
        Overloaded{[&](const DrawnPolygon& drawn) { visitCorners(drawn.polygon, visit); },
                   [&](const Circle& circle) { visit(circle.centre); },
                   [&](const Corridor& corridor) { std::for_each(corridor.line.begin(), corridor.line.end(), visit); },
                   [](const Setback&) {},
                   [&](const ParcelUnion& parcels) {
                       for (const Parcel& parcel : parcels.parcels)
                           for (const Polygon& part : parcel.surface.parts)
                               visitCorners(part, visit);
                   }},
        shape);
}
std::size_t countCorners(const Shape& shape) {
    std::size_t count = 0;
    visitCorners(shape, [&](const Position&) { ++count; });
    return count;
}

/// What must hold of every set that a person can come to; empty, or what does not.
QString wrongIn(const FenceSet& set) {
    std::set<std::string> identities;
    const auto isFresh = [&](const auto& thing) { return identities.insert(thing.id.value).second; };
    const auto isPlace = [](const Position& place) {
        return std::isfinite(place.lon) && std::abs(place.lon) <= 540.0 && std::abs(place.lat) <= 89.0;
    };
    for (const Fence& fence : set.fences) {
        bool sound = true;
        visitCorners(fence.shape, [&](const Position& place) { sound = sound && isPlace(place); });
        if (!sound)
            return "a corner is no place of the earth";
        if (!isFresh(fence))
            return "two things have one identity";
        if (const auto* setback = std::get_if<Setback>(&fence.shape); setback && !set.sites.find(setback->site))
            return "a setback follows a site that is not there";
        if (const auto* drawn = std::get_if<DrawnPolygon>(&fence.shape)) {
            const auto isRing = [](const Ring& ring) { return ring.corners.size() >= 3; };
            const auto& holes = drawn->polygon.holes;
            if (!isRing(drawn->polygon.shell) || !std::all_of(holes.begin(), holes.end(), isRing))
                return "a ring has fewer than three corners";
        }
    }
    for (const Site& site : set.sites)
        if (!isFresh(site))
            return "two things have one identity";
    for (const Home& home : set.homes)
        if (!isFresh(home) || !isPlace(home.place))
            return "a home has no identity of its own, or no place";
    return {};
}

/// The changes one after another in plain lists.
void replay(Replay& now, const Edit& edit) {
    for (const Change& change : edit.changes)
        std::visit(Overloaded{[](const HeadingReplacement&) {},
                              [&](const MarginReplacement& one) { now.margin = one.after; },
                              [&]<class T>(const Replacement<T>& one) {
                                  auto& list = now.list<T>();
                                  if (one.before && one.after)
                                      now.replace(*one.after);
                                  else if (one.before)
                                      std::erase_if(list, [&](const auto& it) { return it->id == one.before->id; });
                                  else
                                      list.insert(list.begin() + std::ptrdiff_t(std::min(one.index, list.size())),
                                                  std::make_shared<const T>(*one.after));
                              }},
                   change);
}

/// Whether something that was locked is another or gone; to unlock it alone is no change.
template <class T> bool changesLocked(const Roster<T>& before, const std::vector<std::shared_ptr<const T>>& after) {
    for (const T& was : before) {
        if (!was.locked)
            continue;
        const auto is = std::find_if(after.begin(), after.end(), [&](const auto& one) { return one->id == was.id; });
        if (is == after.end())
            return true;
        T still = **is;
        still.locked = true;
        if (!(still == was))
            return true;
    }
    return false;
}

/// The tool that is in the hand: the driver keeps its outlines while tools change.
class Hand : public Tool {
public:
    void take(std::unique_ptr<Tool> tool) { m_tool = std::move(tool); }
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override { return m_tool->handle(event, scene); }
    ToolPreview preview(const ToolScene& scene) const override { return m_tool->preview(scene); }
    QString hint(const ToolScene& scene) const override { return m_tool->hint(scene); }
    Position aim(const Position& pointer) const override { return m_tool->aim(pointer); }

private:
    std::unique_ptr<Tool> m_tool;
};

class Person {
public:
    explicit Person(unsigned seed) : m_random{seed}, m_settings{m_folder.filePath("settings.ini")} {}

    std::size_t below(std::size_t count) { return std::size_t(m_random() % count); }
    bool chance(int oneIn) { return m_random() % std::uint64_t(oneIn) == 0; }

    /// Sites, fences of every shape and a home, close enough to overlap.
    FenceSet begin() {
        FenceSet set;
        for (int i = 0; i < 2; ++i) {
            Site site;
            site.id = freshId<Site>();
            site.name = "Nest " + std::to_string(i + 1);
            site.geometry = somewhere();
            set.sites.append(site);
        }
        for (int i = 0; i < 8; ++i)
            set.fences.append(newFence(set));
        return set;
    }

    struct Kind {
        const char* words;
        int often;
        std::vector<Edit> (Person::*make)(const FenceSet&);
    };
    static const std::vector<Kind>& kinds();
    const Kind& next(const FenceSet& set) {
        static const Kind tidying{"tidy", 0, &Person::tidy};
        if (!tooLarge(set).empty())
            return tidying;
        if (set.fences.size() < 2) // what is done to others needs some
            return kinds().front();
        int all = 0;
        for (const Kind& kind : kinds())
            all += kind.often;
        int at = int(below(std::size_t(all)));
        for (const Kind& kind : kinds())
            if ((at -= kind.often) < 0)
                return kind;
        return kinds().front();
    }

private:
    std::vector<Edit> margin(const FenceSet& set) {
        Margin margin;
        margin.speed.speed = Speed::metresPerSecond(within(1.0, 20.0));
        margin.reaction = std::chrono::duration<double>{within(0.0, 3.0)};
        margin.deceleration.acceleration = Acceleration::metresPerSecondSquared(within(1.0, 6.0));
        return {replaceMargin(set, chance(4) ? std::nullopt : std::optional{margin})};
    }
    double within(double least, double most) { return std::uniform_real_distribution<double>{least, most}(m_random); }
    Position somewhere() { return metresFrom(within(-300.0, 300.0), within(-300.0, 300.0)); }
    Position near(const Position& place, double metres) {
        return geodesy::direct(place, Angle::degrees(within(0.0, 360.0)), Length::metres(within(1.0, metres)));
    }
    Polygon polygon() {
        const Position middle = somewhere();
        const double size = within(40.0, 180.0), turned = within(0.0, 360.0);
        const int corners = 3 + int(below(6));
        Polygon made;
        for (int i = 0; i < corners; ++i)
            made.shell.corners.push_back(geodesy::direct(middle, Angle::degrees(turned + 360.0 * i / corners),
                                                         Length::metres(size * within(0.6, 1.0))));
        if (chance(3)) {
            Ring& hole = made.holes.emplace_back();
            for (const double azimuth : {0.0, 120.0, 240.0})
                hole.corners.push_back(geodesy::direct(middle, Angle::degrees(azimuth), Length::metres(0.2 * size)));
        }
        return made;
    }
    Fence newFence(const FenceSet& set) {
        Fence fence;
        fence.id = freshId<Fence>();
        fence.kind = chance(3) ? FenceKind::KeepIn : FenceKind::KeepOut;
        fence.name = "Fence " + std::to_string(++m_made);
        switch (below(6)) {
        case 0:
            fence.shape = Circle{somewhere(), {Length::metres(within(20.0, 120.0)), ""}};
            break;
        case 1:
            fence.shape = Corridor{{somewhere(), somewhere()},
                                   {Length::metres(within(5.0, 30.0)), ""},
                                   {Length::metres(within(5.0, 30.0)), ""}};
            break;
        case 2:
            if (!set.sites.empty()) {
                fence.shape = Setback{set.sites[below(set.sites.size())].id, {Length::metres(within(20.0, 90.0)), ""}};
                break;
            }
            [[fallthrough]];
        case 3:
            fence.shape = ParcelUnion{{{"17", {{polygon()}}}, {"18", {{polygon()}}}}, {}};
            break;
        default:
            fence.shape = DrawnPolygon{polygon()};
        }
        return fence;
    }

    std::vector<FenceId> tooLarge(const FenceSet& set) {
        std::vector<FenceId> found;
        for (const Fence& fence : set.fences)
            if (countCorners(fence.shape) > kMostCorners || fence.name.size() > kLongestName)
                found.push_back(fence.id);
        if (found.empty() && set.fences.size() > kMostFences)
            found.push_back(set.fences[below(set.fences.size())].id);
        return found;
    }
    /// So that the sequence stays what a person oversees. What is locked is unlocked first.
    std::vector<Edit> tidy(const FenceSet& set) {
        const auto gone = tooLarge(set);
        Fence fence = *set.fences.find(gone.front());
        if (!fence.locked)
            return {removeFence(set, fence.id)};
        fence.locked = false;
        return {replaceFence(set, fence, "Unlock")};
    }

    std::vector<FenceId> some(const FenceSet& set, std::size_t least) {
        std::vector<FenceId> ids;
        for (std::size_t i = least + below(2); i > 0 && !set.fences.empty(); --i)
            ids.push_back(set.fences[below(set.fences.size())].id);
        return ids;
    }
    /// Two or three of one kind.
    std::vector<FenceId> alike(const FenceSet& set) {
        std::vector<FenceId> ids;
        const FenceKind kind = chance(3) ? FenceKind::KeepIn : FenceKind::KeepOut;
        const std::size_t from = below(set.fences.size()), count = chance(3) ? 3 : 2;
        for (std::size_t i = 0; i < set.fences.size() && ids.size() < count; ++i)
            if (const Fence& fence = set.fences[(from + i) % set.fences.size()]; fence.kind == kind)
                ids.push_back(fence.id);
        return ids;
    }
    std::vector<Thing> things(const FenceSet& set) {
        std::vector<Thing> all;
        for (const FenceId& id : some(set, 1))
            all.emplace_back(id);
        if (!set.sites.empty() && below(2))
            all.emplace_back(set.sites[below(set.sites.size())].id);
        if (!set.homes.empty() && below(2))
            all.emplace_back(set.homes[below(set.homes.size())].id);
        std::sort(all.begin(), all.end());
        all.erase(std::unique(all.begin(), all.end()), all.end());
        return all;
    }

    std::vector<Edit> add(const FenceSet& set) { return {addFence(set, newFence(set))}; }
    std::vector<Edit> addPlace(const FenceSet& set) {
        if (set.homes.size() > 2 || set.sites.size() > 3) {
            if (!set.homes.empty() && (set.sites.empty() || below(2)))
                return {removeHome(set, set.homes[below(set.homes.size())].id)};
            return {removeSite(set, set.sites[below(set.sites.size())].id)};
        }
        if (below(2)) {
            Home home;
            home.id = freshId<Home>();
            home.name = "Home";
            home.place = somewhere();
            return {addHome(set, home)};
        }
        Site site;
        site.id = freshId<Site>();
        site.name = "Nest";
        site.geometry = somewhere();
        return {addSite(set, site)};
    }
    std::vector<Edit> unite(const FenceSet& set) { return {airspace::united(set, alike(set)).edit}; }
    std::vector<Edit> intersect(const FenceSet& set) { return {airspace::intersected(set, alike(set)).edit}; }
    std::vector<Edit> takeOut(const FenceSet& set) {
        const auto chosen = some(set, 2);
        return {airspace::subtracted(set, chosen.empty() ? FenceId{} : chosen.front(), chosen).edit};
    }
    std::vector<Edit> fillHoles(const FenceSet& set) {
        std::vector<FenceId> ids;
        for (const Fence& fence : set.fences)
            if (const auto* drawn = std::get_if<DrawnPolygon>(&fence.shape); drawn && !drawn->polygon.holes.empty())
                ids.push_back(fence.id);
        return {airspace::holesFilled(set, ids).edit};
    }
    std::vector<Edit> makePolygon(const FenceSet& set) { return {airspace::asPolygons(set, some(set, 1)).edit}; }
    std::vector<Edit> copyAtADistance(const FenceSet& set) {
        using airspace::OffsetDirection;
        const auto chosen = some(set, 1);
        return {airspace::offsetCopy(set, chosen.empty() ? FenceId{} : chosen.front(),
                                     {Length::metres(within(3.0, 25.0)), ""},
                                     below(2) ? OffsetDirection::Outward : OffsetDirection::Inward,
                                     below(2) ? FenceKind::KeepIn : FenceKind::KeepOut)
                    .edit};
    }
    std::vector<Edit> duplicate(const FenceSet& set) {
        return {airspace::duplicated(set, things(set), {Length::metres(24.0), Length::metres(-24.0)}).edit};
    }
    std::vector<Edit> paste(const FenceSet& set) {
        // Out of this document or of what it was before: then the text holds things that are gone by now.
        if (m_clipboard.empty() || chance(3))
            m_clipboard = store::clipped(set, things(set)).text;
        return {store::pastedInto(set, store::pasted(m_clipboard)).edit};
    }
    std::vector<Edit> lock(const FenceSet& set) {
        Fence fence = set.fences[below(set.fences.size())];
        fence.locked = chance(2);
        return {replaceFence(set, fence, "Lock or unlock")};
    }

    /// What came of it, as the undo stack would have it.
    template <class Do> std::vector<Edit> withTool(const FenceSet& set, std::unique_ptr<Tool> tool, Do act) {
        m_hand.take(std::move(tool));
        m_driver.set = set;
        m_driver.selection = {};
        m_driver.steps.clear();
        m_driver.snapsTo.reset();
        m_driver.parallel = false;
        act(m_driver);
        return m_driver.steps;
    }
    std::vector<Edit> cut(const FenceSet& set) {
        return withTool(set, std::make_unique<CutTool>(), [&](ToolDriver& driver) {
            if (below(2))
                driver.selection = Selection{some(set, 1).front()};
            const double azimuth = within(0.0, 360.0);
            const Position middle = somewhere();
            driver.click(geodesy::direct(middle, Angle::degrees(azimuth), Length::metres(700)));
            driver.click(near(middle, 60.0));
            driver.click(geodesy::direct(middle, Angle::degrees(azimuth + 180.0), Length::metres(700)));
            driver.finish();
        });
    }
    std::vector<Edit> turn(const FenceSet& set) {
        return withTool(set, std::make_unique<TurnTool>(), [&](ToolDriver& driver) {
            driver.selection = Selection{things(set)};
            driver.hover(somewhere());
            const int number = int(below(40));
            switch (below(3)) {
            case 0:
                driver.type(std::to_string(number) + (below(2) ? " right" : " left"));
                break;
            case 1:
                driver.type("x 1." + std::to_string(number % 10));
                driver.type("x 0.9");
                break;
            default:
                driver.type(std::to_string(number) + " m " + std::to_string(9 * number));
            }
        });
    }
    /// A corner, an edge parallel to itself, a midpoint or the whole, dragged by two frames; now and then Escape.
    std::vector<Edit> drag(const FenceSet& set, bool shared) {
        return withTool(set, std::make_unique<SelectTool>(), [&](ToolDriver& driver) {
            const Fence& fence = set.fences[below(set.fences.size())];
            driver.selection = Selection{fence.id};
            driver.sharesCorners = shared;
            const auto lines = editableLines(fence.shape);
            Position from = somewhere();
            if (!lines.empty()) {
                const auto& line = lines[below(lines.size())];
                const std::size_t edge = below(line.edges());
                const Position &a = (*line.corners)[edge], &b = line.edgeEnd(edge);
                driver.parallel = chance(3);
                from = chance(2) || driver.parallel ? Position{(a.lon + b.lon) / 2.0, (a.lat + b.lat) / 2.0} : a;
            } else if (const auto* circle = std::get_if<Circle>(&fence.shape)) {
                from = chance(2) ? circle->centre
                                 : geodesy::direct(circle->centre, Angle::degrees(30), circle->radius.length);
            }
            Position to = near(from, 40.0);
            if (chance(3))
                if (const auto other = cornerOf(set, fence.id))
                    to = *other;
            driver.grab({from, near(from, 30.0), to});
            if (chance(6))
                driver.escape();
            else
                driver.send(ToolEvent::Kind::Drop, to);
        });
    }
    std::vector<Edit> dragAlone(const FenceSet& set) { return drag(set, false); }
    std::vector<Edit> dragTogether(const FenceSet& set) { return drag(set, true); }
    std::vector<Edit> remove(const FenceSet& set) {
        return withTool(set, std::make_unique<SelectTool>(), [&](ToolDriver& driver) {
            driver.selection = Selection{things(set)};
            driver.send(ToolEvent::Kind::Delete);
        });
    }
    std::vector<Edit> nudge(const FenceSet& set) {
        return withTool(set, std::make_unique<SelectTool>(), [&](ToolDriver& driver) {
            driver.selection = Selection{things(set)};
            driver.beginsNudging();
            driver.nudge(within(-3.0, 3.0), within(-3.0, 3.0));
            driver.nudge(1.0, 0.0);
        });
    }
    /// A corner of another fence as drawn.
    std::optional<Position> cornerOf(const FenceSet& set, const FenceId& except) {
        std::vector<Position> all;
        for (const Fence& fence : set.fences)
            if (fence.id != except && !std::holds_alternative<Circle>(fence.shape))
                visitCorners(fence.shape, [&](const Position& place) { all.push_back(place); });
        return all.empty() ? std::nullopt : std::optional{all[below(all.size())]};
    }
    std::vector<Edit> follow(const FenceSet& set) {
        return withTool(set, std::make_unique<PolygonTool>(below(2) ? FenceKind::KeepIn : FenceKind::KeepOut),
                        [&](ToolDriver& driver) {
                            const Fence& fence = set.fences[below(set.fences.size())];
                            std::vector<Position> along;
                            if (const auto surface = airspace::outline(fence, set.sites); !surface.empty())
                                along = surface.parts.front().shell.corners;
                            if (along.size() < 3)
                                return;
                            const std::size_t first = below(along.size());
                            driver.click(along[first]);
                            driver.send(ToolEvent::Kind::Follow, along[first]);
                            if (below(3) == 0)
                                driver.send(ToolEvent::Kind::Follow, along[first]);
                            driver.click(along[(first + 1 + below(along.size() - 1)) % along.size()]);
                            driver.click(somewhere());
                            driver.finish();
                        });
    }
    std::vector<Edit> hole(const FenceSet& set) {
        return withTool(set, std::make_unique<HoleTool>(), [&](ToolDriver& driver) {
            const Position middle = somewhere();
            for (const double azimuth : {0.0, 120.0, 240.0})
                driver.click(geodesy::direct(middle, Angle::degrees(azimuth), Length::metres(8)));
            driver.finish();
        });
    }
    std::vector<Edit> rectangle(const FenceSet& set) {
        return withTool(set, std::make_unique<RectangleTool>(), [&](ToolDriver& driver) {
            const Position from = cornerOf(set, {}).value_or(somewhere());
            driver.click(from);
            driver.click(near(from, 120.0));
            driver.click(near(from, 90.0));
        });
    }

    /// Through the table of corners, on a document of its own.
    std::vector<Edit> table(const FenceSet& set) {
        const Fence& fence = set.fences[below(set.fences.size())];
        const auto lines = editableLines(fence.shape);
        if (lines.empty())
            return {};
        const std::size_t line = below(lines.size()), corners = lines[line].corners->size();
        const auto replaced = [&](Fence made) { return std::vector{replaceFence(set, std::move(made), "Table")}; };
        switch (below(3)) {
        case 0: {
            LineString places;
            for (std::size_t i = below(4); i > 0; --i)
                places.push_back(near(lines[line].corners->front(), 80.0));
            const std::size_t first = below(corners);
            return replaced(withRunReplaced(fence, {line, first, below(corners - first + 1)}, places));
        }
        case 1: {
            std::vector<Corner> gone;
            for (std::size_t i = 1 + below(2); i > 0; --i)
                gone.push_back({fence.id, line, below(corners)});
            return replaced(withoutCorners(fence, gone));
        }
        default:
            break;
        }
        session::OpenDocument scratch;
        Fence open = fence;
        open.locked = false; // whether it may be changed is the other document's to say
        FenceSet alone;
        alone.fences.append(open);
        scratch.takeRecovered(alone, {});
        CornerModel model{scratch, m_settings, nullptr};
        model.show(fence.id);
        const int row = int(below(std::size_t(model.rowCount())));
        const int column = CornerModel::Place + int(below(3));
        const Position there = near(model.cells().place(*model.cornerAt(row)), 50.0);
        const QString typed =
            column == CornerModel::Place
                ? QString::fromStdString(geodesy::formatFinely(there, geodesy::Notation::DecimalDegrees))
            : column == CornerModel::Leg ? QString::number(within(5.0, 90.0), 'f', 2) + " m"
                                         : QString::number(within(0.0, 360.0), 'f', 3);
        if (!model.setData(model.index(row, column), typed, Qt::EditRole))
            return {};
        Fence made = *scratch.set().fences.find(fence.id);
        made.locked = fence.locked;
        return replaced(made);
    }

    std::mt19937_64 m_random;
    QTemporaryDir m_folder;
    session::Settings m_settings;
    Hand m_hand;
    ToolDriver m_driver{m_hand};
    std::string m_clipboard;
    int m_made = 0;
};

const std::vector<Person::Kind>& Person::kinds() {
    static const std::vector<Kind> all{{"add a fence", 10, &Person::add},
                                       {"add a site or home", 2, &Person::addPlace},
                                       {"unite", 4, &Person::unite},
                                       {"keep what is shared", 4, &Person::intersect},
                                       {"take out", 5, &Person::takeOut},
                                       {"fill holes", 3, &Person::fillHoles},
                                       {"make a polygon", 3, &Person::makePolygon},
                                       {"copy at a distance", 3, &Person::copyAtADistance},
                                       {"duplicate", 4, &Person::duplicate},
                                       {"paste", 4, &Person::paste},
                                       {"lock or unlock", 6, &Person::lock},
                                       {"cut", 5, &Person::cut},
                                       {"move, turn, scale", 6, &Person::turn},
                                       {"drag", 8, &Person::dragAlone},
                                       {"drag with neighbours", 6, &Person::dragTogether},
                                       {"nudge", 3, &Person::nudge},
                                       {"delete", 3, &Person::remove},
                                       {"follow a boundary", 8, &Person::follow},
                                       {"hole", 4, &Person::hole},
                                       {"rectangle", 3, &Person::rectangle},
                                       {"table", 8, &Person::table},
                                       {"margin", 2, &Person::margin}};
    return all;
}

} // namespace

class RandomEditsTest : public QObject {
    Q_OBJECT

private slots:
    void tenThousandSteps_ofEveryTool_areUndoneAndRedone_equalAtEveryStep_data() {
        QTest::addColumn<unsigned>("seed");
        for (const unsigned seed : {20261130U, 7U, 4711U})
            QTest::addRow("seed %u", seed) << seed;
    }
    void tenThousandSteps_ofEveryTool_areUndoneAndRedone_equalAtEveryStep() {
        QFETCH(unsigned, seed);
        QTemporaryDir folder;
        const std::string file = folder.filePath("set.gpkg").toStdString();
        Person person{seed};
        Desk desk{person.begin()};
        struct Tally {
            int done = 0, refused = 0, impossible = 0;
            qint64 nanoseconds = 0;
        };
        std::map<std::string, Tally> tallies;
        int saved = 0;
        while (desk.steps() < kSteps) {
            const Person::Kind& kind = person.next(desk.set());
            Tally& tally = tallies[kind.words];
            std::vector<Edit> edits;
            QElapsedTimer timer;
            timer.start();
            try {
                edits = (person.*kind.make)(desk.set());
            } catch (const Fault&) { // fences that share nothing, and the like
            }
            tally.nanoseconds += timer.nsecsElapsed();
            tally.impossible += edits.empty() ? 1 : 0;
            for (Edit& edit : edits) {
                if (edit.changes.empty())
                    continue;
                edit.gesture = 0;
                Replay after = Desk::replayOf(desk.set());
                replay(after, edit);
                const FenceSet& set = desk.set();
                const bool refused = changesLocked(set.fences, after.fences) || changesLocked(set.sites, after.sites) ||
                                     changesLocked(set.homes, after.homes);
                const QString fault = desk.doIt({edit, [edit](Replay& replayed) { replay(replayed, edit); }, refused});
                VERIFY_FINE(fault.isEmpty() ? fault : QString{kind.words} + ": " + fault);
                if (refused) {
                    ++tally.refused;
                    break; // what follows it was made against what was refused
                }
                ++tally.done;
                const QString unsound = wrongIn(desk.set());
                VERIFY_FINE(unsound.isEmpty() ? unsound : QString{kind.words} + ": " + unsound);
                if (desk.index() % kStepsBetweenSaves == 0) {
                    store::saveDocument(desk.set(), file);
                    QVERIFY2(store::openDocument(file).set == desk.set(), kind.words);
                    ++saved;
                }
            }
            if (person.chance(60))
                for (std::size_t i = person.below(12); i > 0 && desk.index() > 0; --i)
                    VERIFY_FINE(desk.undo());
        }
        while (desk.index() > 0)
            VERIFY_FINE(desk.undo());
        while (desk.index() < desk.steps())
            VERIFY_FINE(desk.redo());
        for (int i = 0; i < 20; ++i)
            VERIFY_FINE(desk.goTo(int(person.below(std::size_t(desk.steps()) + 1))));
        int refused = 0;
        for (const auto& [words, tally] : tallies) {
            qInfo("%-22s %5d done %4d refused %5d impossible %7.2f ms each", words.c_str(), tally.done, tally.refused,
                  tally.impossible,
                  double(tally.nanoseconds) / 1e6 / std::max(1, tally.done + tally.refused + tally.impossible));
            QVERIFY2(tally.done >= 15, words.c_str()); // all of it has happened
            refused += tally.refused;
        }
        QVERIFY2(refused > 80, qPrintable(QString::number(refused)));
        QVERIFY(saved > kSteps / kStepsBetweenSaves / 2);
    }
};

QTEST_GUILESS_MAIN(RandomEditsTest)
#include "random_edits_test.moc"
