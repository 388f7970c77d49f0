#include "support/general_solver.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>
#include <sys/resource.h>
#include <sys/wait.h>

#include <fmt/format.h>

#include "support/cpu_time.hpp"
#include "support/routing_file.hpp"

namespace spadework::bench {

namespace {

constexpr int kNotInstalled = 5;  // solve_with_highs.py
constexpr int kShellFindsNothing = 127;

struct ProgramRun {
    int code = 0;
    std::string output;
    double cpu_seconds = 0;
};

/// Standard output and exit code of a shell command; its standard error passes through. A solver that does not keep to
/// its limit of seconds is ended a little later.
ProgramRun run_program(const std::string& command, double seconds) {
    const double before = children_cpu_seconds();
    const std::string limited = fmt::format("ulimit -t {}; {}", static_cast<long>(1.1 * seconds) + 5, command);
    std::FILE* pipe = popen(limited.c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("cannot start a program");
    ProgramRun run;
    std::array<char, 4096> block{};
    for (std::size_t got = 0; (got = fread(block.data(), 1, block.size(), pipe)) > 0;)
        run.output.append(block.data(), got);
    const int status = pclose(pipe);
    run.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    run.cpu_seconds = children_cpu_seconds() - before;
    return run;
}

double children_peak_mb() {
    rusage usage{};
    getrusage(RUSAGE_CHILDREN, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

/// The number after the last `key` in the text.
std::optional<double> number_after(const std::string& text, const std::string& key) {
    const std::size_t at = text.rfind(key);
    if (at == std::string::npos) return std::nullopt;
    const char* begin = text.c_str() + at + key.size();
    char* end = nullptr;
    const double number = std::strtod(begin, &end);
    return end == begin ? std::nullopt : std::optional(number);
}

std::string quoted(const std::string& text) {
    std::string result = "'";
    for (const char c : text)
        result += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return result + "'";
}

GeneralRun run_highs(const std::string& mps_file, double seconds) {
    const ProgramRun program =
        run_program(fmt::format("OMP_NUM_THREADS=1 {} {} {} {}", quoted(SPADEWORK_BENCH_PYTHON),
                                quoted(SPADEWORK_BENCH_DIR "/solve_with_highs.py"), quoted(mps_file), seconds),
                    seconds);
    GeneralRun run;
    run.installed = program.code != kNotInstalled && program.code != kShellFindsNothing;
    if (!run.installed) run.message = "HiGHS is not installed: apt-get install python3-scipy";
    run.optimal = program.output.find("status=optimal") != std::string::npos;
    run.value = number_after(program.output, " value=");
    run.cpu_seconds = number_after(program.output, "cpu_seconds=").value_or(program.cpu_seconds);
    run.peak_mb = children_peak_mb();
    return run;
}

GeneralRun run_cbc(const std::string& mps_file, double seconds) {
    const std::string solution = mps_file + ".solution";
    const ProgramRun program = run_program(fmt::format("cbc {} sec {} ratio 0 threads 0 solve solu {} >/dev/null",
                                                       quoted(mps_file), seconds, quoted(solution)),
                                           seconds);
    GeneralRun run;
    run.installed = program.code != kShellFindsNothing;
    if (!run.installed) run.message = "cbc is not installed: apt-get install coinor-cbc";
    if (program.code == 0) {
        const std::string text = file_text(solution);
        std::remove(solution.c_str());
        run.optimal = text.rfind("Optimal", 0) == 0;
        if (text.rfind("Stopped", 0) == 0 || run.optimal) run.value = number_after(text, "objective value");
    }
    run.cpu_seconds = program.cpu_seconds;
    run.peak_mb = children_peak_mb();
    return run;
}

GeneralRun run_glpsol(const std::string& mps_file, double seconds) {
    const std::string solution = mps_file + ".solution";
    const ProgramRun program =
        run_program(fmt::format("glpsol --freemps {} --tmlim {} -o {} >/dev/null", quoted(mps_file),
                                static_cast<int>(seconds) + 1, quoted(solution)),
                    seconds);
    GeneralRun run;
    run.installed = program.code != kShellFindsNothing;
    if (!run.installed) run.message = "glpsol is not installed: apt-get install glpk-utils";
    if (program.code == 0) {
        const std::string text = file_text(solution);
        std::remove(solution.c_str());
        run.optimal = text.find("INTEGER OPTIMAL") != std::string::npos;
        if (text.find("UNDEFINED") == std::string::npos) run.value = number_after(text, "Objective:  cost = ");
    }
    run.cpu_seconds = program.cpu_seconds;
    run.peak_mb = children_peak_mb();
    return run;
}

}  // namespace

GeneralRun run_general_solver(const std::string& solver, const std::string& mps_file, double seconds) {
    if (solver == "highs") return run_highs(mps_file, seconds);
    if (solver == "cbc") return run_cbc(mps_file, seconds);
    if (solver == "glpsol") return run_glpsol(mps_file, seconds);
    throw std::invalid_argument("no such solver: " + solver);
}

}  // namespace spadework::bench
