#pragma once

#include <functional>

#include "spadework/exit_code.hpp"

namespace CLI {
class App;
}

namespace spadework {

/// A command of the program: how it is asked for, and what it does once the command line is understood.
struct Command {
    CLI::App* syntax = nullptr;
    std::function<ExitCode()> run;
};

// One file each.
Command add_survey_command(CLI::App& program);
Command add_compare_command(CLI::App& program);
Command add_extend_command(CLI::App& program);
Command add_verify_command(CLI::App& program);
Command add_accept_command(CLI::App& program);
Command add_risk_command(CLI::App& program);
Command add_merge_command(CLI::App& program);
Command add_sweep_command(CLI::App& program);
Command add_check_command(CLI::App& program);
Command add_enclosure_command(CLI::App& program);
Command add_strands_command(CLI::App& program);
Command add_example_command(CLI::App& program);
Command add_schema_command(CLI::App& program);

}  // namespace spadework
