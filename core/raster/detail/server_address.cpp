#include "raster/detail/server_address.h"

#include "fault.h"
#include "units/number_notation.h"

#include <cctype>

namespace fencewright::raster {

namespace {

constexpr std::size_t kLongestAddress = 4096;
constexpr Phrase kExamples = phrase("core", "Name it as https://tiles.example.org/{z}/{x}/{y}.png, or give the address "
                                            "of the capabilities of a Web Map Tile Service.");

// What services call the parameter that opens their door. Common practice, no published source.
constexpr std::string_view kSecretParameters[] = {"key",        "apikey",      "api_key",          "api-key",
                                                  "access_key", "accesskey",   "subscription-key", "subscription_key",
                                                  "token",      "accesstoken", "access_token",     "auth",
                                                  "authkey",    "app_code",    "password",         "pwd",
                                                  "sig",        "signature"};

bool isSecret(std::string_view name) {
    return std::find(std::begin(kSecretParameters), std::end(kSecretParameters), units::lowered(name)) !=
           std::end(kSecretParameters);
}

[[noreturn]] void refuse(const Wording& problem, const Wording& remedy = kExamples) {
    throw Fault{problem, phrase("core", "the server's address"), remedy};
}

struct Parts {
    std::string scheme;   ///< "https"
    std::string userinfo; ///< before '@'
    bool hasUserinfo = false;
    std::string authority; ///< host and port
    std::string rest;      ///< from the path on, without '#' and behind
    std::string words;     ///< behind '#'
};

Parts takenApart(std::string_view address) {
    Parts parts;
    const std::size_t colon = address.find("://");
    if (colon == std::string_view::npos)
        refuse(phrase("core", "This is no address of a server."));
    parts.scheme = units::lowered(address.substr(0, colon));
    if (parts.scheme != "http" && parts.scheme != "https")
        refuse(phrase("core", "Only http and https addresses are asked for imagery."));
    std::string_view rest = address.substr(colon + 3);
    if (const std::size_t hash = rest.find('#'); hash != std::string_view::npos) {
        parts.words = rest.substr(hash + 1);
        rest = rest.substr(0, hash);
    }
    const std::size_t end = std::min(rest.find_first_of("/?"), rest.size());
    std::string_view authority = rest.substr(0, end);
    parts.rest = rest.substr(end);
    if (const std::size_t at = authority.rfind('@'); at != std::string_view::npos) {
        parts.hasUserinfo = true;
        parts.userinfo = authority.substr(0, at);
        authority = authority.substr(at + 1);
    }
    parts.authority = units::lowered(authority);
    return parts;
}

void checkText(std::string_view address) {
    if (address.size() > kLongestAddress)
        refuse(phrase("core", "The address is longer than 4,096 characters."));
    for (const char letter : address)
        if (const auto code = static_cast<unsigned char>(letter);
            code <= 0x20 || code >= 0x7f || letter == '"' || letter == '\\' || letter == '<' || letter == '>')
            refuse(phrase("core", "The address has a space or another character in it that no address can have."),
                   phrase("core", "Write such characters percent-encoded, as %20 for a space."));
}

void checkAuthority(const std::string& authority) {
    const auto isHostLetter = [](char letter) {
        return std::isalnum(static_cast<unsigned char>(letter)) || letter == '.' || letter == '-' || letter == '_';
    };
    std::string_view rest = authority;
    bool good = !rest.empty();
    if (good && rest.front() == '[') { // an IPv6 address
        const std::size_t close = rest.find(']');
        good = close != std::string_view::npos && close > 2 &&
               rest.substr(1, close - 1).find_first_not_of("0123456789abcdef:.") == std::string_view::npos;
        rest = good ? rest.substr(close + 1) : rest;
    } else {
        const std::size_t end = std::min(rest.find(':'), rest.size());
        good = end > 0 && std::all_of(rest.begin(), rest.begin() + static_cast<std::ptrdiff_t>(end), isHostLetter);
        rest = rest.substr(end);
    }
    if (good && !rest.empty())
        good = rest.front() == ':' && rest.size() > 1 && rest.size() <= 6 &&
               rest.find_first_not_of("0123456789", 1) == std::string_view::npos;
    if (!good)
        refuse(authority.find('{') != std::string::npos
                   ? phrase("core", "The address leaves the name of the server open.")
                   : phrase("core", "The address names no server, or not in a way that can be read."),
               phrase("core", "Name one server, such as https://a.tiles.example.org."));
}

struct Parameter {
    std::size_t valueAt = 0, valueSize = 0; ///< in the rest of the address
    std::string name;
};

std::vector<Parameter> parametersOf(const std::string& rest) {
    std::vector<Parameter> parameters;
    std::size_t at = rest.find('?');
    while (at != std::string::npos && at < rest.size()) {
        ++at;
        const std::size_t end = std::min(rest.find_first_of("&;", at), rest.size());
        const std::size_t equals = std::min(rest.find('=', at), end);
        if (equals < end)
            parameters.push_back({equals + 1, end - equals - 1, rest.substr(at, equals - at)});
        at = end;
    }
    return parameters;
}

void checkPlaceholders(const std::string& rest) {
    for (std::size_t at = rest.find('{'); at != std::string::npos; at = rest.find('{', at + 1)) {
        const std::size_t close = std::min(rest.find('}', at), rest.size() - 1);
        const std::string name = rest.substr(at, close - at + 1);
        if (name != "{z}" && name != "{x}" && name != "{y}" && name != "{-y}" && name != "{key}")
            refuse(phrase("core", "The address has %1 in it, which is not known.")(name),
                   phrase("core", "What is known: {z} the zoom, {x} the column, {y} the row from the north, {-y} from "
                                  "the south, {key} the key."));
    }
}

} // namespace

namespace detail {

std::string percentEncoded(std::string_view text) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string encoded;
    for (const char letter : text) {
        const auto code = static_cast<unsigned char>(letter);
        if (std::isalnum(code) || letter == '-' || letter == '.' || letter == '_' || letter == '~') {
            encoded += letter;
        } else {
            encoded += '%';
            encoded += digits[code >> 4];
            encoded += digits[code & 15];
        }
    }
    return encoded;
}

std::string percentDecoded(std::string_view text) {
    const auto digit = [](char letter) {
        if (letter >= '0' && letter <= '9')
            return letter - '0';
        const int low = std::tolower(static_cast<unsigned char>(letter));
        return low >= 'a' && low <= 'f' ? low - 'a' + 10 : -1;
    };
    std::string decoded;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '%' && at + 2 < text.size() && digit(text[at + 1]) >= 0 && digit(text[at + 2]) >= 0) {
            decoded += static_cast<char>(digit(text[at + 1]) * 16 + digit(text[at + 2]));
            at += 2;
        } else {
            decoded += text[at];
        }
    }
    return decoded;
}

