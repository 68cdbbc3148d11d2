#include "raster/detail/gdal_pixels.h"

#include "fault.h"
#include "gdal/library.h"
#include "raster/detail/format_table.h"
#include "raster/detail/vrt_sources.h"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <cstring>
#include <filesystem>

namespace fencewright::raster::detail {

namespace {

constexpr int kMostBands = 256;
constexpr int kMostOverviews = 40;
constexpr double kLargestBlock = 512.0 * 1024 * 1024; // bytes; a block is decoded in one piece
constexpr double kLargestCoarseView = 1e11;           // pixels; more would be hours of reading for one picture
constexpr double kLargestPlainPicture = 1e9;          // pixels of a PNG or JPEG, which may need all of it in memory
constexpr double kMostPixelsAveraged = 64e6;          // beyond it a shrunken view takes single pixels
constexpr int kCoarseView = 256;                      // pixels a side, for the stretch

[[noreturn]] void refuse(const std::string& path, const std::string& problem, const std::string& remedy) {
    throw Fault{problem, path, remedy};
}

std::string withDot(std::string text) { return text.empty() || text.back() == '.' ? text : text + "."; }

const Format* formatOfDriver(const std::string& driver) {
    for (const Format& format : formatTable())
        if (driver == format.driver)
            return &format;
    return nullptr;
}

gdal::DatasetHandle openWith(const std::string& name) {
    std::vector<const char*> drivers;
    for (const Format& format : formatTable())
        drivers.push_back(format.driver);
    drivers.push_back(nullptr);
    return gdal::DatasetHandle{GDALOpenEx(name.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR,
                                          drivers.data(), nullptr, nullptr)};
}

// The progress of a read inside GDAL. What the listener throws may not pass through C, so it waits here.
struct Listening {
    const Progress* progress = nullptr;
    std::exception_ptr thrown;

