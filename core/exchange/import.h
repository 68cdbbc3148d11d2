#pragma once

#include "exchange/vector_content.h"
#include "model/fence_set.h"
#include "name_giver.h"

#include <string>
#include <vector>

namespace fencewright::exchange {

/// Features as fences: each polygon part is one fence; parts of one feature are named "Name (2 of 3)". Circles and
/// bands that our own deliveries carry in their attributes come back.
struct FencesImport {
    std::vector<model::Fence> fences;
    std::vector<ReadNote> notes;
};
/// @param nameField  the column with the name; empty: "name", "Name", "title" or the feature's number.
/// @param named  what the file does not name, and the parts of a feature.
[[nodiscard]] FencesImport asFences(const VectorContent& content, model::FenceKind kind, const std::string& nameField,
                                    const NameGiver& named = {});

/// Features as sites: points, lines and polygons.
struct SitesImport {
    std::vector<model::Site> sites;
    std::vector<ReadNote> notes;
};
[[nodiscard]] SitesImport asSites(const VectorContent& content, const std::string& nameField,
                                  const NameGiver& named = {});

/// Features as homes: points only.
struct HomesImport {
    std::vector<model::Home> homes;
    std::vector<ReadNote> notes;
};
[[nodiscard]] HomesImport asHomes(const VectorContent& content, const std::string& nameField,
                                  const NameGiver& named = {});

/// The features as parcels; features without a surface are left out.
[[nodiscard]] std::vector<model::Parcel> asParcels(const VectorContent& content, const std::string& numberField);

/// A fence that follows the site at the distance. @param named  "Nest, setback".
[[nodiscard]] model::Fence setbackFence(const model::Site& site, const StatedLength& distance,
                                        const NameGiver& named = {});

} // namespace fencewright::exchange
