#pragma once

#include "progress.h"
#include "raster/tile_server.h"

#include <chrono>
#include <memory>
#include <optional>
#include <string>

namespace fencewright::raster::detail {

struct HttpAnswer {
    long status = 0;
    std::string type; ///< "image/png"
    std::string body;
    std::optional<std::chrono::seconds> freshFor; ///< as the server says
    bool mayBeKept = true;
};

/// The server did not answer, or not to the end: it may another time.
class NoAnswer : public Fault {
public:
    using Fault::Fault;
};

/// The one place of the program that asks the network for imagery. It asks http and https only, follows no redirection
/// to another server, and takes no more bytes and no more time than it is told. One object per thread; connections are
/// kept for the next question.
class HttpClient {
public:
    HttpClient();
    ~HttpClient();
    HttpClient(const HttpClient&) = delete;
    HttpClient& operator=(const HttpClient&) = delete;

    /// @param address  whole, with the key in it.
    /// @param place    what words call it, with nothing secret in it.
    /// @throws NoAnswer  not reachable, cut, or too slow. Fault  too large, or sent on to another server. Cancelled.
    [[nodiscard]] HttpAnswer get(const std::string& address, const Wording& place, const Credentials& credentials,
                                 std::size_t mostBytes, const ServerRules& rules, const Progress& progress);

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

} // namespace fencewright::raster::detail
