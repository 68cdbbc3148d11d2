#include "model/margin.h"

#include "fault.h"

#include <cmath>

namespace fencewright::model {
namespace {

double next(double value) { return std::nextafter(value, HUGE_VAL); }

// What lacks of a rounded result is itself a double, which tells on which side of the exact one it is.

double sumAtLeast(double a, double b) {
    const double sum = a + b;
    const double ofB = sum - a;
    const double lacking = (a - (sum - ofB)) + (b - ofB);
    return lacking > 0.0 ? next(sum) : sum;
}

double productAtLeast(double a, double b) {
    const double product = a * b;
    return std::fma(a, b, -product) > 0.0 ? next(product) : product;
}

double quotientAtLeast(double a, double b) {
    const double quotient = a / b;
    return std::fma(quotient, b, -a) < 0.0 ? next(quotient) : quotient;
}

void requireUsable(double figure, const Phrase& refusal) {
    if (!std::isfinite(figure) || figure < 0.0)
        throw Fault{refusal, "", phrase("core", "Correct that figure of the margin.")};
}

} // namespace

MarginDistances distances(const Margin& margin) {
    const double error = margin.positionError.length.inMetres(), speed = margin.speed.speed.inMetresPerSecond(),
                 reaction = margin.reaction.count(),
                 deceleration = margin.deceleration.acceleration.inMetresPerSecondSquared(),
                 allowance = margin.allowance.length.inMetres();
    requireUsable(error, phrase("core", "The position error of the margin is negative or no number."));
    requireUsable(speed, phrase("core", "The speed of the margin is negative or no number."));
    requireUsable(reaction, phrase("core", "The reaction time of the margin is negative or no number."));
    requireUsable(deceleration, phrase("core", "The deceleration of the margin is negative or no number."));
    requireUsable(allowance, phrase("core", "The allowance of the margin is negative or no number."));
    if (speed > 0.0 && deceleration == 0.0)
        throw Fault{phrase("core", "An aircraft with a speed and no deceleration never stops."), "",
                    phrase("core", "Give the deceleration with which it brakes.")};
    const double reacting = productAtLeast(speed, reaction);
    const double braking = speed == 0.0 ? 0.0 : quotientAtLeast(productAtLeast(speed, speed), 2.0 * deceleration);
    const double total = sumAtLeast(sumAtLeast(error, reacting), sumAtLeast(braking, allowance));
    requireUsable(total, phrase("core", "The margin is beyond all numbers."));
    return {Length::metres(error), Length::metres(reacting), Length::metres(braking), Length::metres(allowance),
            Length::metres(total)};
}

} // namespace fencewright::model
