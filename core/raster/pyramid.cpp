#include "raster/pyramid.h"

#include "fault.h"
#include "gdal/library.h"
#include "raster/detail/gdal_pixels.h"
#include "raster/detail/gdal_progress.h"
#include "raster/detail/open_source.h"
#include "raster/detail/stoppable_dataset.h"

#include <cpl_conv.h>
#include <cpl_string.h>
#include <gdal_priv.h>
#include <gdal_utils.h>

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>
#include <system_error>

namespace fencewright::raster {

namespace fs = std::filesystem;

namespace {

constexpr double kSmallEnough = 4096.0 * 4096.0; // pixels that are read for one picture without a wait
constexpr int kSmallestLevel = 256;              // pixels of its longer side
constexpr std::size_t kMostFiles = 100'000;
constexpr off_t kWrittenAtOnce = off_t{8} << 20;

// Removed with all that is in it, whatever happens.
class WorkFolder {
public:
    explicit WorkFolder(const fs::path& beside) {
        std::string name = (beside / ".pyramid-XXXXXX").string();
        if (!::mkdtemp(name.data()))
            throw Fault{phrase("core", "Nothing can be written here: %1.")(std::generic_category().message(errno)),
                        beside.string(), phrase("core", "Choose a folder that may be written to.")};
        m_path = name;
    }
    ~WorkFolder() {
        std::error_code ignored;
        fs::remove_all(m_path, ignored);
    }
    WorkFolder(const WorkFolder&) = delete;
    WorkFolder& operator=(const WorkFolder&) = delete;

