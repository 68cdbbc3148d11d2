#pragma once

#include "exchange/vector_reader.h"

#include <QString>

#include <string>

namespace fencewright::support {

/// The path of a file below tests/data.
[[nodiscard]] std::string dataPath(const std::string& name);

/// A file of the given content in a folder of its own.
[[nodiscard]] std::string writtenFile(const QString& folder, const QString& name, const QByteArray& content);

/// Reads with nobody listening.
[[nodiscard]] exchange::VectorContent read(const std::string& path, const std::string& crs = {});

/// What came of a reading, for tests that look for words: the fault, or the counts and all notes.
struct Outcome {
    bool fault = false;
    exchange::VectorContent content;
    std::string words;
};
[[nodiscard]] Outcome tryRead(const exchange::ReadRequest& request);
/// The same through a child process: this very program, which must answer to the argument "foreign".
[[nodiscard]] Outcome tryReadApart(const exchange::ReadRequest& request, const exchange::ChildLimits& limits = {});

/// All notes, a line each.
[[nodiscard]] std::string notesOf(const exchange::VectorContent& content);

} // namespace fencewright::support
