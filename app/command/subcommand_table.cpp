#include "command/subcommand_table.h"

#include "command/arguments.h"

#include <algorithm>
#include <array>
#include <ostream>

namespace fencewright::command {

extern const Subcommand describe;
extern const Subcommand create;
extern const Subcommand auditDocument;
extern const Subcommand deliver;

std::span<const Subcommand* const> subcommands() {
    static constexpr std::array table{&describe, &create, &auditDocument, &deliver};
    return table;
}

namespace {

void printHelp(std::ostream& out) {
    out << "fencewright-cli: geofences prepared, checked and handed out, without a window.\n\n"
           "Usage: fencewright-cli SUBCOMMAND [options] files...\n\n";
    for (const Subcommand* one : subcommands())
        out << "  " << one->name << std::string(12 - one->name.size(), ' ') << one->summary << "\n";
    out << "\nfencewright-cli SUBCOMMAND --help says more.\n\n"
           "Exit codes: 0 done; 1 the audit found an error, or a delivery was not confirmed; 2 the command line is "
           "not\n"
           "understood; 3 a file could not be read or written.\n\n"
           "Caution: a fence set is an aid. Check it against local rules and current notices, and leave to licensed\n"
           "practice what belongs there.\n";
}

} // namespace

int run(std::span<const std::string> words, const Streams& streams) {
    if (words.empty() || words[0] == "--help" || words[0] == "help") {
        printHelp(words.empty() ? streams.err : streams.out);
        return words.empty() ? kUsage : kDone;
    }
    const auto table = subcommands();
    const auto found =
        std::find_if(table.begin(), table.end(), [&](const Subcommand* one) { return one->name == words[0]; });
    if (found == table.end()) {
        streams.err << "fencewright-cli: there is no subcommand \"" << words[0] << "\". See --help.\n";
        return kUsage;
    }
    const auto rest = words.subspan(1);
    if (std::find(rest.begin(), rest.end(), "--help") != rest.end()) {
        streams.out << (*found)->help;
        return kDone;
    }
    try {
        return (*found)->run(rest, streams);
    } catch (const UsageFault& fault) {
        streams.err << "fencewright-cli " << words[0] << ": " << fault.what() << "\n";
        return kUsage;
    } catch (const Fault& fault) {
        streams.err << "fencewright-cli " << words[0] << ": " << fault.what() << "\n";
        return kFault;
    }
}

} // namespace fencewright::command
