#pragma once

#include "raster/dataset.h"

#include <mutex>
#include <optional>
#include <string>

namespace fencewright::session {

/// A raster that whoever looked at it first left open, for the one thread that goes on with it: opening one takes
/// longer than reading a tile of it. Safe on any thread.
class SpareDataset {
public:
    SpareDataset(raster::Dataset dataset, std::string path, raster::OpenOptions options)
        : m_dataset{std::move(dataset)}, m_path{std::move(path)}, m_options{std::move(options)} {}

    /// Nothing: somebody took it before, or it was opened in another way.
    [[nodiscard]] std::optional<raster::Dataset> take(const std::string& path, const raster::OpenOptions& options) {
        const std::lock_guard lock{m_mutex};
        return path == m_path && options == m_options ? std::exchange(m_dataset, std::nullopt) : std::nullopt;
    }

private:
    std::mutex m_mutex;
    std::optional<raster::Dataset> m_dataset;
    const std::string m_path;
    const raster::OpenOptions m_options;
};

} // namespace fencewright::session
