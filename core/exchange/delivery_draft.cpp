#include "exchange/delivery_draft.h"

#include "airspace/outline.h"
#include "exchange/clean_text.h"
#include "exchange/drawn_height.h"
#include "exchange/written_surface.h"
#include "model/date.h"
#include "model/words.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace fencewright::exchange {

namespace {

using model::Fence;
using model::FenceKind;
using model::HeightLimit;
using model::HeightReference;

constexpr const char* kNotice =
    "Check against local rules and current notices before each flight. This is not a licence to fly.";

/// "Nest", "School" and 3 more.
Wording listed(const std::vector<std::string>& names) {
    constexpr std::size_t kShown = 8;
    std::string text;
    for (std::size_t i = 0; i < std::min(names.size(), kShown); ++i)
        text += (i ? ", \"" : "\"") + names[i] + "\"";
    if (names.size() > kShown)
        return phrase("core", "%1 and %2 more")(text, names.size() - kShown);
    return text;
}

class Drafting {
public:
    Drafting(const model::FenceSet& set, const DeliveryOptions& options, bool drawsHeights,
             const geodesy::GroundHeight& ground, const Progress& progress)
        : m_set{set}, m_options{options}, m_drawsHeights{drawsHeights}, m_ground{ground}, m_progress{progress} {
        for (const model::Site& site : set.sites)
            if (site.confidential)
                m_secretNames.push_back(cleanText(site.name));
    }

    DeliveryDraft run() {
        m_draft.content.notice = kNotice;
        m_draft.content.decimals = m_options.decimals;
        m_draft.content.title = cleanText(m_set.title);
        if (isSecret(m_set.title)) {
            m_draft.content.title.clear();
            caution(phrase("core", "The title of the set names a confidential site and is left out."));
        }
        for (std::size_t i = 0; i < m_set.fences.size(); ++i) {
            const double done = static_cast<double>(i) / static_cast<double>(m_set.fences.size());
            m_progress.report(0.6 * done, phrase("core", "Preparing fences"));
            addFence(m_set.fences[i]);
        }
        if (m_draft.approved.empty())
            throw Fault{phrase("core", "There is no fence to deliver."), "",
                        phrase("core", "Draw a fence, or enable one.")};
        requireKeepIn();
        if (m_options.withSites)
            for (const model::Site& site : m_set.sites)
                addSite(site);
        if (m_options.withHomes)
            for (const model::Home& home : m_set.homes)
                addHome(home);
        addCautions();
        return std::move(m_draft);
    }

private:
    void caution(Wording words) { m_draft.cautions.push_back(std::move(words)); }

    bool isSecret(std::string_view text) const {
        return std::any_of(m_secretNames.begin(), m_secretNames.end(),
                           [&](const std::string& name) { return mentions(text, name); });
    }

    bool isSecret(const Fence& fence) const {
        if (const auto* setback = std::get_if<model::Setback>(&fence.shape))
            if (const model::Site* site = m_set.sites.find(setback->site); site && site->confidential)
                return true;
        return isSecret(fence.name) || isSecret(fence.notes) || isSecret(fence.basis.citation);
    }

    void addFence(const Fence& fence) {
        const bool secret = isSecret(fence);
        const std::string name =
            secret ? "Protected area " + std::to_string(m_secretFences + 1) : cleanText(fence.name);
        if (!fence.enabled) {
            m_disabled.push_back(secret ? "a protected area" : name);
            return;
        }
        if (secret)
            ++m_secretFences;
        requireFinite(fence.band.floor, name);
        requireFinite(fence.band.ceiling, name);
        const model::MultiPolygon approved = outlineOf(fence, name);
        if (approved.empty()) {
            if (fence.kind == FenceKind::KeepOut)
                throw Fault{phrase("core", "This keep-out has no surface: nothing would keep the flight out of it."),
                            name, phrase("core", "Mend the fence, or disable it.")};
            m_withoutSurface.push_back(name);
            return;
        }
        const auto written = writtenOf(approved, fence.kind, name);

        DeliveredFeature feature;
        feature.id = cleanText(fence.id.value);
        feature.name = name;
        feature.kind = fence.kind;
        feature.geometry = written.surface;
        addProperties(feature, fence, secret);
        if (m_drawsHeights) {
            const DrawnBand drawn = drawnBand(fence, written.surface, m_ground);
            feature.drawnHeight = drawn.height;
            if (!drawn.problem.empty())
                caution(phrase("core", "The ceiling of \"%1\" is not drawn, only written: %2")(name, drawn.problem));
        }
        m_draft.content.features.push_back(std::move(feature));
        m_draft.approved.push_back(
            {cleanText(fence.id.value), name, fence.kind, approved, fence.band.floor, fence.band.ceiling});
        note(fence, name, written);
    }

