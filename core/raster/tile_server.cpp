#include "raster/tile_server.h"

#include "raster/detail/server_conversation.h"
#include "units/number_notation.h"

namespace fencewright::raster {

namespace {

// The grids that can be shown, Web Mercator first: no other one needs to be brought to the earth anew.
std::vector<ServerLayer::Grid> gridsOf(const detail::WmtsCapabilities& capabilities, const detail::WmtsLayer& layer,
                                       Wording& reason) {
    std::vector<ServerLayer::Grid> grids;
    for (const std::string& name : layer.sets) {
        const auto set = capabilities.sets.find(name);
        if (set == capabilities.sets.end()) {
            reason = phrase("core", "its grid %1 is not described")(name);
            continue;
        }
        if (!set->second.reason.empty()) {
            reason = phrase("core", "of its grid %1: %2")(name, set->second.reason);
            continue;
        }
        const bool mercator = set->second.crs == "EPSG:3857";
        grids.insert(mercator ? grids.begin() : grids.end(), {name, set->second.crsAsNamed});
    }
    if (!grids.empty())
        reason = {};
    else if (reason.empty())
        reason = phrase("core", "it is offered in no grid of tiles");
    return grids;
}

// OGC 07-057r7, 7.1.1: what asks a service for its capabilities. A file of them is asked for by its name.
std::string askingForCapabilities(std::string plain) {
    const std::string lower = units::lowered(plain);
    if (lower.find("getcapabilities") != std::string::npos || lower.ends_with(".xml"))
        return plain;
    for (const char* parameter : {"SERVICE=WMTS", "REQUEST=GetCapabilities"})
        plain = detail::withParameter(std::move(plain), parameter);
    return plain;
}

} // namespace

ServerAccess::ServerAccess(ServerRules rules) : m_parts{std::make_unique<Parts>(std::move(rules))} {}
ServerAccess::~ServerAccess() = default;

void ServerAccess::allow(std::string_view address) {
    const std::string server = serverOf(address);
    const std::lock_guard lock{m_parts->mutex};
    m_parts->allowed.insert(server);
}

bool ServerAccess::isAllowed(std::string_view address) const {
    const std::string server = serverOf(address);
    const std::lock_guard lock{m_parts->mutex};
    return m_parts->allowed.contains(server);
}

void ServerAccess::setCredentials(std::string_view address, Credentials credentials) {
    const std::string server = serverOf(address);
    const std::lock_guard lock{m_parts->mutex};
    m_parts->credentials[server] = std::move(credentials);
    std::erase_if(m_parts->answered, [&](const auto& entry) { return serverOf(entry.first) == server; });
}

Credentials ServerAccess::credentials(std::string_view address) const {
    const std::string server = serverOf(address);
    const std::lock_guard lock{m_parts->mutex};
    const auto known = m_parts->credentials.find(server);
    return known == m_parts->credentials.end() ? Credentials{} : known->second;
}

void ServerAccess::forget(std::string_view address) {
    const std::string server = serverOf(address);
    const std::lock_guard lock{m_parts->mutex};
    m_parts->resting.erase(server);
    std::erase_if(m_parts->answered, [&](const auto& entry) { return serverOf(entry.first) == server; });
    std::erase_if(m_parts->capabilities, [&](const auto& entry) { return serverOf(entry.first) == server; });
}

ServerDescription describeServer(const std::string& address, const ServerAccess& access, const Progress& progress) {
    detail::ServerAddress named = detail::parsedAddress(address);
    if (named.kind == detail::ServerAddress::Kind::Template)
        throw Fault{phrase("core", "This is the address of tiles and not of capabilities."), named.plain,
                    phrase("core", "It can be added as it is; there are no layers to choose from.")};
    named.plain = askingForCapabilities(named.plain);
    ServerDescription description;
    description.address = named.plain;
    ServerConversation conversation{access, std::move(named)};
    const auto capabilities = conversation.capabilities(progress);
    description.title = capabilities->title;
    for (const detail::WmtsLayer& read : capabilities->layers) {
        ServerLayer layer;
        layer.name = read.name;
        layer.title = read.title.empty() ? read.name : read.title;
        layer.styles = read.styles;
        layer.box = read.box;
        layer.grids = gridsOf(*capabilities, read, layer.reason);
        const std::string tiles =
            read.formats.empty() ? std::string{} : detail::templateOf(*capabilities, read, read.formats.front());
        if (layer.grids.empty()) {
            // said already
        } else if (read.formats.empty()) {
            layer.reason = phrase("core", "it is offered neither as PNG nor as JPEG");
        } else if (tiles.empty()) {
            layer.reason = phrase("core", "the server does not say how its tiles are asked for");
        } else {
            layer.tileServer = serverOf(tiles);
        }
        if (!layer.reason.empty())
            layer.grids.clear();
        description.layers.push_back(std::move(layer));
    }
    return description;
}

std::string layerAddress(const std::string& capabilities, const ServerLayer& layer, const std::string& style,
                         const std::string& grid) {
    const detail::ServerAddress named = detail::parsedAddress(capabilities);
    std::string address =
        named.plain + "#layer=" + detail::percentEncoded(layer.name) + "&set=" + detail::percentEncoded(grid);
    if (!style.empty())
        address += "&style=" + detail::percentEncoded(style);
    if (!detail::isSameServer(named.server, layer.tileServer))
        address += "&tiles=" + detail::percentEncoded(layer.tileServer);
    return address;
}

} // namespace fencewright::raster
