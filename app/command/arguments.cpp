#include "command/arguments.h"

#include <algorithm>
#include <charconv>

namespace fencewright::command {

bool Arguments::has(std::string_view name) const {
    return std::any_of(options.begin(), options.end(), [&](const Option& option) { return option.name == name; });
}

std::optional<std::string> Arguments::value(std::string_view name) const {
    for (auto option = options.rbegin(); option != options.rend(); ++option)
        if (option->name == name)
            return option->value;
    return std::nullopt;
}

Arguments parseArguments(std::span<const std::string> words, std::initializer_list<std::string_view> switches,
                         std::initializer_list<std::string_view> withValue) {
    const auto among = [](std::initializer_list<std::string_view> names, std::string_view name) {
        return std::find(names.begin(), names.end(), name) != names.end();
    };
    Arguments result;
    bool onlyFiles = false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (onlyFiles || !word.starts_with("--")) {
            result.files.push_back(word);
            continue;
        }
        if (word == "--") {
            onlyFiles = true;
            continue;
        }
        const auto equals = word.find('=');
        const std::string name = word.substr(2, equals == std::string::npos ? std::string::npos : equals - 2);
        if (among(switches, name) && equals == std::string::npos) {
            result.options.push_back({name, {}});
        } else if (among(withValue, name)) {
            if (equals != std::string::npos)
                result.options.push_back({name, word.substr(equals + 1)});
            else if (i + 1 < words.size())
                result.options.push_back({name, words[++i]});
            else
                throw UsageFault{"--" + name + " needs a value.", "", "See --help."};
        } else {
            throw UsageFault{"--" + name + " is not an option here.", "", "See --help."};
        }
    }
    return result;
}

int wholeNumber(const std::string& option, const std::string& text, int least, int most) {
    int number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size() || number < least || number > most)
        throw UsageFault{"--" + option + " takes a whole number from " + std::to_string(least) + " to " +
                             std::to_string(most) + ", not \"" + text + "\".",
                         "", ""};
    return number;
}

} // namespace fencewright::command
