#pragma once

#include "fault.h"

#include <functional>
#include <string_view>
#include <utility>

namespace fencewright {

/// How long work tells how far it is, and learns that it should stop. Passed as an argument, never global.
class Progress {
public:
    /// Called with the fraction done (0 to 1) and what is being done; answers whether to go on.
    using Listener = std::function<bool(double fraction, std::string_view doing)>;

    /// Nobody listens; the work is never cancelled.
    Progress() = default;
    explicit Progress(Listener listener) : m_listener{std::move(listener)} {}

    /// Tells the listener. Call it often: it is the only place where work can be cancelled.
    /// @throws Cancelled  when the listener answers no.
    void report(double fraction, std::string_view doing) const {
        if (m_listener && !m_listener(fraction, doing))
            throw Cancelled{};
    }

    void report(double fraction, const Phrase& doing) const { report(fraction, std::string_view{doing.english}); }

private:
    Listener m_listener;
};

} // namespace fencewright
