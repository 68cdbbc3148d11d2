#include "alder_reach/document.h"

#include "alder_reach/earth.h"
#include "units/measure_notation.h"

#include <chrono>

namespace alder_reach {

using namespace fencewright;
using namespace std::chrono_literals;

namespace {

StatedLength stated(const char* text) { return units::parseLength(text, units::System::Metric); }

// A document made twice is the same twice: its identities come from names, not from chance.
std::string identity(const std::string& name) {
    // FNV-1a, 64 bits (Fowler, Noll, Vo), once for each half.
    std::string digits;
    for (const std::uint64_t start : {0xcbf29ce484222325U, 0x84222325cbf29ce4U}) {
        std::uint64_t hash = start;
        for (const char letter : name)
            hash = (hash ^ static_cast<unsigned char>(letter)) * 0x100000001b3U;
        for (int shift = 60; shift >= 0; shift -= 4)
            digits += "0123456789abcdef"[hash >> shift & 15];
    }
    return digits;
}

model::HeightBand upTo(const char* ceiling) {
    return {std::nullopt, model::HeightLimit{stated(ceiling), model::HeightReference::Ground}};
}

class Document {
public:
    explicit Document(const Scene& scene) : m_scene{scene} {}

    model::FenceSet make() {
        m_set.title = "Alder Reach";
        m_set.notes = "Inspection flights over a pumped-storage reservoir. An invented place: nothing in it is real.";
        addSites();
        addFences();
        addHomes();
        addSources();
        stateMargin();
        return std::move(m_set);
    }

private:
    model::SiteId addSite(const char* name, const char* category, model::SiteGeometry geometry, const char* error,
                          const char* source, bool confidential, const char* notes = "") {
        model::Site site;
        site.id.value = identity(std::string{"site "} + name);
        site.name = name;
        site.category = category;
        site.geometry = std::move(geometry);
        site.positionError = stated(error);
        site.positionSource = source;
        site.confidential = confidential;
        site.notes = notes;
        m_set.sites.append(site);
        return site.id;
    }

    void addSites() {
        m_nest = addSite("Osprey nest", "osprey nest", m_earth.place(m_scene.nest), "5 m", "hand-held GNSS", true,
                         "Pine at the island's middle.");
        addSite("Chlorine store", "chlorine store", m_earth.place(m_scene.chlorineStore), "1 m", "site plan", false);
        m_switchyard =
            addSite("Switchyard", "switchyard", m_earth.polygon(m_scene.switchyard), "1 m", "site plan", false);
        addSite("Village school", "school", m_earth.place(m_scene.school), "2 m", "orthophoto", false);
        addSite("Ferry landing", "ferry landing",
                m_earth.place((m_scene.ferryLanding[0] + m_scene.ferryLanding[2]) * 0.5), "2 m", "orthophoto", false);
    }

    model::Fence fence(const char* name, model::FenceKind kind, model::Shape shape, model::HeightBand band) {
        model::Fence made;
        made.id.value = identity(std::string{"fence "} + name);
        made.name = name;
        made.kind = kind;
        made.shape = std::move(shape);
        made.band = std::move(band);
        return made;
    }

    [[nodiscard]] model::Parcel parcel(const std::string& number) const {
        const Parcel& found = m_scene.parcel(number);
        return {number, {{m_earth.polygon(found.ring, found.holes)}}};
    }

