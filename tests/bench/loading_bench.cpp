// A million parcels: reading them, against a plain loop over the features of the same file.

#include "bench/bar.h"
#include "reference/layer_cache.h"

#include <gdal_priv.h>
#include <ogrsf_frmts.h>

#include <chrono>
#include <stdexcept>

using namespace fencewright;
using namespace fencewright::bench;
namespace fs = std::filesystem;

namespace {

double ours(const Options& options, const fs::path& file) {
    const reference::LayerCache cache{options.data / "freshly-kept-layers"};
    fs::remove_all(cache.folder);
    exchange::ReadRequest request;
    request.path = file.string();
    // Until it can be drawn: its attributes are read on.
    double drawable = 0.0;
    const auto begin = std::chrono::steady_clock::now();
    const auto layer =
        reference::openLayer(FENCEWRIGHT_BUILD "/bin/fencewright-cli", request, cache, {}, {}, [&](const auto& shown) {
            if (shown->size() == 1'000'000)
                drawable = std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
        });
    if (layer->size() != 1'000'000 || drawable == 0.0)
        throw std::runtime_error{"not all parcels were read"};
    return drawable;
}

double plainLoop(const fs::path& file) {
    return milliseconds([&] {
        const GDALDatasetUniquePtr data{GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR)};
        if (!data)
            throw std::runtime_error{CPLGetLastErrorMsg()};
        OGRLayer* layer = data->GetLayer(0);
        std::vector<const char*> ignored;
        for (int i = 0; i < layer->GetLayerDefn()->GetFieldCount(); ++i)
            ignored.push_back(layer->GetLayerDefn()->GetFieldDefn(i)->GetNameRef());
        ignored.push_back(nullptr);
        layer->SetIgnoredFields(ignored.data());
        std::size_t corners = 0;
        for (const auto& feature : *layer)
            corners += std::size_t(feature->GetGeometryRef()->toPolygon()->getExteriorRing()->getNumPoints());
        if (corners != 9'000'000)
            throw std::runtime_error{"not all corners were read"};
    });
}

std::function<Figures(const Options&)> against(const char* file) {
    return [file](const Options& options) {
        const fs::path path = options.data / file;
        return interleaved(
            options.quick ? 3 : 5, [&] { return ours(options, path); }, [&] { return plainLoop(path); });
    };
}

} // namespace

int main(int argc, char** argv) {
    GDALAllRegister();
    return runBars(
        argc, argv,
        {{"1,000,000 parcels, GeoPackage in WGS 84: file to ready-to-draw, against a geometry-only feature loop", "ms",
          Sense::AtMost, 0.8, against("parcels-wgs84.gpkg")},
         {"the same, GeoPackage in UTM (with the transformation)", "ms", Sense::AtMost, 0.8,
          against("parcels-utm.gpkg")},
         {"the same, Shapefile", "ms", Sense::AtMost, 1.5, against("parcels-shapefile/parcels.shp")}});
}
