#include "desktop/tools/side_widths.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/leg.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <cmath>
#include <limits>
#include <string>

namespace fencewright::desktop {
namespace {

constexpr const char* kBlanks = " \t,;";

std::vector<std::string_view> wordsOf(std::string_view text) {
    std::vector<std::string_view> words;
    for (std::size_t at = text.find_first_not_of(" \t"); at != std::string_view::npos;
         at = text.find_first_not_of(" \t", at)) {
        const std::size_t end = std::min(text.find_first_of(" \t", at), text.size());
        words.push_back(text.substr(at, end - at));
        at = end;
    }
    return words;
}

/// A word without a comma at its end, which parts the sides.
std::string_view withoutComma(std::string_view word) {
    while (!word.empty() && std::string_view{kBlanks}.find(word.back()) != std::string_view::npos)
        word.remove_suffix(1);
    return word;
}

/// @throws Fault  not a length, or a negative one.
StatedLength widthFrom(std::string_view words, units::System unitless) {
    const auto first = words.find_first_not_of(kBlanks);
    words = first == std::string_view::npos ? std::string_view{} : words.substr(first);
    StatedLength width = units::parseLength(withoutComma(words), unitless);
    if (width.length < Length{})
        throw Fault{phrase("core", "A corridor cannot reach %1 to a side.")(width.asWritten), "",
                    phrase("core", "Type zero or more, such as \"10 m left 25 m right\".")};
    return width;
}

std::optional<StatedLength> tryWidth(std::string_view words, units::System unitless) {
    try {
        return widthFrom(words, unitless);
    } catch (const Fault&) {
        return std::nullopt;
    }
}

} // namespace

SideWidths parseSideWidths(std::string_view text, units::System unitless) {
    SideWidths widths;
    const auto words = wordsOf(text);
    const auto stretch = [](const std::vector<std::string_view>& some, std::size_t from, std::size_t to) {
        return from < to ? std::string_view{some[from].data(),
                                            std::size_t(some[to - 1].data() + some[to - 1].size() - some[from].data())}
                         : std::string_view{};
    };
    std::size_t from = 0;
    bool sided = false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const auto side = sideWord(withoutComma(words[i]));
        if (!side || i == from) // a length comes before its side
            continue;
        auto& width = *side > 0.0 ? widths.right : widths.left;
        if (width)
            throw Fault{phrase("core", "One side is given twice."), "",
                        phrase("core", "Type each side once, such as \"10 m left 25 m right\".")};
        width = widthFrom(stretch(words, from, i), unitless);
        from = i + 1;
        sided = true;
    }
    if (sided) {
        if (from < words.size())
            throw Fault{phrase("core", "\"%1\" has no side.")(std::string{stretch(words, from, words.size())}), "",
                        phrase("core", "Type each side once, such as \"10 m left 25 m right\".")};
        return widths;
    }
    // Where no side is named: one length for both, or the left one and then the right one.
    if (!tryWidth(text, unitless))
        for (std::size_t i = 1; i < words.size(); ++i) {
            const auto left = tryWidth(stretch(words, 0, i), unitless);
            const auto right = left ? tryWidth(stretch(words, i, words.size()), unitless) : std::nullopt;
            if (right)
                return {left, right};
        }
    const StatedLength both = widthFrom(text, unitless);
    return {both, both};
}

BesideLine besideLine(const model::LineString& line, const model::Position& place) {
    const NearPlane plane{place};
    double nearest = std::numeric_limits<double>::infinity(), off = 0.0;
    BesideLine beside;
    model::Position at = place;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const QPointF a = plane.toPlane(line[i - 1]), b = plane.toPlane(line[i]), foot = nearestOnSegment({}, a, b);
        const double distance = distanceBetween(foot, {}), length = distanceBetween(a, b);
        if (length == 0.0)
            continue;
        // How far the place lies off the leg drawn on, positive on its right. Of two legs that share the nearest place,
        // the one from which that is farther tells the outer side of their bend.
        const double right = ((b.y() - a.y()) * -a.x() - (b.x() - a.x()) * -a.y()) / length;
        constexpr double sameMetres = 1e-6;
        const bool shared = std::abs(distance - nearest) <= sameMetres;
        if (distance < nearest - sameMetres || (shared && std::abs(right) > std::abs(off))) {
            at = plane.toEarth(foot);
            off = right;
        }
        nearest = std::min(nearest, distance);
    }
    beside.distance = geodesy::inverse(at, place).length;
    beside.onRight = off > 0.0;
    return beside;
}

} // namespace fencewright::desktop
