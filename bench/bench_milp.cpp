// Our solver and a general one on the same problem, one after the other on the same machine.

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "graph/shared_cost_solver.hpp"
#include "support/cpu_time.hpp"
#include "support/flow_model.hpp"
#include "support/general_solver.hpp"
#include "support/peak_memory.hpp"
#include "support/routing_file.hpp"

namespace {

using namespace spadework;

constexpr int kDiffer = 1;
constexpr int kBadUse = 2;
constexpr int kBadFile = 3;
constexpr int kNotProved = 4;
constexpr int kNotInstalled = 5;

struct Options {
    std::string file;
    std::string solver = "highs";
    double seconds = 300.0;
    int repeats = 5;
    bool each_edge = false;
    std::string model_file;
};

/// One solution and the median time of several runs, which all give the same.
struct OurRun {
    graph::SharedCostSolution solution;
    double cpu_seconds = 0;
    double peak_mb = 0;
};

OurRun run_ours(const graph::SharedCostProblem& problem, const Options& options) {
    OurRun run;
    std::vector<double> times;
    for (int i = 0; i < options.repeats; ++i) {
        const double start = bench::cpu_seconds();
        run.solution = graph::solve(problem, {.seconds = options.seconds, .threads = 1});
        times.push_back(bench::cpu_seconds() - start);
    }
    std::sort(times.begin(), times.end());
    run.cpu_seconds = times[times.size() / 2];
    run.peak_mb = bench::peak_memory_mb();
    return run;
}

/// The model as a file that goes away again, unless its name was asked for.
class ModelFile {
public:
    ModelFile(const std::string& text, const std::string& wanted) : kept_(!wanted.empty()), path_(wanted) {
        if (!kept_) path_ = std::filesystem::temp_directory_path() / fmt::format("spadework-flow-{}.mps", getpid());
        std::ofstream file(path_, std::ios::binary);
        file << text;
        if (!file.flush()) throw std::runtime_error("cannot write " + path_.string());
    }
    ~ModelFile() {
        std::error_code ignored;
        if (!kept_) std::filesystem::remove(path_, ignored);
    }
    ModelFile(const ModelFile&) = delete;
    ModelFile& operator=(const ModelFile&) = delete;
    [[nodiscard]] std::string path() const { return path_.string(); }

private:
    bool kept_;
    std::filesystem::path path_;
};

int report(const bench::RoutingCase& routing, const OurRun& ours, const bench::GeneralRun& theirs,
           const Options& options) {
    const auto units = static_cast<double>(routing.units_per_cost);
    const double value = static_cast<double>(ours.solution.plan->value) / units;
    fmt::print("{:10} {:>16} {:>10} {:>12} {:>9}\n", "solver", "value", "proved", "cpu seconds", "peak MB");
    fmt::print("{:10} {:>16.4f} {:>10} {:>12.4f} {:>9.1f}\n", "ours", value, ours.solution.optimal ? "yes" : "no",
               ours.cpu_seconds, ours.peak_mb);
    fmt::print("{:10} {:>16} {:>10} {:>12.4f} {:>9.1f}\n", options.solver,
               theirs.value ? fmt::format("{:.4f}", *theirs.value / units) : "none", theirs.optimal ? "yes" : "no",
               theirs.cpu_seconds, theirs.peak_mb);
    const bool proved = ours.solution.optimal && theirs.optimal && theirs.value;
    const bool same = proved && std::abs(*theirs.value / units - value) <= 1e-6 * std::max(1.0, value);
    fmt::print("ours_seconds={:.4f} {}_seconds={:.4f} ratio={}{:.1f} same_proved_value={}\n", ours.cpu_seconds,
               options.solver, theirs.cpu_seconds, theirs.optimal ? "" : ">",
               theirs.cpu_seconds / std::max(1e-6, ours.cpu_seconds), same ? "yes" : "no");
    if (!proved) return kNotProved;
    return same ? 0 : kDiffer;
}

int run(const Options& options) {
    const bench::RoutingCase routing = bench::read_routing_case(bench::file_text(options.file), {});
    for (const std::string& error : routing.errors)
        fmt::print(stderr, "{}: {}\n", options.file, error);
    if (!routing.errors.empty()) return kBadFile;
    const OurRun ours = run_ours(routing.problem, options);
    if (!ours.solution.plan) {
        fmt::print(stderr, "{}: some demand cannot be reached\n", options.file);
        return kBadFile;
    }
    const auto variables =
        options.each_edge ? bench::OpeningVariables::each_edge : bench::OpeningVariables::each_direction;
    const ModelFile model(bench::flow_model_mps(routing.problem, variables), options.model_file);
    const bench::GeneralRun theirs = bench::run_general_solver(options.solver, model.path(), options.seconds);
    if (!theirs.installed) {
        fmt::print(stderr, "{}\n", theirs.message);
        return kNotInstalled;
    }
    return report(routing, ours, theirs, options);
}

void declare(CLI::App& app, Options& options) {
    app.add_option("file", options.file, "CT site map or .stp file, may be gzipped")->required();
    app.add_option("--solver", options.solver,
                   "highs (python3-scipy; default), cbc (coinor-cbc) or glpsol (glpk-utils)")
        ->check(CLI::IsMember({"highs", "cbc", "glpsol"}));
    app.add_option("--seconds", options.seconds, "wall-clock limit for each solver (default 300)")
        ->check(CLI::PositiveNumber);
    app.add_option("--repeats", options.repeats, "our solver's time is the median of so many runs (default 5)")
        ->check(CLI::PositiveNumber);
    app.add_flag("--each-edge", options.each_edge,
                 "give the general solver one opening variable an edge instead of one a direction: a weaker model");
    app.add_option("--write", options.model_file, "keep the model there, in free MPS text");
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app(
        "Solves one benchmark file with our solver and with a general solver of mixed integer programs, which gets the "
        "disaggregated flow model; one thread each, processor seconds. The last line of output is\n"
        "  ours_seconds=... SOLVER_seconds=... ratio=... same_proved_value=yes|no\n"
        "with '>' before a ratio where the general solver ran out of time.\n"
        "Exit code: 0 both proved the same value, 1 they proved different values, 2 bad use, 3 bad file, 4 one of them "
        "proved nothing in time, 5 the general solver is not installed.");
    Options options;
    declare(app, options);
    try {
        app.parse(argc, argv);
        return run(options);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : kBadUse;
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}\n", error.what());
        return kBadFile;
    }
}
