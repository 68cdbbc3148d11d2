#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "fault.h"
#include "geodesy/vertical_reference.h"
#include "units/measure_notation.h"

#include <optional>
#include <string>
#include <utility>

namespace fencewright::audit {
namespace {

Wording wordsOf(const model::HeightLimit& limit) {
    std::string words = limit.value.asWritten.empty() ? units::formatLength(limit.value.length, units::System::Metric)
                                                      : limit.value.asWritten;
    switch (limit.reference) {
    case model::HeightReference::Ground:
        return phrase("core", "%1 above ground")(words);
    case model::HeightReference::MeanSeaLevel:
        return phrase("core", "%1 above mean sea level")(words);
    case model::HeightReference::Ellipsoid:
        return phrase("core", "%1 above the ellipsoid")(words);
    }
    return words;
}

/// Ceiling less floor; nothing where they cannot be compared.
std::optional<Length> thicknessAt(const model::HeightBand& band, model::Position place,
                                  const geodesy::GroundHeight& ground) {
    if (band.floor->reference == band.ceiling->reference)
        return band.ceiling->value.length - band.floor->value.length;
    try {
        const auto floor = geodesy::aboveEllipsoid(*band.floor, place, ground);
        const auto ceiling = geodesy::aboveEllipsoid(*band.ceiling, place, ground);
        return floor && ceiling ? std::optional{*ceiling - *floor} : std::nullopt;
    } catch (const Fault&) {
        return std::nullopt; // the geoid is not installed: another part of the program says so
    }
}

} // namespace

constinit extern const Rule bandUpsideDown{
    .id = "band.ceiling-not-above-floor",
    .title = phrase("core", "Ceiling not above floor"),
    .why = phrase("core", "A fence whose ceiling is not above its floor applies at no height."),
    .remedy = phrase("core", "Correct the floor or the ceiling."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences) {
            if (!fence.enabled || !fence.band.floor || !fence.band.ceiling)
                continue;
            const auto place = detail::drawnPlace(fence, subject.set).value_or(model::Position{});
            const auto thickness = thicknessAt(fence.band, place, subject.ground);
            if (!thickness || *thickness > Length{})
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.place = detail::placeOf(subject, fence.id);
            finding.words = phrase("core", "The ceiling of %1, %2, is not above its floor, %3.")(
                detail::nameOf(fence), wordsOf(*fence.band.ceiling), wordsOf(*fence.band.floor));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
