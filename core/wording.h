#pragma once

#include <algorithm>
#include <concepts>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace fencewright {

class Wording;

/// A sentence, or a whole part of one, as it stands in the sources: in English, with %1, %2 … for what is put in. The
/// window has it in other languages, too.
struct Phrase {
    const char* english = "";

    /// The phrase with the things put in: Wording, texts, whole numbers.
    template <class... Things> [[nodiscard]] Wording operator()(Things&&... things) const;
};

/// Marks a text for translation: the tool that collects texts looks for this name with two texts between its brackets.
/// Never join sentences out of halves: other languages have another order. One and many are two phrases.
/// @param context  always "core".
[[nodiscard]] constexpr Phrase phrase([[maybe_unused]] const char* context, const char* english) { return {english}; }

/// What a person is told: a phrase with what was put into it, or a text that is said as it is (a name, a figure, what a
/// library said). It can be said in English at once, and in another language where the phrases of that are known.
class Wording {
public:
    /// Says an English phrase in the language wanted, its placeholders kept.
    using Translate = std::function<std::string(const std::string& english)>;

    Wording() = default;
    Wording(std::string text) : m_text{std::move(text)} {}
    Wording(std::string_view text) : m_text{text} {}
    Wording(const char* text) : m_text{text} {}
    Wording(const Phrase& phrase) : Wording{phrase.english, {}} {}
    /// A phrase that came from elsewhere, such as another process.
    Wording(std::string english, std::vector<Wording> things)
        : m_text{std::move(english)}, m_things{std::move(things)}, m_isPhrase{true} {}

    /// The items in a row with the separator, a text of no language such as ", ", between them.
    [[nodiscard]] static Wording joined(std::vector<Wording> items, const std::string& separator) {
        constexpr std::size_t most = 90; // placeholders have two digits
        if (items.size() > most) {
            std::vector<Wording> rest{items.begin() + most - 1, items.end()};
            items.resize(most - 1);
            items.push_back(joined(std::move(rest), separator));
        }
        std::string row;
        for (std::size_t i = 0; i < items.size(); ++i)
            row += (i == 0 ? "%" : separator + "%") + std::to_string(i + 1);
        return {std::move(row), std::move(items)};
    }

    [[nodiscard]] bool empty() const { return m_text.empty(); }
    [[nodiscard]] std::string english() const {
        return said([](const std::string& text) { return text; });
    }
    [[nodiscard]] std::string said(const Translate& translate) const {
        if (!m_isPhrase)
            return m_text;
        const std::string pattern = translate(m_text);
        std::string result;
        for (std::size_t i = 0; i < pattern.size(); ++i) {
            std::size_t number = 0, digits = 0;
            while (pattern[i] == '%' && digits < 2 && i + digits + 1 < pattern.size() &&
                   pattern[i + digits + 1] >= '0' && pattern[i + digits + 1] <= '9')
                number = number * 10 + std::size_t(pattern[i + ++digits] - '0');
            if (number >= 1 && number <= m_things.size()) {
                result += m_things[number - 1].said(translate);
                i += digits;
            } else {
                result += pattern[i];
            }
        }
        return result;
    }

    [[nodiscard]] bool isPhrase() const { return m_isPhrase; }
    [[nodiscard]] const std::string& text() const { return m_text; } ///< of a phrase, without what is put in
    [[nodiscard]] const std::vector<Wording>& things() const { return m_things; }

    bool operator==(const Wording&) const = default;

private:
    std::string m_text;
    std::vector<Wording> m_things;
    bool m_isPhrase = false;
};

template <class... Things> Wording Phrase::operator()(Things&&... things) const {
    const auto words = []<class Thing>(Thing&& thing) -> Wording {
        using Plain = std::remove_cvref_t<Thing>;
        static_assert(!std::is_floating_point_v<Plain>, "say how many decimals, with units::fixed or units::shortest");
        if constexpr (std::is_same_v<Plain, char>)
            return std::string(1, thing);
        else if constexpr (std::integral<Plain>)
            return std::to_string(thing);
        else
            return Wording{std::forward<Thing>(thing)};
    };
    return {english, {words(std::forward<Things>(things))...}};
}

} // namespace fencewright
