// spadework example [NAME]: the scenarios that come with the program.

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "spadework/command.hpp"
#include "spadework/shipped_files.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

constexpr std::string_view suffix = ".yaml";

/// "lakeside" for "lakeside.yaml"; "" for a file that is only a part of a scenario.
std::string scenario_name(const ShippedFile& file) {
    if (!file.name.ends_with(suffix) || file.name.find('/') != std::string_view::npos) return "";
    return std::string(file.name.substr(0, file.name.size() - suffix.size()));
}

/// The first sentence of the comment that heads the file.
std::string headline(const ShippedFile& file) {
    std::string_view text = file.text;
    if (!text.starts_with("# ")) return "";
    text.remove_prefix(2);
    return std::string(text.substr(0, std::min(text.find('\n'), text.find(". "))));
}

ExitCode list_scenarios() {
    for (const ShippedFile& file : shipped_files()) {
        if (const std::string name = scenario_name(file); !name.empty()) {
            print(fmt::format("{:<12} {}\n", name, headline(file)));
        }
    }
    return ExitCode::ok;
}

ExitCode print_scenario(const std::string& wanted) {
    std::vector<std::string> known;
    for (const ShippedFile& file : shipped_files()) {
        const std::string name = scenario_name(file);
        if (!name.empty()) known.push_back(name);
        if (name.empty() || name != wanted) continue;
        print(file.text);
        return ExitCode::ok;
    }
    const std::string nearest = nearest_name(wanted, known);
    complain(fmt::format(
        "spadework example: there is no scenario '{}'{}\n", wanted,
        nearest.empty() ? "; 'spadework example' lists them" : fmt::format("; did you mean '{}'?", nearest)));
    return ExitCode::usage;
}

}  // namespace

Command add_example_command(CLI::App& program) {
    CLI::App* syntax = program.add_subcommand("example", "List the scenarios that come with the program, or print one");
    const auto name = std::make_shared<std::string>();
    syntax->add_option("NAME", *name, "The scenario to print, to start a site file of your own from")->type_name("");
    return {syntax, [name] { return name->empty() ? list_scenarios() : print_scenario(*name); }};
}

}  // namespace spadework
