#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::bench {

/// What a program of the bench was started with.
struct Options {
    std::filesystem::path data; ///< made by bench-data
    bool quick = false;         ///< fewer rounds, shorter walks: to see that all runs, not to be quoted
    int rounds() const { return quick ? 3 : 7; }
};

/// What a measuring found. Without a baseline, `ours` itself is held against the bar.
struct Figures {
    double ours = 0.0;
    std::optional<double> baseline{};
    std::string note{};
};

enum class Sense { AtMost, AtLeast };

/// A limit, and how it is measured. Without a limit it is a floor: what nobody gets under, shown for what it is.
struct Bar {
    std::string what;
    std::string unit;
    Sense sense = Sense::AtMost;
    std::optional<double> limit;
    std::function<Figures(const Options&)> measure;
};

/// Measures all bars and prints a line for each; with --results FILE also writes them there, tab-separated, the ones
/// not yet measured as missed. A bar whose measuring throws is missed, and its note says why.
/// Arguments: [--quick] [--data FOLDER] [--results FILE] [--only WORDS]
/// @return  the exit code: 0, however the bars came out.
int runBars(int argc, char** argv, const std::vector<Bar>& bars);

/// One run of one side; answers its figure.
using Side = std::function<double()>;

enum class Statistic { Median, Minimum };

/// Both sides by turns, so that whatever else the machine does falls on both. One turn of each goes before, uncounted.
[[nodiscard]] Figures interleaved(int rounds, const Side& ours, const Side& baseline,
                                  Statistic statistic = Statistic::Median);

[[nodiscard]] double milliseconds(const std::function<void()>& work);
[[nodiscard]] double median(std::vector<double> values);
/// The value that a share of all (0 to 1) does not exceed.
[[nodiscard]] double quantile(std::vector<double> values, double share);

/// Memory of this process that lies in the machine's, by the system's count.
[[nodiscard]] std::size_t residentBytes();

} // namespace fencewright::bench
