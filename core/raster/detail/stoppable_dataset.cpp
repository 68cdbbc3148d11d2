#include "raster/detail/stoppable_dataset.h"

#include <algorithm>
#include <cstring>
#include <utility>
#include <vector>

#include <gdal_proxy.h>

namespace fencewright::raster::detail {

namespace {

constexpr double kPixelsAtOnce = 1 << 20;
constexpr double kMostKept = 128e6; // bytes

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

class StoppableBand final : public GDALProxyRasterBand {
public:
    StoppableBand(StoppableDataset& dataset, GDALRasterBand& band) : m_dataset{dataset}, m_band{band} {
        poDS = &dataset;
        nBand = band.GetBand();
        eDataType = band.GetRasterDataType();
        nRasterXSize = band.GetXSize();
        nRasterYSize = band.GetYSize();
        band.GetBlockSize(&nBlockXSize, &nBlockYSize);
    }

private:
    GDALRasterBand* RefUnderlyingRasterBand() const override { return &m_band; }

    CPLErr IRasterIO(GDALRWFlag flag, int x, int y, int width, int height, void* target, int targetWidth,
                     int targetHeight, GDALDataType type, GSpacing pixelSpace, GSpacing lineSpace,
                     GDALRasterIOExtraArg* extra) override {
        if (width == targetWidth && height == targetHeight)
            return m_dataset.read(nBand, x, y, width, height, static_cast<GByte*>(target), type, pixelSpace, lineSpace,
                                  extra);
        return GDALProxyRasterBand::IRasterIO(flag, x, y, width, height, target, targetWidth, targetHeight, type,
                                              pixelSpace, lineSpace, extra);
    }

    StoppableDataset& m_dataset;
    GDALRasterBand& m_band;
};

/// Calls `read(from, to)` for some rows after the other, in whole blocks: else each would be decoded by every piece
/// that reaches into it.
template <class Read> CPLErr inPieces(int y, int height, int width, int blockHeight, const Read& read) {
    const int fitting = static_cast<int>(std::max(1.0, kPixelsAtOnce / width));
    const int rows = std::max(1, fitting / blockHeight) * blockHeight;
    for (int from = y; from < y + height;) {
        const int to = std::min(y + height, from / blockHeight * blockHeight + rows);
        if (const CPLErr result = read(from, to); result != CE_None)
            return result;
        from = to;
    }
    return CE_None;
}

int blockHeightOf(GDALRasterBand& band) {
    int width = 0;
    int height = 0;
    band.GetBlockSize(&width, &height);
    return std::max(1, height);
}

StoppableDataset::StoppableDataset(GDALDataset& raster, GdalProgress& listening)
    : m_raster{raster}, m_listening{listening} {
    nRasterXSize = raster.GetRasterXSize();
    nRasterYSize = raster.GetRasterYSize();
    SetDescription(raster.GetDescription());
    const char* interleaving = raster.GetMetadataItem("INTERLEAVE", "IMAGE_STRUCTURE");
    m_isInterleaved = interleaving && std::strcmp(interleaving, "PIXEL") == 0;
    for (int number = 1; number <= raster.GetRasterCount(); ++number)
        SetBand(number, new StoppableBand{*this, *raster.GetRasterBand(number)});
    int width = 0;
    int height = 0;
    raster.GetRasterBand(1)->GetBlockSize(&width, &height);
    if (width >= nRasterXSize)
        m_rows.resize(static_cast<std::size_t>(raster.GetRasterCount()));
}

bool StoppableDataset::goesOn() {
    return !m_listening.thrown && GdalProgress::report(m_listening.reached, nullptr, &m_listening) != 0;
}

std::pair<int, int> StoppableDataset::bandsWith(int band) const {
    return m_isInterleaved ? std::pair{1, nBands} : std::pair{band, band};
}

CPLErr StoppableDataset::keep(int band, int from, int to) {
    const auto [first, last] = bandsWith(band);
    const auto rowBytes = [&](int number) {
        return static_cast<std::size_t>(nRasterXSize) *
               static_cast<std::size_t>(GDALGetDataTypeSizeBytes(m_raster.GetRasterBand(number)->GetRasterDataType()));
    };
    for (int number = first; number <= last; ++number) {
        Rows& rows = m_rows[static_cast<std::size_t>(number - 1)];
        rows.from = rows.to = 0; // until they are whole
        rows.bytes.resize(static_cast<std::size_t>(to - from) * rowBytes(number));
    }
    const CPLErr result = inPieces(
        from, to - from, nRasterXSize, blockHeightOf(*m_raster.GetRasterBand(band)), [&](int pieceFrom, int pieceTo) {
            if (!goesOn())
                return CE_Failure;
            // Of the bands after the first the library has the blocks still decoded.
            for (int number = first; number <= last; ++number) {
                GDALRasterBand& source = *m_raster.GetRasterBand(number);
                GByte* const target = m_rows[static_cast<std::size_t>(number - 1)].bytes.data() +
                                      static_cast<std::size_t>(pieceFrom - from) * rowBytes(number);
                const CPLErr read =
                    source.RasterIO(GF_Read, 0, pieceFrom, nRasterXSize, pieceTo - pieceFrom, target, nRasterXSize,
                                    pieceTo - pieceFrom, source.GetRasterDataType(), 0, 0, nullptr);
                if (read != CE_None)
                    return read;
            }
            return CE_None;
        });
    if (result == CE_None)
        for (int number = first; number <= last; ++number) {
            m_rows[static_cast<std::size_t>(number - 1)].from = from;
            m_rows[static_cast<std::size_t>(number - 1)].to = to;
        }
    return result;
}

CPLErr StoppableDataset::read(int band, int x, int y, int width, int height, GByte* target, GDALDataType type,
                              GSpacing pixelSpace, GSpacing lineSpace, GDALRasterIOExtraArg* extra) {
    GDALRasterBand& source = *m_raster.GetRasterBand(band);
    const auto [first, last] = bandsWith(band);
    double bytes = 0;
    for (int number = first; number <= last; ++number)
        bytes += static_cast<double>(height) * nRasterXSize *
                 GDALGetDataTypeSizeBytes(m_raster.GetRasterBand(number)->GetRasterDataType());
    if (m_rows.empty() || bytes > kMostKept)
        return inPieces(y, height, width, blockHeightOf(source), [&](int from, int to) {
            return goesOn() ? source.RasterIO(GF_Read, x, from, width, to - from, target + (from - y) * lineSpace,
                                              width, to - from, type, pixelSpace, lineSpace, extra)
                            : CE_Failure;
        });

    const Rows& rows = m_rows[static_cast<std::size_t>(band - 1)];
    if (m_listening.thrown)
        return CE_Failure;
    if (y < rows.from || y + height > rows.to)
        if (const CPLErr result = keep(band, y, y + height); result != CE_None)
            return result;
    const GDALDataType kept = source.GetRasterDataType();
    const int size = GDALGetDataTypeSizeBytes(kept);
    for (int row = y; row < y + height; ++row)
        GDALCopyWords64(rows.bytes.data() +
                            (static_cast<std::size_t>(row - rows.from) * static_cast<std::size_t>(nRasterXSize) +
                             static_cast<std::size_t>(x)) *
                                static_cast<std::size_t>(size),
                        kept, size, target + (row - y) * lineSpace, type, static_cast<int>(pixelSpace), width);
    return CE_None;
}

} // namespace

std::unique_ptr<GDALDataset> stoppable(GDALDataset& raster, GdalProgress& listening) {
    return std::make_unique<StoppableDataset>(raster, listening);
}

} // namespace fencewright::raster::detail
