// How GdalPixels reads; how it opens is in gdal_pixels.cpp.
#include "raster/detail/gdal_pixels.h"

#include "fault.h"
#include "gdal/library.h"
#include "raster/detail/gdal_progress.h"
#include "raster/detail/value_range.h"

#include <gdal.h>

#include <cstring>

namespace fencewright::raster::detail {

namespace {

// A shrunken view of more takes single pixels: each band is averaged on its own, so that what is decoded for the first
// has to stay in the library's cache until the last is done.
constexpr double kMostBytesAveraged = 48e6;
constexpr int kRowsForOne = 5;                   // of a picture, where each costs a strip of a large raster
constexpr int kCoarseView = 256;                 // pixels a side, for the stretch
constexpr int kSampledAtOnce = 4096;             // pixels of a row
constexpr double kQuickPixels = 1024.0 * 1024.0; // of a level that is decoded as a whole

std::string withDot(std::string text) { return text.empty() || text.back() == '.' ? text : text + "."; }

// A decoder that runs out of data fills the rest with grey and only warns.
bool meansLostPixels(const gdal::ErrorCapture::Message& message) {
    for (const char* sign : {"Premature end", "premature end", "truncated", "Corrupt JPEG"})
        if (message.text.find(sign) != std::string::npos)
            return true;
    return message.isError;
}

// The middle of each wanted pixel.
int sampled(int start, int size, int wanted, int index) {
    return start + static_cast<int>((index + 0.5) * size / wanted);
}

std::uint8_t toByte(double value, double low, double high) {
    const double share = (value - low) / (high - low);
    return static_cast<std::uint8_t>(share > 0 ? std::min(share, 1.0) * 255.0 + 0.5 : 0.0);
}

// Eight at a time: every second byte of a word is added in a lane of 16 bits, and a multiplication adds the four lanes
// in the highest; they hold the sum of 256 bytes.
std::uint8_t meanOf(const std::uint8_t* bytes, int from, int to) {
    constexpr std::uint64_t kLanes = 0x00ff00ff00ff00ffULL;
    constexpr int kAtOnce = 256;
    std::uint32_t sum = 0;
    int at = from;
    while (to - at >= 8) {
        std::uint64_t lanes = 0;
        for (const int end = at + std::min((to - at) / 8 * 8, kAtOnce); at < end; at += 8) {
            std::uint64_t word;
            std::memcpy(&word, bytes + at, 8);
            lanes += (word & kLanes) + (word >> 8 & kLanes);
        }
        sum += static_cast<std::uint32_t>(lanes * 0x0001000100010001ULL >> 48);
    }
    for (; at < to; ++at)
        sum += bytes[at];
    const auto count = static_cast<std::uint32_t>(to - from);
    return static_cast<std::uint8_t>((sum + count / 2) / count);
}

// What alpha says of the whole; nothing at all needs no memory.
void concludeCoverage(Pixels& pixels) {
    const auto count = static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height);
    std::uint32_t least = 255;
    std::uint32_t most = 0;
    for (std::size_t index = 0; index < count; ++index) {
        const std::uint32_t alpha = pixels.words[index] >> 24;
        least = std::min(least, alpha);
        most = std::max(most, alpha);
    }
    pixels.opaque = least == 255;
    if (most == 0)
        pixels.words = nullptr;
}

} // namespace

BlockSize GdalPixels::block(std::size_t level) const {
    BlockSize size;
    GDALGetBlockSize(bandAt(level, m_colourBands.front()), &size.width, &size.height);
    return {std::clamp(size.width, 1, m_levels[level].width), std::clamp(size.height, 1, m_levels[level].height)};
}

void* GdalPixels::bandAt(std::size_t level, int number) const {
    const Place& place = m_places[level];
    GDALRasterBandH band = GDALGetRasterBand(place.dataset, number);
    return place.overview < 0 ? band : GDALGetOverview(band, place.overview);
}

