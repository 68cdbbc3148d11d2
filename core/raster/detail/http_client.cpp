#include "raster/detail/http_client.h"

#include "raster/detail/server_address.h"
#include "units/number_notation.h"

#include <curl/curl.h>

#include <charconv>
#include <ctime>
#include <exception>
#include <mutex>

namespace fencewright::raster::detail {

namespace {

constexpr int kMostRedirections = 5;
constexpr std::chrono::seconds kLongestFresh{365L * 24 * 3600};

struct CloseHandle {
    void operator()(CURL* handle) const { curl_easy_cleanup(handle); }
};

struct Receiving {
    std::string* body = nullptr;
    std::size_t mostBytes = 0;
    bool tooLarge = false;
    const Progress* progress = nullptr;
    std::exception_ptr thrown;

    static std::size_t take(char* bytes, std::size_t size, std::size_t count, void* data) {
        auto& self = *static_cast<Receiving*>(data);
        if (self.body->size() + size * count > self.mostBytes) {
            self.tooLarge = true;
            return 0;
        }
        self.body->append(bytes, size * count);
        return size * count;
    }
    // What the listener throws may not pass through C, so it waits here.
    static int report(void* data, curl_off_t, curl_off_t, curl_off_t, curl_off_t) {
        auto& self = *static_cast<Receiving*>(data);
        try {
            self.progress->report(0.0, phrase("core", "Asking the server"));
            return 0;
        } catch (...) {
            self.thrown = std::current_exception();
            return 1;
        }
    }
};

std::string headerOf(CURL* handle, const char* name) {
    curl_header* header = nullptr;
    return curl_easy_header(handle, name, 0, CURLH_HEADER, -1, &header) == CURLHE_OK ? header->value : "";
}

// RFC 9111, 5.2.2 and 5.3: what Cache-Control says comes before Expires.
void readFreshness(CURL* handle, HttpAnswer& answer) {
    const std::string control = units::lowered(headerOf(handle, "Cache-Control"));
    if (control.find("no-store") != std::string::npos)
        answer.mayBeKept = false;
    if (control.find("no-cache") != std::string::npos)
        answer.freshFor = std::chrono::seconds{0};
    if (const std::size_t at = control.find("max-age="); at != std::string::npos && !answer.freshFor) {
        long seconds = 0;
        const char* const from = control.data() + at + 8;
        if (std::from_chars(from, control.data() + control.size(), seconds).ec == std::errc{} && seconds >= 0)
            answer.freshFor = std::chrono::seconds{seconds};
    }
    if (!answer.freshFor)
        if (const std::string expires = headerOf(handle, "Expires"); !expires.empty()) {
            const std::time_t until = curl_getdate(expires.c_str(), nullptr);
            answer.freshFor =
                std::chrono::seconds{until < 0 ? 0 : std::max<std::time_t>(until - std::time(nullptr), 0)};
        }
    if (answer.freshFor)
        answer.freshFor = std::min(*answer.freshFor, kLongestFresh);
}

std::string sizeWords(std::size_t bytes) {
    return bytes >= 1 << 20 ? std::to_string(bytes >> 20) + " MB" : std::to_string(bytes >> 10) + " kB";
}

} // namespace

struct HttpClient::Parts {
    std::unique_ptr<CURL, CloseHandle> handle;
    char words[CURL_ERROR_SIZE] = {};

