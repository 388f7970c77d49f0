// spadework example [NAME]: the scenarios that come with the program.

#include <algorithm>
#include <memory>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diagnostics/nearest_name.hpp"
#include "site_file/site_file.hpp"
#include "spadework/command.hpp"
#include "spadework/options.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/shipped_files.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

struct ExampleOptions {
    std::string name;
    std::string folder;  ///< Of --out; empty when not given.
};

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

const ShippedFile* shipped_file(std::string_view name) {
    for (const ShippedFile& file : shipped_files()) {
        if (file.name == name) return &file;
    }
    return nullptr;
}

/// The scenario's own file first, then the files that it names, in the order it reads them.
std::vector<OutputFile> files_of(const ShippedFile& scenario) {
    std::vector<OutputFile> files = {{std::string(scenario.name), std::string(scenario.text)}};
    const auto load = [&](const std::string& path) {
        const ShippedFile* file = shipped_file(path);
        if (file == nullptr) return site_file::LoadedText{std::nullopt, "not shipped"};
        files.push_back({path, std::string(file->text)});
        return site_file::LoadedText{std::string(file->text), {}};
    };
    site_file::read_site({files.front().name, files.front().text}, load);
    return files;
}

ExitCode list_scenarios() {
    for (const ShippedFile& file : shipped_files()) {
        if (const std::string name = scenario_name(file); !name.empty()) {
            print(fmt::format("{:<12} {}\n", name, headline(file)));
        }
    }
    return ExitCode::ok;
}

ExitCode refuse(const std::string& wanted) {
    std::vector<std::string> known;
    for (const ShippedFile& file : shipped_files()) {
        if (const std::string name = scenario_name(file); !name.empty()) known.push_back(name);
    }
    const std::string nearest = nearest_name(wanted, known);
    complain(fmt::format(
        "spadework example: there is no scenario '{}'{}\n", wanted,
        nearest.empty() ? "; 'spadework example' lists them" : fmt::format("; did you mean '{}'?", nearest)));
    return ExitCode::usage;
}

ExitCode write_scenario(const std::string& name, const std::vector<OutputFile>& files, const std::string& folder) {
    if (folder.empty()) {
        print(files.front().text);
        if (files.size() > 1) {
            complain(fmt::format("This site names further files. 'spadework example {} --out DIR' writes them all.\n",
                                 name));
        }
        return ExitCode::ok;
    }
    OutputFolder(folder).write(files);
    for (const OutputFile& file : files)
        print(fmt::format("{}/{}\n", folder, file.name));
    return ExitCode::ok;
}

ExitCode give_example(const ExampleOptions& options) {
    if (options.name.empty() && !options.folder.empty()) {
        complain("spadework example: --out needs the NAME of a scenario\n");
        return ExitCode::usage;
    }
    if (options.name.empty()) return list_scenarios();
    const ShippedFile* scenario = shipped_file(options.name + std::string(suffix));
    if (scenario == nullptr || scenario_name(*scenario).empty()) return refuse(options.name);
    return write_scenario(options.name, files_of(*scenario), options.folder);
}

}  // namespace

Command add_example_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "example", "List the scenarios that come with the program, or print one");
    const auto options = std::make_shared<ExampleOptions>();
    add_word(syntax, "NAME", options->name, "The scenario to print, to start a site file of your own from");
    add_text_option(syntax, "--out", "DIR", options->folder,
                    "Write it, with the files it names, to this folder instead");
    return {&syntax, [options] { return give_example(*options); }};
}

}  // namespace spadework
