#pragma once

#include <QMetaType>

#include "model/thing.h"

#include <concepts>
#include <cstddef>
#include <memory>
#include <unordered_set>
#include <variant>
#include <vector>

namespace fencewright::desktop {

using model::Thing;

template <class Id>
concept ThingId =
    std::same_as<Id, model::FenceId> || std::same_as<Id, model::SiteId> || std::same_as<Id, model::HomeId>;

/// What is selected, on the map and in the ledger alike: things in the order in which they were chosen, each once. A
/// copy costs a pointer.
class Selection {
public:
    Selection() = default;
    Selection(Thing thing) : Selection{std::vector{std::move(thing)}} {}
    template <ThingId Id> Selection(Id id) : Selection{Thing{std::move(id)}} {}
    explicit Selection(std::vector<Thing> things);

    [[nodiscard]] bool empty() const { return !m_kept; }
    [[nodiscard]] std::size_t size() const { return things().size(); }
    [[nodiscard]] const std::vector<Thing>& things() const;
    [[nodiscard]] bool contains(const Thing& thing) const;

    [[nodiscard]] Selection with(const Selection& others) const;
    [[nodiscard]] Selection without(const Thing& thing) const;
    [[nodiscard]] Selection toggled(const Thing& thing) const;

    /// Where exactly one thing is selected, and it is of that kind; else null.
    template <ThingId Id> [[nodiscard]] const Id* only() const {
        return size() == 1 ? std::get_if<Id>(&things().front()) : nullptr;
    }
    /// Those that are fences, in their order.
    [[nodiscard]] std::vector<model::FenceId> fences() const;

    bool operator==(const Selection& other) const { return m_kept == other.m_kept || things() == other.things(); }

private:
    struct Hash {
        std::size_t operator()(const Thing& thing) const;
    };
    struct Kept {
        std::vector<Thing> things;
        std::unordered_set<Thing, Hash> found;
    };

    std::shared_ptr<const Kept> m_kept; ///< null where nothing is selected
};

} // namespace fencewright::desktop

Q_DECLARE_METATYPE(fencewright::desktop::Selection)
