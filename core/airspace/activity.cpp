#include "airspace/activity.h"

#include <chrono>

namespace fencewright::airspace {
namespace {

/// Whether a height lies on the wanted side of a limit: unknown where the ground would be needed and is not known.
enum class Answer { Yes, No, Unknown };

Answer both(Answer a, Answer b) {
    if (a == Answer::No || b == Answer::No)
        return Answer::No;
    return a == Answer::Unknown || b == Answer::Unknown ? Answer::Unknown : Answer::Yes;
}

Answer isAtLeast(const model::HeightLimit& height, const model::HeightLimit& floor, model::Position place,
                 const geodesy::GroundHeight& ground) {
    // The same reference needs neither geoid nor ground, so that bands above ground work without an elevation model.
    if (height.reference == floor.reference)
        return height.value.length >= floor.value.length ? Answer::Yes : Answer::No;
    const auto upper = geodesy::aboveEllipsoid(height, place, ground);
    const auto lower = geodesy::aboveEllipsoid(floor, place, ground);
    if (!upper || !lower)
        return Answer::Unknown;
    return *upper >= *lower ? Answer::Yes : Answer::No;
}

} // namespace

bool inSeason(const model::Season& season, model::Date date) {
    const model::YearDay day = date.month() / date.day();
    if (season.from <= season.to)
        return season.from <= day && day <= season.to;
    return season.from <= day || day <= season.to;
}

bool inPeriod(const model::ActivePeriod& period, model::Date date) {
    if (period.from && date < *period.from)
        return false;
    if (period.until && date > *period.until)
        return false;
    return !period.season || inSeason(*period.season, date);
}

bool meetsHeight(const model::Fence& fence, const std::optional<model::HeightLimit>& height, model::Position place,
                 const geodesy::GroundHeight& ground) {
    if (!height)
        return true;
    Answer answer = Answer::Yes;
    if (fence.band.floor)
        answer = isAtLeast(*height, *fence.band.floor, place, ground);
    if (fence.band.ceiling)
        answer = both(answer, isAtLeast(*fence.band.ceiling, *height, place, ground));
    return answer == Answer::Unknown ? fence.kind == model::FenceKind::KeepOut : answer == Answer::Yes;
}

bool isActive(const model::Fence& fence, const Moment& moment, model::Position place,
              const geodesy::GroundHeight& ground) {
    return fence.enabled && inPeriod(fence.period, moment.date) && meetsHeight(fence, moment.height, place, ground);
}

std::optional<model::Date> nextChange(const model::ActivePeriod& period, model::Date date) {
    if (!period.from && !period.until && !period.season)
        return std::nullopt;
    const auto today = std::chrono::sys_days{date};
    const bool holds = inPeriod(period, date);
    // The days of two years are few enough to be asked one by one.
    for (auto day = today + std::chrono::days{1}; day <= today + std::chrono::days{731}; day += std::chrono::days{1})
        if (inPeriod(period, model::Date{day}) != holds)
            return model::Date{day};
    return std::nullopt;
}

} // namespace fencewright::airspace
