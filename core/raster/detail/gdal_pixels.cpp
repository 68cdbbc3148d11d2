#include "raster/detail/gdal_pixels.h"

#include "fault.h"
#include "gdal/library.h"
#include "raster/detail/format_table.h"
#include "raster/detail/vrt_sources.h"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <filesystem>

namespace fencewright::raster::detail {

namespace {

constexpr int kMostBands = 256;
constexpr int kMostOverviews = 40;
constexpr double kLargestBlock = 512.0 * 1024 * 1024; // bytes; a block is decoded in one piece
constexpr double kLargestCoarseView = 1e11;           // pixels; more would be hours of reading for one picture
constexpr double kLargestPlainPicture = 1e9;          // pixels of a PNG or JPEG, which may need all of it in memory

[[noreturn]] void refuse(const std::string& path, const Wording& problem, const Wording& remedy) {
    throw Fault{problem, path, remedy};
}

std::string withDot(std::string text) { return text.empty() || text.back() == '.' ? text : text + "."; }
Wording saidOr(const gdal::ErrorCapture& said, const Phrase& otherwise) {
    const std::string error = withDot(said.firstError(""));
    return error.empty() ? Wording{otherwise} : Wording{error};
}

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

bool finite(const std::array<double, 6>& numbers) {
    return std::all_of(numbers.begin(), numbers.end(), [](double number) { return std::isfinite(number); });
}

} // namespace

GdalPixels::GdalPixels(const std::string& path, const Appearance& appearance, const std::string& pyramid)
    : m_path{path} {
    open();
    describe(appearance, pyramid);
}

GdalPixels::GdalPixels(Opened opened, const Appearance& appearance, const std::string& pyramid)
    : m_path{std::move(opened.path)}, m_dataset{std::move(opened.dataset)} {
    m_header.format = std::move(opened.format);
    m_header.notes = std::move(opened.notes);
    m_header.state = std::move(opened.state);
    describe(appearance, pyramid);
}

void GdalPixels::describe(const Appearance& appearance, const std::string& pyramid) {
    describePlace();
    describeBands();
    findColours(appearance);
    findLevels();
    if (!pyramid.empty())
        addPyramid(pyramid);
    if (static_cast<double>(m_levels.back().width) * m_levels.back().height > kLargestCoarseView)
        refuse(m_path,
               phrase("core", "The raster says it has %1 x %2 pixels and no overviews: too many to show.")(
                   m_header.width, m_header.height),
               phrase("core", "Build overviews for it, or cut out the part that is needed."));
}

void GdalPixels::open() {
    gdal::prepareLibrary();
    if (isVirtualMosaic(m_path))
        checkVirtualMosaic(m_path);

    const gdal::ErrorCapture said;
    m_dataset = openWith(m_path);
    if (!m_dataset)
        refuse(m_path,
               phrase("core", "This is no raster that can be read. %1")(
                   saidOr(said, phrase("core", "The format is not known."))),
               phrase("core", "Formats that are read: %1.")(formatNames()));
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
            refuse(m_path, phrase("core", "There is no raster in this file."),
                   phrase("core", "Formats that are read: %1.")(formatNames()));
    }

    m_header.format = format;
    // Overviews may lie in a file that the raster names; it is theirs only if it lies beside it.
    const char* overviews = GDALGetMetadataItem(m_dataset.get(), "OVERVIEW_FILE", "OVERVIEWS");
    if (overviews && std::string_view{overviews}.find_first_of("/\\") != std::string_view::npos)
        refuse(m_path, phrase("core", "The raster keeps its overviews in another place: %1.")(overviews),
               phrase("core", "Delete the .aux.xml file beside it, or put the overviews into the raster."));
}

