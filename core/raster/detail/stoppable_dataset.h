#pragma once

#include "raster/detail/gdal_progress.h"

#include <optional>
#include <vector>

#include <gdal_proxy.h>

namespace fencewright::raster::detail {

/// A raster as it is, for work that goes through all of it from top to bottom. It is read a few rows at a time, between
/// which a listener may stop it: what the raster library reads in one call can take longer than a person waits. Of a
/// raster in strips whole rows are kept, so that each strip is decoded once though the library asks for a piece of its
/// width after the other, and for each band anew.
/// Only to be read, by one thread, and no longer than there are raster and listener.
class StoppableDataset final : public GDALProxyDataset {
public:
    StoppableDataset(GDALDataset& raster, GdalProgress& listening);

    /// Reads a part of a band unchanged.
    CPLErr read(int band, int x, int y, int width, int height, GByte* target, GDALDataType type, GSpacing pixelSpace,
                GSpacing lineSpace, GDALRasterIOExtraArg* extra);

private:
    /// Whole rows of a band.
    struct Rows {
        int from = 0, to = 0;
        std::vector<GByte> bytes;
    };

    GDALDataset* RefUnderlyingDataset() const override { return &m_raster; }

    [[nodiscard]] bool goesOn();
    /// The bands whose rows are read together with those of this one.
    [[nodiscard]] std::pair<int, int> bandsWith(int band) const;
    CPLErr keep(int band, int from, int to);

    GDALDataset& m_raster;
    GdalProgress& m_listening;
    bool m_isInterleaved = false;
    std::vector<Rows> m_rows; ///< of each band, from the first; empty: none are kept
};

} // namespace fencewright::raster::detail
