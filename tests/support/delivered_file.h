#pragma once

#include "model/fence.h"
#include "model/polygon.h"

#include <QByteArray>

#include <map>
#include <string>
#include <vector>

namespace fencewright::support {

/// A fence as a reader finds it that knows the standards only: Qt's parsers, none of the project's.
struct DeliveredFence {
    std::map<std::string, std::string> properties; ///< numbers with up to 17 digits
    model::MultiPolygon surface;                   ///< as written: cut, longitudes in [-180, 180]
    std::string altitudeMode;                      ///< of KML
    bool extruded = false;
    std::vector<double> altitudes; ///< of KML, one a corner
};

/// The features whose role is "fence". Throws std::runtime_error where the file breaks its standard.
[[nodiscard]] std::vector<DeliveredFence> fencesOfGeoJson(const QByteArray& text);
[[nodiscard]] std::vector<DeliveredFence> fencesOfKml(const QByteArray& text);

/// The parts in one piece beside the given surface, joined where they were cut.
[[nodiscard]] model::MultiPolygon joinedBeside(model::MultiPolygon parts, const model::MultiPolygon& surface);

} // namespace fencewright::support
