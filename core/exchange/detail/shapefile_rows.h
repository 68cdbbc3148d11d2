#pragma once

#include "exchange/detail/attribute_text.h"
#include "exchange/detail/foreign_file.h"
#include "exchange/detail/plain_intake.h"
#include "exchange/detail/shape_records.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// Reads stretches of a shapefile, whose shapes are found by their number: simple ones where they lie, others by the
/// driver. One object per thread.
class ShapefileRows {
public:
    ShapefileRows(const std::string& path, const std::string& encoding) : m_path{path}, m_encoding{encoding} {}

    /// The geometries of the shapes from `first` up to `end`. @throws NotPlain
    void readGeometry(std::int64_t first, std::int64_t end, PlainIntake& intake, PlainStretch& into);
    /// The values of the shapes of these numbers, which ascend. @throws NotPlain
    [[nodiscard]] AttributeBatch readAttributes(const std::vector<std::int64_t>& ids);

private:
    enum class Wanted { Geometry, Attributes };
    void open(Wanted wanted);
    void requireSilence() const;

    std::string m_path, m_encoding;
    std::optional<ShapeRecords> m_records;
    gdal::ErrorCapture m_said;
    ReadingAccount m_account;
    ForeignFile m_file; ///< by the driver, where it is needed
    void* m_layer = nullptr;
    std::size_t m_heard = 0;
};

} // namespace fencewright::exchange::detail
