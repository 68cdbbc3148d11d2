#include "audit/rule_table.h"

#include <algorithm>
#include <array>

namespace fencewright::audit {

extern const Rule coordinatesOutOfRange;
extern const Rule outlineNotComputable;
extern const Rule ringTooFewCorners;
extern const Rule ringClosureAssumed;
extern const Rule ringSelfCrossing;
extern const Rule ringSelfTouching;
extern const Rule holeOutside;
extern const Rule holeNested;
extern const Rule ringRepeatedCorner;
extern const Rule ringSpike;
extern const Rule setbackSiteGone;
extern const Rule fenceWithoutArea;
extern const Rule fenceTinyArea;
extern const Rule bandUpsideDown;
extern const Rule setNoKeepIn;
extern const Rule areaEmpty;
extern const Rule areaInPieces;
extern const Rule marginMissing;
extern const Rule clearAreaEmpty;
extern const Rule clearAreaInPieces;
extern const Rule homeMissing;
extern const Rule homeOutsideArea;
extern const Rule homeLandingRadius;
extern const Rule homeOutsideClearArea;
extern const Rule keepOutSwallowsKeepIn;
extern const Rule keepOutNoEffect;
extern const Rule fenceDuplicate;
extern const Rule fenceSameName;
extern const Rule basisMissing;
extern const Rule edgeNotGeodesic;

std::span<const Rule* const> rules() {
    static constexpr std::array table{&coordinatesOutOfRange, &outlineNotComputable,
                                      &ringTooFewCorners,     &ringClosureAssumed,
                                      &ringSelfCrossing,      &ringSelfTouching,
                                      &holeOutside,           &holeNested,
                                      &ringRepeatedCorner,    &ringSpike,
                                      &setbackSiteGone,       &fenceWithoutArea,
                                      &fenceTinyArea,         &bandUpsideDown,
                                      &setNoKeepIn,           &areaEmpty,
                                      &areaInPieces,          &marginMissing,
                                      &clearAreaEmpty,        &clearAreaInPieces,
                                      &homeMissing,           &homeOutsideArea,
                                      &homeLandingRadius,     &homeOutsideClearArea,
                                      &keepOutSwallowsKeepIn, &keepOutNoEffect,
                                      &fenceDuplicate,        &fenceSameName,
                                      &basisMissing,          &edgeNotGeodesic};
    return table;
}

const Rule* findRule(std::string_view id) {
    const auto all = rules();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Rule* rule) { return rule->id == id; });
    return found == all.end() ? nullptr : *found;
}

} // namespace fencewright::audit
