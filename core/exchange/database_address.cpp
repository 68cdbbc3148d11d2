#include "exchange/database_address.h"

#include "fault.h"

#include <algorithm>
#include <optional>

namespace fencewright::exchange {
namespace {

constexpr std::string_view kSchemes[] = {"postgresql://", "postgres://"};
constexpr Phrase kExample = phrase("core", "Write it like postgresql://name@host:5432/database.");

bool isPlain(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.' ||
           c == '_' || c == '~';
}

std::optional<int> hexDigit(char c) {
    return c >= '0' && c <= '9'   ? std::optional{c - '0'}
           : c >= 'a' && c <= 'f' ? std::optional{c - 'a' + 10}
           : c >= 'A' && c <= 'F' ? std::optional{c - 'A' + 10}
                                  : std::nullopt;
}

[[noreturn]] void refuse(const Wording& problem, const Wording& remedy = kExample) {
    throw Fault{problem, phrase("core", "the server's address"), remedy};
}

std::string decoded(std::string_view text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '%') {
            result += text[i];
            continue;
        }
        const auto high = i + 2 < text.size() ? hexDigit(text[i + 1]) : std::nullopt;
        const auto low = i + 2 < text.size() ? hexDigit(text[i + 2]) : std::nullopt;
        if (!high || !low || (*high == 0 && *low == 0))
            refuse(phrase("core", "A percent sign is not followed by two digits."));
        result += static_cast<char>(*high * 16 + *low);
        i += 2;
    }
    if (std::any_of(result.begin(), result.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }))
        refuse(phrase("core", "There is a control character in the address."));
    return result;
}

std::string encoded(std::string_view text, std::string_view alsoPlain = {}) {
    constexpr char kDigits[] = "0123456789ABCDEF";
    std::string result;
    for (const char c : text) {
        if (isPlain(c) || alsoPlain.find(c) != std::string_view::npos) {
            result += c;
            continue;
        }
        const auto byte = static_cast<unsigned char>(c);
        result += {'%', kDigits[byte >> 4U], kDigits[byte & 15U]};
    }
    return result;
}

[[noreturn]] void refusePassword() {
    refuse(phrase("core", "There is a password in the address."),
           phrase("core", "Take it out: it is asked for, and it is kept nowhere."));
}

void takeParameter(DatabaseAddress& address, std::string_view parameter) {
    const std::size_t equals = parameter.find('=');
    const std::string name = decoded(parameter.substr(0, equals));
    if (name == "password" || name == "passfile" || name == "sslpassword")
        refusePassword();
    const std::string value =
        decoded(equals == std::string_view::npos ? std::string_view{} : parameter.substr(equals + 1));
    if (name == "host")
        address.host = value;
    else if (name == "port")
        address.port = value;
    else if (name == "user")
        address.user = value;
    else if (name == "dbname")
        address.database = value;
    else if (name == "sslmode")
        address.encryption = value;
    else
        refuse(phrase("core", "The address sets \"%1\", which is not taken from an address.")(name),
               phrase("core", "Leave it out; host, port, user, dbname and sslmode are taken."));
}

void check(const DatabaseAddress& address) {
    if (address.database.empty())
        refuse(phrase("core", "The address names no database."));
    if (address.host.find(',') != std::string::npos || address.port.find(',') != std::string::npos)
        refuse(phrase("core", "The address names several servers."), phrase("core", "Name the one to read from."));
    if (!std::all_of(address.port.begin(), address.port.end(), [](char c) { return c >= '0' && c <= '9'; }) ||
        address.port.size() > 5)
        refuse(phrase("core", "The port is not a number."));
    constexpr std::string_view kModes[] = {"", "disable", "allow", "prefer", "require", "verify-ca", "verify-full"};
    if (std::find(std::begin(kModes), std::end(kModes), address.encryption) == std::end(kModes))
        refuse(phrase("core", "There is no sslmode \"%1\".")(address.encryption),
               phrase("core", "Use require, verify-ca or verify-full, or leave it out."));
}

} // namespace

bool isDatabaseAddress(std::string_view path) {
    return std::any_of(std::begin(kSchemes), std::end(kSchemes),
                       [&](std::string_view scheme) { return path.starts_with(scheme); });
}

