#pragma once

#include "fault.h"
#include "model/edit.h"
#include "model/fence_set.h"

#include <memory>
#include <string>
#include <utility>

namespace fencewright::airspace::detail {

/// Changes to a set, one made against what the former left.
class SetSteps {
public:
    explicit SetSteps(const model::FenceSet& set) : m_state{set} {}

    [[nodiscard]] const model::FenceSet& state() const { return m_state; }

    void replace(model::Fence fence) { take(model::replaceFence(m_state, std::move(fence), {})); }
    void remove(const model::FenceId& id) { take(model::removeFence(m_state, id)); }
    void add(model::Fence fence) { take(model::addFence(m_state, std::move(fence))); }
    void add(model::Site site) { take(model::addSite(m_state, std::move(site))); }
    void add(model::Home home) { take(model::addHome(m_state, std::move(home))); }
    /// Right behind another fence.
    void addBehind(const model::FenceId& id, model::Fence fence) {
        const std::size_t index = m_state.fences.indexOf(id) + 1;
        take({{},
              {model::Replacement<model::Fence>{index, nullptr,
                                                std::make_shared<const model::Fence>(std::move(fence))}}});
    }

    [[nodiscard]] bool empty() const { return m_edit.changes.empty(); }
    [[nodiscard]] model::Edit edit(Wording title) && {
        m_edit.title = std::move(title);
        return std::move(m_edit);
    }

private:
    void take(model::Edit edit) {
        m_state = model::applied(std::move(m_state), edit);
        std::move(edit.changes.begin(), edit.changes.end(), std::back_inserter(m_edit.changes));
    }

    model::FenceSet m_state;
    model::Edit m_edit;
};

/// @throws Fault  there is none.
[[nodiscard]] inline const model::Fence& fenceIn(const model::FenceSet& set, const model::FenceId& id) {
    const auto* fence = set.fences.find(id);
    if (!fence)
        throw Fault{phrase("core", "There is no such fence in the set."), id.value,
                    phrase("core", "It may have been deleted meanwhile.")};
    return *fence;
}

/// The name, or the first of "name 2", "name 3" … that no thing of the roster has.
template <class T> [[nodiscard]] std::string freeName(const model::Roster<T>& roster, const std::string& name) {
    const auto taken = [&](const std::string& wanted) {
        for (const auto& thing : roster)
            if (thing.name == wanted)
                return true;
        return false;
    };
    std::string wanted = name;
    for (int i = 2; taken(wanted); ++i)
        wanted = name + " " + std::to_string(i);
    return wanted;
}

} // namespace fencewright::airspace::detail
