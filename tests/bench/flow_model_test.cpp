#include "support/flow_model.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <unistd.h>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "graph/support/small_problems.hpp"
#include "support/general_solver.hpp"

namespace spadework::bench {

namespace {

/// What a general solver makes of the model; the file goes away again.
GeneralRun solved_by_glpsol(const graph::SharedCostProblem& problem, OpeningVariables variables) {
    const std::string path =
        (std::filesystem::temp_directory_path() / fmt::format("spadework-flow-test-{}.mps", getpid())).string();
    std::ofstream(path) << flow_model_mps(problem, variables);
    const GeneralRun run = run_general_solver("glpsol", path, 20.0);
    std::remove(path.c_str());
    return run;
}

void hold_to_trial(const graph::testing::ProblemShape& shape, OpeningVariables variables) {
    graph::testing::Dice dice(12);
    int compared = 0;
    for (int round = 0; compared < 12; ++round) {
        CAPTURE(round);
        const graph::SharedCostProblem problem = graph::testing::random_problem(shape, dice);
        const auto optimum = graph::testing::optimum_by_trial(problem);
        if (!optimum || problem.demands.empty()) continue;
        const GeneralRun run = solved_by_glpsol(problem, variables);
        if (!run.installed) {
            MESSAGE("skipped: " << run.message);
            return;
        }
        REQUIRE(run.optimal);
        REQUIRE(run.value);
        CHECK(*run.value == doctest::Approx(static_cast<double>(*optimum)));
        ++compared;
    }
}

}  // namespace

TEST_CASE("the flow model's minimum is the optimum by trial, with one opening variable for each edge") {
    hold_to_trial({6, 10, 4, 1, 20, 3, 8}, OpeningVariables::each_edge);
}

TEST_CASE("the flow model's minimum is the optimum by trial, with one opening variable for each direction") {
    hold_to_trial({6, 10, 4, 1, 20, 3, 0}, OpeningVariables::each_direction);
}

}  // namespace spadework::bench
