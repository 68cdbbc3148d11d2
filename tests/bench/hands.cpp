#include "bench/hands.h"

#include <xcb/xcb.h>
#include <xcb/xtest.h>

#include <cstdlib>
#include <stdexcept>
#include <thread>

namespace fencewright::bench {

Hands::Hands() : m_connection{xcb_connect(nullptr, nullptr)} {
    if (xcb_connection_has_error(m_connection))
        throw std::runtime_error{"there is no X server"};
    const xcb_query_extension_reply_t* xtest = xcb_get_extension_data(m_connection, &xcb_test_id);
    if (!xtest || !xtest->present)
        throw std::runtime_error{"the X server has no XTEST"};
    m_root = xcb_setup_roots_iterator(xcb_get_setup(m_connection)).data->root;
}

Hands::~Hands() { xcb_disconnect(m_connection); }

void Hands::flush() { xcb_flush(m_connection); }

void Hands::moveTo(const QPoint& screen) {
    xcb_test_fake_input(m_connection, XCB_MOTION_NOTIFY, 0, XCB_CURRENT_TIME, m_root, std::int16_t(screen.x()),
                        std::int16_t(screen.y()), 0);
    flush();
}

void Hands::button(int number, bool down) {
    xcb_test_fake_input(m_connection, down ? XCB_BUTTON_PRESS : XCB_BUTTON_RELEASE, std::uint8_t(number),
                        XCB_CURRENT_TIME, m_root, 0, 0, 0);
    flush();
}

void Hands::drag(const QPoint& from, const QPoint& way, std::chrono::milliseconds time) {
    using Clock = std::chrono::steady_clock;
    constexpr std::chrono::microseconds step{16'667};
    moveTo(from);
    button(2, true);
    const auto begin = Clock::now();
    for (auto at = begin; at < begin + time; at += step) {
        std::this_thread::sleep_until(at);
        const double part = std::chrono::duration<double>(at - begin) / std::chrono::duration<double>(time);
        moveTo(from + (QPointF{way} * part).toPoint());
    }
    button(2, false);
}

void Hands::wheel(const QPoint& at, int notches) {
    moveTo(at);
    for (int i = 0; i < std::abs(notches); ++i) {
        button(notches > 0 ? 4 : 5, true);
        button(notches > 0 ? 4 : 5, false);
        std::this_thread::sleep_for(std::chrono::milliseconds{100});
    }
}

} // namespace fencewright::bench
