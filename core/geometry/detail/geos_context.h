#pragma once

#include "model/position.h"

#include <geos_c.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace fencewright::geometry::detail {

struct GeosDeleter {
    GEOSContextHandle_t context = nullptr;
    void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
    void operator()(const GEOSPreparedGeometry* geometry) const { GEOSPreparedGeom_destroy_r(context, geometry); }
    void operator()(GEOSCoordSequence* sequence) const { GEOSCoordSeq_destroy_r(context, sequence); }
    void operator()(char* text) const { GEOSFree_r(context, text); }
};
using Geometry = std::unique_ptr<GEOSGeometry, GeosDeleter>;
using PreparedGeometry = std::unique_ptr<const GEOSPreparedGeometry, GeosDeleter>;

/// One context of the GEOS library. Made for a call and thrown away with it (a microsecond), so that no two threads
/// ever share one. Outlives all geometries made with it.
class GeosContext {
public:
    GeosContext();
    ~GeosContext();
    GeosContext(const GeosContext&) = delete;
    GeosContext& operator=(const GeosContext&) = delete;

    [[nodiscard]] GEOSContextHandle_t handle() const { return m_handle; }

    /// Takes what a GEOS function returned.
    /// @throws Fault  it is null: names the operation, and the place that the library's message holds.
    [[nodiscard]] Geometry own(GEOSGeometry* result, std::string_view operation);
    /// Reads the answer of a GEOS predicate (0, 1, or 2 for an exception).
    /// @throws Fault  it is an exception.
    [[nodiscard]] bool answer(char result, std::string_view operation);
    [[noreturn]] void fail(std::string_view operation);

private:
    static void takeMessage(const char* message, void* self);

    GEOSContextHandle_t m_handle;
    std::string m_message;
};

} // namespace fencewright::geometry::detail
