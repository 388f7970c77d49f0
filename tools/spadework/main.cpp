// The command line: understand what is asked for, do it, and tell the shell how it went.

#include <algorithm>
#include <exception>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "spadework/command.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

constexpr const char* description =
    "Spadework plans the optical fibre that links the buildings of a site to its hub. It compares home runs, trunks\n"
    "with outdoor enclosures, daisy chains and rings at full cost, and proves how far each is from the cheapest "
    "possible.";

constexpr const char* exit_codes =
    "Exit codes: 0 done; 1 a bug in spadework; 2 wrong command line; 3 an input file has errors; 4 nothing that can\n"
    "be built meets the site's rules; 5 output cannot be written; 6 a certificate does not prove what it claims;\n"
    "7 readings are not accepted; 130 stopped by Ctrl-C, best so far was printed.";

std::vector<Command> add_commands(CLI::App& program) {
    program.require_subcommand(1);
    return {add_survey_command(program),  add_compare_command(program), add_enclosure_command(program),
            add_strands_command(program), add_extend_command(program),  add_risk_command(program),
            add_merge_command(program),   add_sweep_command(program),   add_verify_command(program),
            add_accept_command(program),  add_check_command(program),   add_example_command(program),
            add_schema_command(program)};
}

std::vector<std::string> command_names(const CLI::App& program) {
    std::vector<std::string> names;
    for (const CLI::App* command : program.get_subcommands({}))
        names.push_back(command->get_name());
    return names;
}

std::vector<std::string> option_names(const CLI::App& command) {
    std::vector<std::string> names;
    for (const CLI::Option* option : command.get_options()) {
        for (const std::string& name : option->get_lnames())
            names.push_back("--" + name);
    }
    return names;
}

/// What was probably meant by the first word that is no command, or the first option that the command does not have;
/// "" when everything is known or nothing is near.
std::string nearest_known(const CLI::App& program, const std::vector<std::string>& words) {
    const auto chosen = program.get_subcommands();
    if (chosen.empty()) return words.empty() ? "" : nearest_name(words.front(), command_names(program));
    const std::vector<std::string> known = option_names(*chosen.front());
    for (const std::string& word : words) {
        const std::string name = word.substr(0, word.find('='));
        if (!name.starts_with("--") || std::find(known.begin(), known.end(), name) != known.end()) continue;
        return nearest_name(name, known);
    }
    return "";
}

/// The first option that a command does not have, or the first argument too many; what follows an unknown option is
/// likely its value.
std::string unexpected(const CLI::App& program) {
    const std::vector<std::string> words = program.remaining(true);
    const auto is_option = [](const std::string& word) { return word.size() > 1 && word.front() == '-'; };
    const auto option = std::find_if(words.begin(), words.end(), is_option);
    if (option != words.end()) return fmt::format("there is no option '{}'", *option);
    return fmt::format("one argument too many: '{}'", words.front());
}

ExitCode refuse(const CLI::App& program, const std::vector<std::string>& words, const std::string& problem) {
    const auto chosen = program.get_subcommands();
    const std::string command = chosen.empty() ? "spadework" : "spadework " + chosen.front()->get_name();
    const std::string nearest = nearest_known(program, words);
    complain(fmt::format("{}: {}{}\nRun '{} --help' for what it takes.\n", command, problem,
                         nearest.empty() ? "" : "; did you mean '" + nearest + "'?", command));
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
    } catch (const CLI::ExtrasError&) {
        return refuse(program, {arguments + 1, arguments + argument_count}, unexpected(program));
    } catch (const CLI::ParseError& error) {
        return refuse(program, {arguments + 1, arguments + argument_count}, error.what());
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