    static void requireFinite(const std::optional<HeightLimit>& limit, const std::string& name) {
        if (limit && !std::isfinite(limit->value.length.inMetres()))
            throw Fault{phrase("core", "A height limit is not a number."), name,
                        phrase("core", "Give its floor and ceiling anew.")};
    }

    model::MultiPolygon outlineOf(const Fence& fence, const std::string& name) const {
        try {
            return airspace::outline(fence, m_set.sites);
        } catch (const Cancelled&) {
            throw;
        } catch (const Fault& fault) {
            throw Fault{fault.words().problem, name,
                        fault.words().remedy}; // its own place may name a confidential site
        }
    }

    WrittenSurface writtenOf(const model::MultiPolygon& approved, FenceKind kind, const std::string& name) const {
        try {
            return writtenSurface(approved, airspace::safeSide(kind), m_options.decimals, m_options.cornerBudget);
        } catch (const Fault& fault) {
            throw Fault{fault.words().problem, name, fault.words().remedy};
        }
    }

    static void addLimit(DeliveredFeature& feature, const std::string& name, const std::optional<HeightLimit>& limit) {
        if (!limit)
            return;
        feature.properties.push_back({name, limit->value.length.inMetres()});
        feature.properties.push_back({name + "_unit", "m"});
        feature.properties.push_back({name + "_reference", std::string{model::word(limit->reference)}});
    }

    static void addText(DeliveredFeature& feature, const std::string& name, std::string_view text) {
        if (std::string clean = cleanText(text); !clean.empty())
            feature.properties.push_back({name, std::move(clean)});
    }

    static void addProperties(DeliveredFeature& feature, const Fence& fence, bool secret) {
        feature.properties = {{"fencewright_id", feature.id},
                              {"role", "fence"},
                              {"name", feature.name},
                              {"kind", std::string{model::word(fence.kind)}}};
        addLimit(feature, "floor", fence.band.floor);
        addLimit(feature, "ceiling", fence.band.ceiling);
        if (const auto& season = fence.period.season)
            feature.properties.push_back(
                {"season", model::isoYearDay(season->from) + "/" + model::isoYearDay(season->to)});
        if (fence.period.from)
            feature.properties.push_back({"valid_from", model::isoDate(*fence.period.from)});
        if (fence.period.until)
            feature.properties.push_back({"valid_until", model::isoDate(*fence.period.until)});
        if (fence.basis.kind != model::BasisKind::None)
            addText(feature, "basis_kind", std::string{model::word(fence.basis.kind)});
        if (secret)
            return;
        addText(feature, "basis_citation", fence.basis.citation);
        addText(feature, "notes", fence.notes);
    }

    void note(const Fence& fence, const std::string& name, const WrittenSurface& written) {
        Area& cost = fence.kind == FenceKind::KeepOut ? m_draft.keepOutAdded : m_draft.keepInLost;
        cost = cost + written.cost;
        if (fence.period.season || fence.period.from || fence.period.until)
            (fence.kind == FenceKind::KeepIn ? m_datedKeepIns : m_datedKeepOuts).push_back(name);
        if (fence.band.floor || (fence.band.ceiling && !m_drawsHeights))
            m_heightsAsData.push_back(name);
        if (fence.band.ceiling && fence.band.ceiling->reference == HeightReference::Ground)
            m_ceilingsAboveGround.push_back(name);
        if (fence.kind == FenceKind::KeepOut && !fence.band.ceiling)
            m_withoutCeiling.push_back(name);
        if (written.cornersAdded > 0)
            m_lengthened.push_back(name);
        if (written.longEdgesLeft)
            m_longEdges.push_back(name);
        if (written.overBudget)
            m_overBudget.push_back(name);
        m_cornersAdded += written.cornersAdded;
    }

