#include "audit/rule.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule homeMissing{
    .id = "home.missing",
    .title = phrase("core", "Home missing"),
    .why = phrase("core", "Without a home nobody can say whether the aircraft can come back."),
    .remedy = phrase("core", "Set a home where the aircraft starts and returns."),
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        if (subject.set.fences.empty())
            return;
        for (const auto& home : subject.set.homes)
            if (home.kind == model::HomeKind::Home)
                return;
        Finding finding;
        finding.words = subject.set.homes.empty() ? phrase("core", "The set has no home.")
                                                  : phrase("core", "The set has alternates, but no home.");
        report(std::move(finding));
    }};

} // namespace fencewright::audit
