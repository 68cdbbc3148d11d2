#include "exchange/delivery.h"

#include "command/arguments.h"
#include "command/counted.h"
#include "command/subcommand_table.h"
#include "store/document_file.h"
#include "units/measure_notation.h"

#include <algorithm>
#include <ostream>

namespace fencewright::command {
namespace {

const exchange::DeliveryFormatInfo& formatFor(const Arguments& arguments, const std::string& target) {
    const auto& formats = exchange::deliveryFormats();
    const auto id = arguments.value("format");
    const auto found = std::find_if(formats.begin(), formats.end(), [&](const exchange::DeliveryFormatInfo& one) {
        return id ? one.id == *id : target.ends_with(one.suffix);
    });
    if (found != formats.end())
        return *found;
    std::string known;
    for (const auto& one : formats)
        known += (known.empty() ? "" : ", ") + one.id + " (" + one.suffix + ")";
    throw UsageFault{"The format is not known.", "", "Give --format, or a file name that tells: " + known + "."};
}

int deliverDocument(std::span<const std::string> words, const Streams& streams) {
    const Arguments arguments =
        parseArguments(words, {"without-sites", "without-homes"}, {"format", "decimals", "corners"});
    if (arguments.files.size() != 2)
        throw UsageFault{"It takes a document and the file to write.", "", "See --help."};
    exchange::DeliveryOptions options;
    options.format = formatFor(arguments, arguments.files[1]).format;
    if (const auto decimals = arguments.value("decimals"))
        options.decimals = wholeNumber("decimals", *decimals, 4, 12);
    if (const auto corners = arguments.value("corners"))
        options.cornerBudget = static_cast<std::size_t>(wholeNumber("corners", *corners, 3, 1'000'000));
    options.withSites = !arguments.has("without-sites");
    options.withHomes = !arguments.has("without-homes");

    const auto opened = store::openDocument(arguments.files[0]);
    const auto report = exchange::deliver(opened.set, arguments.files[1], options, {});
    streams.out << (report.confirmed ? "delivered and read back: " : "NOT CONFIRMED: ") << report.path << "\n"
                << "  " << report.format << ", " << counted(report.fences, "fence") << ", "
                << counted(report.corners, "corner") << "\n"
                << "  keep-outs grew by " << units::formatArea(report.keepOutAdded, units::System::Metric)
                << ", keep-ins shrank by " << units::formatArea(report.keepInLost, units::System::Metric) << "\n"
                << "  SHA-256 " << report.checksum << "\n";
    for (const auto& difference : report.differences)
        streams.out << "  " << (difference.permitsMore ? "PERMITS MORE: " : "difference: ")
                    << difference.words.english() << "\n";
    for (const auto& caution : report.cautions)
        streams.out << "  caution: " << caution.english() << "\n";
    return report.confirmed ? kDone : kFound;
}

} // namespace

extern const Subcommand deliver{"deliver", "write a document's fences for crews and flight systems, and read them back",
                                R"(Usage: fencewright-cli deliver [options] DOCUMENT.gpkg FILE.geojson|FILE.kml

Writes the enabled fences. The file is read back and compared with the set by exact containment before it gets its
name: nothing that leaves permits flight that the set forbids.

  --format geojson|kml   else told by the file's suffix
  --decimals N           decimals of a degree, 4 to 12 (7); outlines are rounded to the safe side
  --corners N            at most N corners for each fence, simplified to the safe side
  --without-sites        leaves the sites out (confidential ones always stay out)
  --without-homes        leaves the homes out

Exit codes: 0 delivered and confirmed; 1 not confirmed; 2 command line; 3 cannot be read or written.
)",
                                deliverDocument};

} // namespace fencewright::command