    [[nodiscard]] const fs::path& path() const { return m_path; }

private:
    fs::path m_path;
};

/// A sentence behind another; empty: it is not known.
Wording freeRoom(const fs::path& folder) {
    std::error_code failed;
    const fs::space_info space = fs::space(folder, failed);
    return failed ? Wording{} : phrase("core", " There are %1 MB free there.")(space.available / 1'000'000);
}

// The coarser levels that are missing, as factors: each twice the one before, until one fits into a small picture.
std::vector<int> missingFactors(const std::vector<PyramidLevel>& levels) {
    const int longer = std::max(levels.front().width, levels.front().height);
    std::vector<int> factors;
    for (int factor = 2; factor <= 1 << 29; factor *= 2) {
        if (factor > levels.back().scaleX * 1.01 && factor > levels.back().scaleY * 1.01)
            factors.push_back(factor);
        if ((longer + factor - 1) / factor <= kSmallestLevel)
            break;
    }
    return factors;
}

// A mask is written as a band more: a file of overviews for a file with a mask in it has no place for masks.
gdal::DatasetHandle withMaskAsBand(GDALDataset& raster) {
    std::vector<std::string> words{"-of", "VRT", "-mask", "none"};
    for (int band = 1; band <= raster.GetRasterCount(); ++band)
        words.insert(words.end(), {"-b", std::to_string(band)});
    words.insert(words.end(), {"-b", "mask"});
    std::vector<char*> arguments;
    for (std::string& word : words)
        arguments.push_back(word.data());
    arguments.push_back(nullptr);
    GDALTranslateOptions* options = GDALTranslateOptionsNew(arguments.data(), nullptr);
    gdal::DatasetHandle wrapped{GDALTranslate("", GDALDataset::ToHandle(&raster), options, nullptr)};
    GDALTranslateOptionsFree(options);
    if (wrapped)
        GDALSetRasterColorInterpretation(GDALGetRasterBand(wrapped.get(), raster.GetRasterCount() + 1), GCI_AlphaBand);
    return wrapped;
}

bool isPhotograph(GDALDataset& raster) {
    for (int number = 1; number <= raster.GetRasterCount(); ++number) {
        GDALRasterBand& band = *raster.GetRasterBand(number);
        const bool wholeBytes =
            band.GetRasterDataType() == GDT_Byte && !band.GetMetadataItem("NBITS", "IMAGE_STRUCTURE");
        // A lossy compression would shift what stands for nothing, and the edge of what is there.
        if (!wholeBytes || band.GetColorTable() || band.GetMaskFlags() != GMF_ALL_VALID ||
            band.GetColorInterpretation() == GCI_AlphaBand)
            return false;
    }
    return true;
}

// What a picture looks like from further away; values that are names keep to the names.
const char* resamplingOf(GDALDataset& raster) {
    for (int number = 1; number <= raster.GetRasterCount(); ++number)
        if (raster.GetRasterBand(number)->GetColorTable())
            return "MODE";
    return "AVERAGE";
}

void chooseForm(GDALDataset& raster, gdal::ThreadSettings& settings) {
    settings.set("GDAL_NUM_THREADS", "ALL_CPUS");
    settings.set("GDAL_TIFF_OVR_BLOCKSIZE", "512");
    settings.set("BIGTIFF_OVERVIEW", "IF_SAFER");
    settings.set("SPARSE_OK_OVERVIEW", "YES");
    settings.set("USE_RRD", "NO");
    const int count = raster.GetRasterCount();
    if (isPhotograph(raster)) {
        settings.set("COMPRESS_OVERVIEW", "JPEG");
        settings.set("JPEG_QUALITY_OVERVIEW", "85");
        settings.set("INTERLEAVE_OVERVIEW", count == 3 ? "PIXEL" : "BAND");
        if (count == 3)
            settings.set("PHOTOMETRIC_OVERVIEW", "YCBCR");
        return;
    }
    const GDALDataType type = raster.GetRasterBand(1)->GetRasterDataType();
    settings.set("COMPRESS_OVERVIEW", "DEFLATE");
    settings.set("ZLEVEL_OVERVIEW", "1");
    settings.set("INTERLEAVE_OVERVIEW", "PIXEL");
    if (raster.GetRasterBand(1)->GetColorTable() == nullptr)
        settings.set("PREDICTOR_OVERVIEW", GDALDataTypeIsFloating(type) ? "3" : "2");
}

void build(GDALDataset& raster, const std::string& path, std::vector<int> factors, const fs::path& target,
           const Progress& progress) {
    gdal::ThreadSettings settings;
    chooseForm(raster, settings);
    std::vector<int> bands;
    for (int number = 1; number <= raster.GetRasterCount(); ++number)
        bands.push_back(number);

    const gdal::ErrorCapture said;
    detail::GdalProgress listening{&progress, "Building the pyramid"};
    CPLErr result = CE_Failure;
    const std::unique_ptr<GDALDataset> stoppable = detail::stoppable(raster, listening);
    {
        // Not of the data set itself, which would put them where it lies, or into itself.
        GDALDefaultOverviews overviews;
        overviews.Initialize(stoppable.get(), target.string().c_str());
        result = overviews.BuildOverviews(
            target.string().c_str(), resamplingOf(raster), static_cast<int>(factors.size()), factors.data(),
            static_cast<int>(bands.size()), bands.data(), detail::GdalProgress::report, &listening, nullptr);
    } // writes the last blocks
    if (listening.thrown)
        std::rethrow_exception(listening.thrown);
    const std::string error = said.firstError("");
    if (result != CE_None || !error.empty())
        throw Fault{phrase("core", "The pyramid cannot be built: %1.%2")(
                        error.empty() ? Wording{phrase("core", "the reason is not known")} : Wording{error},
                        freeRoom(target.parent_path())),
                    path, phrase("core", "Make room on the disk, or have the pyramid kept in another folder.")};
}

// So that after a power cut there is a whole file under the name or none. In pieces: all at once can take longer than a
// person who stops it waits.
void toDisk(const fs::path& path, const Progress& progress) {
    struct Descriptor {
        int number;
        ~Descriptor() {
            if (number >= 0)
                ::close(number);
        }
    } const file{::open(path.c_str(), O_RDONLY | O_CLOEXEC)};
    std::error_code unknown;
    const auto size = static_cast<off_t>(fs::file_size(path, unknown));
    for (off_t at = 0; file.number >= 0 && !unknown && at < size; at += kWrittenAtOnce) {
        progress.report(1, phrase("core", "Building the pyramid"));
        // What fails here fails again below.
        (void)::sync_file_range(file.number, at, kWrittenAtOnce,
                                SYNC_FILE_RANGE_WAIT_BEFORE | SYNC_FILE_RANGE_WRITE | SYNC_FILE_RANGE_WAIT_AFTER);
    }
    if (file.number < 0 || ::fsync(file.number) != 0)
        throw Fault{phrase("core", "The pyramid cannot be written: %1.%2")(std::generic_category().message(errno),
                                                                           freeRoom(path.parent_path())),
                    path.string(), phrase("core", "Make room on the disk.")};
}

// The last pixel of each level: what was not written whole cannot be read there.
void readBack(const std::string& raster, const fs::path& pyramid) {
    OpenOptions options;
    options.pyramid = pyramid.string();
    const auto pixels = detail::openSource(raster, options);
    for (std::size_t level = 1; level < pixels->levels().size(); ++level) {
        const PyramidLevel& last = pixels->levels()[level];
        (void)pixels->read(level, {last.width - 1, last.height - 1, 1, 1}, 1, 1, {});
    }
}

} // namespace

bool wantsPyramid(const Dataset& dataset) {
    const PyramidLevel& coarsest = dataset.levels().back();
    return static_cast<double>(coarsest.width) * coarsest.height > kSmallEnough;
}

fs::path pyramidPath(const fs::path& cacheFolder, const std::string& raster) {
    const std::string path = detail::existing(raster);
    std::string state = detail::stateOf(path);
    if (fs::is_directory(path)) {
        std::vector<std::string> files;
        for (const fs::directory_entry& entry : fs::directory_iterator{path}) {
            if (files.size() >= kMostFiles)
                break;
            if (entry.is_regular_file())
                files.push_back(detail::stateOf(entry.path().string()));
        }
        std::sort(files.begin(), files.end());
        for (const std::string& file : files)
            state += '\n' + file;
    }
    return cacheFolder / (detail::digest(state) + ".ovr");
}

fs::path pyramidBeside(const std::string& raster) {
    fs::path path = fs::path{raster}.lexically_normal();
    if (!path.has_filename())
        path = path.parent_path(); // a folder, written with a slash at the end
    return path.string() + ".ovr";
}

void buildPyramid(const std::string& raster, const fs::path& to, const Progress& progress) {
    const std::string path = detail::existing(raster);
    const auto source = detail::openSource(path, {});
    auto* const pixels = dynamic_cast<detail::GdalPixels*>(source.get());
    const std::vector<int> factors = missingFactors(source->levels());
    if (!pixels || factors.empty())
        throw Fault{phrase("core", "This raster has its coarser pictures already."), path,
                    phrase("core", "Use it as it is.")};
    progress.report(0, phrase("core", "Building the pyramid"));

    GDALDataset* dataset = GDALDataset::FromHandle(pixels->handle());
    gdal::DatasetHandle wrapped;
    if (const int flags = dataset->GetRasterBand(1)->GetMaskFlags();
        (flags & GMF_PER_DATASET) && !(flags & GMF_ALPHA)) {
        wrapped = withMaskAsBand(*dataset);
        if (!wrapped)
            throw Fault{phrase("core", "The mask of the raster cannot be read."), path,
                        phrase("core", "Give it an alpha band instead of a mask.")};
        dataset = GDALDataset::FromHandle(wrapped.get());
    }

    const fs::path folder = to.has_parent_path() ? to.parent_path() : fs::path{"."};
    std::error_code failed;
    fs::create_directories(folder, failed);
    if (failed)
        throw Fault{phrase("core", "The folder for the pyramid cannot be made: %1.")(failed.message()), folder.string(),
                    phrase("core", "Choose a folder that may be written to.")};
    const WorkFolder work{folder};
    const fs::path unfinished = work.path() / "levels";
    build(*dataset, path, factors, unfinished, progress);
    const fs::path built = unfinished.string() + ".ovr";
    readBack(path, built);
    toDisk(built, progress);
    progress.report(1, phrase("core", "Building the pyramid"));
    fs::rename(built, to, failed);
    if (failed)
        throw Fault{phrase("core", "The pyramid cannot be given its name: %1.")(failed.message()), to.string(),
                    phrase("core", "Look what is in its place.")};
}

} // namespace fencewright::raster
