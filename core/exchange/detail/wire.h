#pragma once

#include "exchange/vector_content.h"
#include "exchange/vector_reader.h"
#include "fault.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace fencewright::exchange::detail {

/// What the parent asks.
struct ForeignRequest {
    enum class Kind { Read, Describe, Stream, State, CheckFilter };
    Kind kind = Kind::Read;
    ReadRequest read; ///< of a description, path and password alone count
    ChildLimits limits;
};

/// One message of the child: a letter, a length of eight bytes, and so many bytes.
enum class Message : char {
    Progress = 'P',
    Description = 'D',
    Content = 'C',
    Bytes = 'B', ///< a piece of a stream
    End = 'E',   ///< of a stream
    State = 'S', ///< of a table
    Failure = 'F',
    Missing = 'M', ///< a failure: the CRS is missing
    Filter = 'W'   ///< a failure: the filter is no condition
};

// Both sides run on one machine and are built together: numbers are in its own byte order, and there is no version.
// The reading side trusts nothing: a child that a foreign file has taken over can write what it likes.

[[nodiscard]] std::string encode(const ForeignRequest& request);
[[nodiscard]] std::string encode(const VectorDescription& description);
[[nodiscard]] std::string encode(const VectorContent& content);
[[nodiscard]] std::string encode(const Fault& fault);

/// @throws Fault  the bytes are not such a thing.
[[nodiscard]] ForeignRequest decodeRequest(std::string_view bytes);
[[nodiscard]] VectorDescription decodeDescription(std::string_view bytes);
[[nodiscard]] VectorContent decodeContent(std::string_view bytes);
[[nodiscard]] Fault decodeFault(std::string_view bytes);

} // namespace fencewright::exchange::detail