std::string replaced(std::string text, std::string_view placeholder, std::string_view value) {
    for (std::size_t at = text.find(placeholder); at != std::string::npos;
         at = text.find(placeholder, at + value.size()))
        text.replace(at, placeholder.size(), value);
    return text;
}

std::string withParameter(std::string address, const std::string& parameter) {
    const char last = address.back();
    if (address.find('?') == std::string::npos)
        address += '?';
    else if (last != '?' && last != '&')
        address += '&';
    return address + parameter;
}

std::string keyParameter(std::string_view plain) {
    const std::string text{plain};
    for (const Parameter& parameter : parametersOf(text))
        if (text.compare(parameter.valueAt, parameter.valueSize, "{key}") == 0)
            return parameter.name + "={key}";
    return {};
}

std::string ServerAddress::word(const std::string& name) const {
    const auto at = words.find(name);
    return at == words.end() ? std::string{} : at->second;
}

ServerAddress parsedAddress(std::string_view address) {
    checkText(address);
    const Parts parts = takenApart(address);
    checkAuthority(parts.authority);
    if (parts.hasUserinfo)
        refuse(phrase("core", "The address holds a name or a password, which no document may keep."),
               phrase("core", "Take it out of the address: it is asked for when the server is reached."));
    for (const Parameter& parameter : parametersOf(parts.rest))
        if (isSecret(parameter.name) && parts.rest.compare(parameter.valueAt, parameter.valueSize, "{key}") != 0)
            refuse(phrase("core", "The address holds a key, as its parameter '%1', which no document may keep.")(
                       parameter.name),
                   phrase("core", "Write {key} in its place: the key is asked for when the server is reached."));
    checkPlaceholders(parts.rest);

    ServerAddress parsed;
    parsed.whole = address;
    parsed.server = parts.scheme + "://" + parts.authority;
    parsed.plain = parsed.server + (parts.rest.empty() ? "/" : parts.rest);
    const bool column = parts.rest.find("{x}") != std::string::npos;
    const bool row = parts.rest.find("{y}") != std::string::npos || parts.rest.find("{-y}") != std::string::npos;
    const bool zoom = parts.rest.find("{z}") != std::string::npos;
    if (column || row || zoom) {
        if (!(column && row && zoom))
            refuse(phrase("core", "The address does not say where zoom, column and row of a tile stand."));
        parsed.kind = ServerAddress::Kind::Template;
    }
    for (std::size_t at = 0; at < parts.words.size();) {
        const std::size_t end = std::min(parts.words.find('&', at), parts.words.size());
        const std::string pair = parts.words.substr(at, end - at);
        const std::size_t equals = std::min(pair.find('='), pair.size());
        const std::string name = pair.substr(0, equals);
        const bool known =
            parsed.kind == ServerAddress::Kind::Template
                ? name == "zoom" || name == "tile" || name == "box"
                : name == "layer" || name == "set" || name == "style" || name == "format" || name == "tiles";
        if (!known)
            refuse(phrase("core", "Behind '#' the address says '%1', which is not known.")(name));
        parsed.words[name] = equals < pair.size() ? percentDecoded(pair.substr(equals + 1)) : "";
        at = end + 1;
    }
    return parsed;
}

