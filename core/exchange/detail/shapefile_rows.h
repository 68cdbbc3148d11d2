#pragma once

#include "exchange/detail/attribute_text.h"
#include "exchange/detail/foreign_file.h"
#include "exchange/detail/plain_intake.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// Reads stretches of a shapefile, whose shapes are found by their number. One object per thread.
class ShapefileRows {
public:
    enum class Wanted { Geometry, Attributes };
    /// @throws NotPlain
    ShapefileRows(const std::string& path, const std::string& encoding, Wanted wanted);

    /// The geometries of the shapes from `first` up to `end`. @throws NotPlain
    void readGeometry(std::int64_t first, std::int64_t end, PlainIntake& intake, PlainStretch& into);
    /// The values of the shapes of these numbers, which ascend. @throws NotPlain
    [[nodiscard]] AttributeBatch readAttributes(const std::vector<std::int64_t>& ids);

private:
    std::string m_encoding;
    gdal::ErrorCapture m_said;
    ReadingAccount m_account;
    ForeignFile m_file;
    void* m_layer = nullptr;
    std::size_t m_heard = 0;
};

} // namespace fencewright::exchange::detail
