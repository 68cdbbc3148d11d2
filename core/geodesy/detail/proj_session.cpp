#include "geodesy/detail/proj_session.h"

#include <new>

namespace fencewright::geodesy {

ContextHandle quietContext() {
    ContextHandle context{proj_context_create()};
    if (!context)
        throw std::bad_alloc{};
    proj_log_level(context.get(), PJ_LOG_NONE);
    proj_context_set_enable_network(context.get(), 0);
    return context;
}

ContextHandle quietContext(std::string& said) {
    ContextHandle context = quietContext();
    proj_log_level(context.get(), PJ_LOG_ERROR);
    proj_log_func(context.get(), &said, [](void* text, int, const char* message) {
        *static_cast<std::string*>(text) = message != nullptr ? message : "";
    });
    return context;
}

} // namespace fencewright::geodesy
