// How the time to a given gap grows with the size of the site.

#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <optional>
#include <stdexcept>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "study/study.hpp"
#include "support/cpu_time.hpp"
#include "support/invented_scenario.hpp"
#include "support/layout_names.hpp"
#include "support/power_law.hpp"

namespace {

using namespace spadework;

constexpr int kBadUse = 2;
constexpr int kBug = 70;

constexpr std::array kGoals = {0.05, 0.01, 0.001};

struct Options {
    std::vector<int> sizes = {250, 500, 1000, 2000, 4000, 8000, 16000};
    int seeds = 2;
    double seconds = 20.0;
    std::vector<std::string> layouts;
};

/// Notes when each goal is reached, and asks to stop after the last. The gap is that of what the routes decide, without
/// the part of the total that is the same for every plan of the layout.
class GoalWatch : public StudyObserver {
public:
    void started(LayoutKind /*layout*/) override { start_ = bench::cpu_seconds(); }
    void improved(LayoutKind /*layout*/, std::int64_t value, std::int64_t bound) override {
        const auto cost = static_cast<double>(value);
        const double gap = value > 0 ? (cost - static_cast<double>(bound)) / cost : 0.0;
        for (std::size_t g = 0; g < kGoals.size(); ++g) {
            if (!reached_[g] && gap <= kGoals[g]) reached_[g] = bench::cpu_seconds() - start_;
        }
    }
    [[nodiscard]] bool should_stop() const override { return reached_.back().has_value(); }
    [[nodiscard]] std::optional<double> seconds_to(std::size_t goal) const { return reached_[goal]; }

private:
    double start_ = 0;
    std::array<std::optional<double>, kGoals.size()> reached_;
};

/// What was measured of one layout.
struct Series {
    std::array<std::vector<bench::SizeAndTime>, kGoals.size()> points;
    std::array<int, kGoals.size()> missed{};
};

std::string time_text(const std::optional<double>& seconds) {
    return seconds ? fmt::format("{:.4f}", *seconds) : "not reached";
}

void measure(const Scenario& scenario, LayoutKind layout, const Options& options, Series& series) {
    GoalWatch watch;
    compare_layouts(scenario,
                    {.layouts = {layout}, .seconds = options.seconds, .threads = 1, .seed = 1, .observer = &watch});
    const auto size = static_cast<double>(scenario.segments.size());
    for (std::size_t g = 0; g < kGoals.size(); ++g) {
        const auto seconds = watch.seconds_to(g);
        if (seconds) series.points[g].push_back({size, *seconds});
        series.missed[g] += seconds ? 0 : 1;
    }
    fmt::print("{:12} {:>9} {:>10}", id_of(layout), scenario.segments.size(), scenario.buildings.size());
    for (std::size_t g = 0; g < kGoals.size(); ++g)
        fmt::print(" {:>12}", time_text(watch.seconds_to(g)));
    fmt::print("\n");
    std::fflush(stdout);
}

void print_fit(LayoutKind layout, const Series& series) {
    for (std::size_t g = 0; g < kGoals.size(); ++g) {
        const auto law = bench::fitted_power_law(series.points[g]);
        fmt::print("layout={} goal={} reached={} missed={}", id_of(layout), kGoals[g], series.points[g].size(),
                   series.missed[g]);
        if (law) {
            fmt::print(" exponent={:.3f} seconds_at_1000={:.4f} spread={:.3f}\n", law->exponent,
                       law->factor * std::pow(1000.0, law->exponent), law->spread);
        } else {
            fmt::print(" exponent=none\n");
        }
    }
}

int run(const Options& options) {
    const std::vector<LayoutKind> layouts = bench::layouts_of(options.layouts);
    std::vector<Series> series(layouts.size());
    fmt::print("{:12} {:>9} {:>10}", "layout", "segments", "buildings");
    for (const double goal : kGoals)
        fmt::print(" {:>12}", fmt::format("s to {} %", 100 * goal));
    fmt::print("\n");
    for (const int segments : options.sizes) {
        for (int seed = 1; seed <= options.seeds; ++seed) {
            const Scenario scenario =
                bench::invented_scenario({std::max(1, segments * 3 / 100), segments}, static_cast<std::uint64_t>(seed));
            for (std::size_t i = 0; i < layouts.size(); ++i)
                measure(scenario, layouts[i], options, series[i]);
        }
    }
    for (std::size_t i = 0; i < layouts.size(); ++i)
        print_fit(layouts[i], series[i]);
    return 0;
}

void declare(CLI::App& app, Options& options) {
    app.add_option("--sizes", options.sizes, "segments of the sites (default 250 500 1000 ... 16000)")
        ->check(CLI::Range(60, 1000000));
    app.add_option("--seeds", options.seeds, "sites of each size (default 2)")->check(CLI::PositiveNumber);
    app.add_option("--seconds", options.seconds, "wall-clock limit for each layout of each site (default 20)")
        ->check(CLI::PositiveNumber);
    app.add_option("--layout", options.layouts, "only this layout, as spadework compare names it; may be given often");
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app(
        "Makes invented sites of several sizes, three buildings to a hundred segments, and measures the processor time "
        "(one thread) until each layout's plan is proved within 5 %, 1 % and 0.1 % of the best. Then it fits "
        "seconds = factor * segments^exponent by least squares on the logarithms, and prints for each layout and goal\n"
        "  layout=... goal=... reached=... missed=... exponent=... seconds_at_1000=... spread=...\n"
        "Runs that miss a goal within the limit are counted and left out of the fit, which then speaks for the others "
        "only; spread is the root mean square of the logarithms off the line. The gap is that of what the routes "
        "decide, "
        "without the part of the total that is the same for all plans.\nExit code: 0 done, 2 bad use, 70 a bug.");
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
