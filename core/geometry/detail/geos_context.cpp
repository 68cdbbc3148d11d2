#include "geometry/detail/geos_context.h"

#include "fault.h"

namespace fencewright::geometry::detail {

GeosContext::GeosContext() : m_handle{GEOS_init_r()} {
    GEOSContext_setErrorMessageHandler_r(m_handle, &GeosContext::takeMessage, this);
}

GeosContext::~GeosContext() { GEOS_finish_r(m_handle); }

void GeosContext::takeMessage(const char* message, void* self) { static_cast<GeosContext*>(self)->m_message = message; }

Geometry GeosContext::own(GEOSGeometry* result, std::string_view operation) {
    if (!result)
        fail(operation);
    return Geometry{result, GeosDeleter{m_handle}};
}

bool GeosContext::answer(char result, std::string_view operation) {
    if (result != 0 && result != 1)
        fail(operation);
    return result == 1;
}

void GeosContext::fail(std::string_view operation) {
    // The library's topology errors end in "at <lon> <lat>" or "at or near point <lon> <lat>".
    std::string place;
    const auto at = m_message.rfind("at ");
    if (at != std::string::npos)
        place = "longitude, latitude " + m_message.substr(at + 3);
    throw Fault{phrase("core", "The %1 could not be worked out (%2).")(std::string{operation}, m_message), place,
                phrase("core", "Move the corners at that place a little, or redraw the fence there.")};
}

} // namespace fencewright::geometry::detail
