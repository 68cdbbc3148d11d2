#include "exchange/confirmation.h"

#include "exchange/drawn_height.h"
#include "fault.h"

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

[[noreturn]] void refuse(const Wording& problem, const std::string& path) {
    throw Fault{
        phrase("core", "The file was not delivered, since what was read back is not what was approved: %1")(problem),
        path, phrase("core", "Nothing was changed. Try more decimals or a larger corner budget, and report this.")};
}

ReadBack readBack(const WritableFormat& format, std::string_view content, const std::string& path) {
    try {
        return format.read(content);
    } catch (const Fault& fault) {
        refuse(Wording::joined({fault.words().place, fault.words().problem}, ": "), path);
    }
}

} // namespace

Confirmation confirmed(const DeliveryDraft& draft, const WritableFormat& format, std::string_view content,
                       const geodesy::GroundHeight& ground, const std::string& path) {
    Confirmation result{readBack(format, content, path), {}};
    result.differences = compare::differences(draft.approved, result.held.fences);
    const auto fault = std::find_if(result.differences.begin(), result.differences.end(), isFault);
    if (fault != result.differences.end())
        refuse(fault->words, path);
    for (std::size_t i = 0; i < result.held.fences.size(); ++i) {
        const compare::HeldFence& held = result.held.fences[i];
        const auto approved = std::find_if(draft.approved.begin(), draft.approved.end(),
                                           [&](const compare::HeldFence& each) { return each.id == held.id; });
        const Wording words = approved == draft.approved.end()
                                  ? phrase("core", "it goes under another identity")
                                  : drawingFault(*approved, held, result.held.drawings[i], ground);
        if (!words.empty())
            refuse(phrase("core", "of \"%1\", %2.")(held.name, words), path);
    }
    return result;
}

} // namespace fencewright::exchange
