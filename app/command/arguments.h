#pragma once

#include "fault.h"

#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::command {

/// The words of the command line cannot be understood. Exit code 2.
class UsageFault : public Fault {
public:
    using Fault::Fault;
};

/// One option as written; those that follow a source option (an imagery file, a parcels file) may belong to it.
struct Option {
    std::string name;  ///< without the dashes
    std::string value; ///< empty for a switch
};

/// The words after the subcommand: files, and options in the order written.
struct Arguments {
    std::vector<std::string> files;
    std::vector<Option> options;

    [[nodiscard]] bool has(std::string_view name) const;
    /// The last one of that name.
    [[nodiscard]] std::optional<std::string> value(std::string_view name) const;
};

/// @param switches   options without a value.
/// @param withValue  options that take one, "--name value" or "--name=value".
/// @throws UsageFault  an unknown option, or one without its value.
[[nodiscard]] Arguments parseArguments(std::span<const std::string> words,
                                       std::initializer_list<std::string_view> switches,
                                       std::initializer_list<std::string_view> withValue);

/// A whole number between the bounds.
/// @throws UsageFault
[[nodiscard]] int wholeNumber(const std::string& option, const std::string& text, int least, int most);

} // namespace fencewright::command
