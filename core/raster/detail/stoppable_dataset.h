#pragma once

#include "raster/detail/gdal_progress.h"

#include <memory>

class GDALDataset;

namespace fencewright::raster::detail {

/// A raster as it is, for work that goes through all of it from top to bottom. It is read a few rows at a time, between
/// which a listener may stop it: what the raster library reads in one call can take longer than a person waits. Of a
/// raster in strips whole rows are kept, so that each strip is decoded once though the library asks for a piece of its
/// width after the other, and for each band anew.
/// Only to be read, by one thread, and no longer than there are raster and listener.
[[nodiscard]] std::unique_ptr<GDALDataset> stoppable(GDALDataset& raster, GdalProgress& listening);

} // namespace fencewright::raster::detail
