#include "exchange/import.h"

#include "exchange/detail/delivered_attributes.h"
#include "fault.h"

#include <set>

namespace fencewright::exchange {

namespace {

using detail::DeliveredAttributes;

/// What is common to all three: names, roles, identities.
class Naming {
public:
    Naming(const VectorContent& content, const std::string& nameField, const NameGiver& named)
        : m_content{content}, m_named{named}, m_columns{content.fields} {
        const auto& fields = content.fields;
        const auto find = [&](const std::string& name) -> std::optional<std::size_t> {
            const auto at = std::find(fields.begin(), fields.end(), name);
            return at == fields.end() ? std::nullopt : std::optional{static_cast<std::size_t>(at - fields.begin())};
        };
        if (!nameField.empty()) {
            m_nameColumn = find(nameField);
            if (!m_nameColumn)
                throw Fault{phrase("core", "There is no column \"%1\".")(nameField), content.path,
                            phrase("core", "Choose another column for the names, or none.")};
            return;
        }
        for (const char* name : {"name", "Name", "title"})
            if (!m_nameColumn)
                m_nameColumn = find(name);
    }

    [[nodiscard]] DeliveredAttributes of(const Feature& feature) const { return {m_columns, feature.attributes}; }

    [[nodiscard]] std::string nameOf(std::size_t index) const {
        const Feature& feature = m_content.features[index];
        const std::string name = m_nameColumn ? feature.attributes[*m_nameColumn] : std::string{};
        return name.empty() ? m_named(phrase("core", "Feature %1")(index + 1)) : name;
    }

    /// Of a part of the feature: "Nest (2 of 3)".
    [[nodiscard]] std::string nameOf(std::size_t index, std::size_t part, std::size_t parts) const {
        return parts < 2 ? nameOf(index) : m_named(phrase("core", "%1 (%2 of %3)")(nameOf(index), part, parts));
    }

    /// "feature 12, Nest".
    [[nodiscard]] Wording placeOf(std::size_t index) const {
        return phrase("core", "feature %1, %2")(index + 1, nameOf(index));
    }

