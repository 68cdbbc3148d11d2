#pragma once

#include "gdal/handles.h"
#include "raster/detail/pixel_source.h"

namespace fencewright::raster::detail {

/// A raster file read by one of the drivers of the format table.
class GdalPixels final : public PixelSource {
public:
    /// @throws Fault  as Dataset's constructor.
    explicit GdalPixels(const std::string& path);

    [[nodiscard]] const Header& header() const override { return m_header; }
    [[nodiscard]] const std::vector<PyramidLevel>& levels() const override { return m_levels; }
    [[nodiscard]] Pixels read(std::size_t level, PixelRect part, int width, int height,
                              const Progress& progress) override;

private:
    enum class Colours { Rgb, Grey, Palette };
    enum class Coverage { Everywhere, AlphaBand, MaskBand, NoData };
    struct Range {
        double low = 0, high = 255;
    };
    struct CoarseView {
        std::size_t level = 0;
        int width = 0, height = 0; ///< what the whole level is shrunk to
    };
    struct Values {
        std::array<std::vector<float>, 3> bands;
        std::vector<std::uint8_t> alpha;
    };

    void open();
    void describeBands();
    void findColours();
    void findLevels();
    /// GDALRasterBandH of a band at a level.
    [[nodiscard]] void* bandAt(std::size_t level, int band) const;
    void readBand(void* band, PixelRect part, int width, int height, void* target, int type, int spacing,
                  const Progress& progress) const;
    void readAlpha(std::size_t level, PixelRect part, int width, int height, std::uint8_t* target, int spacing,
                   const Progress& progress) const;
    [[nodiscard]] Values readValues(std::size_t level, PixelRect part, int width, int height,
                                    const Progress& progress) const;
    [[nodiscard]] bool isNoData(std::size_t colour, float value) const;
    [[nodiscard]] Pixels readBytes(std::size_t level, PixelRect part, int width, int height,
                                   const Progress& progress) const;
    [[nodiscard]] Pixels readStretched(std::size_t level, PixelRect part, int width, int height,
                                       const Progress& progress);
    [[nodiscard]] CoarseView coarseView() const;
    void findRanges(const Progress& progress);
    void findFullAlpha(const Progress& progress);

    std::string m_path;
    gdal::DatasetHandle m_dataset;
    Header m_header;
    std::vector<PyramidLevel> m_levels;
    Colours m_colours = Colours::Grey;
    Coverage m_coverage = Coverage::Everywhere;
    std::vector<int> m_colourBands; ///< three for RGB, one for grey and palette
    int m_alphaBand = 0;
    float m_fullAlpha = 0;                      ///< what is opaque, of an alpha that is no byte; 0: not looked for yet
    bool m_plainBytes = false;                  ///< eight bits that need no look-up
    std::vector<std::optional<float>> m_noData; ///< of each colour band
    std::vector<std::array<std::uint8_t, 4>> m_palette;
    std::vector<Range> m_ranges; ///< what becomes black and white, of each colour band; empty: not looked for yet
};

} // namespace fencewright::raster::detail
