#pragma once

#include "exchange/delivery_content.h"

#include <string>

namespace fencewright::exchange {

/// The content as a GeoJSON FeatureCollection by RFC 7946: WGS 84 longitude and latitude without heights, shells
/// counter-clockwise, holes clockwise, the box of all (west, south, east, north; across the antimeridian west is the
/// greater), no crs member. Height limits are properties: one third coordinate could not hold a floor and a ceiling.
/// Side: `exact`: every coordinate is written with the content's decimals.
[[nodiscard]] std::string writeGeoJson(const DeliveryContent& content);

} // namespace fencewright::exchange