    void addFences() {
        using model::BasisKind;
        using model::FenceKind;
        model::ParcelUnion land;
        for (const Parcel& owned : m_scene.parcels)
            if (owned.ownerKind == "utility" || owned.ownerKind == "leased")
                land.parcels.push_back(parcel(owned.number));
        land.closing = stated("0.25 m");
        model::Fence utility = fence("Utility land", FenceKind::KeepIn, land, upTo("120 m"));
        utility.basis = {BasisKind::Lease, "Land register, parcels 1 to 3; lease of parcel 4, clause 7 (overflight)",
                         std::nullopt, model::Date{2025y / 11 / 3}, "Land office of the utility"};
        m_set.fences.append(utility);

        model::Fence nest = fence("Osprey nest", FenceKind::KeepOut, model::Setback{m_nest, stated("1/4 mi")}, {});
        nest.period.season = model::Season{std::chrono::April / 1, std::chrono::August / 31};
        nest.basis = {
            BasisKind::Guideline,
            "Recommended buffer zones for Colorado raptors, as in State of Colorado, Division of Reclamation, "
            "Mining and Safety, public file 948905, page 28, table 10: osprey",
            stated("1/4 mi"), std::nullopt, "Taken over as an example; no such rule applies here"};
        m_set.fences.append(nest);

        model::Fence switchyard =
            fence("Switchyard", FenceKind::KeepOut, model::Setback{m_switchyard, stated("30 m")}, upTo("150 m"));
        switchyard.basis = {BasisKind::Judgement, "Clearance to live parts and their field", stated("30 m"),
                            model::Date{2026y / 3 / 19}, "Electrical engineer of the utility"};
        m_set.fences.append(switchyard);

        model::Fence enclosed = fence("Parcel 17, no consent", FenceKind::KeepOut,
                                      model::ParcelUnion{{parcel("17")}, stated("0 m")}, upTo("120 m"));
        enclosed.basis = {BasisKind::Agreement, "Letter of refusal", std::nullopt, model::Date{2026y / 2 / 11},
                          "Owner of parcel 17"};
        m_set.fences.append(enclosed);

        Line road;
        for (std::size_t index = 0; index < m_scene.road.size(); index += 4)
            road.push_back(m_scene.road[index]);
        model::Fence corridor =
            fence("County road", FenceKind::KeepOut,
                  model::Corridor{m_earth.line(road), stated("25 m"), stated("25 m")}, upTo("60 m"));
        corridor.basis = {BasisKind::Permit, "Operating permit, condition 4: not over traffic", stated("25 m"),
                          model::Date{2026y / 4 / 2}, "Road authority of the county"};
        m_set.fences.append(corridor);

        // As it came from the ferry's operator: nobody has said yet what it rests on, and the audit will ask.
        model::Fence landing = fence("Ferry landing", FenceKind::KeepOut,
                                     model::DrawnPolygon{m_earth.polygon(m_scene.ferryLanding)}, upTo("60 m"));
        landing.period.season = model::Season{std::chrono::June / 1, std::chrono::September / 30};
        m_set.fences.append(landing);
    }

    void addHomes() {
        const auto add = [&](const char* name, model::HomeKind kind, Point place, const char* radius) {
            model::Home home;
            home.id.value = identity(std::string{"home "} + name);
            home.name = name;
            home.kind = kind;
            home.place = m_earth.place(place);
            home.landingRadius = stated(radius);
            m_set.homes.append(home);
        };
        add("Dam crest", model::HomeKind::Home, m_scene.home, "4 m");
        add("Boat yard", model::HomeKind::Alternate, m_scene.boatYard, "10 m");
    }

    void stateMargin() {
        model::Margin margin;
        margin.positionError = stated("2 m");
        margin.speed = {Speed::metresPerSecond(8), "8 m/s"};
        margin.reaction = std::chrono::duration<double>{0.5};
        margin.deceleration = {Acceleration::metresPerSecondSquared(4), "4 m/s²"};
        margin.allowance = stated("1 m");
        margin.basis = "Manual of the aircraft, edition 3, braking at most take-off mass; gusts by judgement";
        m_set.margin = std::move(margin);
    }

    void addSources() {
        const auto add = [&](model::SourceKind kind, const char* name, const char* path) {
            model::Source source;
            source.id.value = identity(std::string{"source "} + name);
            source.kind = kind;
            source.name = name;
            source.path = path;
            return source;
        };
        model::Source ortho = add(model::SourceKind::Imagery, "Orthophoto", "alder-reach-ortho.tif");
        ortho.captured = model::Date{2026y / 4 / 22};
        m_set.sources.append(ortho);
        model::Source parcels = add(model::SourceKind::Reference, "Parcels", "alder-reach-parcels.gpkg");
        parcels.layer = "parcels";
        parcels.labelField = "parcel";
        parcels.numberField = "parcel";
        m_set.sources.append(parcels);
        model::Source lines = add(model::SourceKind::Reference, "Roads", "alder-reach-lines.geojson");
        lines.labelField = "name";
        m_set.sources.append(lines);
    }

    const Scene& m_scene;
    Earth m_earth;
    model::FenceSet m_set;
    model::SiteId m_nest;
    model::SiteId m_switchyard;
};

} // namespace

model::FenceSet makeFenceSet(const Scene& scene) { return Document{scene}.make(); }

} // namespace alder_reach
