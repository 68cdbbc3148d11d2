#pragma once

#include "exchange/vector_content.h"

#include <cstddef>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// What a reading says about itself, kept short: the first 200 notes in full, the rest as a number.
class ReadingAccount {
public:
    void changed(Wording place, Wording words) { add({ReadNote::Kind::Changed, std::move(place), std::move(words)}); }
    void leftOut(Wording place, Wording words) { add({ReadNote::Kind::LeftOut, std::move(place), std::move(words)}); }
    void warn(Wording place, Wording words) { add({ReadNote::Kind::Warning, std::move(place), std::move(words)}); }
    void add(ReadNote note);

    /// The notes, with one at the end that says how many more there were.
    [[nodiscard]] std::vector<ReadNote> notes() const;

private:
    std::vector<ReadNote> m_notes;
    std::size_t m_more = 0;
};

} // namespace fencewright::exchange::detail