void GdalPixels::countBlocks(std::size_t level, PixelRect part) {
    const auto [width, height] = block(level);
    const auto covered = [](int start, int size, int step, int end) {
        const int first = start / step * step;
        const int last = std::min(end, ((start + size - 1) / step + 1) * step);
        return static_cast<std::uint64_t>(last - first);
    };
    m_cost.pixels += covered(part.x, part.width, width, m_levels[level].width) *
                     covered(part.y, part.height, height, m_levels[level].height);
}

void GdalPixels::failed(std::size_t level, PixelRect part, const Wording& reason) const {
    throw Fault{phrase("core", "The picture cannot be decoded. %1")(reason),
                phrase("core", "%1, columns %2 to %3, rows %4 to %5")(
                    (m_places[level].ofPyramid ? m_pyramidPath : m_path), part.x, part.x + part.width - 1, part.y,
                    part.y + part.height - 1),
                phrase("core", "The file is damaged or cut off there: get it again from its source.")};
}

void GdalPixels::call(std::size_t level, PixelRect part, int width, int height, const std::vector<int>& bands,
                      const Target& target, const Progress& progress) {
    GDALRasterIOExtraArg options;
    INIT_RASTERIO_EXTRA_ARG(options);
    const bool shrunk = width < part.width || height < part.height;
    options.eResampleAlg = shrunk ? GRIORA_Average : GRIORA_NearestNeighbour;
    GdalProgress listening{&progress, "Reading imagery"};
    options.pfnProgress = GdalProgress::report;
    options.pProgressData = &listening;

    const gdal::ErrorCapture said;
    const GSpacing pixelSpace = target.pixelSpace;
    const GSpacing lineSpace = pixelSpace * width;
    const auto type = static_cast<GDALDataType>(target.type);
    CPLErr result = CE_None;
    if (void* const together = m_places[level].together; together && !shrunk && bands.front() != kMask) {
        ++m_cost.reads;
        listening.keepsWhole = true;
        result = GDALDatasetRasterIOEx(together, GF_Read, part.x, part.y, part.width, part.height, target.first, width,
                                       height, type, static_cast<int>(bands.size()), const_cast<int*>(bands.data()),
                                       pixelSpace, lineSpace, target.bandSpace, &options);
    } else {
        for (std::size_t index = 0; index < bands.size() && result == CE_None; ++index) {
            ++m_cost.reads;
            listening.keepsWhole = index + 1 == bands.size();
            void* const first =
                static_cast<std::uint8_t*>(target.first) + static_cast<std::ptrdiff_t>(index) * target.bandSpace;
            void* band = bandAt(level, bands[index] == kMask ? m_colourBands.front() : bands[index]);
            if (band && bands[index] == kMask)
                band = GDALGetMaskBand(band);
            result = band ? GDALRasterIOEx(band, GF_Read, part.x, part.y, part.width, part.height, first, width, height,
                                           type, pixelSpace, lineSpace, &options)
                          : CE_Failure;
        }
    }
    if (listening.thrown)
        std::rethrow_exception(listening.thrown);
    const auto& messages = said.messages();
    const auto lost = std::find_if(messages.begin(), messages.end(), meansLostPixels);
    if (lost != messages.end())
        failed(level, part, withDot(lost->text));
    if (result != CE_None)
        failed(level, part,
               said.firstError("").empty() ? Wording{phrase("core", "The reason is not known.")}
                                           : Wording{withDot(said.firstError(""))});
}

bool GdalPixels::isAveraged(PixelRect part, int width, int height) const {
    return m_colours != Colours::Palette && (width < part.width || height < part.height) &&
           m_pixelBytes * part.width * part.height <= kMostBytesAveraged;
}

int GdalPixels::rowsForOne(std::size_t level, PixelRect part, int width, int height) const {
    const BlockSize size = block(level);
    const bool strips = size.width >= m_levels[level].width;
    const bool leavesStripsOut = strips && height < part.height / size.height;
    return leavesStripsOut && m_colours != Colours::Palette && !isAveraged(part, width, height) ? kRowsForOne : 1;
}

