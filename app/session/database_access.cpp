#include "session/database_access.h"

#include "exchange/database_address.h"
#include "fault.h"

namespace fencewright::session {
namespace {

/// However it is written; empty: it is no address.
std::string sameFor(const std::string& address) {
    try {
        return exchange::text(exchange::parseDatabaseAddress(address));
    } catch (const Fault&) {
        return {};
    }
}

} // namespace

void DatabaseAccess::admit(const std::string& address, std::string password) {
    if (const std::string key = sameFor(address); !key.empty())
        m_passwords[key] = std::move(password);
}

std::optional<std::string> DatabaseAccess::password(const std::string& address) const {
    const auto at = m_passwords.find(sameFor(address));
    return at == m_passwords.end() ? std::nullopt : std::optional{at->second};
}

} // namespace fencewright::session
