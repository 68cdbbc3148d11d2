#pragma once

#include "exchange/detail/mapped_bytes.h"
#include "geodesy/local_frame.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::exchange::detail {

/// The shapes of a shapefile that are as simple as most are, looked at where they lie: polygons of one ring. All
/// others, and any of which something is not as it should be, are left to the driver. Source of the form: "ESRI
/// Shapefile Technical Description", July 1998, pages 4 to 8 and 24; of the table's records: the dBASE III form; both
/// from memory, and tested against the driver.
class ShapeRecords {
public:
    explicit ShapeRecords(const std::string& path);

    enum class Look { Ring, Deleted, Driver };
    /// What that shape is; a ring's corners are appended, the repeated last one as well.
    [[nodiscard]] Look look(std::int64_t shape, std::vector<geodesy::PlanePoint>& corners) const;

private:
    MappedBytes m_shapes, m_index, m_table;
    bool m_isKnown = false;
    std::uint64_t m_tableHead = 0, m_rowBytes = 0, m_rows = 0; ///< of the table
};

} // namespace fencewright::exchange::detail
