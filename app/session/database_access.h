#pragma once

#include <map>
#include <optional>
#include <string>

namespace fencewright::session {

/// The databases that the person has named since the program started, and what opens them. It is in memory alone, and
/// this is its one owner. No other database is spoken to, so that a document from elsewhere reaches nobody.
class DatabaseAccess {
public:
    /// @param address  of a database (see exchange/database_address.h); it counts with the user name, not as written.
    /// @param password  empty: it asks for none.
    void admit(const std::string& address, std::string password);
    /// Nothing: that database is not to be spoken to.
    [[nodiscard]] std::optional<std::string> password(const std::string& address) const;

private:
    std::map<std::string, std::string> m_passwords;
};

} // namespace fencewright::session
