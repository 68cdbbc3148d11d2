#include "reference/table_layer.h"

#include "fault.h"
#include "reference/detail/layer_form.h"

#include <chrono>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <optional>

namespace fencewright::reference {
namespace {

using namespace detail;
namespace fs = std::filesystem;

constexpr std::uint64_t kLongestKey = std::uint64_t{1} << 22;
// Before the last line of a key: when the table was read. It is no part of what the layer is made of.
constexpr std::string_view kRead = "\nread ";

std::string now() {
    const std::time_t seconds = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm parts{};
    gmtime_r(&seconds, &parts);
    char text[64];
    std::strftime(text, sizeof text, "%Y-%m-%d %H:%M UTC", &parts);
    return text;
}

/// What the kept layer says it was made of; nothing where there is none.
std::optional<std::string> keptKey(const fs::path& path) {
    std::ifstream file{path, std::ios::binary};
    FileHead head;
    if (!file.read(reinterpret_cast<char*>(&head), sizeof head) || head.magic != kMagic || head.keyBytes > kLongestKey)
        return std::nullopt;
    std::string key(static_cast<std::size_t>(head.keyBytes), '\0');
    if (!file.read(key.data(), static_cast<std::streamsize>(key.size())))
        return std::nullopt;
    return key;
}

/// The kept layer where it is whole and its key begins so.
std::optional<TableLayer> kept(const fs::path& path, const std::string& beginning) {
    const std::optional<std::string> key = keptKey(path);
    const std::size_t end = key ? key->rfind(kRead) : std::string::npos;
    if (end == std::string::npos || !key->starts_with(beginning))
        return std::nullopt;
    try {
        return TableLayer{std::make_shared<const Layer>(path.string(), *key), key->substr(end + kRead.size()), {}};
    } catch (const Fault&) {
        return std::nullopt; // damaged, or of another version: made anew
    }
}

} // namespace

TableLayer openTableLayer(const std::string& reader, const exchange::ReadRequest& request, const LayerCache& cache,
                          const exchange::ChildLimits& limits, const Progress& progress) {
    const fs::path path = layerPath(cache, request);
    const std::string identity = layerKey(request);
    try {
        const std::string state = exchange::stateOfTableApart(reader, request, limits, progress);
        const std::string beginning = identity + state;
        if (!state.empty())
            if (auto layer = kept(path, beginning + std::string{kRead})) {
                std::error_code ignored;
                fs::last_write_time(path, fs::file_time_type::clock::now(), ignored); // used now
                return *layer;
            }
        const std::string time = now();
        auto layer = keepLayer(
            [&](const exchange::ReadRequest& wanted, const exchange::ByteSink& take, const Progress& listening) {
                exchange::streamVectorApart(reader, wanted, limits, take, listening);
            },
            request, cache, beginning + std::string{kRead} + time, progress);
        return {std::move(layer), time, {}};
    } catch (const Cancelled&) {
        throw;
    } catch (const exchange::FilterFault&) {
        throw;
    } catch (const Fault& fault) {
        if (auto layer = kept(path, identity)) {
            layer->whyKept = fault.words().problem;
            return *layer;
        }
        throw;
    }
}

TableLayer keptTableLayer(const exchange::ReadRequest& request, const LayerCache& cache, const Wording& why) {
    if (auto layer = kept(layerPath(cache, request), layerKey(request))) {
        layer->whyKept = why;
        return *layer;
    }
    throw Fault{why, request.path, phrase("core", "Connect to read it.")};
}

} // namespace fencewright::reference
