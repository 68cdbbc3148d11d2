#pragma once

#include "desktop/canvas/reference_layer.h"
#include "units/length.h"

namespace fencewright::desktop {

/// A feature of a reference layer that was pointed at or searched for.
struct FoundFeature {
    QString layerName;
    QString name; ///< "Parcel 17"
    std::shared_ptr<const reference::Layer> layer;
    std::size_t feature = 0;
};

/// The features of the layers at a place: surfaces that hold it, lines and points within the tolerance. The uppermost
/// layer first, and of each what is drawn last first.
std::vector<FoundFeature> featuresAt(const std::vector<ReferenceSource>& sources, const model::Position& place,
                                     Length tolerance);

/// A search in any column: "owner: mill".
struct ColumnSearch {
    QString column;
    QString words;
};
/// Nothing where the text is not of that form.
std::optional<ColumnSearch> columnSearch(const QString& typed);
/// The features whose value in the column of that name, or else in the first whose name begins so, contains the words;
/// those whose value is the words first. Small and capital letters are the same.
std::vector<FoundFeature> featuresWhere(const std::vector<ReferenceSource>& sources, const ColumnSearch& search,
                                        std::size_t limit);

} // namespace fencewright::desktop