void checkOutgoing(std::string_view address) {
    checkText(address);
    const Parts parts = takenApart(address);
    if (parts.hasUserinfo || parts.rest.find_first_of("{}") != std::string::npos)
        refuse(phrase("core", "The server names addresses of its tiles that cannot be asked for."),
               phrase("core", "Ask whoever runs it."));
    checkAuthority(parts.authority);
}

bool isSameServer(std::string_view from, std::string_view to) {
    const Parts before = takenApart(from);
    const Parts after = takenApart(to);
    const auto withPort = [](const Parts& parts) {
        const bool has = parts.authority.rfind(':') != std::string::npos && parts.authority.back() != ']';
        return has ? parts.authority : parts.authority + (parts.scheme == "https" ? ":443" : ":80");
    };
    if (after.hasUserinfo)
        return false;
    if (before.scheme == after.scheme)
        return withPort(before) == withPort(after);
    const auto host = [](const Parts& parts) { return parts.authority.substr(0, parts.authority.rfind(':')); };
    return before.scheme == "http" && withPort(before) == host(before) + ":80" &&
           withPort(after) == host(before) + ":443";
}

bool isLoopback(std::string_view server) {
    const std::string authority = takenApart(server).authority;
    return authority.starts_with("127.") || authority.starts_with("[::1]") || authority == "localhost" ||
           authority.starts_with("localhost:");
}

} // namespace detail

bool isServerAddress(std::string_view path) {
    const std::string start = units::lowered(path.substr(0, 8));
    return start.starts_with("http://") || start.starts_with("https://");
}

bool wantsKey(std::string_view address) { return address.find("{key}") != std::string_view::npos; }

std::string serverOf(std::string_view address) {
    const Parts parts = takenApart(address);
    return parts.scheme + "://" + parts.authority;
}

TypedAddress withoutSecrets(std::string_view typed) {
    const std::size_t first = typed.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos)
        refuse(phrase("core", "There is no address."));
    typed = typed.substr(first, typed.find_last_not_of(" \t\r\n") - first + 1);
    checkText(typed);
    Parts parts = takenApart(typed);
    TypedAddress result;
    if (parts.hasUserinfo) {
        const std::size_t colon = std::min(parts.userinfo.find(':'), parts.userinfo.size());
        result.credentials.user = detail::percentDecoded(parts.userinfo.substr(0, colon));
        if (colon < parts.userinfo.size())
            result.credentials.password = detail::percentDecoded(parts.userinfo.substr(colon + 1));
    }
    const auto parameters = parametersOf(parts.rest);
    for (auto parameter = parameters.rbegin(); parameter != parameters.rend(); ++parameter) {
        const std::string value = parts.rest.substr(parameter->valueAt, parameter->valueSize);
        if (!isSecret(parameter->name) || value == "{key}" || value.empty())
            continue;
        const std::string key = detail::percentDecoded(value);
        if (!result.credentials.key.empty() && result.credentials.key != key)
            refuse(phrase("core", "The address holds two different keys; one can be set apart."),
                   phrase("core", "Ask the server's owner for an address with one key."));
        result.credentials.key = key;
        parts.rest.replace(parameter->valueAt, parameter->valueSize, "{key}");
    }
    result.address =
        parts.scheme + "://" + parts.authority + parts.rest + (parts.words.empty() ? "" : "#" + parts.words);
    (void)detail::parsedAddress(result.address);
    return result;
}

} // namespace fencewright::raster