    /// The identity that our own delivery gave it; a fresh one for what is not ours, or comes twice.
    template <class Kind> model::Id<Kind> idFor(const DeliveredAttributes& attributes) {
        const std::string value = attributes.identity();
        return value.empty() || !m_used.insert(value).second ? model::freshId<Kind>() : model::Id<Kind>{value};
    }

private:
    const VectorContent& m_content;
    const NameGiver& m_named;
    detail::ColumnsByName m_columns;
    std::optional<std::size_t> m_nameColumn;
    std::set<std::string> m_used;
};

ReadNote leftOut(Wording place, Wording words) { return {ReadNote::Kind::LeftOut, std::move(place), std::move(words)}; }

/// Whether a feature that our delivery wrote as something else is passed over.
bool isAnother(const DeliveredAttributes& attributes, const char* role, const Wording& place,
               std::vector<ReadNote>& notes) {
    const std::string own = attributes.role();
    if (own.empty() || own == role)
        return false;
    notes.push_back(leftOut(place, phrase("core", "it is a %1 by its own account.")(own)));
    return true;
}

} // namespace

FencesImport asFences(const VectorContent& content, model::FenceKind kind, const std::string& nameField,
                      const NameGiver& named) {
    FencesImport result;
    Naming naming{content, nameField, named};
    for (std::size_t i = 0; i < content.features.size(); ++i) {
        const Feature& feature = content.features[i];
        const Wording place = naming.placeOf(i);
        const DeliveredAttributes attributes = naming.of(feature);
        if (isAnother(attributes, "fence", place, result.notes))
            continue;
        const auto isSurface = [](const FeatureGeometry& part) { return std::holds_alternative<model::Polygon>(part); };
        const auto surfaces =
            static_cast<std::size_t>(std::count_if(feature.parts.begin(), feature.parts.end(), isSurface));
        if (surfaces < feature.parts.size()) {
            const std::size_t others = feature.parts.size() - surfaces;
            result.notes.push_back(leftOut(place, others == 1
                                                      ? Wording{phrase("core", "one part of it is no surface.")}
                                                      : phrase("core", "%1 parts of it are no surfaces.")(others)));
        }
        std::size_t number = 0;
        for (const FeatureGeometry& part : feature.parts) {
            const auto* polygon = std::get_if<model::Polygon>(&part);
            if (!polygon)
                continue;
            model::Fence fence;
            fence.id = naming.idFor<model::Fence>(attributes);
            fence.kind = kind;
            fence.shape = model::DrawnPolygon{*polygon};
            attributes.applyTo(fence, place, result.notes);
            fence.name = naming.nameOf(i, ++number, surfaces);
            result.fences.push_back(std::move(fence));
        }
    }
    return result;
}

SitesImport asSites(const VectorContent& content, const std::string& nameField, const NameGiver& named) {
    SitesImport result;
    Naming naming{content, nameField, named};
    for (std::size_t i = 0; i < content.features.size(); ++i) {
        const Feature& feature = content.features[i];
        const Wording place = naming.placeOf(i);
        const DeliveredAttributes attributes = naming.of(feature);
        if (isAnother(attributes, "site", place, result.notes))
            continue;
        std::size_t number = 0;
        for (const FeatureGeometry& part : feature.parts) {
            model::Site site;
            site.id = naming.idFor<model::Site>(attributes);
            site.name = naming.nameOf(i, ++number, feature.parts.size());
            site.geometry = part;
            attributes.applyTo(site, place, result.notes);
            result.sites.push_back(std::move(site));
        }
    }
    return result;
}

HomesImport asHomes(const VectorContent& content, const std::string& nameField, const NameGiver& named) {
    HomesImport result;
    Naming naming{content, nameField, named};
    for (std::size_t i = 0; i < content.features.size(); ++i) {
        const Feature& feature = content.features[i];
        const Wording place = naming.placeOf(i);
        const DeliveredAttributes attributes = naming.of(feature);
        if (isAnother(attributes, "home", place, result.notes))
            continue;
        const auto isPoint = [](const FeatureGeometry& part) { return std::holds_alternative<model::Position>(part); };
        const auto points =
            static_cast<std::size_t>(std::count_if(feature.parts.begin(), feature.parts.end(), isPoint));
        if (points < feature.parts.size()) {
            const std::size_t others = feature.parts.size() - points;
            result.notes.push_back(leftOut(place, others == 1
                                                      ? Wording{phrase("core", "one part of it is no point.")}
                                                      : phrase("core", "%1 parts of it are no points.")(others)));
        }
        std::size_t number = 0;
        for (const FeatureGeometry& part : feature.parts) {
            const auto* point = std::get_if<model::Position>(&part);
            if (!point)
                continue;
            model::Home home;
            home.id = naming.idFor<model::Home>(attributes);
            home.name = naming.nameOf(i, ++number, points);
            home.place = *point;
            attributes.applyTo(home, place, result.notes);
            result.homes.push_back(std::move(home));
        }
    }
    return result;
}

std::vector<model::Parcel> asParcels(const VectorContent& content, const std::string& numberField) {
    const auto at = std::find(content.fields.begin(), content.fields.end(), numberField);
    if (!numberField.empty() && at == content.fields.end())
        throw Fault{phrase("core", "There is no column \"%1\".")(numberField), content.path,
                    phrase("core", "Choose another column for the numbers, or none.")};
    const auto column = static_cast<std::size_t>(at - content.fields.begin());
    std::vector<model::Parcel> parcels;
    for (const Feature& feature : content.features) {
        model::Parcel parcel;
        for (const FeatureGeometry& part : feature.parts)
            if (const auto* polygon = std::get_if<model::Polygon>(&part))
                parcel.surface.parts.push_back(*polygon);
        if (parcel.surface.empty())
            continue;
        if (!numberField.empty())
            parcel.number = feature.attributes[column];
        parcels.push_back(std::move(parcel));
    }
    return parcels;
}

model::Fence setbackFence(const model::Site& site, const StatedLength& distance, const NameGiver& named) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name =
        named(site.name.empty() ? Wording{phrase("core", "Setback")} : phrase("core", "%1, setback")(site.name));
    fence.kind = model::FenceKind::KeepOut;
    fence.shape = model::Setback{site.id, distance};
    return fence;
}

} // namespace fencewright::exchange
