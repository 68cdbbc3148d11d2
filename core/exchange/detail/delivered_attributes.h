#pragma once

#include "exchange/vector_content.h"
#include "model/fence.h"
#include "model/home.h"
#include "model/site.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::exchange::detail {

/// The columns by name.
class ColumnsByName {
public:
    explicit ColumnsByName(const std::vector<std::string>& fields);
    [[nodiscard]] std::optional<std::size_t> find(std::string_view name) const;

private:
    std::map<std::string, std::size_t, std::less<>> m_numbers;
};

/// The attributes by which our own deliveries say what a feature is, read back: "kind", "floor" with "floor_unit" and
/// "floor_reference", "season" and so on.
///
/// Side: what cannot be read never permits more. A keep-out loses a limit that cannot be read, and so applies at all
/// heights and days; a keep-in is switched off.
class DeliveredAttributes {
public:
    DeliveredAttributes(const ColumnsByName& columns, const std::vector<std::string>& values)
        : m_columns{columns}, m_values{values} {}

    /// 32 hexadecimal digits; empty where there are none.
    [[nodiscard]] std::string identity() const;
    /// "fence", "site" or "home"; empty where it does not say.
    [[nodiscard]] std::string role() const;

    void applyTo(model::Fence& fence, const Wording& place, std::vector<ReadNote>& notes) const;
    void applyTo(model::Site& site, const Wording& place, std::vector<ReadNote>& notes) const;
    void applyTo(model::Home& home, const Wording& place, std::vector<ReadNote>& notes) const;

private:
    [[nodiscard]] std::string text(std::string_view column) const;

    const ColumnsByName& m_columns;
    const std::vector<std::string>& m_values;
};

} // namespace fencewright::exchange::detail
