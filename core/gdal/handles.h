#pragma once

#include <memory>

// Owners of GDAL's handles. Private to raster, exchange and store: no public header of theirs includes this.
// The handle types are GDAL's own opaque ones, so this header needs none of GDAL's.
namespace fencewright::gdal {

struct CloseDataset {
    void operator()(void* dataset) const;
};
/// A GDALDatasetH; closing flushes it. Check errors before closing: a destructor cannot tell.
using DatasetHandle = std::unique_ptr<void, CloseDataset>;

struct DestroyFeature {
    void operator()(void* feature) const;
};
/// An OGRFeatureH.
using FeatureHandle = std::unique_ptr<void, DestroyFeature>;

struct DestroyGeometry {
    void operator()(void* geometry) const;
};
/// An OGRGeometryH that we own.
using GeometryHandle = std::unique_ptr<void, DestroyGeometry>;

} // namespace fencewright::gdal
