// Makes invented sites of given sizes and compares their layouts: totals, bounds, gaps, time and memory.

#include <algorithm>
#include <chrono>
#include <exception>
#include <fstream>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "study/study.hpp"
#include "support/invented_scenario.hpp"
#include "support/invented_site.hpp"
#include "support/layout_names.hpp"
#include "support/peak_memory.hpp"

namespace {

using namespace spadework;

constexpr double kLateShare = 1.1;  // A comparison that takes more than this share of its limit is called late.
constexpr int kBadUse = 2;
constexpr int kCannotWrite = 3;
constexpr int kBug = 70;  // The site does not read, a plan fails its verification, or a run crashed.

struct Options {
    bench::SiteSize size{0, 0};
    std::uint64_t seed = 1;
    int threads = 2;
    double seconds = 60.0;
    std::vector<std::string> layouts;
    std::string write_to;
};

const std::vector<bench::SiteSize>& usual_sizes() {
    static const std::vector<bench::SiteSize> sizes = {{40, 1000}, {150, 5000}, {600, 20000}};
    return sizes;
}

/// Whole units and hundredths of money in euros.
std::string amount(Money money) {
    return fmt::format("{}.{:02}", money.minor() / 100, money.minor() % 100);
}

void print_layout(const LayoutResult& result) {
    if (!result.feasible()) {
        fmt::print("{:24} infeasible: {}\n", name_of(result.layout), result.reason);
        return;
    }
    fmt::print("{:24} {:>14} {:>14} {:>9.4f}{}\n", name_of(result.layout), amount(result.total), amount(result.bound),
               100.0 * result.gap, result.interrupted ? "  time ran out" : "");
}

/// The last line of a site: names and figures, gaps as fractions.
void print_figures(const bench::SiteSize& size, const Study& study, double seconds, double limit) {
    double worst = 0.0;
    std::string gaps;
    for (const LayoutResult& result : study.comparison.layouts) {
        if (result.feasible()) worst = std::max(worst, result.gap);
        gaps += result.feasible() ? fmt::format(" gap_{}={:.9f}", id_of(result.layout), result.gap)
                                  : fmt::format(" gap_{}=none", id_of(result.layout));
    }
    if (seconds > kLateShare * limit) fmt::print("ended late: {:.1f} s with a limit of {:.1f} s\n", seconds, limit);
    fmt::print("buildings={} segments={} worst_gap={:.9f} seconds={:.3f} peak_mb={:.1f}{}\n", size.buildings,
               size.segments, worst, seconds, bench::peak_memory_mb(), gaps);
}

int compare_one(const bench::SiteSize& size, const Options& options) {
    const Scenario scenario = bench::invented_scenario(size, options.seed);
    const auto start = std::chrono::steady_clock::now();
    const Study study = compare_layouts(scenario, {.layouts = bench::layouts_of(options.layouts),
                                                   .seconds = options.seconds,
                                                   .threads = options.threads,
                                                   .seed = options.seed});
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start;
    fmt::print("{} buildings, {} segments, seed {}\n", size.buildings, size.segments, options.seed);
    fmt::print("{:24} {:>14} {:>14} {:>9}\n", "layout", "total", "bound", "gap %");
    for (const LayoutResult& result : study.comparison.layouts)
        print_layout(result);
    for (const std::string& violation : study.violations)
        fmt::print("the plan fails its verification: {}\n", violation);
    print_figures(size, study, passed.count(), options.seconds);
    return study.violations.empty() ? 0 : kBug;
}

/// Each site in a process of its own, so that its peak of memory is its own.
int compare_apart(const bench::SiteSize& size, const Options& options) {
    std::fflush(nullptr);
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("cannot start another process");
    if (child == 0) {
        const int code = compare_one(size, options);
        std::fflush(nullptr);
        _exit(code);
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (WIFEXITED(status)) return WEXITSTATUS(status);
    fmt::print("the comparison of {} buildings was ended by signal {}\n", size.buildings, WTERMSIG(status));
    return kBug;
}

int write_site(const bench::SiteSize& size, const Options& options) {
    std::ofstream file(options.write_to, std::ios::binary);
    file << bench::invented_site(size, options.seed);
    if (file.flush()) return 0;
    fmt::print(stderr, "cannot write {}\n", options.write_to);
    return kCannotWrite;
}

std::vector<bench::SiteSize> sizes_of(const Options& options) {
    if (options.size.buildings == 0 && options.size.segments == 0) return usual_sizes();
    const int buildings = options.size.buildings;
    const int least = bench::least_segments(std::max(1, buildings));
    if (buildings < 1 || options.size.segments < least) {
        throw CLI::ValidationError(
            "--segments", fmt::format("{} buildings need at least {} segments", std::max(1, buildings), least));
    }
    return {options.size};
}

int run(const Options& options) {
    const std::vector<bench::SiteSize> sizes = sizes_of(options);
    bench::layouts_of(options.layouts);  // Complains before anything is run.
    if (!options.write_to.empty()) {
        if (sizes.size() > 1) throw CLI::ValidationError("--write", "needs --buildings and --segments");
        return write_site(sizes.front(), options);
    }
    int worst = 0;
    for (const bench::SiteSize& size : sizes)
        worst = std::max(worst, compare_apart(size, options));
    return worst;
}

void declare(CLI::App& app, Options& options) {
    app.add_option("--buildings", options.size.buildings, "buildings of one site, with --segments")
        ->check(CLI::Range(1, 100000));
    app.add_option("--segments", options.size.segments, "segments of its map")->check(CLI::Range(1, 10000000));
    app.add_option("--seed", options.seed, "of the site and of the search (default 1)");
    app.add_option("--seconds", options.seconds, "wall-clock limit for each site's comparison (default 60)")
        ->check(CLI::NonNegativeNumber);
    app.add_option("--threads", options.threads, "threads; the answer is the same (default 2)")
        ->check(CLI::PositiveNumber);
    app.add_option("--layout", options.layouts, "only this layout, as spadework compare names it; may be given often");
    app.add_option("--write", options.write_to, "write the site file there instead, for spadework compare");
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app(
        "Makes invented sites of 40 buildings and 1000 segments, 150 and 5000, 600 and 20000, or of one size given, "
        "and "
        "compares their layouts. For each site it prints each layout's total, bound and gap in percent, then one line\n"
        "  buildings=... segments=... worst_gap=... seconds=... peak_mb=... gap_LAYOUT=...\n"
        "with gaps as fractions of the total (none where a layout is infeasible), the wall-clock seconds of the "
        "comparison and the most memory it held.\n"
        "Exit code: 0 done, 2 bad use, 3 cannot write, 70 a bug: a site that does not read, a plan that fails its "
        "verification, or a crash.");
    Options options;
    declare(app, options);
    try {
        app.parse(argc, argv);
        return run(options);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : kBadUse;
    } catch (const std::invalid_argument& error) {
        fmt::print(stderr, "{}\n", error.what());
        return kBadUse;
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}\n", error.what());
        return kBug;
    }
}
