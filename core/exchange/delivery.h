#pragma once

#include "airspace/activity.h"
#include "compare/permits_more.h"
#include "geodesy/vertical_reference.h"
#include "model/fence_set.h"
#include "progress.h"

#include <string>
#include <vector>

namespace fencewright::exchange {

/// A format that can be written.
enum class DeliveryFormat { GeoJson, Kml };

struct DeliveryFormatInfo {
    DeliveryFormat format;
    std::string name;   ///< "GeoJSON (RFC 7946)"
    std::string id;     ///< "geojson"
    std::string suffix; ///< ".geojson"
};
[[nodiscard]] const std::vector<DeliveryFormatInfo>& deliveryFormats();

struct DeliveryOptions {
    DeliveryFormat format = DeliveryFormat::GeoJson;
    int decimals = 7;             ///< of a degree; outlines are rounded to the safe side
    std::size_t cornerBudget = 0; ///< per fence, 0: none; simplified to the safe side
    bool withSites = true;        ///< confidential ones never
    bool withHomes = true;
};

/// What became of one delivery. It counts as delivered only when `confirmed`.
struct DeliveryReport {
    std::string path;
    std::string format;
    bool confirmed = false; ///< read back, and nothing in it permits more than the set
    std::size_t fences = 0; ///< written: enabled ones with a surface
    std::size_t corners = 0;
    Area keepOutAdded; ///< by rounding and simplifying
    Area keepInLost;
    std::vector<compare::Difference> differences; ///< between the set and the file as read back
    std::vector<Wording> cautions; ///< left out and why, heights that could not be converted, edges, confidential sites
    std::string checksum;          ///< SHA-256 of the file, hexadecimal
};

/// Writes the enabled fences of the set, reads the file back and compares by exact containment. The file appears under
/// its name only when the comparison has passed; a failure leaves what was there before, and no half file.
///
/// Heights: GeoJSON carries band limits as properties (value, unit, reference), never as a third coordinate unless
/// above the ellipsoid; KML carries altitudes with the altitude mode of the reference, converted to EGM96 where needed.
/// @throws Fault  cannot be written or read back, or would permit more: says why. Cancelled.
[[nodiscard]] DeliveryReport deliver(const model::FenceSet& set, const std::string& path,
                                     const DeliveryOptions& options, const geodesy::GroundHeight& ground,
                                     const Progress& progress = {});

} // namespace fencewright::exchange
