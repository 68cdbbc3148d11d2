#pragma once

#include "fault.h"
#include "progress.h"
#include "wording.h"

#include <array>
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::raster {

// Imagery of a server that the person named. Two kinds of address, which stand in the document as a source's path:
//
//   https://tiles.example.org/ortho/{z}/{x}/{y}.jpg#zoom=0-19
//       a template of tiles z/x/y in Web Mercator; {-y} counts rows from the south; "#zoom=" names the first and the
//       deepest zoom (0 to 19 unless given), "&tile=512" the pixels of a tile's side (256 unless given),
//       "&box=-7.6,46.1,-7.4,46.3" the ground it covers: west, south, east, north (the world unless given).
//   https://maps.example.org/wmts?SERVICE=WMTS&REQUEST=GetCapabilities#layer=ortho&set=GoogleMapsCompatible
//       the capabilities of a Web Map Tile Service (OGC 07-057r7), by its address or by its RESTful file; "&style=" and
//       "&format=" (the server's first unless given); "&tiles=https://cdn.example.org" where the person agreed that the
//       tiles come from another server than the capabilities.
//
// {key} stands where a key belongs. Words after '#' are percent-encoded. Neither a key nor a name and password is ever
// part of an address that is kept.

/// What opens a server's door. It is kept in memory alone: in no document, no setting, no message.
struct Credentials {
    std::string user{};
    std::string password{};
    std::string key{}; ///< stands where the address says {key}

    [[nodiscard]] bool empty() const { return user.empty() && password.empty() && key.empty(); }
    bool operator==(const Credentials&) const = default;
};

/// Whether a source's path is the address of a server of tiles and not a file.
[[nodiscard]] bool isServerAddress(std::string_view path);
/// Whether it has a place for a key.
[[nodiscard]] bool wantsKey(std::string_view address);
/// Scheme, host and port of an address: what credentials belong to.
[[nodiscard]] std::string serverOf(std::string_view address);

struct TypedAddress {
    std::string address; ///< with {key} where a key was
    Credentials credentials;
};
/// What a person typed or pasted, with what is secret in it set apart: a name and password before the host, the value
/// of a parameter that is called key, token or the like.
/// @throws Fault  no http or https address, control characters, too long. Names nothing secret.
[[nodiscard]] TypedAddress withoutSecrets(std::string_view typed);

/// Bounds on what is asked of servers and kept of their answers.
struct ServerRules {
    std::filesystem::path tileFolder{};            ///< where tiles are kept; empty: nowhere
    std::uint64_t tileFolderBytes = 1ULL << 30;    ///< what was not used for longest goes first
    std::chrono::seconds tileAge{7 * 24 * 3600};   ///< how long a kept tile is taken for new where the server is silent
    std::chrono::milliseconds connectTime{10'000}; ///< until a server has to answer at all
    std::chrono::milliseconds answerTime{30'000};  ///< until an answer has to be whole
    std::chrono::milliseconds restTime{5'000};     ///< a server that did not answer is not asked again for so long
};

/// The way to servers, shared by all who open their imagery: what is secret, kept tiles, read capabilities. Safe on any
/// thread.
class ServerAccess {
public:
    explicit ServerAccess(ServerRules rules = {});
    ~ServerAccess();
    ServerAccess(const ServerAccess&) = delete;
    ServerAccess& operator=(const ServerAccess&) = delete;

    /// The person named this server, or agreed to it: from now on it is asked. No other one is, so that a document from
    /// elsewhere reaches nobody.
    void allow(std::string_view address);
    [[nodiscard]] bool isAllowed(std::string_view address) const;
    /// For all addresses of the same server, from the next request on.
    void setCredentials(std::string_view address, Credentials credentials);
    [[nodiscard]] Credentials credentials(std::string_view address) const;
    /// Capabilities are read anew, and a server that did not answer is asked again at once.
    void forget(std::string_view address);

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
    friend class ServerConversation; // of raster/detail
};

/// One layer of a Web Map Tile Service.
struct ServerLayer {
    std::string name;
    std::string title;
    struct Style {
        std::string name;
        std::string title;
    };
    std::vector<Style> styles; ///< the server's first choice first
    /// A grid of tiles that it is offered in and that can be shown.
    struct Grid {
        std::string name;
        std::string crs; ///< as the server names it
    };
    std::vector<Grid> grids;                  ///< Web Mercator first; empty: none can be shown
    Wording reason;                           ///< why none can be shown; empty where one can
    std::string tileServer;                   ///< scheme and host its tiles come from
    std::optional<std::array<double, 4>> box; ///< west, south, east, north in degrees
};
struct ServerDescription {
    std::string address; ///< of its capabilities, with what a typed one lacked
    std::string title;
    std::vector<ServerLayer> layers; ///< in the server's order
};

/// What a Web Map Tile Service offers.
/// @param address  of its capabilities, or of the service itself; words after '#' do not matter.
/// @throws Fault  not reachable, wants credentials, no capabilities, or hostile ones. Cancelled.
[[nodiscard]] ServerDescription describeServer(const std::string& address, const ServerAccess& access,
                                               const Progress& progress = {});

/// The address of one layer, to be opened by Dataset. If its tiles come from another server, that one is part of it.
[[nodiscard]] std::string layerAddress(const std::string& capabilities, const ServerLayer& layer,
                                       const std::string& style, const std::string& grid);

} // namespace fencewright::raster
