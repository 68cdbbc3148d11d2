#include "desktop/canvas/snap_kind.h"

#include <QtGlobal>

namespace fencewright::desktop {
namespace {

// The kinds first, in their order.
constexpr std::array<SnapSwitch, kSnapKinds + 1> kSwitches{{
    {"corner", QT_TRANSLATE_NOOP("Snaps", "&Corners")},
    {"place", QT_TRANSLATE_NOOP("Snaps", "&Sites, homes, centres")},
    {"crossing", QT_TRANSLATE_NOOP("Snaps", "C&rossings of edges")},
    {"midpoint", QT_TRANSLATE_NOOP("Snaps", "&Midpoints of edges")},
    {"edge", QT_TRANSLATE_NOOP("Snaps", "&Edges")},
    {"square", QT_TRANSLATE_NOOP("Snaps", "Ri&ght angles")},
    {"inline", QT_TRANSLATE_NOOP("Snaps", "In &line with a leg or an edge")},
    {"parallel", QT_TRANSLATE_NOOP("Snaps", "&Parallels to edges")},
    {"reference", QT_TRANSLATE_NOOP("Snaps", "Re&ference layers too")},
}};

} // namespace

SnapKinds SnapKinds::without(const QStringList& ids) {
    SnapKinds kinds;
    for (std::size_t i = 0; i < kSnapKinds; ++i)
        kinds.m_off[i] = ids.contains(QLatin1String{kSwitches[i].id});
    kinds.m_referencesOff = ids.contains(QLatin1String{kSwitches[kSnapKinds].id});
    return kinds;
}

std::span<const SnapSwitch> snapSwitches() { return kSwitches; }

} // namespace fencewright::desktop
