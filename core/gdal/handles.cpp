#include "gdal/handles.h"

#include <gdal.h>
#include <ogr_api.h>

namespace fencewright::gdal {

void CloseDataset::operator()(void* dataset) const { GDALClose(dataset); }

void DestroyFeature::operator()(void* feature) const { OGR_F_Destroy(static_cast<OGRFeatureH>(feature)); }

void DestroyGeometry::operator()(void* geometry) const { OGR_G_DestroyGeometry(static_cast<OGRGeometryH>(geometry)); }

} // namespace fencewright::gdal
