#include "audit/audit.h"
#include "audit/rule_table.h"
#include "command/arguments.h"
#include "command/counted.h"
#include "command/subcommand_table.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"
#include "store/document_file.h"
#include "units/measure_notation.h"

#include <nlohmann/json.hpp>

#include <chrono>
#include <ostream>

namespace fencewright::command {
namespace {

using Json = nlohmann::ordered_json;

std::string word(audit::Severity severity) {
    switch (severity) {
    case audit::Severity::Note:
        return "note";
    case audit::Severity::Doubt:
        return "doubt";
    case audit::Severity::Error:
        return "error";
    }
    return "";
}

/// Nothing where none is stated, or it cannot be computed, which a finding says.
std::optional<Length> marginOf(const model::FenceSet& set) {
    try {
        return set.margin ? std::optional{model::distances(*set.margin).total} : std::nullopt;
    } catch (const Fault&) {
        return std::nullopt;
    }
}

model::Date dateOf(const Arguments& arguments) {
    if (const auto text = arguments.value("date")) {
        if (const auto date = model::parseIsoDate(*text))
            return *date;
        throw UsageFault{"--date takes a date such as 2026-05-14, not \"" + *text + "\".", "", ""};
    }
    return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
}

Json asJson(const audit::Finding& finding, const model::FenceSet& set) {
    Json json{{"rule", finding.rule}, {"severity", word(finding.severity)}};
    if (const model::Fence* fence = finding.fence ? set.fences.find(*finding.fence) : nullptr)
        json["fence"] = fence->name;
    if (const model::Home* home = finding.home ? set.homes.find(*finding.home) : nullptr)
        json["home"] = home->name;
    if (finding.place)
        json["place"] = {finding.place->lon, finding.place->lat};
    json["words"] = finding.words.english();
    json["remedy"] = finding.remedy.english();
    json["repairable"] = finding.repair.has_value();
    return json;
}

int auditOne(std::span<const std::string> words, const Streams& streams) {
    const Arguments arguments = parseArguments(words, {"json", "rules"}, {"date"});
    if (arguments.has("rules")) {
        for (const audit::Rule* rule : audit::rules())
            streams.out << rule->id << " (" << word(rule->severity) << "): " << rule->title.english << "\n    "
                        << rule->why.english << "\n";
        return kDone;
    }
    if (arguments.files.size() != 1)
        throw UsageFault{"It takes one document.", "", "See --help."};
    const airspace::Moment moment{dateOf(arguments), std::nullopt};
    const auto opened = store::openDocument(arguments.files[0]);
    const auto result = audit::audit(opened.set, moment, {});
    const auto area = geodesy::measure(result.operatingArea).area;
    const auto margin = marginOf(opened.set);
    const auto errors = result.count(audit::Severity::Error);
    if (arguments.has("json")) {
        Json findings = Json::array();
        for (const auto& finding : result.findings)
            findings.push_back(asJson(finding, opened.set));
        streams.out << Json{{"document", arguments.files[0]},
                            {"date", model::isoDate(moment.date)},
                            {"errors", errors},
                            {"doubts", result.count(audit::Severity::Doubt)},
                            {"notes", result.count(audit::Severity::Note)},
                            {"operating_area_m2", area.inSquareMetres()},
                            {"margin_m", margin ? Json(margin->inMetres()) : Json{}},
                            {"clear_area_m2", result.clearArea ? Json(result.clear.inSquareMetres()) : Json{}},
                            {"findings", findings}}
                           .dump(2, ' ', false, Json::error_handler_t::replace)
                    << "\n";
    } else {
        for (const auto& finding : result.findings) {
            streams.out << word(finding.severity) << ": " << finding.words.english();
            if (finding.place)
                streams.out << " [" << geodesy::format(*finding.place, geodesy::Notation::DecimalDegrees) << "]";
            streams.out << "\n    " << finding.remedy.english() << " (" << finding.rule << ")\n";
        }
        streams.out << counted(errors, "error") << ", " << counted(result.count(audit::Severity::Doubt), "doubt")
                    << ", " << counted(result.count(audit::Severity::Note), "note") << " on "
                    << model::isoDate(moment.date) << "; operating area "
                    << units::formatArea(area, units::System::Metric);
        if (result.clearArea)
            streams.out << ", clear area " << units::formatArea(result.clear, units::System::Metric);
        if (margin)
            streams.out << " with a margin of " << units::formatLength(*margin, units::System::Metric);
        streams.out << "\n";
    }
    return errors ? kFound : kDone;
}

} // namespace

extern const Subcommand auditDocument{"audit", "check a document and list the findings",
                                      R"(Usage: fencewright-cli audit [--date YYYY-MM-DD] [--json] DOCUMENT.gpkg
       fencewright-cli audit --rules

Checks the fence set of a document as of a date (today, in UTC, unless given) and lists what it finds, errors first.

  --date   the day the question is about: seasons and dates of fences are taken as of it
  --json   findings as JSON
  --rules  lists the rules and why each matters

Exit codes: 0 no errors (there may be doubts and notes); 1 at least one error; 2 command line; 3 cannot be read.
)",
                                      auditOne};

} // namespace fencewright::command
