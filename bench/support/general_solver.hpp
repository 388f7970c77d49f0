#pragma once

// General solvers of mixed integer programs, run on a file as they are installed.

#include <optional>
#include <string>

namespace spadework::bench {

/// What became of a run.
struct GeneralRun {
    bool installed = true;
    bool optimal = false;         ///< The solver says its value is proved.
    std::optional<double> value;  ///< Of the best plan it found.
    double cpu_seconds = 0;       ///< HiGHS: of the solver alone. others: of the program, reading included.
    double peak_mb = 0;           ///< Of the program.
    std::string message;          ///< Where not installed: what to install.
};

/// Runs "highs" (python3-scipy), "cbc" (coinor-cbc) or "glpsol" (glpk-utils), one thread, on a file in free MPS text.
/// Throws std::invalid_argument for another name.
GeneralRun run_general_solver(const std::string& solver, const std::string& mps_file, double seconds);

}  // namespace spadework::bench
