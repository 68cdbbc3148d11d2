#pragma once

#include "raster/tile_server.h"

#include <map>
#include <string>

namespace fencewright::raster::detail {

/// A checked address of a server, taken apart.
struct ServerAddress {
    enum class Kind { Template, Capabilities };

    Kind kind = Kind::Capabilities;
    std::string whole;                        ///< as the document keeps it
    std::string plain;                        ///< without what stands behind '#'
    std::string server;                       ///< scheme, host, port
    std::map<std::string, std::string> words; ///< behind '#', decoded

    [[nodiscard]] std::string word(const std::string& name) const;
};

/// @throws Fault  no http or https address, secrets in it, placeholders or words that are not known.
[[nodiscard]] ServerAddress parsedAddress(std::string_view address);

/// An address as it goes out, with everything filled in.
/// @throws Fault  it cannot be read in one way only, or names more than a server.
void checkOutgoing(std::string_view address);

/// Whether both are the same server; a step from http up to https is no other one.
[[nodiscard]] bool isSameServer(std::string_view from, std::string_view to);
[[nodiscard]] bool isLoopback(std::string_view server);

[[nodiscard]] std::string percentEncoded(std::string_view text);
[[nodiscard]] std::string percentDecoded(std::string_view text);
[[nodiscard]] std::string replaced(std::string text, std::string_view placeholder, std::string_view value);

/// With one more parameter at its end: "name=value".
[[nodiscard]] std::string withParameter(std::string address, const std::string& parameter);
/// The parameter that {key} is the value of: "apikey={key}"; empty: none.
[[nodiscard]] std::string keyParameter(std::string_view plain);

} // namespace fencewright::raster::detail
