#include "support/loopback_server.h"

#include "support/made_raster.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace fencewright::test {

namespace {

std::string decoded(const std::string& text) {
    std::string plain;
    for (std::size_t at = 0; at < text.size(); ++at)
        if (text[at] == '%' && at + 2 < text.size() + 1) {
            plain += static_cast<char>(std::stoi(text.substr(at + 1, 2), nullptr, 16));
            at += 2;
        } else {
            plain += text[at];
        }
    return plain;
}

std::string inLetters(std::string text, int (*change)(int)) {
    std::transform(text.begin(), text.end(), text.begin(), [&](unsigned char letter) { return char(change(letter)); });
    return text;
}

LoopbackServer::Request requestOf(const std::string& head, const std::string& target) {
    LoopbackServer::Request request;
    const std::size_t question = std::min(target.find('?'), target.size());
    request.path = target.substr(0, question);
    for (std::size_t at = question + 1; at < target.size();) {
        const std::size_t end = std::min(target.find('&', at), target.size());
        const std::string pair = target.substr(at, end - at);
        const std::size_t equals = std::min(pair.find('='), pair.size());
        request.query[inLetters(pair.substr(0, equals), std::toupper)] =
            equals < pair.size() ? decoded(pair.substr(equals + 1)) : "";
        at = end + 1;
    }
    for (std::size_t at = head.find("\r\n"); at != std::string::npos; at = head.find("\r\n", at + 2)) {
        const std::size_t end = std::min(head.find("\r\n", at + 2), head.size());
        const std::string line = head.substr(at + 2, end - at - 2);
        if (const std::size_t colon = line.find(": "); colon != std::string::npos)
            request.headers[inLetters(line.substr(0, colon), std::tolower)] = line.substr(colon + 2);
    }
    return request;
}

} // namespace

LoopbackServer::LoopbackServer(Speaker speak) : m_speak{std::move(speak)} {
    m_socket = socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    if (bind(m_socket, reinterpret_cast<sockaddr*>(&address), size) != 0 || ::listen(m_socket, 64) != 0 ||
        getsockname(m_socket, reinterpret_cast<sockaddr*>(&address), &size) != 0)
        throw std::runtime_error{"cannot listen on this machine"};
    m_port = ntohs(address.sin_port);
    m_listener = std::thread{[this] { listen(); }};
}

LoopbackServer::~LoopbackServer() { stop(); }

void LoopbackServer::stop() {
    if (m_stopping.exchange(true))
        return;
    m_listener.join();
    close(m_socket);
    for (std::thread& speaker : m_speakers)
        speaker.join();
}

std::string LoopbackServer::address() const { return "http://127.0.0.1:" + std::to_string(m_port); }

std::vector<std::string> LoopbackServer::asked() const {
    const std::lock_guard lock{m_mutex};
    return m_asked;
}

std::vector<LoopbackServer::Request> LoopbackServer::requests() const {
    const std::lock_guard lock{m_mutex};
    return m_requests;
}

void LoopbackServer::forget() {
    const std::lock_guard lock{m_mutex};
    m_asked.clear();
    m_requests.clear();
}

void LoopbackServer::listen() {
    while (!m_stopping) {
        pollfd waiting{m_socket, POLLIN, 0};
        if (poll(&waiting, 1, 20) <= 0)
            continue;
        const int guest = accept(m_socket, nullptr, nullptr);
        if (guest < 0)
            continue;
        const std::lock_guard lock{m_mutex};
        m_speakers.emplace_back([this, guest] { answer(guest); });
    }
}

void LoopbackServer::answer(int guest) {
    std::string head;
    char bytes[4096];
    while (head.find("\r\n\r\n") == std::string::npos) {
        const ssize_t count = recv(guest, bytes, sizeof bytes, 0);
        if (count <= 0) {
            close(guest);
            return;
        }
        head.append(bytes, std::size_t(count));
    }
    const std::size_t from = head.find(' ') + 1;
    const std::string target = head.substr(from, head.find(' ', from) - from);
    const Request request = requestOf(head, target);
    {
        const std::lock_guard lock{m_mutex};
        m_asked.push_back(target);
        m_requests.push_back(request);
    }
    const Answer said = m_speak(request);
    for (auto waited = std::chrono::milliseconds{0}; waited < said.wait && !m_stopping;
         waited += std::chrono::milliseconds{10})
        std::this_thread::sleep_for(std::chrono::milliseconds{10});
    std::string reply = "HTTP/1.1 " + std::to_string(said.status) + " said\r\nContent-Type: " + said.type +
                        "\r\nContent-Length: " + std::to_string(said.body.size()) + "\r\nConnection: close\r\n";
    for (const std::string& header : said.headers)
        reply += header + "\r\n";
    reply += "\r\n" + (said.cut ? said.body.substr(0, said.body.size() / 2) : said.body);
    for (std::size_t sent = 0; sent < reply.size();) {
        const ssize_t count = send(guest, reply.data() + sent, reply.size() - sent, MSG_NOSIGNAL);
        if (count <= 0)
            break;
        sent += std::size_t(count);
    }
    close(guest);
}

TileColour tileColour(int zoom, int column, int row, int x, int y) {
    return {(column * 37 + x) % 256, (row * 53 + y) % 256, (zoom * 40 + (x / 16 + y / 16) % 2 * 20) % 256};
}

std::string tilePng(int zoom, int column, int row, int side) {
    static std::atomic<int> number{0};
    const auto path = std::filesystem::temp_directory_path() /
                      ("fencewright-tile-" + std::to_string(getpid()) + "-" + std::to_string(++number) + ".png");
    MadeRaster made;
    made.driver = "PNG";
    made.width = made.height = side;
    made.placed = false;
    made.value = [=](int band, int x, int y) {
        const TileColour colour = tileColour(zoom, column, row, x * 256 / side, y * 256 / side);
        return band == 0 ? colour.red : band == 1 ? colour.green : colour.blue;
    };
    make(made, path.string());
    std::ifstream file{path, std::ios::binary};
    const std::string png{std::istreambuf_iterator<char>{file}, {}};
    file.close();
    std::filesystem::remove(path);
    std::filesystem::remove(path.string() + ".aux.xml");
    return png;
}

LoopbackServer::Answer xyzTile(const std::string& path, int deepest) {
    int zoom = 0, column = 0, row = 0;
    const std::size_t last = path.rfind('/');
    const std::size_t second = path.rfind('/', last - 1);
    const std::size_t first = second == 0 ? std::string::npos : path.rfind('/', second - 1);
    LoopbackServer::Answer answer;
    if (first == std::string::npos || std::sscanf(path.c_str() + first, "/%d/%d/%d", &zoom, &column, &row) != 3 ||
        zoom < 0 || zoom > deepest || column < 0 || row < 0 || column >= 1 << zoom || row >= 1 << zoom) {
        answer.status = 404;
        answer.type = "text/plain";
        answer.body = "no such tile";
        return answer;
    }
    answer.body = tilePng(zoom, column, row);
    return answer;
}

} // namespace fencewright::test
