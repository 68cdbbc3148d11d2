#include "exchange/vector_reader.h"

#include "exchange/detail/attribute_text.h"
#include "exchange/detail/csv_columns.h"
#include "exchange/detail/database_table.h"
#include "exchange/detail/foreign_file.h"
#include "exchange/detail/layer_reading.h"
#include "exchange/detail/plain_intake.h"
#include "exchange/detail/source_layer.h"

#include <cpl_conv.h>
#include <gdal.h>
#include <ogr_api.h>

#include <new>
#include <numeric>

namespace fencewright::exchange {

namespace {

using namespace detail;

// Drivers approximate arcs of their own with chords of this angle: they part from the arc by r (1 - cos 0.25 deg), a
// hundred-thousandth of its radius.
constexpr const char* kArcStepDegrees = "0.5";

/// Options of the drivers, on this thread and while this lives.
class DriverOptions {
public:
    explicit DriverOptions(const std::string& encoding) {
        set("OGR_ARC_STEPSIZE", kArcStepDegrees);
        set("OGR_GEOJSON_MAX_OBJ_SIZE", "100"); // MiB of the text of one feature
        set("GML_FIELDTYPES", "ALWAYS_STRING"); // else parcel 007 becomes 7
        set("LIBKML_READ_GROUND_OVERLAY", "NO");
        if (!encoding.empty())
            set("DXF_ENCODING", encoding);
    }
    ~DriverOptions() {
        for (const char* key : m_keys)
            CPLSetThreadLocalConfigOption(key, nullptr);
    }
    DriverOptions(const DriverOptions&) = delete;
    DriverOptions& operator=(const DriverOptions&) = delete;

private:
    void set(const char* key, const std::string& value) {
        CPLSetThreadLocalConfigOption(key, value.c_str());
        m_keys.push_back(key);
    }
    std::vector<const char*> m_keys;
};

LayerDescription describeLayer(const ForeignFile& file, OGRLayerH layer) {
    ReadingAccount unheard; // a description has no place for notes; the reading will tell them
    LayerDescription description;
    description.name = OGR_L_GetName(layer);
    description.geometry = geometryWordsOf(layer);
    description.fields = AttributeText{layer, "", unheard}.fields();
    description.crs = crsName(crsOf(layer));
    const GIntBig count = OGR_L_TestCapability(layer, OLCFastFeatureCount) ? OGR_L_GetFeatureCount(layer, FALSE) : -1;
    if (count >= 0)
        description.features = static_cast<std::size_t>(count);
    if (file.isTable()) {
        const auto columns = findCoordinateColumns(description.fields);
        description.geometry = !columns ? "none" : columns->form == CoordinateColumns::Form::Wkt ? "mixed" : "Point";
        description.crs = columns && columns->form == CoordinateColumns::Form::LonLat ? "WGS 84" : "";
    }
    return description;
}

Fault outOfMemory(const std::string& path) {
    return {phrase("core", "The file needs more memory than there is for it."), path,
            phrase("core", "Close other programs, or cut the file into parts.")};
}

/// Whether the short way is worth a try: to open a file of some other formats is to read it all.
bool mayBePlain(const ReadRequest& request) {
    if (isDatabaseAddress(request.path) || !request.where.empty())
        return false;
    const FormatRow* row = formatRowFor(request.path);
    return row && (row->driver == "GPKG" || row->loading == Loading::ShapefileParts);
}

Fault changedMeanwhile(const std::string& path) {
    return {phrase("core", "The file changed while it was read."), path,
            phrase("core", "Read it again when nobody writes to it.")};
}

} // namespace

MissingCrs::MissingCrs(const std::string& path)
    : Fault{phrase("core", "The file does not say in which coordinate reference system (CRS) its coordinates are."),
            path, phrase("core", "Say which, such as EPSG:25829; whoever made the file knows.")} {}

VectorDescription describeVector(const std::string& path) {
    try {
        gdal::ErrorCapture said;
        const DriverOptions options{""};
        ReadingAccount unheard;
        const ForeignFile file = openForeign(path, "", unheard);
        VectorDescription description{path, std::string{file.format->name}, {}};
        auto dataset = static_cast<GDALDatasetH>(file.dataset.get());
        const bool folders = file.format->driver == "LIBKML";
        for (int i = 0; i < GDALDatasetGetLayerCount(dataset); ++i) {
            LayerDescription layer = describeLayer(file, GDALDatasetGetLayer(dataset, i));
            // Each folder of a KML document is a layer, also those that only hold other folders.
            if (!folders || layer.features != std::size_t{0})
                description.layers.push_back(std::move(layer));
        }
        return description;
    } catch (const std::bad_alloc&) {
        throw outOfMemory(path);
    }
}

VectorContent readVector(const ReadRequest& request, const Progress& progress) {
    std::vector<Feature> features;
    VectorContent content = readVectorInto(
        request, [&](Feature&& feature) { features.push_back(std::move(feature)); }, progress);
    content.features = std::move(features);
    return content;
}

VectorContent readVectorInto(const ReadRequest& request, const std::function<void(Feature&&)>& take,
                             const Progress& progress) {
    try {
        gdal::ErrorCapture said;
        const DriverOptions options{request.encoding};
        ReadingAccount account;
        progress.report(0.0, phrase("core", "Opening the file"));
        ForeignFile file = isDatabaseAddress(request.path) ? openTable(request, account)
                                                           : openForeign(request.path, request.encoding, account);
        return readLayer(request, file, account, said, take, progress);
    } catch (const std::bad_alloc&) {
        throw outOfMemory(request.path);
    }
}

void checkFilter(const ReadRequest& request, const Progress& progress) {
    struct Enough {};
    try {
        // What a filter may make of the features, it shows at the first.
        (void)readVectorInto(
            request, [](Feature&&) { throw Enough{}; }, progress);
    } catch (const Enough&) {
    }
}

BatchedAttributes readVectorInBatches(const ReadRequest& request, const GeometrySink& take, const Progress& progress) {
    std::optional<std::vector<std::size_t>> taken; // how many features of each batch, where the geometry has left
    try {
        if (!mayBePlain(request))
            throw NotPlain{};
        gdal::ErrorCapture said;
        const DriverOptions options{request.encoding};
        ReadingAccount account;
        progress.report(0.0, phrase("core", "Opening the file"));
        ForeignFile file = openForeign(request.path, request.encoding, account);
        return readLayerInBatches(
            request, file, account, said,
            [&](std::vector<FeatureBatch>&& batches, const VectorContent& about) {
                taken.emplace();
                for (const FeatureBatch& batch : batches)
                    taken->push_back(batch.size());
                take(std::move(batches), about);
            },
            progress);
    } catch (const NotPlain&) {
        // The long way, then.
    } catch (const std::bad_alloc&) {
        throw outOfMemory(request.path);
    }
    BatchedAttributes result;
    std::vector<FeatureBatch> batches;
    result.about = readVectorInto(
        request,
        [&](Feature&& feature) {
            while (batches.empty() ||
                   batches.back().size() >= (taken ? taken->at(batches.size() - 1) : FeatureBatch::kMostFeatures)) {
                if (taken && batches.size() == taken->size())
                    throw changedMeanwhile(request.path);
                batches.emplace_back();
                result.batches.emplace_back(feature.attributes.size() + 1);
            }
            batches.back().add(feature);
            AttributeBatch& columns = result.batches.back();
            columns[0].add(feature.id);
            for (std::size_t i = 0; i < feature.attributes.size(); ++i)
                columns[i + 1].add(feature.attributes[i]);
        },
        progress);
    if (!taken)
        take(std::move(batches), result.about);
    else if (std::accumulate(taken->begin(), taken->end(), std::size_t{0}) !=
             std::accumulate(batches.begin(), batches.end(), std::size_t{0},
                             [](std::size_t sum, const FeatureBatch& batch) { return sum + batch.size(); }))
        throw changedMeanwhile(request.path);
    result.batches.resize(taken ? taken->size() : result.batches.size());
    return result;
}

std::vector<VectorFormat> vectorFormats() {
    std::vector<VectorFormat> formats;
    for (const FormatRow& row : formatRows())
        formats.push_back({std::string{row.name}, {row.suffixes.begin(), row.suffixes.end()}});
    return formats;
}

} // namespace fencewright::exchange