    static int CPL_STDCALL report(double fraction, const char*, void* data) {
        auto& self = *static_cast<Listening*>(data);
        try {
            self.progress->report(fraction, "Reading imagery");
            return TRUE;
        } catch (...) {
            self.thrown = std::current_exception();
            return FALSE;
        }
    }
};

// A decoder that runs out of data fills the rest with grey and only warns.
bool meansLostPixels(const gdal::ErrorCapture::Message& message) {
    for (const char* sign : {"Premature end", "premature end", "truncated", "Corrupt JPEG"})
        if (message.text.find(sign) != std::string::npos)
            return true;
    return message.isError;
}

bool finite(const std::array<double, 6>& numbers) {
    return std::all_of(numbers.begin(), numbers.end(), [](double number) { return std::isfinite(number); });
}

} // namespace

GdalPixels::GdalPixels(const std::string& path) : m_path{path} {
    open();
    describeBands();
    findColours();
    findLevels();
}

void GdalPixels::open() {
    gdal::prepareLibrary();
    if (isVirtualMosaic(m_path))
        checkVirtualMosaic(m_path);

    const gdal::ErrorCapture said;
    m_dataset = openWith(m_path);
    if (!m_dataset)
        refuse(m_path, "This is no raster that can be read. " + withDot(said.firstError("The format is not known")),
               "Formats that are read: " + formatNames() + ".");
    std::string format = formatOfDriver(GDALGetDriverShortName(GDALGetDatasetDriver(m_dataset.get())))->name;

    if (GDALGetRasterCount(m_dataset.get()) == 0) {
        // Several rasters in one file: the first is taken.
        char** parts = GDALGetMetadata(m_dataset.get(), "SUBDATASETS");
        const char* first = CSLFetchNameValue(parts, "SUBDATASET_1_NAME");
        const char* title = CSLFetchNameValue(parts, "SUBDATASET_1_DESC");
        if (first && title) {
            format += std::string{", first of several: "} + title;
            m_dataset = openWith(std::string{first});
        }
        if (!m_dataset || GDALGetRasterCount(m_dataset.get()) == 0)
            refuse(m_path, "There is no raster in this file.", "Formats that are read: " + formatNames() + ".");
    }

    m_header.format = format;
    m_header.width = GDALGetRasterXSize(m_dataset.get());
    m_header.height = GDALGetRasterYSize(m_dataset.get());

    // Overviews may lie in a file that the raster names; it is theirs only if it lies beside it.
    const char* overviews = GDALGetMetadataItem(m_dataset.get(), "OVERVIEW_FILE", "OVERVIEWS");
    if (overviews && std::string_view{overviews}.find_first_of("/\\") != std::string_view::npos)
        refuse(m_path, std::string{"The raster keeps its overviews in another place: "} + overviews + ".",
               "Delete the .aux.xml file beside it, or put the overviews into the raster.");

    std::array<double, 6> geotransform{};
    double inverse[6];
    if (GDALGetGeoTransform(m_dataset.get(), geotransform.data()) == CE_None && finite(geotransform) &&
        GDALInvGeoTransform(geotransform.data(), inverse)) {
        m_header.geotransform = geotransform;
        m_header.hasGeotransform = true;
    }
    if (OGRSpatialReferenceH crs = GDALGetSpatialRef(m_dataset.get())) {
        const char* options[] = {"FORMAT=WKT2_2019", nullptr};
        char* text = nullptr;
        if (OSRExportToWktEx(crs, &text, options) == OGRERR_NONE && text)
            m_header.crs = text;
        CPLFree(text);
    }
}

void GdalPixels::describeBands() {
    const int count = GDALGetRasterCount(m_dataset.get());
    if (count > kMostBands)
        refuse(m_path, "The raster says it has " + std::to_string(count) + " bands; up to 256 are read.",
               "Extract the bands that are to be shown into a raster of their own.");
    const double area = static_cast<double>(m_header.width) * m_header.height;
    const std::string driver = GDALGetDriverShortName(GDALGetDatasetDriver(m_dataset.get()));
    if ((driver == "PNG" || driver == "JPEG") && area > kLargestPlainPicture)
        refuse(m_path,
               "The picture says it has " + std::to_string(m_header.width) + " x " + std::to_string(m_header.height) +
                   " pixels, too many for its format.",
               "Convert it to a tiled GeoTIFF.");

    double blockBytes = 0;
    for (int number = 1; number <= count; ++number) {
        GDALRasterBandH band = GDALGetRasterBand(m_dataset.get(), number);
        const GDALDataType type = GDALGetRasterDataType(band);
        if (GDALDataTypeIsComplex(type))
            refuse(m_path, "Band " + std::to_string(number) + " holds complex numbers, which are no picture.",
                   "Convert the raster to amplitudes first.");
        int blockWidth = 0;
        int blockHeight = 0;
        GDALGetBlockSize(band, &blockWidth, &blockHeight);
        blockBytes += static_cast<double>(blockWidth) * blockHeight * GDALGetDataTypeSizeBytes(type);

        BandDescription description;
        description.type = GDALGetDataTypeName(type);
        description.colour = GDALGetColorInterpretationName(GDALGetRasterColorInterpretation(band));
        int has = FALSE;
        const double noData = GDALGetRasterNoDataValue(band, &has);
        if (has)
            description.noData = noData;
        const int overviews = std::min(GDALGetOverviewCount(band), kMostOverviews);
        for (int index = 0; index < overviews; ++index)
            if (GDALRasterBandH overview = GDALGetOverview(band, index))
                description.overviews.push_back({GDALGetRasterBandXSize(overview), GDALGetRasterBandYSize(overview)});
        m_header.bands.push_back(std::move(description));
    }
    if (blockBytes > kLargestBlock)
        refuse(m_path,
               "The raster says that its blocks have " + std::to_string(static_cast<long long>(blockBytes / 1e6)) +
                   " MB; one has to be decoded in one piece.",
               "Convert it to a tiled GeoTIFF.");
}

void GdalPixels::findColours() {
    const int count = GDALGetRasterCount(m_dataset.get());
    std::array<int, 3> rgb{};
    for (int number = count; number >= 1; --number)
        switch (GDALGetRasterColorInterpretation(GDALGetRasterBand(m_dataset.get(), number))) {
        case GCI_RedBand:
            rgb[0] = number;
            break;
        case GCI_GreenBand:
            rgb[1] = number;
            break;
        case GCI_BlueBand:
            rgb[2] = number;
            break;
        case GCI_AlphaBand:
            m_alphaBand = number;
            break;
        default:
            break;
        }

    GDALRasterBandH first = GDALGetRasterBand(m_dataset.get(), 1);
    if (rgb[0] && rgb[1] && rgb[2]) {
        m_colours = Colours::Rgb;
        m_colourBands.assign(rgb.begin(), rgb.end());
    } else if (GDALColorTableH table = GDALGetRasterColorTable(first)) {
        m_colours = Colours::Palette;
        m_colourBands = {1};
        for (int index = 0; index < std::min(GDALGetColorEntryCount(table), 65536); ++index) {
            GDALColorEntry entry{};
            GDALGetColorEntryAsRGB(table, index, &entry);
            m_palette.push_back({static_cast<std::uint8_t>(entry.c1), static_cast<std::uint8_t>(entry.c2),
                                 static_cast<std::uint8_t>(entry.c3), static_cast<std::uint8_t>(entry.c4)});
        }
    } else if (count - (m_alphaBand ? 1 : 0) >= 3) {
        // No words about colour: by habit the first three are red, green and blue.
        m_colours = Colours::Rgb;
        for (int number = 1; m_colourBands.size() < 3; ++number)
            if (number != m_alphaBand)
                m_colourBands.push_back(number);
    } else {
        m_colours = Colours::Grey;
        m_colourBands = {m_alphaBand == 1 && count > 1 ? 2 : 1};
    }

    bool bytes = true;
    std::vector<Range> fullRanges;
    for (const int number : m_colourBands) {
        GDALRasterBandH band = GDALGetRasterBand(m_dataset.get(), number);
        const char* bits = GDALGetMetadataItem(band, "NBITS", "IMAGE_STRUCTURE");
        const int depth = bits ? std::clamp(std::atoi(bits), 1, 8) : 8;
        bytes = bytes && GDALGetRasterDataType(band) == GDT_Byte;
        fullRanges.push_back({0.0, static_cast<double>((1 << depth) - 1)});
        const auto& noData = m_header.bands[static_cast<std::size_t>(number - 1)].noData;
        m_noData.push_back(noData ? std::optional{static_cast<float>(*noData)} : std::nullopt);
    }
    // Up to eight bits: black is 0 and white the largest value, whatever the picture holds.
    if (bytes)
        m_ranges = fullRanges;
    const bool byteAlpha =
        !m_alphaBand || GDALGetRasterDataType(GDALGetRasterBand(m_dataset.get(), m_alphaBand)) == GDT_Byte;
    m_plainBytes =
        m_colours != Colours::Palette && bytes && byteAlpha &&
        std::all_of(fullRanges.begin(), fullRanges.end(), [](const Range& range) { return range.high == 255; });

    const int flags = GDALGetMaskFlags(GDALGetRasterBand(m_dataset.get(), m_colourBands.front()));
    const bool allHaveNoData =
        std::all_of(m_noData.begin(), m_noData.end(), [](const auto& value) { return value.has_value(); });
    if (m_alphaBand && std::find(m_colourBands.begin(), m_colourBands.end(), m_alphaBand) == m_colourBands.end())
        m_coverage = Coverage::AlphaBand;
    else if (allHaveNoData)
        m_coverage = Coverage::NoData;
    else if (!(flags & (GMF_ALL_VALID | GMF_NODATA | GMF_ALPHA)))
        m_coverage = Coverage::MaskBand;
}

void GdalPixels::findLevels() {
    m_levels.push_back({m_header.width, m_header.height, 1, 1, 0, 0});
    const auto& first = m_header.bands[static_cast<std::size_t>(m_colourBands.front() - 1)].overviews;
    for (std::size_t index = 0; index < first.size(); ++index) {
        const auto [width, height] = first[index];
        const PyramidLevel& finer = m_levels.back();
        // An overview that is not a smaller picture of the same ground, or not there in all bands, ends the pyramid:
        // what comes after it could not be addressed by one index any more.
        const bool alike =
            width > 0 && height > 0 && width <= finer.width && height <= finer.height &&
            (width < finer.width || height < finer.height) &&
            std::abs(static_cast<double>(width) * m_header.height - static_cast<double>(height) * m_header.width) <=
                1.5 * std::max(m_header.width, m_header.height);
        bool everywhere = true;
        for (const int number : m_colourBands) {
            const auto& others = m_header.bands[static_cast<std::size_t>(number - 1)].overviews;
            everywhere = everywhere && index < others.size() && others[index] == first[index];
        }
        if (m_coverage == Coverage::AlphaBand) {
            const auto& others = m_header.bands[static_cast<std::size_t>(m_alphaBand - 1)].overviews;
            everywhere = everywhere && index < others.size() && others[index] == first[index];
        }
        if (!alike || !everywhere)
            break;
        m_levels.push_back({width, height, static_cast<double>(m_header.width) / width,
                            static_cast<double>(m_header.height) / height, 0, 0});
    }
    if (static_cast<double>(m_levels.back().width) * m_levels.back().height > kLargestCoarseView)
        refuse(m_path,
               "The raster says it has " + std::to_string(m_header.width) + " x " + std::to_string(m_header.height) +
                   " pixels and no overviews: too many to show.",
               "Build overviews for it, or cut out the part that is needed.");
}

void* GdalPixels::bandAt(std::size_t level, int number) const {
    GDALRasterBandH band = GDALGetRasterBand(m_dataset.get(), number);
    return level == 0 ? band : GDALGetOverview(band, static_cast<int>(level) - 1);
}

void GdalPixels::readBand(void* band, PixelRect part, int width, int height, void* target, int type, int spacing,
                          const Progress& progress) const {
    GDALRasterIOExtraArg options;
    INIT_RASTERIO_EXTRA_ARG(options);
    const bool averaged = m_colours != Colours::Palette &&
                          static_cast<double>(part.width) * part.height <= kMostPixelsAveraged &&
                          (width < part.width || height < part.height);
    options.eResampleAlg = averaged ? GRIORA_Average : GRIORA_NearestNeighbour;
    Listening listening{&progress, nullptr};
    options.pfnProgress = Listening::report;
    options.pProgressData = &listening;

    const gdal::ErrorCapture said;
    const CPLErr result = band ? GDALRasterIOEx(band, GF_Read, part.x, part.y, part.width, part.height, target, width,
                                                height, static_cast<GDALDataType>(type), spacing,
                                                static_cast<GSpacing>(spacing) * width, &options)
                               : CE_Failure;
    if (listening.thrown)
        std::rethrow_exception(listening.thrown);
    const auto& messages = said.messages();
    const auto lost = std::find_if(messages.begin(), messages.end(), meansLostPixels);
    if (result != CE_None || lost != messages.end())
        throw Fault{"The picture cannot be decoded. " +
                        withDot(lost != messages.end() ? lost->text : said.firstError("The reason is not known")),
                    m_path + ", columns " + std::to_string(part.x) + " to " + std::to_string(part.x + part.width - 1) +
                        ", rows " + std::to_string(part.y) + " to " + std::to_string(part.y + part.height - 1),
                    "The file is damaged or cut off there: get it again from its source."};
}

void GdalPixels::readAlpha(std::size_t level, PixelRect part, int width, int height, std::uint8_t* target, int spacing,
                           const Progress& progress) const {
    if (m_coverage == Coverage::MaskBand) {
        void* band = bandAt(level, m_colourBands.front());
        readBand(band ? GDALGetMaskBand(band) : nullptr, part, width, height, target, GDT_Byte, spacing, progress);
        return;
    }
    void* band = bandAt(level, m_alphaBand);
    if (band && GDALGetRasterDataType(band) == GDT_Byte) {
        readBand(band, part, width, height, target, GDT_Byte, spacing, progress);
        return;
    }
    std::vector<float> alpha(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    readBand(band, part, width, height, alpha.data(), GDT_Float32, sizeof(float), progress);
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
    readBand(bandAt(level, m_alphaBand), {0, 0, m_levels[level].width, m_levels[level].height}, width, height,
             alpha.data(), GDT_Float32, sizeof(float), progress);
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

Pixels GdalPixels::readBytes(std::size_t level, PixelRect part, int width, int height, const Progress& progress) const {
    Pixels result;
    result.image.width = width;
    result.image.height = height;
    result.image.pixels.assign(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 4, 255);
    std::uint8_t* const target = result.image.pixels.data();
    for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour)
        readBand(bandAt(level, m_colourBands[colour]), part, width, height, target + colour, GDT_Byte, 4, progress);

    const std::size_t end = result.image.pixels.size();
    if (m_coverage == Coverage::AlphaBand || m_coverage == Coverage::MaskBand)
        readAlpha(level, part, width, height, target + 3, 4, progress);
    else if (m_coverage == Coverage::NoData)
        for (std::size_t at = 0; at < end; at += 4) {
            bool nothing = true;
            for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour)
                nothing = nothing && isNoData(colour, target[at + colour]);
            target[at + 3] = nothing ? 0 : 255;
        }
    if (m_colours == Colours::Grey)
        for (std::size_t at = 0; at < end; at += 4)
            target[at + 1] = target[at + 2] = target[at];

    result.opaque = true;
    if (m_coverage != Coverage::Everywhere)
        for (std::size_t at = 3; at < end; at += 4)
            result.opaque = result.opaque && target[at] == 255;
    return result;
}

GdalPixels::Values GdalPixels::readValues(std::size_t level, PixelRect part, int width, int height,
                                          const Progress& progress) const {
    const std::size_t count = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    Values values;
    for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour) {
        values.bands[colour].resize(count);
        readBand(bandAt(level, m_colourBands[colour]), part, width, height, values.bands[colour].data(), GDT_Float32,
                 sizeof(float), progress);
    }
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
    for (std::size_t colour = 0; colour < m_colourBands.size(); ++colour) {
        std::vector<float> sorted;
        for (std::size_t index = 0; index < values.alpha.size(); ++index)
            if (values.alpha[index] > 0 && std::isfinite(values.bands[colour][index]))
                sorted.push_back(values.bands[colour][index]);
        Range range{0.0, 1.0};
        if (!sorted.empty()) {
            const auto percentile = [&](double share) {
                const auto at =
                    sorted.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(sorted.size() - 1));
                std::nth_element(sorted.begin(), at, sorted.end());
                return static_cast<double>(*at);
            };
            range.low = percentile(0.02);
            range.high = percentile(0.98);
        }
        if (!(range.high > range.low))
            range.high = range.low + 1.0; // all of one value
        m_ranges.push_back(range);
    }
}

