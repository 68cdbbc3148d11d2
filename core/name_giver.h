#pragma once

#include "wording.h"

#include <string>
#include <utility>

namespace fencewright {

/// In which language things are named that nobody has named: "Nest copy", "Feature 12". Such a name is a plain text of
/// the document from then on, and is not translated again. Passed as an argument, never global.
class NameGiver {
public:
    /// In English.
    NameGiver() = default;
    explicit NameGiver(Wording::Translate language) : m_language{std::move(language)} {}

    [[nodiscard]] std::string operator()(const Wording& name) const {
        return m_language ? name.said(m_language) : name.english();
    }

private:
    Wording::Translate m_language;
};

} // namespace fencewright