void GdalPixels::describePlace() {
    m_header.width = GDALGetRasterXSize(m_dataset.get());
    m_header.height = GDALGetRasterYSize(m_dataset.get());
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
        refuse(m_path, phrase("core", "The raster says it has %1 bands; up to 256 are read.")(count),
               phrase("core", "Extract the bands that are to be shown into a raster of their own."));
    const double area = static_cast<double>(m_header.width) * m_header.height;
    const std::string driver = GDALGetDriverShortName(GDALGetDatasetDriver(m_dataset.get()));
    if ((driver == "PNG" || driver == "JPEG") && area > kLargestPlainPicture)
        refuse(m_path,
               phrase("core", "The picture says it has %1 x %2 pixels, too many for its format.")(m_header.width,
                                                                                                  m_header.height),
               phrase("core", "Convert it to a tiled GeoTIFF."));

    double blockBytes = 0;
    for (int number = 1; number <= count; ++number) {
        GDALRasterBandH band = GDALGetRasterBand(m_dataset.get(), number);
        const GDALDataType type = GDALGetRasterDataType(band);
        if (GDALDataTypeIsComplex(type))
            refuse(m_path, phrase("core", "Band %1 holds complex numbers, which are no picture.")(number),
                   phrase("core", "Convert the raster to amplitudes first."));
        int blockWidth = 0;
        int blockHeight = 0;
        GDALGetBlockSize(band, &blockWidth, &blockHeight);
        blockBytes += static_cast<double>(blockWidth) * blockHeight * GDALGetDataTypeSizeBytes(type);
        m_pixelBytes += GDALGetDataTypeSizeBytes(type);

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
               phrase("core", "The raster says that its blocks have %1 MB; one has to be decoded in one piece.")(
                   static_cast<long long>(blockBytes / 1e6)),
               phrase("core", "Convert it to a tiled GeoTIFF."));
}

void GdalPixels::takeBands(const std::array<int, 3>& bands) {
    const int count = GDALGetRasterCount(m_dataset.get());
    for (const int number : bands)
        if (number < 1 || number > count)
            refuse(m_path,
                   phrase("core", "There is no band %1: the raster has %2")(
                       number,
                       count == 1 ? Wording{phrase("core", "one band.")} : Wording{phrase("core", "%1 bands.")(count)}),
                   phrase("core", "Choose the bands to show as red, green and blue from 1 to %1.")(count));
    m_colours = Colours::Rgb;
    m_colourBands.assign(bands.begin(), bands.end());
}