DatabaseAddress parseDatabaseAddress(std::string_view text) {
    const auto scheme = std::find_if(std::begin(kSchemes), std::end(kSchemes),
                                     [&](std::string_view one) { return text.starts_with(one); });
    if (scheme == std::end(kSchemes))
        refuse(phrase("core", "This is not the address of a PostgreSQL database."));
    text.remove_prefix(scheme->size());
    DatabaseAddress address;
    const std::size_t question = text.find('?');
    std::string_view parameters = question == std::string_view::npos ? std::string_view{} : text.substr(question + 1);
    text = text.substr(0, question);
    const std::size_t slash = text.find('/');
    std::string_view authority = text.substr(0, slash);
    if (slash != std::string_view::npos)
        address.database = decoded(text.substr(slash + 1));
    if (const std::size_t at = authority.rfind('@'); at != std::string_view::npos) {
        const std::string_view person = authority.substr(0, at);
        if (person.find(':') != std::string_view::npos)
            refusePassword();
        address.user = decoded(person);
        authority.remove_prefix(at + 1);
    }
    if (authority.starts_with('[')) {
        const std::size_t end = authority.find(']');
        if (end == std::string_view::npos)
            refuse(phrase("core", "The bracket around the host is not closed."));
        address.host = authority.substr(1, end - 1);
        authority.remove_prefix(end + 1);
        if (!authority.empty() && !authority.starts_with(':'))
            refuse(phrase("core", "After the bracket around the host, a colon and the port are expected."));
        if (!authority.empty())
            address.port = decoded(authority.substr(1));
    } else {
        const std::size_t colon = authority.find(':');
        address.host = decoded(authority.substr(0, colon));
        if (colon != std::string_view::npos)
            address.port = decoded(authority.substr(colon + 1));
    }
    while (!parameters.empty()) {
        const std::size_t end = parameters.find('&');
        takeParameter(address, parameters.substr(0, end));
        parameters = end == std::string_view::npos ? std::string_view{} : parameters.substr(end + 1);
    }
    check(address);
    return address;
}

std::string text(const DatabaseAddress& address) {
    std::string result{kSchemes[0]};
    if (!address.user.empty())
        result += encoded(address.user) + "@";
    result += address.host.find(':') != std::string::npos ? "[" + address.host + "]" : encoded(address.host);
    if (!address.port.empty())
        result += ":" + address.port;
    result += "/" + encoded(address.database);
    if (!address.encryption.empty())
        result += "?sslmode=" + address.encryption;
    return result;
}

TableName parseTableName(std::string_view text) {
    const auto fail = [whole = std::string{text}] {
        throw Fault{phrase("core", "\"%1\" is not the name of a table.")(whole), "",
                    phrase("core", "Write it like schema.table, or schema.table(geometry).")};
    };
    const auto part = [&](std::string_view ends) {
        std::string name;
        if (text.starts_with('"')) {
            std::size_t i = 1;
            for (; i < text.size(); ++i) {
                if (text[i] == '"' && i + 1 < text.size() && text[i + 1] == '"')
                    ++i;
                else if (text[i] == '"')
                    break;
                name += text[i];
            }
            if (i >= text.size())
                fail();
            text.remove_prefix(i + 1);
        } else {
            const std::size_t end = std::min(text.find_first_of(ends), text.size());
            name = text.substr(0, end);
            text.remove_prefix(end);
        }
        if (name.empty() || name.find('\0') != std::string::npos)
            fail();
        return name;
    };
    TableName name;
    name.table = part(".(\"");
    if (text.starts_with('.')) {
        text.remove_prefix(1);
        name.schema = std::move(name.table);
        name.table = part("(\".");
    } else {
        name.schema = "public";
    }
    if (text.starts_with('(')) {
        text.remove_prefix(1);
        name.geometry = part(")\"");
        if (text != ")")
            fail();
        text.remove_prefix(1);
    }
    if (!text.empty())
        fail();
    return name;
}

std::string text(const TableName& name) {
    const auto part = [](const std::string& one) {
        if (one.find_first_of(".()\"") == std::string::npos)
            return one;
        std::string quoted = "\"";
        for (const char c : one)
            quoted += c == '"' ? std::string{"\"\""} : std::string{c};
        return quoted + "\"";
    };
    return part(name.schema) + "." + part(name.table) + (name.geometry.empty() ? "" : "(" + part(name.geometry) + ")");
}

} // namespace fencewright::exchange
