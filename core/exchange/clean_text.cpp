#include "exchange/clean_text.h"

#include <algorithm>
#include <cstddef>

namespace fencewright::exchange {

namespace {

unsigned byteAt(std::string_view text, std::size_t index) {
    return index < text.size() ? static_cast<unsigned char>(text[index]) : 0U;
}

/// Bytes of the UTF-8 character at `at`; 0 where there is none. Unicode 15, table 3-7.
std::size_t characterLength(std::string_view text, std::size_t at) {
    const auto within = [&](std::size_t index, unsigned low, unsigned high) {
        const unsigned byte = byteAt(text, index);
        return byte >= low && byte <= high;
    };
    const unsigned first = byteAt(text, at);
    if (first < 0x80)
        return 1;
    if (first >= 0xC2 && first <= 0xDF)
        return within(at + 1, 0x80, 0xBF) ? 2 : 0;
    if (first >= 0xE0 && first <= 0xEF) {
        const unsigned low = first == 0xE0 ? 0xA0 : 0x80;  // no overlong forms
        const unsigned high = first == 0xED ? 0x9F : 0xBF; // no surrogates
        return within(at + 1, low, high) && within(at + 2, 0x80, 0xBF) ? 3 : 0;
    }
    if (first >= 0xF0 && first <= 0xF4) {
        const unsigned low = first == 0xF0 ? 0x90 : 0x80;
        const unsigned high = first == 0xF4 ? 0x8F : 0xBF;
        return within(at + 1, low, high) && within(at + 2, 0x80, 0xBF) && within(at + 3, 0x80, 0xBF) ? 4 : 0;
    }
    return 0;
}

bool isSpace(char c) { return c == ' ' || c == '\t' || c == '\n'; }

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool isWordByte(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || (c >= '0' && c <= '9') || (lower(c) >= 'a' && lower(c) <= 'z');
}

} // namespace

std::string cleanText(std::string_view text) {
    constexpr std::string_view kReplacement = "\xEF\xBF\xBD";
    std::string clean;
    clean.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = characterLength(text, at);
        const std::string_view character = text.substr(at, std::max<std::size_t>(length, 1));
        const auto first = static_cast<unsigned char>(character.front());
        if (length == 0 || character == "\xEF\xBF\xBE" || character == "\xEF\xBF\xBF")
            clean += kReplacement;
        else if ((first < 0x20 && !isSpace(character.front())) || first == 0x7F)
            clean += ' ';
        else
            clean += character;
        at += character.size();
    }
    while (!clean.empty() && isSpace(clean.back()))
        clean.pop_back();
    clean.erase(clean.begin(), std::find_if_not(clean.begin(), clean.end(), isSpace));
    return clean;
}

bool mentions(std::string_view text, std::string_view name) {
    const auto alike = [](char a, char b) { return lower(a) == lower(b); };
    for (auto from = text.begin(); !name.empty();) {
        const auto at = std::search(from, text.end(), name.begin(), name.end(), alike);
        if (at == text.end())
            return false;
        const auto after = at + static_cast<std::ptrdiff_t>(name.size());
        const bool startsWord = at == text.begin() || !isWordByte(*(at - 1)) || !isWordByte(name.front());
        const bool endsWord = after == text.end() || !isWordByte(*after) || !isWordByte(name.back());
        if (startsWord && endsWord)
            return true;
        from = at + 1;
    }
    return false;
}

} // namespace fencewright::exchange
