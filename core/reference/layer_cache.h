#pragma once

#include "exchange/vector_reader.h"
#include "reference/layer.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>

namespace fencewright::reference {

/// Where layers are kept, and how much of them.
struct LayerCache {
    std::filesystem::path folder;
    std::uint64_t byteLimit = std::uint64_t{8} << 30;  ///< of all; the ones not used for longest go first
    std::uint64_t layerLimit = std::uint64_t{6} << 30; ///< of one
};

/// What a layer file is made of: the file's path, size and time of change, those of the files that belong to it, and
/// all of the request that matters. Of a table in a database only the latter: its state is the server's to tell.
/// @throws Fault  the file is not there.
[[nodiscard]] std::string layerKey(const exchange::ReadRequest& request);
/// Where the layer of that request is kept, whatever state of its file it was made of.
[[nodiscard]] std::filesystem::path layerPath(const LayerCache& cache, const exchange::ReadRequest& request);

/// Takes a layer that can be drawn, before its attributes are read: see Layer::GeometryAt.
using DrawableSink = std::function<void(std::shared_ptr<const Layer>)>;

/// The layer as it was kept, or else read by a child process (see exchange::streamVectorApart) and kept. What is
/// damaged, or made of an earlier state of the file, is made anew.
/// @param reader  the program to start: fencewright-cli.
/// @param drawable  called once, on this thread, where the layer has to be read; the one returned has the same features
/// under the same numbers.
/// @throws Fault, exchange::MissingCrs, Cancelled
[[nodiscard]] std::shared_ptr<const Layer> openLayer(const std::string& reader, const exchange::ReadRequest& request,
                                                     const LayerCache& cache, const exchange::ChildLimits& limits,
                                                     const Progress& progress, const DrawableSink& drawable = {});

/// The same of what is read in this process, without a child.
[[nodiscard]] std::shared_ptr<const Layer> openLayer(const exchange::StreamedReading& reading,
                                                     const exchange::ReadRequest& request, const LayerCache& cache,
                                                     const Progress& progress, const DrawableSink& drawable = {});

/// Reads and keeps the layer, whatever is kept already.
/// @param key  what it is made of.
[[nodiscard]] std::shared_ptr<const Layer> keepLayer(const exchange::StreamedReading& reading,
                                                     const exchange::ReadRequest& request, const LayerCache& cache,
                                                     const std::string& key, const Progress& progress,
                                                     const DrawableSink& drawable = {});

} // namespace fencewright::reference
