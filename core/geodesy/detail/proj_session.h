#pragma once

#include <proj.h>

#include <memory>
#include <string>

// Private to the module: it shows PROJ's types.
namespace fencewright::geodesy {

struct DestroyContext {
    void operator()(PJ_CONTEXT* context) const { proj_context_destroy(context); }
};
using ContextHandle = std::unique_ptr<PJ_CONTEXT, DestroyContext>;

struct DestroyOperation {
    void operator()(PJ* operation) const { proj_destroy(operation); }
};
/// Destroy it before its context: declare it after.
using OperationHandle = std::unique_ptr<PJ, DestroyOperation>;

/// A context that never uses the network and writes nothing to the terminal.
ContextHandle quietContext();
/// The same, which keeps the last thing PROJ said in `said`; that must outlive the context.
ContextHandle quietContext(std::string& said);

} // namespace fencewright::geodesy