void GdalPixels::readBands(std::size_t level, PixelRect part, int width, int height, const std::vector<int>& bands,
                           const Target& target, const Progress& progress) {
    const bool shrunk = width < part.width || height < part.height;
    if (shrunk && !isAveraged(part, width, height)) {
        readSampled(level, part, width, height, bands, target, progress);
        return;
    }
    // Whatever fails, the library has been asked.
    countBlocks(level, part);
    call(level, part, width, height, bands, target, progress);
}

// Single rows, only those that are needed: a strip between two of them is not even read. Of a row single pixels, or,
// where a mean of them is a colour too, the mean of those that a wanted pixel covers: they have been read anyway, and
// single ones of fine ground look like noise. Block by block, so that each is decoded once however wide the raster is.
void GdalPixels::readSampled(std::size_t level, PixelRect part, int width, int height, const std::vector<int>& bands,
                             const Target& target, const Progress& progress) {
    const BlockSize size = block(level);
    const auto bytes = static_cast<std::size_t>(GDALGetDataTypeSizeBytes(static_cast<GDALDataType>(target.type)));
    const int step = size.width >= m_levels[level].width ? std::max(1, part.x + part.width)
                                                         : size.width * std::max(1, kSampledAtOnce / size.width);
    const bool isMeanOfRow =
        target.type == GDT_Byte && m_coverage == Coverage::Everywhere && m_colours != Colours::Palette;
    const int reach = (part.width / width - 1) / 2; // to both sides of a pixel's middle
    const bool isPlain = hasPlainRows(level);
    // Read in the order of the file, which costs the least.
    std::vector<int> inOrder = bands;
    std::sort(inOrder.begin(), inOrder.end());
    std::vector<std::uint8_t> row;
    std::vector<int> middles; // of the wanted pixels, in the row
    for (int y = 0; y < height;) {
        const auto blockRow = [&](int index) { return sampled(part.y, part.height, height, index) / size.height; };
        int endY = y + 1;
        while (endY < height && blockRow(endY) == blockRow(y))
            ++endY;
        for (int x = 0; x < width;) {
            const auto chunk = [&](int index) { return sampled(part.x, part.width, width, index) / step; };
            int endX = x + 1;
            while (endX < width && chunk(endX) == chunk(x))
                ++endX;
            const int left = sampled(part.x, part.width, width, x);
            const int count = sampled(part.x, part.width, width, endX - 1) - left + 1;
            row.resize(static_cast<std::size_t>(count) * bytes * bands.size());
            const Target whole{row.data(), target.type, static_cast<int>(bytes),
                               static_cast<std::ptrdiff_t>(bytes) * count};
            countBlocks(level, {left, sampled(part.y, part.height, height, y), count, 1});
            middles.clear();
            for (int atX = x; atX < endX; ++atX)
                middles.push_back(sampled(part.x, part.width, width, atX) - left);
            for (int atY = y; atY < endY; ++atY) {
                progress.report(static_cast<double>(atY) / height, phrase("core", "Reading imagery"));
                const PixelRect line{left, sampled(part.y, part.height, height, atY), count, 1};
                if (!isPlain || !readPlainRow(line, inOrder, whole))
                    call(level, line, count, 1, inOrder, whole, {});
                for (std::size_t band = 0; band < bands.size(); ++band) {
                    const auto plane = std::find(inOrder.begin(), inOrder.end(), bands[band]) - inOrder.begin();
                    const std::uint8_t* const from = row.data() + plane * whole.bandSpace;
                    std::uint8_t* to = static_cast<std::uint8_t*>(target.first) +
                                       static_cast<std::ptrdiff_t>(band) * target.bandSpace +
                                       (static_cast<std::ptrdiff_t>(atY) * width + x) * target.pixelSpace;
                    for (const int middle : middles) {
                        if (isMeanOfRow)
                            *to = meanOf(from, std::max(0, middle - reach), std::min(count, middle + reach + 1));
                        else
                            std::memcpy(to, from + static_cast<std::size_t>(middle) * bytes, bytes);
                        to += target.pixelSpace;
                    }
                }
            }
            x = endX;
        }
        y = endY;
    }
}

