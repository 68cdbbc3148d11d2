#pragma once

#include <QString>
#include <QStringList>

#include <array>
#include <span>

namespace fencewright::desktop {

/// What a place is drawn to.
enum class SnapKind {
    Corner,
    Place, ///< a site, a home, the centre of a circle, a point of a reference layer
    Crossing,
    Midpoint,
    Edge,
    Square, ///< at a right angle to the last leg, or to an edge
    InLine,
    Parallel
};

inline constexpr std::size_t kSnapKinds = 8;

/// Which of them are switched on, and what goes with them.
class SnapKinds {
public:
    static SnapKinds all() { return {}; }
    /// What lasts in the settings: the ids of those that are switched off (see snapSwitches()).
    static SnapKinds without(const QStringList& ids);

    bool has(SnapKind kind) const { return !m_off[std::size_t(kind)]; }
    bool hasReferences() const { return !m_referencesOff; }

private:
    std::array<bool, kSnapKinds> m_off{};
    bool m_referencesOff = false;
};

/// One line of the menu in which they are switched.
struct SnapSwitch {
    const char* id;
    const char* words; ///< to be translated in the context "Snaps"
};
[[nodiscard]] std::span<const SnapSwitch> snapSwitches();

} // namespace fencewright::desktop
