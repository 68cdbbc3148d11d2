#pragma once

#include <QString>

#include "model/position.h"
#include "units/angle.h"
#include "units/measure_notation.h"

#include <optional>
#include <string>
#include <string_view>

namespace fencewright::desktop {

/// One leg of a traverse: how far, and in which direction.
struct Leg {
    StatedLength length;
    std::optional<Angle> bearing; ///< none: where the pointer shows
};

/// Reads "120 m 45", "1/4 mi 274.5", "120 45" (the first in the person's unit), "120 ft"; and the courses of deeds,
/// "S 68°05'35\" W 472.68 ft" (see geometry/traverse.h).
/// @throws Fault  not a length, or the bearing is not in 0 to 360: shows an example; two numbers that are as likely
/// coordinates.
Leg parseLeg(std::string_view text, units::System unitless);

/// What may be typed for the next leg: a length, a direction, or both. No length: the direction alone, which then holds
/// until the leg is set.
struct TypedLeg {
    std::optional<StatedLength> length;
    std::optional<Angle> bearing;
    std::optional<Angle> turn; ///< from the direction of the last leg, clockwise
};

/// Reads what parseLeg() reads, and "<45", "b 45" and "N 45°30' E" (a direction alone), "120 m 90 right" and "45 left"
/// (turned from the last leg).
/// @throws Fault  as parseLeg(); an angle over 360.
TypedLeg parseTypedLeg(std::string_view text, units::System unitless);

/// The coordinates that were typed, where a text is meant as a place and not as a distance and a bearing: by its
/// letters (which include those of directions), a sign, a colon, or a comma between two numbers.
/// @throws Fault  it may as well be a quadrant bearing and a distance without its unit: "N 45 E 120".
std::optional<model::Position> typedPlace(const std::string& text);
/// 1 for "right", -1 for "left", in English or in the person's language; also by their first letters. None: neither.
std::optional<double> sideWord(std::string_view word);

/// Where the leg leads. @param towards  the direction where the leg has none.
model::Position endOf(const Leg& leg, const model::Position& from, const model::Position& towards);

/// The place on the way from `from` with that azimuth that is nearest to `to`; `to` itself where it lies on that way,
/// and `from` where it lies behind.
model::Position onBearing(const model::Position& from, Angle azimuth, const model::Position& to);

/// The azimuth nearest to that of `to` which is a multiple of 15 degrees: of north, or of the direction in which the
/// last leg came to `from`.
/// @param before  where the last leg began; null: there is none.
Angle wholeBearing(const model::Position* before, const model::Position& from, const model::Position& to);

/// `to`, moved onto the nearest bearing from `from` that is a multiple of 15 degrees.
model::Position onWholeBearing(const model::Position& from, const model::Position& to);

/// "right 90.0°": how the leg to `to` turns from the last one.
QString turnWords(const model::Position& before, const model::Position& from, const model::Position& to);

/// "radius 50.0 m", and on a second line the area of the circle, as on flat ground: within 1e-5 of it up to 70 km.
QString radiusWords(Length radius, units::System units);

/// "123.4 m · 45.2°".
QString lengthAndBearing(const model::Position& from, const model::Position& to, units::System units);

} // namespace fencewright::desktop
