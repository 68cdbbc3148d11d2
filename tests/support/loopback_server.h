#pragma once

#include <atomic>
#include <chrono>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

namespace fencewright::test {

/// A small HTTP server on this machine, on a free port and threads of its own. It says what it is told to say, also
/// what no decent server would.
class LoopbackServer {
public:
    struct Request {
        std::string path;                           ///< "/1/0/0.png"
        std::map<std::string, std::string> query;   ///< names in capitals, values decoded
        std::map<std::string, std::string> headers; ///< names in small letters
    };
    struct Answer {
        int status = 200;
        std::string type = "image/png";
        std::string body;
        std::vector<std::string> headers{}; ///< more of them: "Cache-Control: no-store"
        std::chrono::milliseconds wait{0};
        bool cut = false; ///< the connection ends in the middle of the body
    };
    using Speaker = std::function<Answer(const Request&)>;

    /// @param speak  is called on several threads.
    explicit LoopbackServer(Speaker speak);
    ~LoopbackServer();
    LoopbackServer(const LoopbackServer&) = delete;
    LoopbackServer& operator=(const LoopbackServer&) = delete;

    /// "http://127.0.0.1:40123"
    [[nodiscard]] std::string address() const;
    [[nodiscard]] int port() const { return m_port; }
    /// What was asked so far: path and query as they came.
    [[nodiscard]] std::vector<std::string> asked() const;
    [[nodiscard]] std::vector<Request> requests() const;
    void forget();
    /// Nobody answers any more; the port is free.
    void stop();

private:
    void listen();
    void answer(int guest);

    Speaker m_speak;
    int m_socket = -1;
    int m_port = 0;
    std::atomic<bool> m_stopping{false};
    std::thread m_listener;
    mutable std::mutex m_mutex;
    std::vector<std::thread> m_speakers;
    std::vector<std::string> m_asked;
    std::vector<Request> m_requests;
};

/// The pixels of a tile that tells which one it is: no two tiles of a zoom are alike.
struct TileColour {
    int red = 0, green = 0, blue = 0;
};
[[nodiscard]] TileColour tileColour(int zoom, int column, int row, int x, int y);
/// That tile as a PNG.
[[nodiscard]] std::string tilePng(int zoom, int column, int row, int side = 256);

/// Answers tiles z/x/y below a path as tilePng(), others with 404.
[[nodiscard]] LoopbackServer::Answer xyzTile(const std::string& path, int deepest);

} // namespace fencewright::test