    /// A reader takes a file without any keep-in for one that bounds nothing.
    void requireKeepIn() {
        const bool delivered = std::any_of(m_draft.approved.begin(), m_draft.approved.end(),
                                           [](const auto& fence) { return fence.kind == FenceKind::KeepIn; });
        if (!delivered && !m_withoutSurface.empty())
            throw Fault{phrase("core", "No keep-in with a surface is left to bound the flight."),
                        m_withoutSurface.front(), phrase("core", "Mend the keep-in, or disable it.")};
        if (!delivered)
            caution(phrase("core", "The set has no keep-in: what is delivered does not bound the flight."));
    }

    void addSite(const model::Site& site) {
        if (site.confidential) {
            ++m_secretSites;
            return;
        }
        const bool secret =
            isSecret(site.name) || isSecret(site.notes) || isSecret(site.category) || isSecret(site.positionSource);
        DeliveredFeature feature;
        feature.role = DeliveredFeature::Role::Site;
        feature.id = cleanText(site.id.value);
        feature.name = secret ? "Site" : cleanText(site.name);
        feature.properties = {{"fencewright_id", feature.id}, {"role", "site"}, {"name", feature.name}};
        if (!secret) {
            addText(feature, "category", site.category);
            addText(feature, "position_source", site.positionSource);
            addText(feature, "notes", site.notes);
        }
        if (const double error = site.positionError.length.inMetres(); std::isfinite(error) && error > 0)
            feature.properties.push_back({"position_error_m", error});
        const Wording problem = setGeometry(feature, site.geometry);
        if (problem.empty())
            m_draft.content.features.push_back(std::move(feature));
        else
            caution(phrase("core", "The site \"%1\" is left out: %2")(feature.name, problem));
    }

    static bool isOnEarth(const model::SiteGeometry& geometry) {
        std::span<const model::Position> places;
        if (const auto* place = std::get_if<model::Position>(&geometry))
            places = {place, 1};
        else if (const auto* line = std::get_if<model::LineString>(&geometry))
            places = *line;
        else
            places = std::get<model::Polygon>(geometry).shell.corners;
        return std::all_of(places.begin(), places.end(), [](model::Position place) {
            return std::isfinite(place.lon) && std::abs(place.lat) <= 90; // false where it is not a number
        });
    }

    /// What is wrong; empty: nothing.
    Wording setGeometry(DeliveredFeature& feature, const model::SiteGeometry& geometry) const {
        if (!isOnEarth(geometry))
            return phrase("core", "Its place is not on the earth.");
        try {
            if (const auto* place = std::get_if<model::Position>(&geometry))
                feature.geometry = writtenPlace(*place);
            else if (const auto* line = std::get_if<model::LineString>(&geometry))
                feature.geometry = writtenLines(*line, m_options.decimals);
            else
                feature.geometry =
                    writtenSurface({{std::get<model::Polygon>(geometry)}}, geometry::Side::Grow, m_options.decimals, 0)
                        .surface;
        } catch (const Cancelled&) {
            throw;
        } catch (const Fault& fault) {
            return fault.words().problem;
        }
        const auto* lines = std::get_if<Lines>(&feature.geometry);
        const auto* surface = std::get_if<model::MultiPolygon>(&feature.geometry);
        const bool empty = (lines && lines->empty()) || (surface && surface->empty());
        return empty ? Wording{phrase("core", "It has no extent.")} : Wording{};
    }

