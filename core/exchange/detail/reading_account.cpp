#include "exchange/detail/reading_account.h"

namespace fencewright::exchange::detail {

namespace {
constexpr std::size_t kNotesKept = 200;
}

void ReadingAccount::add(ReadNote note) {
    if (m_notes.size() < kNotesKept)
        m_notes.push_back(std::move(note));
    else
        ++m_more;
}

std::vector<ReadNote> ReadingAccount::notes() const {
    std::vector<ReadNote> all = m_notes;
    if (m_more > 0)
        all.push_back({ReadNote::Kind::Warning, "", phrase("core", "and %1 more notes like these.")(m_more)});
    return all;
}

} // namespace fencewright::exchange::detail
