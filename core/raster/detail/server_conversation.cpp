#include "raster/detail/server_conversation.h"

#include "raster/detail/tile_decoding.h"

namespace fencewright::raster {

namespace {

constexpr std::size_t kMostTileBytes = 8U << 20;
constexpr std::size_t kMostCapabilities = 32U << 20;
constexpr std::chrono::minutes kAMoment{1};
constexpr std::chrono::hours kEmptyAge{24}; // an empty place is asked for again sooner than a picture

bool isDone(long status) { return status >= 200 && status < 300; }

// A service says that there is no tile there either by HTTP or in an exception report (OGC 07-057r7, table 27).
bool saysNothingThere(const detail::HttpAnswer& answer) {
    return answer.status == 404 || answer.status == 410 || answer.status == 204 ||
           (answer.body.size() < 65'536 && answer.body.find("TileOutOfRange") != std::string::npos);
}

std::string withKey(const std::string& address, const std::string& key) {
    return detail::replaced(address, "{key}", detail::percentEncoded(key));
}

} // namespace

ServerConversation::ServerConversation(const ServerAccess& access, detail::ServerAddress address)
    : m_access{*access.m_parts}, m_address{std::move(address)} {
    if (!access.isAllowed(m_address.server))
        throw Fault{phrase("core", "The document names the server %1, which has not been asked anything yet.")(
                        m_address.server),
                    m_address.plain, phrase("core", "Connect to it if you know it.")};
}

detail::HttpAnswer ServerConversation::ask(const std::string& address, const std::string& server, const Wording& place,
                                           std::size_t mostBytes, const Progress& progress) {
    Credentials credentials;
    {
        const std::lock_guard lock{m_access.mutex};
        const auto rest = m_access.resting.find(server);
        if (rest != m_access.resting.end() && std::chrono::steady_clock::now() < rest->second.until)
            throw detail::NoAnswer{rest->second.problem, place, rest->second.remedy};
        // What opens one server is not shown to another.
        if (const auto known = m_access.credentials.find(server); known != m_access.credentials.end())
            credentials = known->second;
    }
    if (wantsKey(address) && credentials.key.empty())
        throw Fault{phrase("core", "The server wants a key."), place,
                    phrase("core", "Connect to it and give your key.")};
    const auto letRest = [&](const Fault& fault) {
        const std::lock_guard lock{m_access.mutex};
        m_access.resting[server] = {std::chrono::steady_clock::now() + m_access.rules.restTime, fault.words().problem,
                                    fault.words().remedy};
    };
    detail::HttpAnswer answer;
    try {
        answer =
            m_client.get(withKey(address, credentials.key), place, credentials, mostBytes, m_access.rules, progress);
        if (answer.status == 429 || answer.status >= 500)
            throw detail::NoAnswer{phrase("core", "The server is busy or in trouble (HTTP status %1).")(answer.status),
                                   place, phrase("core", "Try again later, or ask whoever runs it.")};
    } catch (const detail::NoAnswer& fault) {
        letRest(fault);
        throw;
    }
    if (answer.status == 401 || answer.status == 403 || answer.status == 407)
        throw Fault{
            credentials.empty()
                ? phrase("core", "The server wants to know who asks (HTTP status %1).")(answer.status)
                : phrase("core",
                         "The server does not accept the name, password or key (HTTP status %1).")(answer.status),
            place,
            phrase("core", "Connect to it and give the name and password, or the key, that its owner gave you.")};
    return answer;
}

std::shared_ptr<const detail::WmtsCapabilities> ServerConversation::capabilities(const Progress& progress) {
    {
        const std::lock_guard lock{m_access.mutex};
        if (const auto known = m_access.capabilities.find(m_address.plain); known != m_access.capabilities.end())
            return known->second;
    }
    const detail::HttpAnswer answer =
        ask(m_address.plain, m_address.server, m_address.plain, kMostCapabilities, progress);
    if (!isDone(answer.status))
        throw Fault{phrase("core", "The server answers with HTTP status %1.")(answer.status), m_address.plain,
                    phrase("core", "Check the address of its capabilities.")};
    if (detail::isPicture(answer.body))
        throw Fault{
            phrase("core", "The server answers with a picture."), m_address.plain,
            phrase("core", "Write {z}, {x} and {y} where zoom, column and row of the tile stand in the address.")};
    auto read =
        std::make_shared<const detail::WmtsCapabilities>(detail::parsedCapabilities(answer.body, m_address.plain));
    const std::lock_guard lock{m_access.mutex};
    m_access.capabilities[m_address.plain] = read;
    return read;
}

Wording ServerConversation::placeOf(const detail::TileGrid::Level& level, std::int64_t column, std::int64_t row) const {
    return phrase("core", "%1, zoom %2, column %3, row %4")(m_address.plain, level.name, column, row);
}

detail::TileName ServerConversation::nameOf(const detail::TileGrid::Level& level, std::int64_t column,
                                            std::int64_t row) const {
    return {m_address.whole, level.name, column, row};
}

ServerConversation::Tile ServerConversation::tile(const detail::TileGrid& grid, const detail::TileGrid::Level& level,
                                                  std::int64_t column, std::int64_t row, const Progress& progress) {
    const auto now = std::chrono::system_clock::now();
    const auto kept = m_access.tiles.find(nameOf(level, column, row));
    if (kept && now < kept->freshUntil)
        return {kept->bytes, true, true, kept->freshUntil};
    return askedTile(grid, level, column, row, kept, progress);
}

std::optional<ServerConversation::Tile> ServerConversation::knock(const detail::TileGrid& grid,
                                                                  const detail::TileGrid::Level& level,
                                                                  std::int64_t column, std::int64_t row,
                                                                  const Progress& progress) {
    {
        const std::lock_guard lock{m_access.mutex};
        const auto answered = m_access.answered.find(m_address.whole);
        if (answered != m_access.answered.end() && std::chrono::steady_clock::now() < answered->second + kAMoment)
            return std::nullopt;
    }
    Tile sent = askedTile(grid, level, column, row, m_access.tiles.find(nameOf(level, column, row)), progress);
    const std::lock_guard lock{m_access.mutex};
    m_access.answered[m_address.whole] = std::chrono::steady_clock::now();
    return sent;
}

ServerConversation::Tile ServerConversation::askedTile(const detail::TileGrid& grid,
                                                       const detail::TileGrid::Level& level, std::int64_t column,
                                                       std::int64_t row, const std::optional<detail::KeptTile>& kept,
                                                       const Progress& progress) {
    const auto now = std::chrono::system_clock::now();
    std::string address = detail::replaced(grid.address, "{z}", detail::percentEncoded(level.name));
    address = detail::replaced(address, "{x}", std::to_string(column));
    address = detail::replaced(address, "{y}", std::to_string(row));
    address = detail::replaced(address, "{-y}", std::to_string(level.allRows - 1 - row));
    const Wording place = placeOf(level, column, row);
    detail::HttpAnswer answer;
    try {
        answer = ask(address, grid.tileServer, place, kMostTileBytes, progress);
    } catch (const detail::NoAnswer&) {
        if (kept) // better an old picture than none
            return {kept->bytes, true, true, kept->freshUntil};
        throw;
    }
    const auto usualAge = m_access.rules.tileAge;
    if (saysNothingThere(answer))
        return {{}, false, answer.mayBeKept, now + std::min<std::chrono::seconds>(kEmptyAge, usualAge)};
    if (!isDone(answer.status))
        throw Fault{phrase("core", "The server answers with HTTP status %1.")(answer.status), place,
                    phrase("core", "Check the address, or ask whoever runs the server.")};
    if (!detail::isPicture(answer.body))
        throw Fault{answer.type == "text/html"
                        ? Wording{phrase("core", "The server answers with a page for people and not with a picture.")}
                        : Wording{phrase("core", "The server's answer is neither a PNG nor a JPEG%1")(
                              answer.type.empty() ? Wording{"."}
                                                  : Wording{phrase("core", " but '%1'.")(answer.type.substr(0, 40))})},
                    place, phrase("core", "Check the address; some servers answer so when they want a key.")};
    const auto freshUntil = now + answer.freshFor.value_or(usualAge);
    return {std::move(answer.body), false, answer.mayBeKept, freshUntil};
}

void ServerConversation::keep(const detail::TileGrid::Level& level, std::int64_t column, std::int64_t row,
                              const Tile& tile) {
    if (!tile.wasKept && tile.mayBeKept)
        m_access.tiles.keep(nameOf(level, column, row), {tile.bytes, tile.freshUntil});
}

void ServerConversation::drop(const detail::TileGrid::Level& level, std::int64_t column, std::int64_t row) {
    m_access.tiles.drop(nameOf(level, column, row));
}

} // namespace fencewright::raster
