// spadework risk FILE: what the layouts may cost when ranges are drawn, and which is the best bet.

#include "doubt/risk.hpp"

#include <charconv>
#include <memory>
#include <optional>

#include <fmt/format.h>

#include "doubt/draws.hpp"
#include "doubt/shards.hpp"
#include "report/risk_report.hpp"
#include "report/shown_text.hpp"
#include "spadework/command.hpp"
#include "spadework/interrupt.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/progress_line.hpp"
#include "spadework/risk_files.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/straight_site.hpp"
#include "spadework/study_run.hpp"

namespace spadework {

namespace {

constexpr int most_shards = 10'000;
constexpr int most_replans = 10'000;

struct RiskCommandOptions {
    SiteOptions site;
    ResultOptions result;
    SearchOptions search;
    int draws = 10'000;
    int replans = 16;
    int checks = 4;
    std::string shard;
    bool json = false;
};

std::optional<int> whole_from(std::string_view text) {
    int number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return number;
}

/// "2/4" as a part; all of it where nothing is asked for. Nothing, and a complaint, where the text is no part.
std::optional<Shard> shard_from(const std::string& text) {
    if (text.empty()) return Shard();
    const std::size_t slash = text.find('/');
    const auto number = whole_from(std::string_view(text).substr(0, slash));
    const auto of = slash == std::string::npos ? std::nullopt : whole_from(std::string_view(text).substr(slash + 1));
    if (number && of && *number >= 1 && *number <= *of && *of <= most_shards) return Shard{*number, *of};
    complain(
        fmt::format("spadework risk: --shard: '{}' is not a part such as 2/4\n"
                    "Run 'spadework risk --help' for what it takes.\n",
                    report::shown(text)));
    return std::nullopt;
}

RiskRun run(const site_file::LoadedSite& site, const RiskCommandOptions& options, const Shard& shard) {
    const InterruptWatch watch;
    ProgressLine progress(!options.site.quiet);
    RiskOptions risk;
    risk.draws = options.draws;
    risk.replans = options.replans;
    risk.checks = options.checks;
    risk.shard = shard;
    risk.study = study_options(options.search, progress);
    const Scenario scenario = straight_site(*site.scenario, risk.study);
    return run_risk(scenario, *site.varying, risk);
}

ExitCode show_shard(const RiskSample& sample, const Shard& shard, const RiskCommandOptions& options) {
    const auto folder = open_folder(options.result.folder);
    const std::string json = report::shard_json(sample);
    if (folder) {
        folder->write({{fmt::format("risk-{}-of-{}.shard.json", shard.number, shard.of), json}});
    } else {
        print(json);
    }
    return outcome(true);
}

ExitCode study_site(const RiskCommandOptions& options) {
    const auto shard = shard_from(options.shard);
    if (!shard) return ExitCode::usage;
    const auto site = load_site(options.site);
    if (!site) return ExitCode::invalid_site;
    if (!site->varying) {
        complain(
            fmt::format("{}: error: no value is a range, so that there is no risk to study; expected one such as "
                        "{{low: 40, likely: 50, high: 70}} in place of a price, a rate or a length\n",
                        report::shown(options.site.file)));
        return ExitCode::invalid_site;
    }
    const RiskRun made = run(*site, options, *shard);
    if (!made.violations.empty()) return report_bug(made.violations);
    if (!options.shard.empty()) return show_shard(made.sample, *shard, options);
    ResultOptions result = options.result;
    if (options.json) result.format = OutputFormat::json;
    return show_risk(made.sample, result);
}

}  // namespace

Command add_risk_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "risk", "Draw the ranges of a site: what it may cost, and the best bet");
    const auto options = std::make_shared<RiskCommandOptions>();
    options->search.seconds = 600;
    add_site_options(syntax, options->site);
    add_result_options(syntax, options->result);
    add_flag(syntax, "--json", options->json, "The same as --format json");
    add_whole_option(syntax, "--draws", "N", options->draws, Draws::replicates, static_cast<int>(most_draws),
                     "How often all ranges are drawn (default: 10000)");
    add_whole_option(syntax, "--plans", "N", options->replans, 0, most_replans,
                     "Draws at which every layout is planned anew (default: 16)");
    add_whole_option(syntax, "--checks", "N", options->checks, 0, most_replans,
                     "Fresh draws at which every layout is planned in full, to see what is missed (default: 4)");
    add_text_option(syntax, "--shard", "I/N", options->shard,
                    "Only part I of N of the draws, printed as a file for 'spadework merge'");
    add_layouts_option(syntax, options->search.layouts);
    add_random_seed_option(syntax, options->search.seed);
    add_threads_option(syntax, options->search);
    add_number_option(syntax, "--time-limit", "SECONDS", options->search.seconds, 0.1, 1e6,
                      "Of each search for a plan; one that is cut short may change the answer (default: 600)");
    return {&syntax, [options] { return study_site(*options); }};
}

}  // namespace spadework