    void addHome(const model::Home& home) {
        const bool secret = isSecret(home.name) || isSecret(home.notes);
        DeliveredFeature feature;
        feature.role = DeliveredFeature::Role::Home;
        feature.id = cleanText(home.id.value);
        feature.name = secret ? "Home" : cleanText(home.name);
        feature.properties = {{"fencewright_id", feature.id},
                              {"role", "home"},
                              {"name", feature.name},
                              {"home_kind", std::string{model::word(home.kind)}}};
        if (const double radius = home.landingRadius.length.inMetres(); std::isfinite(radius))
            feature.properties.push_back({"landing_radius_m", radius});
        if (!secret)
            addText(feature, "notes", home.notes);
        if (const Wording problem = setGeometry(feature, home.place); !problem.empty()) {
            caution(phrase("core", "The home \"%1\" is left out: %2")(feature.name, problem));
            return;
        }
        m_draft.content.features.push_back(std::move(feature));
    }

    void cautionAbout(const std::vector<std::string>& names, const Phrase& words) {
        if (!names.empty())
            caution(phrase("core", "%1: %2.")(words, listed(names)));
    }

    void addCautions() {
        cautionAbout(m_disabled, phrase("core", "Left out because disabled"));
        cautionAbout(m_withoutSurface, phrase("core", "Left out because without a surface"));
        cautionAbout(m_datedKeepIns,
                     phrase("core", "Keep-ins with dates or a season. A system that does not know dates would let the "
                                    "flight in at any time: take them out when they do not apply"));
        cautionAbout(m_datedKeepOuts, phrase("core", "Keep-outs with dates or a season. A system that does not know "
                                                     "dates keeps the flight out at any time"));
        if (m_drawsHeights) {
            cautionAbout(m_ceilingsAboveGround, phrase("core", "Ceilings above ground are drawn at the corners; "
                                                               "between them the drawing does not follow the ground"));
            cautionAbout(m_withoutCeiling,
                         phrase("core", "Keep-outs without a ceiling, drawn on the ground; they reach up without end"));
        }
        cautionAbout(
            m_heightsAsData,
            m_drawsHeights
                ? phrase("core", "Floors are written as data and not drawn. A system that does not read them must be "
                                 "told the heights")
                : phrase(
                      "core",
                      "Heights are written as properties. A system that does not read them must be told the heights"));
        if (m_cornersAdded > 0)
            caution(phrase("core", "Long edges got %1 more corners, so that a system that draws geodesics parts from "
                                   "them by at most 0.1 m: %2.")(m_cornersAdded, listed(m_lengthened)));
        cautionAbout(m_longEdges, phrase("core", "Long edges on which a system that draws geodesics may part by more "
                                                 "than 0.1 m; there was no room for more corners"));
        cautionAbout(m_overBudget, phrase("core", "More corners than the budget allows"));
        if (m_secretSites > 0)
            caution(phrase("core", "Confidential sites left out: %1.")(m_secretSites));
        if (m_secretFences > 0)
            caution(phrase(
                "core",
                "Fences of confidential sites go under neutral names, without citation and notes: %1. The middle of "
                "such a fence still gives the place away: hand the file only to those who may know.")(m_secretFences));
    }

    const model::FenceSet& m_set;
    const DeliveryOptions& m_options;
    bool m_drawsHeights;
    const geodesy::GroundHeight& m_ground;
    const Progress& m_progress;
    DeliveryDraft m_draft;
    std::vector<std::string> m_secretNames;
    std::size_t m_secretFences = 0;
    std::size_t m_secretSites = 0;
    std::size_t m_cornersAdded = 0;
    std::vector<std::string> m_disabled, m_withoutSurface, m_datedKeepIns, m_datedKeepOuts, m_heightsAsData;
    std::vector<std::string> m_ceilingsAboveGround, m_withoutCeiling, m_lengthened, m_longEdges, m_overBudget;
};

} // namespace

DeliveryDraft draftOf(const model::FenceSet& set, const DeliveryOptions& options, bool drawsHeights,
                      const geodesy::GroundHeight& ground, const Progress& progress) {
    return Drafting{set, options, drawsHeights, ground, progress}.run();
}

} // namespace fencewright::exchange
