#pragma once

#include <compare>
#include <functional>
#include <string>

namespace fencewright::model {

/// What tells one thing from another for as long as documents last: 32 hexadecimal digits, never given twice.
/// `Kind` keeps the identity of a fence from being taken for that of a site.
template <class Kind> struct Id {
    std::string value;

    [[nodiscard]] bool empty() const { return value.empty(); }
    auto operator<=>(const Id&) const = default;
};

/// 128 random bits from the operating system, as 32 hexadecimal digits.
[[nodiscard]] std::string freshIdValue();

template <class Kind> [[nodiscard]] Id<Kind> freshId() { return {freshIdValue()}; }

using FenceId = Id<struct Fence>;
using SiteId = Id<struct Site>;
using HomeId = Id<struct Home>;
using SourceId = Id<struct Source>;

} // namespace fencewright::model
