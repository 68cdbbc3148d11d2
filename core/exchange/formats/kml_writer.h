#pragma once

#include "exchange/delivery_content.h"

#include <string>

namespace fencewright::exchange {

/// The content as a KML 2.2 document (OGC 07-147r2) with styles of our own and no link to anything outside the file.
/// Fences without a drawn height lie on the ground. Properties are ExtendedData.
/// Side: `exact`: every coordinate is written with the content's decimals, heights with their shortest exact text.
[[nodiscard]] std::string writeKml(const DeliveryContent& content);

} // namespace fencewright::exchange