bool GdalPixels::isQuick(std::size_t level, int width, int height) {
    const PyramidLevel& whole = m_levels[level];
    if (GDALGetDatasetDriver(m_dataset.get()) != GDALGetDriverByName("GTiff"))
        return false; // one wavelet, or a mosaic of a thousand files: who knows
    if (static_cast<double>(whole.width) * whole.height <= kQuickPixels)
        return true;
    return m_bytes && hasPlainRows(level) && !isAveraged({0, 0, whole.width, whole.height}, width, height);
}

// Rows that lie in a TIFF uncompressed, pixel after pixel, the library can hand over as they are: a fifth of what it
// takes to bring them into its cache first. It says nothing of what it cannot read in this way, so then the usual way
// is asked.
bool GdalPixels::hasPlainRows(std::size_t level) {
    if (level != 0)
        return false;
    if (!m_plainRows) {
        m_plainRows.emplace();
        const auto said = [&](const char* key) {
            const char* value = GDALGetMetadataItem(m_dataset.get(), key, "IMAGE_STRUCTURE");
            return std::string_view{value ? value : ""};
        };
        if (GDALGetDatasetDriver(m_dataset.get()) == GDALGetDriverByName("GTiff") && said("COMPRESSION").empty() &&
            said("INTERLEAVE") == "PIXEL" && m_coverage == Coverage::Everywhere &&
            block(0).width >= m_levels[0].width) {
            const gdal::ErrorCapture quiet;
            const char* const drivers[] = {"GTiff", nullptr};
            gdal::ThreadSettings direct;
            direct.set("GTIFF_DIRECT_IO", "YES");
            m_plainRows->reset(GDALOpenEx(GDALGetDescription(m_dataset.get()), GDAL_OF_RASTER | GDAL_OF_READONLY,
                                          drivers, nullptr, nullptr));
        }
    }
    return *m_plainRows != nullptr;
}

bool GdalPixels::readPlainRow(PixelRect row, const std::vector<int>& bands, const Target& target) {
    if (!*m_plainRows)
        return false;
    const gdal::ErrorCapture said;
    ++m_cost.reads;
    const bool isRead =
        GDALDatasetRasterIOEx(m_plainRows->get(), GF_Read, row.x, row.y, row.width, 1, target.first, row.width, 1,
                              static_cast<GDALDataType>(target.type), static_cast<int>(bands.size()),
                              const_cast<int*>(bands.data()), target.pixelSpace,
                              GSpacing{target.pixelSpace} * row.width, target.bandSpace, nullptr) == CE_None &&
        said.messages().empty();
    if (!isRead)
        m_plainRows->reset();
    return isRead;
}

