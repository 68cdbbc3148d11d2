#include "command/margin_option.h"

#include "command/arguments.h"
#include "units/motion_notation.h"
#include "units/number_notation.h"

#include <algorithm>
#include <array>
#include <map>
#include <string_view>

namespace fencewright::command {
namespace {

constexpr std::string_view kExample =
    "Write it as \"error 3 m; speed 15 m/s; reaction 1 s; deceleration 4 m/s2; basis Manual, edition 3\".";
constexpr std::array<std::string_view, 6> kParts{"error", "speed", "reaction", "deceleration", "allowance", "basis"};

std::map<std::string, std::string> partsOf(std::string_view text) {
    std::map<std::string, std::string> parts;
    while (!text.empty()) {
        const auto end = std::min(text.find(';'), text.size());
        const std::string_view part = units::trimmed(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
        const auto gap = std::min(part.find(' '), part.size());
        const std::string name{part.substr(0, gap)};
        if (std::find(kParts.begin(), kParts.end(), name) == kParts.end())
            throw UsageFault{"--margin: \"" + name + "\" is no part of a margin.", "", std::string{kExample}};
        if (!parts.emplace(name, units::trimmed(part.substr(gap))).second)
            throw UsageFault{"--margin: " + name + " is given twice.", "", std::string{kExample}};
    }
    return parts;
}

} // namespace

model::Margin parseMargin(const std::string& text) {
    const auto parts = partsOf(text);
    const auto part = [&](const char* name) {
        const auto found = parts.find(name);
        if (found == parts.end() || found->second.empty())
            throw UsageFault{std::string{"--margin: "} + name + " is missing.", "", std::string{kExample}};
        return found->second;
    };
    constexpr auto metric = units::System::Metric;
    try {
        model::Margin margin;
        margin.positionError = units::parseLength(part("error"), metric);
        margin.speed = units::parseSpeed(part("speed"), metric);
        margin.reaction = units::parseSeconds(part("reaction"));
        margin.deceleration = units::parseAcceleration(part("deceleration"), metric);
        if (parts.contains("allowance"))
            margin.allowance = units::parseLength(part("allowance"), metric);
        margin.basis = part("basis");
        (void)model::distances(margin);
        return margin;
    } catch (const UsageFault&) {
        throw;
    } catch (const Fault& fault) {
        throw UsageFault{"--margin: " + fault.problem(), "", fault.remedy()};
    }
}

} // namespace fencewright::command
