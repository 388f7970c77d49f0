// spadework merge SHARD_FILES…: the parts of a risk study as the whole.

#include <memory>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "doubt/shards.hpp"
#include "spadework/command.hpp"
#include "spadework/complaints.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/options.hpp"
#include "spadework/risk_files.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

struct MergeOptions {
    std::vector<std::string> files;
    ResultOptions result;
    bool quiet = false;
    bool verbose = false;
};

/// All files as samples; nothing, and complaints of every problem of every file, where one is broken.
std::optional<std::vector<NamedSample>> read_all(const std::vector<std::string>& files) {
    std::vector<NamedSample> samples;
    bool broken = false;
    for (const std::string& file : files) {
        const std::string name = name_of_input(file);
        const auto text = text_of_input(file);
        ReadShard read = text ? read_shard(name, *text) : ReadShard{};
        if (text) complain_of(read.diagnostics, {{name, *text}}, false);
        broken = broken || !read.sample;
        if (read.sample) samples.push_back({name, std::move(*read.sample)});
    }
    if (broken) return std::nullopt;
    return samples;
}

ExitCode merge_shards(const MergeOptions& options) {
    if (options.files.empty()) {
        complain(
            "spadework merge: no files; expected those that all parts of 'spadework risk --shard' have printed\n"
            "Run 'spadework merge --help' for what it takes.\n");
        return ExitCode::usage;
    }
    auto samples = read_all(options.files);
    if (!samples) return ExitCode::invalid_site;
    Diagnostics problems;
    const auto whole = merged(std::move(*samples), problems);
    complain_of(problems, {}, options.quiet);
    if (!whole) return ExitCode::invalid_site;
    return show_risk(*whole, options.result);
}

}  // namespace

Command add_merge_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "merge", "Put the parts of 'risk --shard' together as the whole study");
    const auto options = std::make_shared<MergeOptions>();
    add_words(syntax, "FILES", options->files, "The files that all parts of one study have printed");
    add_result_options(syntax, options->result);
    add_volume_options(syntax, options->quiet, options->verbose);
    return {&syntax, [options] { return merge_shards(*options); }};
}

}  // namespace spadework
