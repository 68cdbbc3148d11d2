#pragma once

#include "exchange/feature_batch.h"
#include "exchange/vector_content.h"
#include "progress.h"

#include <chrono>
#include <functional>
#include <string>
#include <string_view>

namespace fencewright::exchange {

/// What to read and what the person says about it.
struct ReadRequest {
    std::string path;     ///< of a file; or the address of a database (see database_address.h)
    std::string password; ///< of a database; handed on to the process that reads, and nowhere else
    std::string layer;    ///< empty: the first; of a database: a table (see parseTableName)
    std::string
        crs; ///< for files that have none; empty: fail and ask. Never overrides the file's own CRS unless forceCrs.
    bool forceCrs = false;
    std::string encoding; ///< of text, "ISO-8859-7"; empty: the file's own
    std::string where;    ///< attribute filter, SQL WHERE clause without the word
    std::size_t featureLimit = 2'000'000;
    std::size_t cornerLimit = 20'000'000;
};

/// The file's CRS is unknown and the request gives none: ask the person, then read again with ReadRequest::crs.
class MissingCrs : public Fault {
public:
    explicit MissingCrs(const std::string& path);
    using Fault::Fault;
};

/// The filter is no condition of this layer: it is the filter that is to be changed.
class FilterFault : public Fault {
public:
    using Fault::Fault;
};

/// What is in a foreign vector file. Any format of the table vectorFormats(); the driver is chosen by us, never guessed
/// from content alone: no driver that opens network or database addresses, runs SQL of a file, or is known to crash.
/// @throws Fault  not readable: names the file, the place and a remedy.
[[nodiscard]] VectorDescription describeVector(const std::string& path);
/// The same of a database: its tables with geometry. Only for the process that admits databases (gdal/library.h).
/// @param request  of which address and password count.
[[nodiscard]] VectorDescription describeDatabase(const ReadRequest& request);
/// In which state a table is: another text after any change of it, or of what is read of it. Empty where that cannot be
/// told without reading it all, as of a view.
/// @throws Fault, MissingCrs, FilterFault  as the reading would.
[[nodiscard]] std::string stateOfTable(const ReadRequest& request);

/// Reads one layer into WGS 84.
/// @throws Fault, MissingCrs, FilterFault, Cancelled
[[nodiscard]] VectorContent readVector(const ReadRequest& request, const Progress& progress);

/// Reads one layer feature by feature, for whoever keeps them in another way.
/// @param take  each feature, in the order of the file.
/// @return  what readVector returns, without the features.
/// @throws Fault, MissingCrs, Cancelled
[[nodiscard]] VectorContent readVectorInto(const ReadRequest& request, const std::function<void(Feature&&)>& take,
                                           const Progress& progress);

/// Whether the filter of the request is a condition that its layer understands.
/// @throws FilterFault  it is none; Fault, Cancelled  the layer cannot be read.
void checkFilter(const ReadRequest& request, const Progress& progress);

/// What is written of the features of a layer.
struct BatchedAttributes {
    VectorContent about; ///< what readVector returns, without the features
    std::vector<AttributeBatch> batches;
};
/// Takes the geometry of all features of a layer, in the order of the file. What is said of the layer is what is known
/// by then: notes on its attributes may follow.
using GeometrySink = std::function<void(std::vector<FeatureBatch>&&, const VectorContent& about)>;

/// The same in batches of at most FeatureBatch::kMostFeatures, with several threads where the file allows it: first the
/// geometry of all features; then, when `take` has returned and so nothing holds the geometry up, their attributes.
/// @throws Fault, MissingCrs, Cancelled
[[nodiscard]] BatchedAttributes readVectorInBatches(const ReadRequest& request, const GeometrySink& take,
                                                    const Progress& progress);

/// Bounds on a child process that reads a foreign file.
struct ChildLimits {
    std::chrono::seconds time{120};
    std::size_t memoryBytes = std::size_t{4} << 30;
};

/// The same in a child process, so that a driver that crashes, hangs or eats memory takes nothing along.
/// @param reader  the program to start: fencewright-cli, whose hidden subcommand "foreign" answers.
/// @throws Fault  also when the child crashed, ran out of time or memory: says so and names the file.
[[nodiscard]] VectorDescription describeVectorApart(const std::string& reader, const std::string& path,
                                                    const ChildLimits& limits, const Progress& progress);
[[nodiscard]] VectorDescription describeDatabaseApart(const std::string& reader, const ReadRequest& request,
                                                      const ChildLimits& limits, const Progress& progress);
[[nodiscard]] std::string stateOfTableApart(const std::string& reader, const ReadRequest& request,
                                            const ChildLimits& limits, const Progress& progress);
void checkFilterApart(const std::string& reader, const ReadRequest& request, const ChildLimits& limits,
                      const Progress& progress);
[[nodiscard]] VectorContent readVectorApart(const std::string& reader, const ReadRequest& request,
                                            const ChildLimits& limits, const Progress& progress);

/// Takes the next piece of a stream of bytes.
using ByteSink = std::function<void(std::string_view)>;
/// Reads what the request names and says it as bytes, in a form of its own.
using StreamedReading = std::function<void(const ReadRequest&, const ByteSink&, const Progress&)>;

/// The child reads the layer and says it in the form of the StreamedReading that it was started with; the bytes come as
/// they are said. They are a foreign file's word: a child that the file has taken over can say what it likes.
/// @throws Fault, MissingCrs, Cancelled  as readVectorApart, and what `take` throws.
void streamVectorApart(const std::string& reader, const ReadRequest& request, const ChildLimits& limits,
                       const ByteSink& take, const Progress& progress);

/// The child's side: reads a request from standard input, writes the answer to standard output. Returns an exit code.
/// @param streamed  answers streamVectorApart; without one, that is refused.
int answerForeignRequest(const StreamedReading& streamed = {});

/// A format that can be read.
struct VectorFormat {
    std::string name;                  ///< "GeoPackage"
    std::vector<std::string> suffixes; ///< ".gpkg"
};
[[nodiscard]] std::vector<VectorFormat> vectorFormats();

} // namespace fencewright::exchange
