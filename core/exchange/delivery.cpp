#include "exchange/delivery.h"

#include "exchange/atomic_file.h"
#include "exchange/checksum.h"
#include "exchange/confirmation.h"
#include "exchange/delivery_draft.h"
#include "exchange/format_table.h"

namespace fencewright::exchange {

DeliveryReport deliver(const model::FenceSet& set, const std::string& path, const DeliveryOptions& options,
                       const geodesy::GroundHeight& ground, const Progress& progress) {
    const WritableFormat& format = writableFormat(options.format);
    if (options.decimals < 4 || options.decimals > 12)
        throw Fault{phrase("core", "Coordinates cannot be written with %1 decimals.")(options.decimals), path,
                    phrase("core", "Choose 4 to 12 decimals.")};
    AtomicFile file{path}; // first: whoever may not write here should not wait to learn so
    DeliveryDraft draft = draftOf(set, options, format.drawsHeights, ground, progress);

    progress.report(0.7, phrase("core", "Writing"));
    file.write(format.write(draft.content));
    progress.report(0.8, phrase("core", "Reading back and comparing"));
    const std::string content = file.content();
    Confirmation confirmation = confirmed(draft, format, content, ground, path);

    DeliveryReport report;
    report.path = path;
    report.format = format.info.name;
    report.fences = confirmation.held.fences.size();
    report.corners = confirmation.held.corners;
    report.keepOutAdded = draft.keepOutAdded;
    report.keepInLost = draft.keepInLost;
    report.differences = std::move(confirmation.differences);
    report.cautions = std::move(draft.cautions);
    report.checksum = sha256(content);

    progress.report(0.99, phrase("core", "Giving the file its name"));
    file.commit();
    report.confirmed = true;
    return report;
}

} // namespace fencewright::exchange
