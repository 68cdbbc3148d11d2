#include "bench/bar.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <stdexcept>

namespace fencewright::bench {
namespace {

struct Row {
    Bar bar;
    Figures figures;
    std::optional<double> held; ///< against the limit; nothing: could not be measured

    std::string verdict() const {
        if (!bar.limit)
            return "floor";
        return held && (bar.sense == Sense::AtMost ? *held <= *bar.limit : *held >= *bar.limit) ? "met" : "missed";
    }
};

/// Three figures that count.
std::string number(double value) {
    if (value == 0)
        return "0";
    char text[32];
    const double size = std::abs(value);
    const int decimals = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
    if (size > 0 && size < 0.01)
        std::snprintf(text, sizeof text, "%.2g", value);
    else
        std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

/// what, ours, baseline, ratio, bar, met or missed, note: tab-separated.
std::string lineOf(const Row& row) {
    const std::string& unit = row.bar.unit;
    const auto withUnit = [&](double value) { return number(value) + (unit.empty() ? "" : " " + unit); };
    const bool ratio = row.figures.baseline.has_value();
    const std::string sign = row.bar.sense == Sense::AtMost ? "<= " : ">= ";
    const std::string ours = row.held ? withUnit(row.figures.ours) : "-";
    const std::string baseline = row.held && ratio ? withUnit(*row.figures.baseline) : "-";
    const std::string limit =
        !row.bar.limit ? "-" : sign + (ratio || !row.held ? number(*row.bar.limit) : withUnit(*row.bar.limit));
    return row.bar.what + '\t' + ours + '\t' + baseline + '\t' + (row.held && ratio ? number(*row.held) : "-") + '\t' +
           limit + '\t' + row.verdict() + '\t' + row.figures.note;
}

void write(const std::filesystem::path& file, const std::vector<Row>& rows) {
    if (file.empty())
        return;
    std::ofstream to{file, std::ios::trunc};
    for (const Row& row : rows)
        to << lineOf(row) << '\n';
}

Row measured(const Bar& bar, const Options& options) {
    Row row{bar, {}, {}};
    try {
        row.figures = bar.measure(options);
        row.held = row.figures.baseline ? row.figures.ours / *row.figures.baseline : row.figures.ours;
    } catch (const std::exception& problem) {
        row.figures.note = std::string{"not measured: "} + problem.what();
    }
    return row;
}

} // namespace

int runBars(int argc, char** argv, const std::vector<Bar>& bars) {
    Options options;
    std::filesystem::path results;
    std::string only;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        const auto value = [&] { return i + 1 < argc ? std::string{argv[++i]} : std::string{}; };
        if (word == "--quick")
            options.quick = true;
        else if (word == "--data")
            options.data = value();
        else if (word == "--results")
            results = value();
        else if (word == "--only")
            only = value();
        else {
            std::fprintf(stderr, "%s: --quick, --data FOLDER, --results FILE, --only WORDS\n", argv[0]);
            return 2;
        }
    }
    std::vector<Row> rows;
    for (const Bar& bar : bars)
        if (bar.what.find(only) != std::string::npos)
            rows.push_back({bar, {.note = "not measured: the program ended before"}, {}});
    write(results, rows);
    for (Row& row : rows) {
        row = measured(row.bar, options);
        std::puts(lineOf(row).c_str());
        std::fflush(stdout);
        write(results, rows);
    }
    return 0;
}

Figures interleaved(int rounds, const Side& ours, const Side& baseline, Statistic statistic) {
    std::vector<double> first, second;
    (void)ours();
    (void)baseline();
    for (int round = 0; round < rounds; ++round) {
        first.push_back(ours());
        second.push_back(baseline());
    }
    if (statistic == Statistic::Minimum)
        return {.ours = *std::min_element(first.begin(), first.end()),
                .baseline = *std::min_element(second.begin(), second.end())};
    return {.ours = median(first), .baseline = median(second)};
}

double milliseconds(const std::function<void()>& work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

double median(std::vector<double> values) { return quantile(std::move(values), 0.5); }

double quantile(std::vector<double> values, double share) {
    if (values.empty())
        throw std::runtime_error{"there was nothing to measure"};
    const auto at = std::min(values.size() - 1, std::size_t(share * double(values.size())));
    std::nth_element(values.begin(), values.begin() + std::ptrdiff_t(at), values.end());
    return values[at];
}

std::size_t residentBytes() {
    std::ifstream status{"/proc/self/smaps_rollup"};
    for (std::string line; std::getline(status, line);)
        if (line.starts_with("Rss:"))
            return std::stoull(line.substr(4)) * 1024;
    throw std::runtime_error{"/proc/self/smaps_rollup has no Rss"};
}

} // namespace fencewright::bench
