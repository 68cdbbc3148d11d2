#pragma once

#include "model/fence.h"
#include "model/polygon.h"
#include "model/position.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fencewright::exchange {

/// One named value that goes with a feature.
struct DeliveredProperty {
    std::string name;
    std::variant<std::string, double> value;
};

/// A surface as a solid from the ground up, or as a lid where it has a floor. For formats that draw in three
/// dimensions.
struct DrawnHeight {
    enum class Mode { AboveGround, AboveMeanSeaLevel };
    Mode mode = Mode::AboveGround;
    double metres = 0.0;
    bool extruded = false; ///< down to the ground
};

/// Several lines: a line that was cut at the antimeridian.
using Lines = std::vector<model::LineString>;

/// One thing as it goes into a file: longitudes in [-180, 180], cut at the antimeridian, coordinates that are exact in
/// the stated decimals, texts in valid UTF-8 without control characters.
struct DeliveredFeature {
    enum class Role { Fence, Site, Home };
    Role role = Role::Fence;
    std::string id;
    std::string name;
    model::FenceKind kind = model::FenceKind::KeepOut; ///< of a fence
    std::variant<model::Position, Lines, model::MultiPolygon> geometry;
    std::vector<DeliveredProperty> properties; ///< in the order written, id, name and kind among them
    std::optional<DrawnHeight> drawnHeight;    ///< none: drawn on the ground
};

/// All that a format needs to write a file.
struct DeliveryContent {
    std::string title;
    std::string notice; ///< what whoever opens the file should know
    int decimals = 7;
    std::vector<DeliveredFeature> features;
};

} // namespace fencewright::exchange