void GdalPixels::readAlpha(std::size_t level, PixelRect part, int width, int height, std::uint8_t* target, int spacing,
                           const Progress& progress) {
    // The blocks were counted with the colours.
    struct Uncounted {
        Cost& cost;
        std::uint64_t pixels;
        ~Uncounted() { cost.pixels = pixels; }
    } const uncounted{m_cost, m_cost.pixels};
    const int band = m_coverage == Coverage::MaskBand ? m_places[level].coverageBand : m_alphaBand;
    if (band == kMask || GDALGetRasterDataType(bandAt(level, band)) == GDT_Byte) {
        readBands(level, part, width, height, {band}, {target, GDT_Byte, spacing, 0}, progress);
        return;
    }
    std::vector<float> alpha(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    readBands(level, part, width, height, {band}, {alpha.data(), GDT_Float32, sizeof(float), 0}, progress);
    for (std::size_t index = 0; index < alpha.size(); ++index)
        target[index * static_cast<std::size_t>(spacing)] =
            static_cast<std::uint8_t>(std::clamp(alpha[index] / m_fullAlpha * 255.0F + 0.5F, 0.0F, 255.0F));
}

void GdalPixels::findFullAlpha(const Progress& progress) {
    if (m_coverage != Coverage::AlphaBand || m_fullAlpha > 0 ||
        GDALGetRasterDataType(GDALGetRasterBand(m_dataset.get(), m_alphaBand)) == GDT_Byte)
        return;
    const auto [level, width, height] = coarseView();
    std::vector<float> alpha(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    readBands(level, {0, 0, m_levels[level].width, m_levels[level].height}, width, height, {m_alphaBand},
              {alpha.data(), GDT_Float32, sizeof(float), 0}, progress);
    // Wider types often hold an alpha that was made for eight bits, or only 0 and 1.
    const float largest = *std::max_element(alpha.begin(), alpha.end());
    m_fullAlpha = largest <= 1.0F ? 1.0F : largest <= 255.0F ? 255.0F : std::max(65535.0F, largest);
}

GdalPixels::CoarseView GdalPixels::coarseView() const {
    std::size_t level = m_levels.size() - 1;
    while (level > 0 && (m_levels[level].width < kCoarseView || m_levels[level].height < kCoarseView))
        --level;
    return {level, std::min(m_levels[level].width, kCoarseView), std::min(m_levels[level].height, kCoarseView)};
}

bool GdalPixels::isNoData(std::size_t colour, float value) const {
    return std::isnan(value) || (m_coverage == Coverage::NoData && value == *m_noData[colour]);
}

void GdalPixels::makeTables() {
    m_tables.clear();
    if (m_colours == Colours::Palette) {
        m_paletteWords.assign(256, 0);
        for (std::size_t index = 0; index < std::min<std::size_t>(256, m_palette.size()); ++index) {
            const auto& [red, green, blue, alpha] = m_palette[index];
            m_paletteWords[index] =
                std::uint32_t{alpha} << 24 | std::uint32_t{red} << 16 | std::uint32_t{green} << 8 | std::uint32_t{blue};
        }
        return;
    }
    if (std::all_of(m_ranges.begin(), m_ranges.end(),
                    [](const Range& range) { return range.low == 0 && range.high == 255; }))
        return;
    for (const Range& range : m_ranges) {
        auto& table = m_tables.emplace_back();
        for (std::size_t value = 0; value < 256; ++value)
            table[value] = toByte(static_cast<double>(value), range.low, range.high);
    }
}

// Straight into the words that are painted.
Pixels GdalPixels::readBytes(std::size_t level, PixelRect part, int width, int height, const Progress& progress) {
    Pixels result = blank(width, height);
    const auto count = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    std::uint32_t* const words = result.words.get();
    auto* const bytes = reinterpret_cast<std::uint8_t*>(words);
    result.opaque = true;

    const bool hasAlpha = m_coverage == Coverage::AlphaBand;
    std::vector<int> bands{m_colourBands.rbegin(), m_colourBands.rend()}; // a word's bytes are blue, green, red, alpha
    if (hasAlpha)
        bands.push_back(m_alphaBand);
    const std::ptrdiff_t bandSpace = m_colourBands.size() == 3 ? 1 : 3;
    readBands(level, part, width, height, bands, {bytes, GDT_Byte, 4, bandSpace}, progress);
    if (m_coverage == Coverage::MaskBand)
        readAlpha(level, part, width, height, bytes + 3, 4, progress);
    else if (!hasAlpha) // now that the words are near: filling them beforehand would fetch them twice
        for (std::size_t index = 0; index < count; ++index)
            words[index] |= 0xff000000U;

    if (m_coverage == Coverage::NoData) {
        std::uint32_t nothing = 0;
        std::uint32_t looked = 0;
        bool possible = true;
        for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour) {
            const float value = *m_noData[colour];
            possible = possible && value >= 0 && value <= 255 && value == std::floor(value);
            const auto shift = static_cast<unsigned>(8 * (m_colourBands.size() - 1 - colour));
            if (possible)
                nothing |= static_cast<std::uint32_t>(value) << shift;
            looked |= 0xffU << shift;
        }
        if (possible)
            for (std::size_t index = 0; index < count; ++index)
                if ((words[index] & looked) == nothing)
                    words[index] &= 0xffffffU;
    }
    if (m_colours == Colours::Palette) {
        for (std::size_t index = 0; index < count; ++index) {
            const std::uint32_t word = m_paletteWords[words[index] & 255U];
            words[index] = (word & 0xffffffU) | std::min(word >> 24, words[index] >> 24) << 24;
        }
    } else {
        if (m_colours == Colours::Grey)
            for (std::size_t index = 0; index < count; ++index)
                words[index] = (words[index] & 255U) * 0x010101U | (words[index] & 0xff000000U);
        if (!m_tables.empty())
            for (std::size_t index = 0; index < count; ++index)
                for (std::size_t band = 0; band < 3; ++band) {
                    std::uint8_t& byte = bytes[index * 4 + 2 - band];
                    byte = m_tables[std::min(band, m_tables.size() - 1)][byte];
                }
    }
    if (m_coverage != Coverage::Everywhere || m_colours == Colours::Palette)
        concludeCoverage(result);
    return result;
}

GdalPixels::Values GdalPixels::readValues(std::size_t level, PixelRect part, int width, int height,
                                          const Progress& progress) {
    const std::size_t count = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    Values values;
    std::vector<float> planes(count * m_colourBands.size());
    readBands(level, part, width, height, m_colourBands,
              {planes.data(), GDT_Float32, sizeof(float), static_cast<std::ptrdiff_t>(count * sizeof(float))},
              progress);
    for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour)
        values.bands[colour].assign(planes.begin() + static_cast<std::ptrdiff_t>(colour * count),
                                    planes.begin() + static_cast<std::ptrdiff_t>((colour + 1) * count));
    values.alpha.assign(count, 255);
    if (m_coverage == Coverage::AlphaBand || m_coverage == Coverage::MaskBand)
        readAlpha(level, part, width, height, values.alpha.data(), 1, progress);
    for (std::size_t index = 0; index < count; ++index) {
        bool nothing = true;
        for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour)
            nothing = nothing && isNoData(colour, values.bands[colour][index]);
        if (nothing)
            values.alpha[index] = 0;
    }
    return values;
}

