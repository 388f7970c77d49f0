// Many invented street maps of one size, each solved as a problem of one root: how often the plan is proved the
// cheapest, what gap is left where it is not, and how long that takes.

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <string_view>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "graph/shared_cost_solver.hpp"
#include "support/solve_options.hpp"
#include "support/street_map.hpp"

namespace {

using namespace spadework;

constexpr int kBadUse = 2;
constexpr int kBug = 70;

/// Money for a metre of trench, invented.
constexpr std::array<std::pair<std::string_view, std::int64_t>, 7> kRates = {{{"verge", 15},
                                                                              {"park", 20},
                                                                              {"yard", 45},
                                                                              {"paving", 45},
                                                                              {"asphalt path", 80},
                                                                              {"street", 120},
                                                                              {"main road", 250}}};
constexpr std::int64_t kThousandthsADecimetre = 100;  ///< Of a price for a metre: costs are thousandths of money.

struct Options {
    bench::SiteSize size;
    int sites = 20;
    std::uint64_t first = 1;
    graph::SolveLimits limits;
};

std::int64_t rate_on(std::string_view ground) {
    const auto rate = std::find_if(kRates.begin(), kRates.end(), [&](const auto& r) { return r.first == ground; });
    if (rate == kRates.end()) throw std::logic_error(fmt::format("no price is invented for {}", ground));
    return rate->second;
}

/// Lengths in decimetres; each building's cable costs between 0.70 and 8.00 a metre.
graph::SharedCostProblem problem_of(const bench::StreetMap& map, bench::Dice& dice) {
    graph::SharedCostProblem problem;
    problem.vertex_count = static_cast<graph::VertexId>(map.places.size());
    for (const bench::MapSegment& segment : map.segments) {
        const bench::MapPlace& a = map.places[static_cast<std::size_t>(segment.from)];
        const bench::MapPlace& b = map.places[static_cast<std::size_t>(segment.to)];
        const auto east = static_cast<double>(a.x_dm - b.x_dm);
        const auto north = static_cast<double>(a.y_dm - b.y_dm);
        const auto length = static_cast<graph::Length>(std::llround(std::hypot(east, north)));
        const graph::Cost opening =
            (length * rate_on(segment.ground) + 10 * segment.crossing_charge) * kThousandthsADecimetre;
        problem.edges.push_back({segment.from, segment.to, opening, length, 0});
    }
    for (std::size_t p = 0; p < map.places.size(); ++p) {
        if (map.places[p].kind != bench::MapPlaceKind::building) continue;
        problem.demands.push_back({static_cast<graph::VertexId>(p), dice.between(70, 800), 1});
    }
    problem.roots = {{map.hub_place, 0}};
    return problem;
}

struct Tally {
    int proved = 0;
    double worst_gap = 0.0;
    double worst_seconds = 0.0;
    double all_seconds = 0.0;
};

void solve_one(const Options& options, std::uint64_t site, Tally& tally) {
    bench::Dice dice(site);
    const graph::SharedCostProblem problem = problem_of(bench::street_map(options.size, dice), dice);
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
