#pragma once

#include "exchange/detail/reading_account.h"

#include <optional>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

inline constexpr std::size_t kLongestText = 64 * 1024;

/// Reads the columns of one layer as text.
class AttributeText {
public:
    /// @param layer  an OGRLayerH.
    /// @param encoding  of text that is not UTF-8; empty: ISO-8859-1.
    AttributeText(void* layer, std::string encoding, ReadingAccount& account);

    [[nodiscard]] const std::vector<std::string>& fields() const { return m_fields; }
    /// The values of a feature (an OGRFeatureH), empty where null. Numbers in full, dates as ISO 8601.
    /// @param unread  a column that stays empty: it holds the geometry.
    [[nodiscard]] std::vector<std::string> valuesOf(void* feature, const Wording& place,
                                                    std::optional<std::size_t> unread);

private:
    [[nodiscard]] std::string value(void* feature, int column) const;
    [[nodiscard]] std::string clean(std::string text, const Wording& place);

    std::vector<std::string> m_fields;
    std::string m_encoding;
    ReadingAccount& m_account;
    bool m_recoded = false;
};

} // namespace fencewright::exchange::detail
