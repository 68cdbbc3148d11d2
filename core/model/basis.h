#pragma once

#include "model/date.h"
#include "units/stated_length.h"

#include <optional>
#include <string>

namespace fencewright::model {

/// What kind of reason a fence rests on. None: nobody has said yet.
enum class BasisKind { None, Permit, Lease, Guideline, Agreement, Judgement };

/// Why a fence has its shape.
struct Basis {
    BasisKind kind = BasisKind::None;
    std::string citation;                 ///< title, number, page, link
    std::optional<StatedLength> distance; ///< the distance that the source states, in its own words
    std::optional<Date> date;             ///< of the permit, lease, edition or judgement
    std::string who;                      ///< who gave it, or who judged

    bool operator==(const Basis&) const = default;
};

} // namespace fencewright::model
