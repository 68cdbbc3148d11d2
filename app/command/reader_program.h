#pragma once

#include <string>

namespace fencewright::command {

/// This very program: it reads foreign vector files apart from itself (see exchange/vector_reader.h).
[[nodiscard]] std::string readerProgram();

} // namespace fencewright::command
