#pragma once

#include "gdal/handles.h"
#include "raster/detail/pixel_source.h"

namespace fencewright::raster::detail {

/// A raster file read by one of the drivers of the format table.
class GdalPixels final : public PixelSource {
public:
    /// @param pyramid  a file of coarser levels, see OpenOptions.
    /// @throws Fault  as Dataset's constructor.
    explicit GdalPixels(const std::string& path, const Appearance& appearance = {}, const std::string& pyramid = {});

    /// One that was put together of files already looked at.
    struct Opened {
        gdal::DatasetHandle dataset;
        std::string path;
        std::string format;
        std::vector<Wording> notes;
        std::string state;
    };
    GdalPixels(Opened opened, const Appearance& appearance, const std::string& pyramid);

    [[nodiscard]] const Header& header() const override { return m_header; }
    [[nodiscard]] const std::vector<PyramidLevel>& levels() const override { return m_levels; }
    [[nodiscard]] BlockSize block(std::size_t level) const override;
    [[nodiscard]] Pixels read(std::size_t level, PixelRect part, int width, int height,
                              const Progress& progress) override;
    [[nodiscard]] int rowsForOne(std::size_t level, PixelRect part, int width, int height) const override;
    [[nodiscard]] bool isQuick(std::size_t level, int width, int height) override;
    [[nodiscard]] Cost cost() const override { return m_cost; }
    [[nodiscard]] AppearanceProposal proposal(const Progress& progress) override;

    /// The raster's own GDALDatasetH.
    [[nodiscard]] void* handle() const { return m_dataset.get(); }

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
    static constexpr int kMask = 0; ///< in place of a band's number: the mask of the first colour
    /// Where a level is kept.
    struct Place {
        void* dataset = nullptr; ///< the raster's or the pyramid's
        int overview = -1;       ///< of it; -1: itself
        bool ofPyramid = false;
        /// A dataset whose bands are the level's, so that all can be read at once; null: each on its own.
        void* together = nullptr;
        int coverageBand = kMask; ///< where the mask is kept, of a raster that has one
    };
    /// Where what is read goes: of several bands, each begins so many bytes after the one before.
    struct Target {
        void* first = nullptr;
        int type = 0; ///< GDALDataType
        int pixelSpace = 0;
        std::ptrdiff_t bandSpace = 0;
    };

    void open();
    void describe(const Appearance& appearance, const std::string& pyramid);
    void describePlace();
    void describeBands();
    void findColours(const Appearance& appearance);
    void takeBands(const std::array<int, 3>& bands);
    void makeTables();
    void findLevels();
    void addPyramid(const std::string& path);
    [[nodiscard]] bool hasWaveletLevels() const;
    void addLevel(void* dataset, int overview, int width, int height);

    /// GDALRasterBandH of a band at a level.
    [[nodiscard]] void* bandAt(std::size_t level, int band) const;
    [[nodiscard]] bool isAveraged(PixelRect part, int width, int height) const;
    /// One call into GDAL; the width and height of the part where nothing is shrunk.
    void call(std::size_t level, PixelRect part, int width, int height, const std::vector<int>& bands,
              const Target& target, const Progress& progress);
    void readBands(std::size_t level, PixelRect part, int width, int height, const std::vector<int>& bands,
                   const Target& target, const Progress& progress);
    void readSampled(std::size_t level, PixelRect part, int width, int height, const std::vector<int>& bands,
                     const Target& target, const Progress& progress);
    [[nodiscard]] bool hasPlainRows(std::size_t level);
    [[nodiscard]] bool readPlainRow(PixelRect row, const std::vector<int>& bands, const Target& target);
    void readAlpha(std::size_t level, PixelRect part, int width, int height, std::uint8_t* target, int spacing,
                   const Progress& progress);
    void countBlocks(std::size_t level, PixelRect part);
    [[noreturn]] void failed(std::size_t level, PixelRect part, const Wording& reason) const;

    [[nodiscard]] Values readValues(std::size_t level, PixelRect part, int width, int height, const Progress& progress);
    [[nodiscard]] bool isNoData(std::size_t colour, float value) const;
    [[nodiscard]] Pixels readBytes(std::size_t level, PixelRect part, int width, int height, const Progress& progress);
    [[nodiscard]] Pixels readStretched(std::size_t level, PixelRect part, int width, int height,
                                       const Progress& progress);
    [[nodiscard]] CoarseView coarseView() const;
    void findRanges(const Progress& progress);
    void findFullAlpha(const Progress& progress);

    std::string m_path;
    gdal::DatasetHandle m_dataset;
    gdal::DatasetHandle m_pyramid;
    /// The raster once more, for rows that lie in the file as they are; null: they do not.
    std::optional<gdal::DatasetHandle> m_plainRows; ///< nothing: not looked for yet
    std::string m_pyramidPath;
    Header m_header;
    std::vector<PyramidLevel> m_levels;
    std::vector<Place> m_places; ///< of each level
    Colours m_colours = Colours::Grey;
    Coverage m_coverage = Coverage::Everywhere;
    std::vector<int> m_colourBands; ///< three for RGB, one for grey and palette
    std::vector<int> m_usualBands;  ///< the same where nobody chose others
    int m_alphaBand = 0;
    double m_pixelBytes = 0;                    ///< of all bands, for they are decoded together
    float m_fullAlpha = 0;                      ///< what is opaque, of an alpha that is no byte; 0: not looked for yet
    bool m_bytes = false;                       ///< all that is read has eight bits
    std::vector<std::optional<float>> m_noData; ///< of each colour band
    std::vector<std::array<std::uint8_t, 4>> m_palette;
    std::vector<Range> m_ranges; ///< what becomes black and white, of each colour band; empty: not looked for yet
    /// What becomes of each byte, for red, green and blue; empty: it stays what it is.
    std::vector<std::array<std::uint8_t, 256>> m_tables;
    std::vector<std::uint32_t> m_paletteWords; ///< of each byte
    Cost m_cost;
};

} // namespace fencewright::raster::detail
