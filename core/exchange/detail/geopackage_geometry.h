#pragma once

#include "exchange/detail/plain_intake.h"
#include "exchange/detail/table_pages.h"

#include <string>

namespace fencewright::exchange::detail {

/// Reads the geometries of a layer of a GeoPackage straight out of the pages of its table. Safe to use from several
/// threads at once.
/// Source of the form: OGC 12-128r18, GeoPackage 1.3, clause 2.1; geometries after OGC 06-103r4, clause 8.
class GeopackageGeometry {
public:
    /// Where in the file they are, as SQLite says.
    struct Place {
        std::int64_t root = 0;  ///< the first page of the table
        std::size_t column = 0; ///< which of what is kept in a row
    };
    /// @throws NotPlain
    GeopackageGeometry(const std::string& path, const Place& place);

    /// How many pieces the table is read in, none of them with more features than a batch holds.
    [[nodiscard]] std::size_t stretches() const;
    /// @param room  of the thread that reads, used again from stretch to stretch.
    /// @throws NotPlain  also where the identities do not ascend.
    void read(std::size_t stretch, std::string& room, PlainIntake& intake, PlainStretch& into) const;

private:
    TablePages m_pages;
    std::size_t m_column;
    std::size_t m_leavesAtOnce;
};

} // namespace fencewright::exchange::detail
