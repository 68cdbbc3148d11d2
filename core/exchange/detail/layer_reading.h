#pragma once

#include "exchange/detail/foreign_file.h"
#include "exchange/detail/reading_account.h"
#include "exchange/vector_reader.h"

namespace fencewright::exchange::detail {

/// Reads one layer of an opened file into WGS 84.
/// @param take  each feature; the content that is returned has none.
/// @param said  what the driver says goes into the account, with the feature it says it of.
/// @throws Fault, MissingCrs, Cancelled  as readVector.
[[nodiscard]] VectorContent readLayer(const ReadRequest& request, ForeignFile& file, ReadingAccount& account,
                                      const gdal::ErrorCapture& said, const std::function<void(Feature&&)>& take,
                                      const Progress& progress);

/// The same in batches, the short way.
/// @throws NotPlain  the file has to be read the long way; also after `take` was called.
[[nodiscard]] BatchedAttributes readLayerInBatches(const ReadRequest& request, ForeignFile& file,
                                                   ReadingAccount& account, const gdal::ErrorCapture& said,
                                                   const GeometrySink& take, const Progress& progress);

} // namespace fencewright::exchange::detail