    void askedOnce(const std::string& address, const Wording& place, HttpAnswer& answer, std::size_t mostBytes,
                   const ServerRules& rules, const Progress& progress);
};

void HttpClient::Parts::askedOnce(const std::string& address, const Wording& place, HttpAnswer& answer,
                                  std::size_t mostBytes, const ServerRules& rules, const Progress& progress) {
    CURL* const asked = handle.get();
    answer = {};
    words[0] = '\0';
    Receiving receiving{&answer.body, mostBytes, false, &progress, nullptr};
    curl_easy_setopt(asked, CURLOPT_URL, address.c_str());
    curl_easy_setopt(asked, CURLOPT_WRITEDATA, &receiving);
    curl_easy_setopt(asked, CURLOPT_XFERINFODATA, &receiving);
    curl_easy_setopt(asked, CURLOPT_MAXFILESIZE_LARGE, static_cast<curl_off_t>(mostBytes));
    curl_easy_setopt(asked, CURLOPT_CONNECTTIMEOUT_MS, static_cast<long>(rules.connectTime.count()));
    curl_easy_setopt(asked, CURLOPT_TIMEOUT_MS, static_cast<long>(rules.answerTime.count()));
    // The environment may name a proxy; it has no way to this machine.
    curl_easy_setopt(asked, CURLOPT_PROXY, isLoopback(address) ? "" : nullptr);

    const CURLcode result = curl_easy_perform(asked);
    if (receiving.thrown)
        std::rethrow_exception(receiving.thrown);
    const std::string why = words[0] ? words : curl_easy_strerror(result);
    switch (result) {
    case CURLE_OK:
        break;
    case CURLE_OPERATION_TIMEDOUT:
        throw NoAnswer{phrase("core", "The server did not answer in time."), place,
                       phrase("core", "Try again later, or ask whoever runs it.")};
    case CURLE_COULDNT_RESOLVE_HOST:
    case CURLE_COULDNT_RESOLVE_PROXY:
    case CURLE_COULDNT_CONNECT:
        throw NoAnswer{phrase("core", "The server cannot be reached: %1.")(why), place,
                       phrase("core", "Check the address and the connection, then read it again.")};
    case CURLE_PEER_FAILED_VERIFICATION:
    case CURLE_SSL_CONNECT_ERROR:
    case CURLE_SSL_CERTPROBLEM:
    case CURLE_SSL_CACERT_BADFILE:
        throw NoAnswer{phrase("core", "The server cannot prove that it is the one that was named: %1.")(why), place,
                       phrase("core", "Ask whoever runs it about its certificate.")};
    case CURLE_FILESIZE_EXCEEDED:
        receiving.tooLarge = true;
        break;
    case CURLE_WRITE_ERROR:
        if (receiving.tooLarge)
            break;
        [[fallthrough]];
    default:
        throw NoAnswer{phrase("core", "The connection was cut: %1.")(why), place,
                       phrase("core", "Try again; it may have been for a moment.")};
    }
    if (receiving.tooLarge)
        throw Fault{phrase("core", "The server's answer is larger than %1.")(sizeWords(mostBytes)), place,
                    phrase("core", "Check the address: this is not what was asked for.")};
    curl_easy_getinfo(asked, CURLINFO_RESPONSE_CODE, &answer.status);
    answer.type = units::lowered(headerOf(asked, "Content-Type"));
    answer.type = answer.type.substr(0, answer.type.find_first_of("; "));
    readFreshness(asked, answer);
}

HttpClient::HttpClient() : m_parts{std::make_unique<Parts>()} {
    static std::once_flag once;
    std::call_once(once, [] { curl_global_init(CURL_GLOBAL_DEFAULT); });
    m_parts->handle.reset(curl_easy_init());
    if (!m_parts->handle)
        throw Fault{phrase("core", "There is not enough memory to ask a server."), "",
                    phrase("core", "Close other programs.")};
    CURL* const handle = m_parts->handle.get();
    curl_easy_setopt(handle, CURLOPT_NOSIGNAL, 1L);
    curl_easy_setopt(handle, CURLOPT_PROTOCOLS_STR, "http,https");
    curl_easy_setopt(handle, CURLOPT_FOLLOWLOCATION, 0L);
    curl_easy_setopt(handle, CURLOPT_ERRORBUFFER, m_parts->words);
    curl_easy_setopt(handle, CURLOPT_USERAGENT, "Fencewright");
    curl_easy_setopt(handle, CURLOPT_ACCEPT_ENCODING, "");
    curl_easy_setopt(handle, CURLOPT_WRITEFUNCTION, Receiving::take);
    curl_easy_setopt(handle, CURLOPT_XFERINFOFUNCTION, Receiving::report);
    curl_easy_setopt(handle, CURLOPT_NOPROGRESS, 0L);
}

HttpClient::~HttpClient() = default;

HttpAnswer HttpClient::get(const std::string& address, const Wording& place, const Credentials& credentials,
                           std::size_t mostBytes, const ServerRules& rules, const Progress& progress) {
    CURL* const handle = m_parts->handle.get();
    const bool named = !credentials.user.empty() || !credentials.password.empty();
    curl_easy_setopt(handle, CURLOPT_HTTPAUTH, named ? CURLAUTH_BASIC : CURLAUTH_NONE);
    curl_easy_setopt(handle, CURLOPT_USERNAME, named ? credentials.user.c_str() : nullptr);
    curl_easy_setopt(handle, CURLOPT_PASSWORD, named ? credentials.password.c_str() : nullptr);

    std::string asked = address;
    for (int step = 0; step <= kMostRedirections; ++step) {
        checkOutgoing(asked);
        HttpAnswer answer;
        m_parts->askedOnce(asked, place, answer, mostBytes, rules, progress);
        const bool sentOn = answer.status == 301 || answer.status == 302 || answer.status == 303 ||
                            answer.status == 307 || answer.status == 308;
        if (!sentOn)
            return answer;
        const char* target = nullptr;
        curl_easy_getinfo(handle, CURLINFO_REDIRECT_URL, &target);
        const std::string next = target ? target : "";
        if (!isServerAddress(next) || !isSameServer(asked, next))
            throw Fault{phrase("core", "The server sends on to another one%1, which is not followed.")(
                            (isServerAddress(next) ? ", " + serverOf(next) : std::string{})),
                        place, phrase("core", "If that is the right one, name it yourself.")};
        asked = next;
    }
    throw Fault{phrase("core", "The server sends on and on."), place,
                phrase("core", "Ask whoever runs it for the right address.")};
}

} // namespace fencewright::raster::detail
