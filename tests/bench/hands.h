#pragma once

#include <QPoint>

#include <chrono>

struct xcb_connection_t;

namespace fencewright::bench {

/// Works the mouse of the X server, on a connection of its own: what the window gets are events of the window system.
/// For one thread, which may be another than the window's.
class Hands {
public:
    /// @throws std::runtime_error  no X server, or one without the XTEST extension.
    Hands();
    ~Hands();
    Hands(const Hands&) = delete;
    Hands& operator=(const Hands&) = delete;

    void moveTo(const QPoint& screen);
    /// Presses the middle button, moves that far in steps of a sixtieth of a second, releases.
    void drag(const QPoint& from, const QPoint& way, std::chrono::milliseconds time);
    /// Notches of the wheel, away from oneself if positive, a tenth of a second apart.
    void wheel(const QPoint& at, int notches);

private:
    void button(int number, bool down);
    void flush();

    xcb_connection_t* m_connection;
    unsigned m_root = 0;
};

} // namespace fencewright::bench
