#include "command/database_password.h"

#include <termios.h>
#include <unistd.h>

#include <cstdlib>
#include <iostream>

namespace fencewright::command {
namespace {

/// The terminal does not show what is typed while this lives.
class Silence {
public:
    Silence() {
        m_held = ::tcgetattr(STDIN_FILENO, &m_before) == 0;
        termios silent = m_before;
        silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        if (m_held)
            ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &silent);
    }
    ~Silence() {
        if (m_held)
            ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &m_before);
    }
    Silence(const Silence&) = delete;
    Silence& operator=(const Silence&) = delete;

private:
    termios m_before{};
    bool m_held = false;
};

} // namespace

std::string databasePassword(const std::string& address, std::ostream& prompt) {
    if (const char* known = std::getenv("PGPASSWORD"))
        return known;
    if (!::isatty(STDIN_FILENO))
        return {};
    prompt << "Password for " << address << " (empty: none): " << std::flush;
    std::string typed;
    {
        const Silence silence;
        std::getline(std::cin, typed);
    }
    prompt << "\n";
    return typed;
}

} // namespace fencewright::command
