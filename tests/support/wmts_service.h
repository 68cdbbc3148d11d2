#pragma once

#include "support/loopback_server.h"

#include <string>

namespace fencewright::test {

/// How a Web Map Tile Service on this machine describes itself.
struct WmtsService {
    enum class Encoding { KeyValue, Restful };
    Encoding encoding = Encoding::KeyValue;
    std::string tileAddress;  ///< another server's address; empty: the service's own
    std::string keyParameter; ///< what its addresses want, as "token=abc"; empty: nothing
};

/// Capabilities of two layers that can be shown (in Web Mercator, and one in degrees as well), and of one that cannot.
/// Written after the schema of OGC 07-057r7 (wmts/1.0/wmtsGetCapabilities_response.xsd and wmts.xsd) from memory; the
/// grid GoogleMapsCompatible with the numbers of its Annex E.4, GoogleCRS84Quad with those of E.3.
[[nodiscard]] std::string capabilitiesOf(const std::string& address, const WmtsService& service);

/// Answers capabilities, and tiles of GoogleMapsCompatible as tilePng() and of GoogleCRS84Quad likewise; zooms 0 to 4.
[[nodiscard]] LoopbackServer::Answer wmtsAnswer(const LoopbackServer::Request& request, const std::string& address,
                                                const WmtsService& service);

} // namespace fencewright::test
