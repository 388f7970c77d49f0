// Solves one benchmark file and prints what came out and how long it took.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <exception>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "graph/shared_cost_solver.hpp"
#include "support/peak_memory.hpp"
#include "support/routing_file.hpp"
#include "support/solve_options.hpp"

namespace {

using namespace spadework;

constexpr int kBadUse = 2;
constexpr int kBadFile = 3;
constexpr int kNoPlan = 4;

struct Options {
    std::string file;
    std::string trench_price = "1";
    std::string cable_price = "0";
    std::string site_cost = "0";
    bool free_root = false;
    bool verbose = false;
    bool sketch_only = false;
    graph::SolveLimits limits;
};

/// Prints each improvement on stderr.
class Narrator : public graph::Progress {
public:
    explicit Narrator(double units) : units_(units) {}
    void improved(std::int64_t value, std::int64_t bound) override {
        const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start_;
        const auto plan = static_cast<double>(value);
        fmt::print(stderr, "{:8.3f} s  value {:.3f}  bound {:.3f}  gap {:.6f} %\n", passed.count(), plan / units_,
                   static_cast<double>(bound) / units_, 100.0 * (plan - static_cast<double>(bound)) / plan);
    }
    [[nodiscard]] bool should_stop() const override { return false; }

private:
    double units_;
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

/// The amount in the file's unit, exact to the last decimal.
std::string in_file_unit(std::int64_t amount, std::int64_t units_per_cost) {
    std::string fraction;
    for (std::int64_t unit = units_per_cost / 10, rest = amount % units_per_cost; unit > 0; unit /= 10) {
        fraction += static_cast<char>('0' + rest / unit % 10);
    }
    while (!fraction.empty() && fraction.back() == '0')
        fraction.pop_back();
    return fmt::format("{}{}{}", amount / units_per_cost, fraction.empty() ? "" : ".", fraction);
}

int report(const bench::RoutingCase& routing, const Options& options) {
    graph::SolveLimits limits = options.limits;
    Narrator narrator(static_cast<double>(routing.units_per_cost));
    if (options.verbose) limits.progress = &narrator;
    const auto start = std::chrono::steady_clock::now();
    const graph::SharedCostSolution solution =
        options.sketch_only ? graph::sketch(routing.problem, limits) : graph::solve(routing.problem, limits);
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start;
    if (!solution.plan) {
        fmt::print(stderr, "no plan: some demand cannot be reached\n");
        return kNoPlan;
    }
    const std::int64_t value = solution.plan->value;
    const double gap = value > 0 ? static_cast<double>(value - solution.bound) / static_cast<double>(value) : 0.0;
    fmt::print("value={} bound={} gap={:.9f} seconds={:.3f} peak_mb={:.1f}",
               in_file_unit(value, routing.units_per_cost), in_file_unit(solution.bound, routing.units_per_cost), gap,
               passed.count(), bench::peak_memory_mb());
    if (options.free_root) fmt::print(" places_left={}", solution.roots_left.size());
    fmt::print("\n");
    return 0;
}

bench::Decimal price(const std::string& text, const char* option) {
    const auto number = bench::read_decimal(text);
    if (!number) throw CLI::ValidationError(option, "not a number of 0 or more: " + text);
    return *number;
}

bench::ReadingChoice choice_of(const Options& options) {
    return {price(options.trench_price, "--trench-price"), price(options.cable_price, "--cable-price"),
            options.free_root, price(options.site_cost, "--site-cost")};
}

void declare(CLI::App& app, Options& options) {
    app.add_option("file", options.file, ".stp file or CT site map, may be gzipped")->required();
    app.add_option("--trench-price", options.trench_price, ".stp: opening cost for a unit of edge weight (default 1)");
    app.add_option("--cable-price", options.cable_price,
                   ".stp: what each path pays for a unit of edge weight (default 0)");
    bench::add_solve_options(app, options.limits);
    app.add_option("--target-gap", options.limits.target_gap, "stop at this gap, a fraction (default 0)")
        ->check(CLI::NonNegativeNumber);
    app.add_flag("--free-root", options.free_root,
                 "site maps: choose the root among nodes of type 0 and 1; the given root becomes a terminal");
    app.add_option("--site-cost", options.site_cost, "with --free-root: what each root costs (default 0)");
    app.add_flag("--sketch", options.sketch_only, "only the quick plan, no bound");
    app.add_flag("--verbose", options.verbose, "print every improvement on stderr");
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app(
        "Finds a cheapest tree of trenches and cables for one benchmark file and bounds how far it is from the "
        "cheapest. The last line of output is value=... bound=... gap=... seconds=... peak_mb=... in the "
        "file's unit, the gap as a fraction of the value.\nExit code: 0 done, 2 bad use, 3 bad file, 4 no plan.");
    Options options;
    declare(app, options);
    try {
        app.parse(argc, argv);
        const bench::RoutingCase routing = bench::read_routing_case(bench::file_text(options.file), choice_of(options));
        for (const std::string& error : routing.errors)
            fmt::print(stderr, "{}: {}\n", options.file, error);
        return routing.errors.empty() ? report(routing, options) : kBadFile;
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : kBadUse;
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}\n", error.what());
        return kBadFile;
    }
}
