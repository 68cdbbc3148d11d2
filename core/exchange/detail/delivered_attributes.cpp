#include "exchange/detail/delivered_attributes.h"

#include "fault.h"
#include "model/words.h"
#include "units/measure_notation.h"
#include "units/number_notation.h"

#include <array>
#include <cctype>

namespace fencewright::exchange::detail {

namespace {

std::optional<model::HeightLimit> heightLimit(const std::string& value, const std::string& unit,
                                              const std::string& reference) {
    const auto known =
        reference.empty() ? model::HeightReference::Ground : model::choiceOf<model::HeightReference>(reference);
    if (!known)
        return std::nullopt;
    try {
        return model::HeightLimit{units::parseLength(value + " " + (unit.empty() ? "m" : unit), units::System::Metric),
                                  *known};
    } catch (const Fault&) {
        return std::nullopt;
    }
}

std::optional<model::Season> season(std::string_view text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos)
        return std::nullopt;
    const auto from = model::parseIsoYearDay(text.substr(0, slash));
    const auto to = model::parseIsoYearDay(text.substr(slash + 1));
    return from && to ? std::optional{model::Season{*from, *to}} : std::nullopt;
}

bool says(const std::string& text) {
    return text == "true" || text == "yes" || text == "1" || text == "True" || text == "TRUE" || text == "Yes";
}

std::optional<StatedLength> metres(const std::string& text) {
    const auto number = units::parseNumber(text);
    return number && *number >= 0.0
               ? std::optional{StatedLength{Length::metres(*number), units::shortest(*number) + " m"}}
               : std::nullopt;
}

void warn(std::vector<ReadNote>& notes, const Wording& place, Wording words) {
    ReadNote note{ReadNote::Kind::Warning, place, std::move(words)};
    // The parts of one feature share their attributes, and the note about them.
    if (notes.empty() || notes.back() != note)
        notes.push_back(std::move(note));
}

} // namespace

ColumnsByName::ColumnsByName(const std::vector<std::string>& fields) {
    for (std::size_t i = 0; i < fields.size(); ++i)
        m_numbers.try_emplace(fields[i], i);
}

std::optional<std::size_t> ColumnsByName::find(std::string_view name) const {
    const auto at = m_numbers.find(name);
    return at == m_numbers.end() ? std::nullopt : std::optional{at->second};
}

std::string DeliveredAttributes::text(std::string_view column) const {
    const auto number = m_columns.find(column);
    return number ? m_values[*number] : std::string{};
}

std::string DeliveredAttributes::identity() const {
    const std::string value = text("fencewright_id");
    const bool sound =
        value.size() == 32 && std::all_of(value.begin(), value.end(), [](char c) {
            return std::isxdigit(static_cast<unsigned char>(c)) && !std::isupper(static_cast<unsigned char>(c));
        });
    return sound ? value : std::string{};
}

std::string DeliveredAttributes::role() const {
    const std::string value = text("role");
    return value == "fence" || value == "site" || value == "home" ? value : std::string{};
}

void DeliveredAttributes::applyTo(model::Fence& fence, const Wording& place, std::vector<ReadNote>& notes) const {
    if (const auto kind = model::choiceOf<model::FenceKind>(text("kind")))
        fence.kind = *kind;

    std::string unread;
    const auto take = [&](const char* column, auto& target, const auto& value) {
        if (text(column).empty())
            return;
        if (value)
            target = value;
        else
            unread += (unread.empty() ? "" : ", ") + std::string{column} + " \"" + text(column).substr(0, 40) + "\"";
    };
    take("floor", fence.band.floor, heightLimit(text("floor"), text("floor_unit"), text("floor_reference")));
    take("ceiling", fence.band.ceiling, heightLimit(text("ceiling"), text("ceiling_unit"), text("ceiling_reference")));
    take("season", fence.period.season, season(text("season")));
    take("valid_from", fence.period.from, model::parseIsoDate(text("valid_from")));
    take("valid_until", fence.period.until, model::parseIsoDate(text("valid_until")));
    if (!unread.empty()) {
        const bool keepIn = fence.kind == model::FenceKind::KeepIn;
        fence.enabled = !keepIn;
        warn(notes, place,
             phrase("core", "%1 cannot be read: %2")(
                 unread, keepIn ? phrase("core", "the keep-in is switched off until you have set it.")
                                : phrase("core", "the keep-out applies without this limit.")));
    }

    fence.basis.kind = model::choiceOf<model::BasisKind>(text("basis_kind")).value_or(model::BasisKind::None);
    fence.basis.citation = text("basis_citation");
    fence.notes = text("notes");
}

void DeliveredAttributes::applyTo(model::Site& site, const Wording& place, std::vector<ReadNote>& notes) const {
    site.category = text("category");
    site.positionSource = text("position_source");
    site.confidential = says(text("confidential"));
    site.notes = text("notes");
    const std::string error = text("position_error_m");
    if (error.empty())
        return;
    if (const auto length = metres(error))
        site.positionError = *length;
    else
        warn(notes, place,
             phrase("core", "its position error \"%1\" is no number of metres: taken as none.")(error.substr(0, 40)));
}

void DeliveredAttributes::applyTo(model::Home& home, const Wording& place, std::vector<ReadNote>& notes) const {
    home.kind = model::choiceOf<model::HomeKind>(text("home_kind")).value_or(model::HomeKind::Home);
    home.notes = text("notes");
    const std::string radius = text("landing_radius_m");
    if (radius.empty())
        return;
    if (const auto length = metres(radius))
        home.landingRadius = *length;
    else
        warn(notes, place,
             phrase("core", "its landing radius \"%1\" is no number of metres: 10 m are kept.")(radius.substr(0, 40)));
}

} // namespace fencewright::exchange::detail
