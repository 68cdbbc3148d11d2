#pragma once

#include "geometry/spatial_index.h"
#include "model/polygon.h"
#include "model/position.h"
#include "wording.h"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fencewright::exchange {

using FeatureGeometry = std::variant<model::Position, model::LineString, model::Polygon>;

/// One thing out of a foreign file: WGS 84, longitudes continuous, rings without the repeated last corner.
struct Feature {
    std::string id;                      ///< the file's own
    std::vector<std::string> attributes; ///< as text, in the order of VectorContent::fields; empty: null
    std::vector<FeatureGeometry> parts;  ///< one for simple geometries; several for multi-part ones
    std::optional<double> lowestZ;       ///< as in the file, unit and reference unknown
    std::optional<double> highestZ;
};

/// What a reader did with something that is not plainly read: closed a ring, left out a feature, guessed an encoding.
struct ReadNote {
    enum class Kind { Changed, LeftOut, Warning };
    Kind kind = Kind::Warning;
    Wording place; ///< "feature 12", "line 40"
    Wording words; ///< what was done and why

    bool operator==(const ReadNote&) const = default;
};

/// A layer as read, with the account of the reading.
struct VectorContent {
    std::string path;
    std::string layer;
    std::string format; ///< the driver's plain name, "GeoPackage"
    std::string crs;    ///< name of the source CRS
    std::vector<std::string> fields;
    std::vector<Feature> features;
    std::size_t featuresInFile = 0;
    std::size_t featuresLeftOut = 0;
    std::vector<ReadNote> notes; ///< at most 200, then one that says how many more
    geometry::Box extent;
};

struct LayerDescription {
    std::string name;
    std::string geometry;                ///< "Polygon", "Point", "mixed"
    std::optional<std::size_t> features; ///< where the file tells without reading it all
    std::string crs;                     ///< name; empty: the file has none
    std::vector<std::string> fields;
    Wording remark{}; ///< what stands in the way of reading it, or is to be known before; mostly empty
};

struct VectorDescription {
    std::string path;
    std::string format;
    std::vector<LayerDescription> layers;
};

} // namespace fencewright::exchange