void GdalPixels::findRanges(const Progress& progress) {
    const auto [level, width, height] = coarseView();
    const PixelRect all{0, 0, m_levels[level].width, m_levels[level].height};
    const Values values = readValues(level, all, width, height, progress);
    std::vector<Range> ranges;
    for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour) {
        std::vector<float> there;
        for (std::size_t index = 0; index < values.alpha.size(); ++index)
            if (values.alpha[index] > 0 && std::isfinite(values.bands[colour][index]))
                there.push_back(values.bands[colour][index]);
        const ValueRange range = rangeOf(std::move(there));
        ranges.push_back({range.low, range.high});
    }
    m_ranges = std::move(ranges);
}

Pixels GdalPixels::readStretched(std::size_t level, PixelRect part, int width, int height, const Progress& progress) {
    findFullAlpha(progress);
    if (m_colours != Colours::Palette && m_ranges.empty())
        findRanges(progress);
    const Values values = readValues(level, part, width, height, progress);
    Pixels result = blank(width, height);
    for (std::size_t index = 0; index < values.alpha.size(); ++index) {
        std::uint32_t alpha = values.alpha[index];
        std::array<std::uint8_t, 3> rgb{};
        if (m_colours == Colours::Palette) {
            const float entry = values.bands[0][index];
            if (alpha != 0 && entry >= 0 && entry < static_cast<float>(m_palette.size())) {
                const auto& colour = m_palette[static_cast<std::size_t>(entry)];
                std::copy(colour.begin(), colour.begin() + 3, rgb.begin());
                alpha = std::min<std::uint32_t>(alpha, colour[3]);
            } else {
                alpha = 0;
            }
        } else {
            for (std::size_t band = 0; band < 3; ++band) {
                const std::size_t colour = std::min(band, m_colourBands.size() - 1);
                rgb[band] = toByte(values.bands[colour][index], m_ranges[colour].low, m_ranges[colour].high);
            }
        }
        result.words[index] = alpha << 24 | std::uint32_t{rgb[0]} << 16 | std::uint32_t{rgb[1]} << 8 | rgb[2];
    }
    concludeCoverage(result);
    return result;
}

Pixels GdalPixels::read(std::size_t level, PixelRect part, int width, int height, const Progress& progress) {
    return m_bytes ? readBytes(level, part, width, height, progress)
                   : readStretched(level, part, width, height, progress);
}

} // namespace fencewright::raster::detail
