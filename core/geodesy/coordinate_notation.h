#pragma once

#include "model/position.h"

#include <optional>
#include <string>
#include <string_view>

namespace fencewright::geodesy {

/// How a place is written.
enum class Notation {
    DecimalDegrees,        ///< 46.208844° N 8.733936° W
    DegreesMinutesSeconds, ///< 46°12′31.84″ N 8°44′02.17″ W
    Utm,                   ///< 29T 520533 5117466 (zone and band, easting, northing, metres)
    Mgrs                   ///< 29T NM 20533 17466
};

/// The place as text: decimal degrees with 6 decimals, seconds with 2, UTM and MGRS to the metre. Beyond the limits of
/// UTM (latitudes over 84 N or under 80 S) the UTM and MGRS notations fall back to DegreesMinutesSeconds.
/// MGRS truncates, as the grid's rules say; the others round.
[[nodiscard]] std::string format(model::Position position, Notation notation);

/// The place as text with all its digits, for what is typed over: in decimal degrees as many as give exactly the same
/// doubles back (but a longitude beyond 180, which comes back a turn off); seconds with 8 decimals, UTM with 6: within
/// 2e-6 m. MGRS has no digits finer than a metre, so that its places are written as UTM.
/// @throws Fault  the place is not finite, or beyond a pole.
[[nodiscard]] std::string formatFinely(model::Position position, Notation notation);

/// Reads a place in any of the notations, told apart by their form: "46.5 -8.7" (latitude first),
/// "46°12'31.84\"N 8°44'02.17\"W", "N46.5 W8.7", "E44.4 N33.3", "33d18'N 44d24'E", "33:18 +44:24", "38n 444140
/// 3684706", "29T 520533 5117466", "29TNM2053317466", "29T NM 20533 17466". Two bare numbers are latitude, longitude;
/// letters decide where there are any. An MGRS place is the centre of its square, as is usual.
/// @throws Fault  says which part cannot be read, and shows the accepted forms.
[[nodiscard]] model::Position parsePosition(std::string_view text);

/// Like parsePosition, without the explanation: nothing where the text is not a place.
[[nodiscard]] std::optional<model::Position> tryParsePosition(std::string_view text);

struct UtmPlace {
    int zone = 0; ///< 1 to 60, with the exceptions of Norway and Svalbard
    bool north = true;
    char band = 'N'; ///< C to X without I and O
    double easting = 0.0;
    double northing = 0.0;
};
/// @throws Fault  the latitude is over 84 N or under 80 S.
/// Error: under 1e-6 m.
[[nodiscard]] UtmPlace toUtm(model::Position position);
/// Any zone may be given; it need not be the place's own.
[[nodiscard]] model::Position fromUtm(const UtmPlace& place);

} // namespace fencewright::geodesy
