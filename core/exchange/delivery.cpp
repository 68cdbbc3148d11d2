#include "exchange/delivery.h"

#include "exchange/atomic_file.h"
#include "exchange/checksum.h"
#include "exchange/delivery_draft.h"
#include "exchange/drawn_height.h"
#include "exchange/format_table.h"

#include <algorithm>

namespace fencewright::exchange {

namespace {

using compare::Difference;
using compare::DifferenceKind;

/// Surfaces may differ to the safe side; all else is written as it is, and must be read so.
bool isFault(const Difference& difference) {
    return difference.permitsMore ||
           (difference.kind != DifferenceKind::Larger && difference.kind != DifferenceKind::Smaller);
}

[[noreturn]] void refuse(const std::string& problem, const std::string& path) {
    throw Fault{"The file was not delivered, since what was read back is not what was approved: " + problem, path,
                "Nothing was changed. Try more decimals or a larger corner budget, and report this."};
}

void confirmDrawings(const std::vector<compare::HeldFence>& approved, const ReadBack& held,
                     const geodesy::GroundHeight& ground, const std::string& path) {
    for (std::size_t i = 0; i < held.fences.size(); ++i) {
        const compare::HeldFence& fence = held.fences[i];
        const auto at = std::find_if(approved.begin(), approved.end(),
                                     [&](const compare::HeldFence& each) { return each.id == fence.id; });
        const std::string fault =
            at == approved.end() ? "it was not approved" : drawingFault(*at, fence, held.drawings[i], ground);
        if (!fault.empty())
            refuse("of \"" + fence.name + "\", " + fault + ".", path);
    }
}

} // namespace

DeliveryReport deliver(const model::FenceSet& set, const std::string& path, const DeliveryOptions& options,
                       const geodesy::GroundHeight& ground, const Progress& progress) {
    const WritableFormat& format = writableFormat(options.format);
    if (options.decimals < 4 || options.decimals > 12)
        throw Fault{"Coordinates cannot be written with " + std::to_string(options.decimals) + " decimals.", path,
                    "Choose 4 to 12 decimals."};
    AtomicFile file{path}; // first: whoever may not write here should not wait to learn so
    DeliveryDraft draft = draftOf(set, options, format.drawsHeights, ground, progress);

    progress.report(0.7, "Writing");
    file.write(format.write(draft.content));

    progress.report(0.8, "Reading back");
    const std::string content = file.content();
    ReadBack held;
    try {
        held = format.read(content);
    } catch (const Cancelled&) {
        throw;
    } catch (const Fault& fault) {
        refuse(fault.place() + ": " + fault.problem(), path);
    }

    progress.report(0.85, "Comparing");
    DeliveryReport report;
    report.path = path;
    report.format = format.info.name;
    report.differences = compare::differences(draft.approved, held.fences);
    const auto fault = std::find_if(report.differences.begin(), report.differences.end(), isFault);
    if (fault != report.differences.end())
        refuse(fault->words, path);
    confirmDrawings(draft.approved, held, ground, path);
    report.fences = held.fences.size();
    report.corners = held.corners;
    report.keepOutAdded = draft.keepOutAdded;
    report.keepInLost = draft.keepInLost;
    report.cautions = std::move(draft.cautions);
    report.checksum = sha256(content);

    progress.report(0.99, "Giving the file its name");
    file.commit();
    report.confirmed = true;
    return report;
}

} // namespace fencewright::exchange