Pixels GdalPixels::readStretched(std::size_t level, PixelRect part, int width, int height, const Progress& progress) {
    findFullAlpha(progress);
    if (m_colours != Colours::Palette && m_ranges.empty())
        findRanges(progress);
    const Values values = readValues(level, part, width, height, progress);
    Pixels result;
    result.opaque = true;
    result.image.width = width;
    result.image.height = height;
    result.image.pixels.resize(values.alpha.size() * 4);
    for (std::size_t index = 0; index < values.alpha.size(); ++index) {
        std::uint8_t* const pixel = &result.image.pixels[index * 4];
        pixel[3] = values.alpha[index];
        if (m_colours == Colours::Palette) {
            const float entry = values.bands[0][index];
            if (pixel[3] != 0 && entry >= 0 && entry < static_cast<float>(m_palette.size())) {
                const auto& colour = m_palette[static_cast<std::size_t>(entry)];
                std::copy(colour.begin(), colour.begin() + 3, pixel);
                pixel[3] = std::min(pixel[3], colour[3]);
            } else {
                pixel[3] = 0;
            }
        } else {
            for (std::size_t band = 0; band < 3; ++band) {
                const std::size_t colour = std::min(band, m_colourBands.size() - 1);
                const Range& range = m_ranges[colour];
                const double share = (values.bands[colour][index] - range.low) / (range.high - range.low);
                pixel[band] = static_cast<std::uint8_t>(share > 0 ? std::min(share, 1.0) * 255.0 + 0.5 : 0.0);
            }
        }
        result.opaque = result.opaque && pixel[3] == 255;
    }
    return result;
}

Pixels GdalPixels::read(std::size_t level, PixelRect part, int width, int height, const Progress& progress) {
    return m_plainBytes ? readBytes(level, part, width, height, progress)
                        : readStretched(level, part, width, height, progress);
}

} // namespace fencewright::raster::detail
