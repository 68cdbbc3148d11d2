#pragma once

#include "model/fence_set.h"
#include "wording.h"

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

// The values of the model as JSON (RFC 8259) and back, exactly: doubles in the shortest digits that read back as the
// same double, dates as numbers, so that even a day that does not exist comes back as it was.
namespace fencewright::store {

/// What is wrong with a text, and at which member ("shape.radius.metres").
class ValueError : public std::runtime_error {
public:
    ValueError(const Phrase& problem, std::string member)
        : std::runtime_error{problem.english}, m_problem{problem}, m_member{std::move(member)} {}
    [[nodiscard]] const Wording& problem() const { return m_problem; }
    [[nodiscard]] const std::string& member() const { return m_member; }

private:
    Wording m_problem;
    std::string m_member;
};

[[nodiscard]] std::string valueText(const model::Fence& fence);
[[nodiscard]] std::string valueText(const model::Site& site);
[[nodiscard]] std::string valueText(const model::Home& home);
[[nodiscard]] std::string valueText(const model::Source& source);

/// Title, notes and margin of the set, and how many things it has.
struct DocumentHead {
    std::string title;
    std::string notes;
    std::size_t fences = 0;
    std::size_t sites = 0;
    std::size_t homes = 0;
    std::size_t sources = 0;
    std::optional<model::Margin> margin;
};
[[nodiscard]] std::string valueText(const DocumentHead& head);

// Strict: every member must be there and of its type, and no other. @throws ValueError
template <class T> [[nodiscard]] T valueFromText(std::string_view text);
template <> model::Fence valueFromText(std::string_view text);
template <> model::Site valueFromText(std::string_view text);
template <> model::Home valueFromText(std::string_view text);
template <> model::Source valueFromText(std::string_view text);
template <> DocumentHead valueFromText(std::string_view text);

/// The text with what is not UTF-8 replaced, for columns that are only read by people.
[[nodiscard]] std::string readableText(const std::string& text);

} // namespace fencewright::store
