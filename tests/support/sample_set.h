#pragma once

#include "airspace/activity.h"
#include "model/fence_set.h"

#include <string>

namespace fencewright::tests {

/// A fence set as the audit's samples write it: see tests/core/audit/rules/README.md.
struct SampleSet {
    model::FenceSet set;
    airspace::Moment moment;
};
/// @throws std::exception  not a sample.
[[nodiscard]] SampleSet sampleSet(const std::string& path);

} // namespace fencewright::tests