void GdalPixels::findColours(const Appearance& appearance) {
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
        takeBands(rgb);
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
    m_usualBands = m_colourBands;
    if (appearance.bands)
        takeBands(*appearance.bands);

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
    if (appearance.stretch) {
        const auto [low, high] = *appearance.stretch;
        if (!std::isfinite(low) || !std::isfinite(high) || !(low < high))
            refuse(m_path,
                   phrase("core", "The values to be shown as black and as white are not two numbers in rising order."),
                   phrase("core", "Give a smaller value for black and a larger one for white."));
        m_ranges.assign(m_colourBands.size(), Range{low, high});
    }
    const bool byteAlpha =
        !m_alphaBand || GDALGetRasterDataType(GDALGetRasterBand(m_dataset.get(), m_alphaBand)) == GDT_Byte;
    m_bytes = bytes && byteAlpha;
    if (m_bytes)
        makeTables();

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

// Of JPEG 2000, unless overviews of the usual kind were put beside it.
bool GdalPixels::hasWaveletLevels() const {
    return GDALGetDatasetDriver(m_dataset.get()) == GDALGetDriverByName("JP2OpenJPEG") &&
           !GDALGetMetadataItem(m_dataset.get(), "OVERVIEW_FILE", "OVERVIEWS");
}

void GdalPixels::addLevel(void* dataset, int overview, int width, int height) {
    PyramidLevel level{
        width, height, static_cast<double>(m_header.width) / width, static_cast<double>(m_header.height) / height,
        0,     0};
    if (dataset == m_dataset.get() && overview >= 0 && hasWaveletLevels()) {
        // A wavelet's coarser picture takes the place of every second pixel of the finer, from the first on (ISO/IEC
        // 15444-1, annex F), not of a square of four: its pixels lie where those do.
        const double factor = std::exp2(overview + 1);
        level.scaleX = level.scaleY = factor;
        level.offsetX = level.offsetY = 0.5 / factor - 0.5;
    }
    const Place place{dataset, overview, dataset != m_dataset.get(), nullptr, kMask};
    m_levels.push_back(level);
    m_places.push_back(place);
    const std::size_t index = m_levels.size() - 1;
    const int count = GDALGetRasterCount(m_dataset.get());

    std::vector<int> bands = m_colourBands;
    if (m_coverage == Coverage::AlphaBand)
        bands.push_back(m_alphaBand);
    GDALRasterBandH first = bandAt(index, bands.front());
    GDALDatasetH together = first ? GDALGetBandDataset(first) : nullptr;
    for (const int number : bands) {
        GDALRasterBandH band = bandAt(index, number);
        int blockWidth = 0;
        int blockHeight = 0;
        if (band)
            GDALGetBlockSize(band, &blockWidth, &blockHeight);
        // An overview that is not a smaller picture of the same ground, or not there in all bands, ends the pyramid:
        // what comes after it could not be addressed by one index any more.
        if (!band || GDALGetRasterBandXSize(band) != width || GDALGetRasterBandYSize(band) != height ||
            static_cast<double>(blockWidth) * blockHeight * m_pixelBytes > kLargestBlock) {
            m_levels.pop_back();
            m_places.pop_back();
            return;
        }
        if (together && (GDALGetRasterCount(together) < number || GDALGetRasterBand(together, number) != band))
            together = nullptr;
    }
    m_places.back().together = together;
    if (m_coverage != Coverage::MaskBand || index == 0)
        return;
    // The mask of a level is a mask too, or else one band more (see buildPyramid).
    GDALDatasetH own = GDALGetBandDataset(first);
    if (own && GDALGetRasterCount(own) == count + 1) {
        m_places.back().dataset = own;
        m_places.back().overview = -1;
        m_places.back().coverageBand = count + 1;
    } else if (GDALGetMaskFlags(first) & GMF_ALL_VALID) {
        m_levels.pop_back();
        m_places.pop_back();
    }
}

void GdalPixels::findLevels() {
    addLevel(m_dataset.get(), -1, m_header.width, m_header.height);
    const auto& first = m_header.bands[static_cast<std::size_t>(m_colourBands.front() - 1)].overviews;
    for (std::size_t index = 0; index < first.size(); ++index) {
        const auto [width, height] = first[index];
        const PyramidLevel& finer = m_levels.back();
        const bool alike =
            width > 0 && height > 0 && width <= finer.width && height <= finer.height &&
            (width < finer.width || height < finer.height) &&
            std::abs(static_cast<double>(width) * m_header.height - static_cast<double>(height) * m_header.width) <=
                1.5 * std::max(m_header.width, m_header.height);
        const std::size_t before = m_levels.size();
        if (alike)
            addLevel(m_dataset.get(), static_cast<int>(index), width, height);
        if (m_levels.size() == before)
            break;
    }
}

// The file that GDAL writes for overviews: the first is the file's own picture, the others are its overviews.
void GdalPixels::addPyramid(const std::string& path) {
    const auto doesNotFit = [&](const Wording& problem) {
        refuse(path, phrase("core", "This pyramid cannot be used with the raster %1. %2")(m_path, problem),
               phrase("core", "Have it built again."));
    };
    m_pyramidPath = path;
    const gdal::ErrorCapture said;
    const char* const drivers[] = {"GTiff", nullptr};
    m_pyramid.reset(
        GDALOpenEx(path.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY | GDAL_OF_VERBOSE_ERROR, drivers, nullptr, nullptr));
    if (!m_pyramid)
        doesNotFit(saidOr(said, phrase("core", "It cannot be read.")));
    const int count = GDALGetRasterCount(m_dataset.get());
    const int bands = GDALGetRasterCount(m_pyramid.get());
    if (bands != count && bands != count + 1)
        doesNotFit(phrase("core", "It has %1 bands and the raster %2.")(bands, count));
    for (int number = 1; number <= count; ++number)
        if (GDALGetRasterDataType(GDALGetRasterBand(m_pyramid.get(), number)) !=
            GDALGetRasterDataType(GDALGetRasterBand(m_dataset.get(), number)))
            doesNotFit(phrase("core", "Band %1 holds values of another type.")(number));
    GDALRasterBandH first = GDALGetRasterBand(m_pyramid.get(), 1);
    int factor = 0;
    for (int index = -1; index < std::min(GDALGetOverviewCount(first), kMostOverviews); ++index) {
        GDALRasterBandH band = index < 0 ? first : GDALGetOverview(first, index);
        const int width = band ? GDALGetRasterBandXSize(band) : 0;
        const int height = band ? GDALGetRasterBandYSize(band) : 0;
        const auto fits = [&](int by) {
            return width == (m_header.width - 1) / by + 1 && height == (m_header.height - 1) / by + 1;
        };
        // The first takes up where the raster's own levels end; each is half the one before, rounded up.
        int next = factor ? factor * 2 : 2;
        while (factor == 0 && next < 1 << 29 && !fits(next))
            next *= 2;
        factor = next;
        if (factor > 1 << 29 || !fits(factor))
            doesNotFit(phrase("core", "A picture in it has %1 x %2 pixels, which is no half of the one before.")(
                width, height));
        if (width < m_levels.back().width || height < m_levels.back().height)
            addLevel(m_pyramid.get(), index, width, height);
    }
}

} // namespace fencewright::raster::detail
