// Many invented street maps of one size, each solved as a problem of one root: how often the plan is proved the
// cheapest, what gap is left where it is not, and how long that takes.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <exception>
#include <stdexcept>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "graph/shared_cost_solver.hpp"
#include "support/solve_options.hpp"
#include "support/street_problem.hpp"

namespace {

using namespace spadework;

constexpr int kBadUse = 2;
constexpr int kBug = 70;

struct Options {
    bench::SiteSize size;
    int sites = 20;
    std::uint64_t first = 1;
    graph::SolveLimits limits;
};

struct Tally {
    int proved = 0;
    double worst_gap = 0.0;
    double worst_seconds = 0.0;
    double all_seconds = 0.0;
};

void solve_one(const Options& options, std::uint64_t site, Tally& tally) {
    bench::Dice dice(site);
    const graph::SharedCostProblem problem = bench::street_problem(bench::street_map(options.size, dice), dice);
    const auto start = std::chrono::steady_clock::now();
    const graph::SharedCostSolution solution = graph::solve(problem, options.limits);
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start;
    const auto value = static_cast<double>(solution.plan.value().value);
    const double gap = (value - static_cast<double>(solution.bound)) / value;
    fmt::print("{:>6} {:>16.3f} {:>16.3f} {:>10.5f} {:>6} {:>8.3f}\n", site, value / 1000,
               static_cast<double>(solution.bound) / 1000, 100 * gap, solution.certificate.splits.size(),
               passed.count());
    std::fflush(stdout);
    tally.proved += solution.optimal ? 1 : 0;
    tally.worst_gap = std::max(tally.worst_gap, gap);
    tally.worst_seconds = std::max(tally.worst_seconds, passed.count());
    tally.all_seconds += passed.count();
}

int run(const Options& options) {
    Tally tally;
    fmt::print("{:>6} {:>16} {:>16} {:>10} {:>6} {:>8}\n", "site", "plan", "bound", "gap %", "parts", "s");
    for (int i = 0; i < options.sites; ++i)
        solve_one(options, options.first + static_cast<std::uint64_t>(i), tally);
    fmt::print("sites={} proved={} worst_gap={:.9f} mean_seconds={:.3f} worst_seconds={:.3f}\n", options.sites,
               tally.proved, tally.worst_gap, tally.all_seconds / options.sites, tally.worst_seconds);
    return 0;
}

void declare(CLI::App& app, Options& options) {
    app.add_option("--buildings", options.size.buildings, "buildings of each site (default 40)")
        ->check(CLI::PositiveNumber);
    app.add_option("--segments", options.size.segments, "segments of each site (default 1000)")
        ->check(CLI::PositiveNumber);
    app.add_option("--sites", options.sites, "how many sites (default 20)")->check(CLI::PositiveNumber);
    app.add_option("--first", options.first,
                   "random seed of the first (default 1); the next have the numbers after it");
    bench::add_solve_options(app, options.limits);
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app(
        "Finds the cheapest tree of trenches and cables from the hub on many invented street maps and prints plan, "
        "bound, gap, the parts that the proof takes and the time of each. The last line is\n"
        "  sites=... proved=... worst_gap=... mean_seconds=... worst_seconds=...\n"
        "the gap as a fraction.\nExit code: 0 done, 2 bad use, 70 a bug.");
    Options options;
    declare(app, options);
    try {
        app.parse(argc, argv);
        if (options.size.segments < bench::least_segments(options.size.buildings)) {
            throw CLI::ValidationError("--segments",
                                       fmt::format("{} buildings need {} at least", options.size.buildings,
                                                   bench::least_segments(options.size.buildings)));
        }
        return run(options);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : kBadUse;
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}\n", error.what());
        return kBug;
    }
}
