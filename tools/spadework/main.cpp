// The command line: understand what is asked for, do it, and tell the shell how it went.

#include <exception>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "spadework/command.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

constexpr const char* description =
    "Spadework plans the optical fibre that links the buildings of a site to its hub: it compares home runs, trunks "
    "with\n"
    "outdoor enclosures and daisy chains at full cost, and proves how far each is from the cheapest there can be.";

constexpr const char* exit_codes =
    "Exit codes: 0 done; 1 a bug in spadework; 2 wrong command line; 3 the site file has errors; 4 nothing that can "
    "be\n"
    "built meets the site's rules; 5 output cannot be written; 130 stopped by Ctrl-C, the best so far was printed.";

std::vector<Command> add_commands(CLI::App& program) {
    program.require_subcommand(1);
    return {add_example_command(program)};
}

ExitCode refuse(const CLI::App& program, const CLI::ParseError& error) {
    const auto chosen = program.get_subcommands();
    const std::string command = chosen.empty() ? "spadework" : "spadework " + chosen.front()->get_name();
    complain(fmt::format("{}: {}\nRun '{} --help' for what it takes.\n", command, error.what(), command));
    return ExitCode::usage;
}

ExitCode run(int argument_count, const char* const* arguments) {
    CLI::App program(description, "spadework");
    program.set_version_flag("--version", "spadework " SPADEWORK_VERSION, "Print the version and exit");
    program.set_help_flag("-h,--help", "Print this help and exit");
    const std::vector<Command> commands = add_commands(program);
    program.footer(exit_codes);
    try {
        program.parse(argument_count, arguments);
    } catch (const CLI::CallForHelp&) {
        print(program.help());
        return ExitCode::ok;
    } catch (const CLI::CallForVersion&) {
        print(program.version() + "\n");
        return ExitCode::ok;
    } catch (const CLI::ParseError& error) {
        return refuse(program, error);
    }
    for (const Command& command : commands) {
        if (command.syntax->parsed()) return command.run();
    }
    return ExitCode::internal;
}

ExitCode run_and_catch(int argument_count, const char* const* arguments) {
    try {
        return run(argument_count, arguments);
    } catch (const ReaderGone&) {
        return ExitCode::ok;
    } catch (const CannotWrite& error) {
        complain(fmt::format("spadework: {}\n", error.what()));
        return ExitCode::cannot_write;
    } catch (const std::exception& error) {
        complain(fmt::format("spadework: internal error, please report it: {}\n", error.what()));
        return ExitCode::internal;
    }
}

}  // namespace

}  // namespace spadework

int main(int argument_count, char** arguments) {
    spadework::ignore_closed_pipes();
    return static_cast<int>(spadework::run_and_catch(argument_count, arguments));
}
