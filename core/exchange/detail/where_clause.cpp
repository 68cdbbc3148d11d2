#include "exchange/detail/where_clause.h"

#include <cctype>

namespace fencewright::exchange::detail {
namespace {

constexpr std::size_t kLongest = 10'000;

// What computes a value from its arguments and touches nothing else (PostgreSQL 15 documentation, chapter 9; those of
// PostGIS begin with st_), and the words and types that may stand before a bracket without being a function.
constexpr std::string_view kMayPrecedeBracket =
    " abs age avg bool_and bool_or btrim cbrt ceil ceiling char_length character_length coalesce concat concat_ws "
    "count date date_part date_trunc degrees div exp extract floor greatest initcap least left length ln log lower "
    "lpad ltrim make_date max min mod now nullif numeric octet_length overlay position power radians regexp_match "
    "replace reverse right round rpad rtrim sign split_part sqrt starts_with strpos substr substring sum to_char "
    "to_date to_number to_timestamp trim trunc upper all and any array as between bit by case cast char character "
    "decimal else exists from having ilike in is like not on or select some then to values varchar when where ";

bool isWordStart(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) || c == '_' || static_cast<unsigned char>(c) >= 0x80;
}
bool isWordPart(char c) { return isWordStart(c) || std::isdigit(static_cast<unsigned char>(c)) || c == '$'; }

bool mayBeCalled(const std::string& word) {
    return word.starts_with("st_") || kMayPrecedeBracket.find(" " + word + " ") != std::string_view::npos;
}

} // namespace

std::optional<Wording> whyNoCondition(std::string_view clause) {
    if (clause.size() > kLongest)
        return phrase("core", "it is longer than %1 letters")(kLongest);
    std::string before; // the word or closing sign just before, in small letters; a quoted name as "\""
    int depth = 0;
    for (std::size_t i = 0; i < clause.size(); ++i) {
        const char c = clause[i];
        const char next = i + 1 < clause.size() ? clause[i + 1] : '\0';
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r')
            continue;
        if (static_cast<unsigned char>(c) < 0x20)
            return phrase("core", "there is a control character in it");
        if (isWordStart(c)) {
            std::size_t end = i;
            while (end < clause.size() && isWordPart(clause[end]))
                ++end;
            before.clear();
            for (const char letter : clause.substr(i, end - i))
                before += static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
            if (end < clause.size() && (clause[end] == '\'' || (clause[end] == '&' && before == "u")))
                return phrase("core", "a text has a letter before its quotation mark");
            i = end - 1;
            continue;
        }
        if (c == '\'' || c == '"') {
            std::size_t end = i + 1;
            while (end < clause.size() && (clause[end] != c || (end + 1 < clause.size() && clause[end + 1] == c)))
                end += clause[end] == c ? 2 : 1;
            if (end >= clause.size())
                return c == '\'' ? phrase("core", "the quotation mark of a text is not closed")
                                 : phrase("core", "the quotation mark of a name is not closed");
            before = c;
            i = end;
            continue;
        }
        if (c == ';')
            return phrase("core", "a condition has no semicolon");
        if (c == '$' || c == '\\' || c == '{' || c == '}')
            return phrase("core", "a condition has no \"%1\" outside of a text")(c);
        if ((c == '-' && next == '-') || (c == '/' && next == '*'))
            return phrase("core", "a condition has no comment");
        if (c == '(') {
            if (before == "\"")
                return phrase("core", "a name in quotation marks is called as a function");
            if (!before.empty() && isWordStart(before.front()) && !mayBeCalled(before))
                return phrase("core", "the function %1 is not one that a filter may call")(before);
            ++depth;
        }
        if (c == ')' && --depth < 0)
            return phrase("core", "a bracket is closed that was not opened");
        before = c;
    }
    if (depth > 0)
        return phrase("core", "a bracket is not closed");
    return std::nullopt;
}

} // namespace fencewright::exchange::detail
