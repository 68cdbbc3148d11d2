#include "desktop/canvas/selection.h"

#include <algorithm>
#include <functional>
#include <string>

namespace fencewright::desktop {

std::size_t Selection::Hash::operator()(const Thing& thing) const {
    return std::visit([](const auto& id) { return std::hash<std::string>{}(id.value); }, thing);
}

Selection::Selection(std::vector<Thing> things) {
    if (things.empty())
        return;
    auto kept = std::make_shared<Kept>();
    kept->found.reserve(things.size());
    for (Thing& thing : things)
        if (kept->found.insert(thing).second)
            kept->things.push_back(std::move(thing));
    m_kept = std::move(kept);
}

const std::vector<Thing>& Selection::things() const {
    static const std::vector<Thing> none;
    return m_kept ? m_kept->things : none;
}

bool Selection::contains(const Thing& thing) const { return m_kept && m_kept->found.contains(thing); }

Selection Selection::with(const Selection& others) const {
    std::vector<Thing> all = things();
    all.insert(all.end(), others.things().begin(), others.things().end());
    return Selection{std::move(all)};
}

Selection Selection::without(const Thing& thing) const {
    std::vector<Thing> others = things();
    std::erase(others, thing);
    return Selection{std::move(others)};
}

Selection Selection::toggled(const Thing& thing) const { return contains(thing) ? without(thing) : with(thing); }

std::vector<model::FenceId> Selection::fences() const {
    std::vector<model::FenceId> ids;
    for (const Thing& thing : things())
        if (const auto* id = std::get_if<model::FenceId>(&thing))
            ids.push_back(*id);
    return ids;
}

} // namespace fencewright::desktop
