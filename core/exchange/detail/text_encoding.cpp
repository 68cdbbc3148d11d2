#include "exchange/detail/text_encoding.h"

#include "fault.h"

#include <iconv.h>

namespace fencewright::exchange::detail {

namespace {

class Converter {
public:
    explicit Converter(const std::string& from) : m_converter{iconv_open("UTF-8", from.c_str())} {}
    ~Converter() {
        if (known())
            iconv_close(m_converter);
    }
    Converter(const Converter&) = delete;
    Converter& operator=(const Converter&) = delete;

    [[nodiscard]] bool known() const { return m_converter != iconv_t(-1); }

    [[nodiscard]] std::optional<std::string> convert(std::string_view text) {
        std::string result;
        std::string input{text};
        char* from = input.data();
        std::size_t left = input.size();
        char buffer[4096];
        while (left > 0) {
            char* to = buffer;
            std::size_t room = sizeof buffer;
            const std::size_t done = iconv(m_converter, &from, &left, &to, &room);
            result.append(buffer, static_cast<std::size_t>(to - buffer));
            if (done == std::size_t(-1) && errno != E2BIG)
                return std::nullopt;
        }
        return result;
    }

private:
    iconv_t m_converter;
};

} // namespace

void requireKnownEncoding(const std::string& encoding, const std::string& path) {
    if (!Converter{encoding}.known())
        throw Fault{phrase("core", "\"%1\" is not a text encoding that is known here.")(encoding), path,
                    phrase("core", "Name one such as UTF-8, ISO-8859-7 or Windows-1252.")};
}

std::optional<std::string> recoded(std::string_view text, const std::string& encoding) {
    Converter converter{encoding};
    return converter.known() ? converter.convert(text) : std::nullopt;
}

bool isUtf8(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        const auto lead = static_cast<unsigned char>(text[at]);
        if (lead < 0x80) {
            ++at;
            continue;
        }
        const std::size_t more = lead >= 0xf0 && lead <= 0xf4  ? 3
                                 : lead >= 0xe0 && lead < 0xf0 ? 2
                                 : lead >= 0xc2 && lead < 0xe0 ? 1
                                                               : 0;
        if (more == 0 || at + more > text.size() - 1)
            return false;
        char32_t code = lead & (0x3fU >> more);
        for (std::size_t i = 1; i <= more; ++i) {
            const auto next = static_cast<unsigned char>(text[at + i]);
            if ((next & 0xc0U) != 0x80U)
                return false;
            code = (code << 6) | (next & 0x3fU);
        }
        const bool overlong = (more == 2 && code < 0x800) || (more == 3 && code < 0x10000);
        if (overlong || code > 0x10ffff || (code >= 0xd800 && code < 0xe000))
            return false;
        at += more + 1;
    }
    return true;
}

} // namespace fencewright::exchange::detail
