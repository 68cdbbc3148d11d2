#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fencewright::gdal {

/// Makes GDAL ready, once per process and from any thread: drivers registered, no network, no side-car searches over
/// huge folders, bounded block cache, errors never to the terminal. Everything that touches GDAL calls it first.
void prepareLibrary();

/// Lets this process, and it alone, open the tables of PostgreSQL databases; for the process that does nothing but
/// answer one request to read one of them. Every other stays without a driver for them.
void admitDatabases();
[[nodiscard]] bool admitsDatabases();

/// Catches what GDAL says on this thread while it lives, instead of letting it go to the terminal.
class ErrorCapture {
public:
    ErrorCapture();
    ~ErrorCapture();
    ErrorCapture(const ErrorCapture&) = delete;
    ErrorCapture& operator=(const ErrorCapture&) = delete;

    struct Message {
        bool isError = false; ///< else a warning
        int number = 0;
        std::string text;
    };
    /// In the order said; the same text only once, at most 100.
    [[nodiscard]] const std::vector<Message>& messages() const;
    /// The first error's text, or `otherwise`.
    [[nodiscard]] std::string firstError(const std::string& otherwise) const;

private:
    std::vector<Message> m_messages;
};

/// Options of GDAL for what this thread does while it lives; then they are as before.
class ThreadSettings {
public:
    ThreadSettings() = default;
    ~ThreadSettings();
    ThreadSettings(const ThreadSettings&) = delete;
    ThreadSettings& operator=(const ThreadSettings&) = delete;

    void set(const std::string& key, const std::string& value);

private:
    std::vector<std::pair<std::string, std::optional<std::string>>> m_before;
};

} // namespace fencewright::gdal
