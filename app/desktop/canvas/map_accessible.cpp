#include "desktop/canvas/map_accessible.h"

#include "desktop/canvas/map_canvas.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QPointer>
#include <QWindow>

#include <map>
#include <optional>

namespace fencewright::desktop {
namespace {

/// A fence, site or home on the map.
class ThingAccessible final : public QAccessibleInterface, public QAccessibleActionInterface {
public:
    ThingAccessible(MapCanvas* map, Thing thing) : m_map{map}, m_thing{std::move(thing)} {}

    bool isValid() const override { return m_map && shown(); }
    QObject* object() const override { return nullptr; }
    QWindow* window() const override { return m_map ? m_map->window()->windowHandle() : nullptr; }
    QAccessibleInterface* parent() const override { return QAccessible::queryAccessibleInterface(m_map); }
    QAccessibleInterface* child(int) const override { return nullptr; }
    QAccessibleInterface* childAt(int, int) const override { return nullptr; }
    int childCount() const override { return 0; }
    int indexOfChild(const QAccessibleInterface*) const override { return -1; }
    QAccessible::Role role() const override { return QAccessible::ListItem; }
    QString text(QAccessible::Text kind) const override {
        const auto thing = shown();
        return thing && kind == QAccessible::Name ? thing->words : QString{};
    }
    void setText(QAccessible::Text, const QString&) override {}
    QRect rect() const override {
        const auto thing = shown();
        return thing ? QRect{m_map->mapToGlobal(thing->box.topLeft()), thing->box.size()} : QRect{};
    }
    QAccessible::State state() const override {
        QAccessible::State state;
        const auto thing = shown();
        state.invalid = !thing;
        state.selectable = true;
        state.multiSelectable = true;
        state.selected = thing && m_map->selection().contains(m_thing);
        state.offscreen = thing && !m_map->rect().intersects(thing->box);
        return state;
    }
    void* interface_cast(QAccessible::InterfaceType type) override {
        return type == QAccessible::ActionInterface ? static_cast<QAccessibleActionInterface*>(this) : nullptr;
    }

    QStringList actionNames() const override { return {pressAction()}; }
    void doAction(const QString& name) override {
        if (name == pressAction() && isValid())
            m_map->select(m_thing);
    }
    QStringList keyBindingsForAction(const QString&) const override { return {}; }

private:
    std::optional<ShownThing> shown() const { return m_map ? m_map->shownThing(m_thing) : std::nullopt; }

    QPointer<MapCanvas> m_map;
    Thing m_thing;
};

class MapAccessible final : public QAccessibleWidget {
public:
    explicit MapAccessible(MapCanvas* map) : QAccessibleWidget{map, QAccessible::Canvas}, m_map{map} {}
    ~MapAccessible() override {
        for (const auto& [id, part] : m_parts)
            QAccessible::deleteAccessibleInterface(part);
    }

    QString text(QAccessible::Text kind) const override {
        if (kind == QAccessible::Value)
            return m_map->viewWords();
        if (kind == QAccessible::Description)
            return (m_map->accessibleDescription() + ' ' + m_map->viewWords()).trimmed();
        return QAccessibleWidget::text(kind);
    }
    int childCount() const override { return QAccessibleWidget::childCount() + int(things().size()); }
    QAccessibleInterface* child(int index) const override {
        const int widgets = QAccessibleWidget::childCount();
        if (index < widgets)
            return QAccessibleWidget::child(index);
        const std::size_t at = std::size_t(index - widgets);
        return at < things().size() ? part(things()[at].thing) : nullptr;
    }
    int indexOfChild(const QAccessibleInterface* child) const override {
        const int at = QAccessibleWidget::indexOfChild(child);
        if (at >= 0)
            return at;
        for (std::size_t i = 0; i < things().size(); ++i)
            if (part(things()[i].thing) == child)
                return QAccessibleWidget::childCount() + int(i);
        return -1;
    }
    /// The smallest part there, for what lies inside another is meant rather than the other.
    QAccessibleInterface* childAt(int x, int y) const override {
        if (QAccessibleInterface* widget = QAccessibleWidget::childAt(x, y))
            return widget;
        const QPoint at = m_map->mapFromGlobal(QPoint{x, y});
        const ShownThing* best = nullptr;
        const auto area = [](const QRect& box) { return qint64(box.width()) * box.height(); };
        for (const ShownThing& one : things())
            if (one.box.contains(at) && (!best || area(one.box) < area(best->box)))
                best = &one;
        return best ? part(best->thing) : nullptr;
    }

private:
    const std::vector<ShownThing>& things() const {
        if (m_looks != m_map->looks()) {
            m_things = m_map->shownThings();
            m_looks = m_map->looks();
        }
        return m_things;
    }
    QAccessibleInterface* part(const Thing& thing) const {
        const std::string id = std::visit([](const auto& one) { return one.value; }, thing);
        if (const auto known = m_parts.find(id); known != m_parts.end())
            if (QAccessibleInterface* kept = QAccessible::accessibleInterface(known->second))
                return kept;
        auto* made = new ThingAccessible{m_map, thing};
        m_parts[id] = QAccessible::registerAccessibleInterface(made);
        return made;
    }

    MapCanvas* m_map;
    // As they were asked for last.
    mutable std::vector<ShownThing> m_things;
    mutable std::optional<std::uint64_t> m_looks;
    mutable std::map<std::string, QAccessible::Id> m_parts;
};

QAccessibleInterface* accessibleOf(const QString&, QObject* object) {
    auto* map = qobject_cast<MapCanvas*>(object);
    return map ? new MapAccessible{map} : nullptr;
}

} // namespace

void installMapAccessible() { QAccessible::installFactory(accessibleOf); }

} // namespace fencewright::desktop
