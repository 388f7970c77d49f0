// spadework sweep FILE --vary KEY --from A --to B: one or two inputs moved over a range, and where the winner changes.

#include "doubt/sweep.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <memory>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diagnostics/nearest_name.hpp"
#include "drawing/doubt_charts.hpp"
#include "report/shown_text.hpp"
#include "report/sweep_report.hpp"
#include "spadework/command.hpp"
#include "spadework/complaints.hpp"
#include "spadework/interrupt.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/progress_line.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/straight_site.hpp"
#include "spadework/study_run.hpp"

namespace spadework {

namespace {

constexpr std::size_t most_inputs = 2;
constexpr int most_points = 1000;
constexpr int points_along_one = 40;
constexpr int points_along_two = 12;

struct SweepCommandOptions {
    SiteOptions site;
    ResultOptions result;
    SearchOptions search;
    std::vector<std::string> keys, from, to, points;
    double gap_percent = 5;
};

std::nullopt_t refused(const std::string& problem) {
    complain(
        fmt::format("spadework sweep: {}\nRun 'spadework sweep --help' for what it takes.\n", report::shown(problem)));
    return std::nullopt;
}

template <typename Number>
std::optional<Number> number_from(const std::string& text) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size() || !(number - number == 0)) return std::nullopt;
    return number;
}

/// One input as it was asked for, or nothing and a complaint.
std::optional<SweptInput> input_from(const SweepCommandOptions& options, std::size_t index) {
    SweptInput input;
    input.key = options.keys[index];
    const auto from = number_from<double>(options.from[index]);
    const auto to = number_from<double>(options.to[index]);
    if (!from) return refused(fmt::format("--from: '{}' is not a number", options.from[index]));
    if (!to) return refused(fmt::format("--to: '{}' is not a number", options.to[index]));
    if (*from >= *to)
        return refused(fmt::format("--from {} is not below --to {}", options.from[index], options.to[index]));
    input.from = *from;
    input.to = *to;
    input.points = options.keys.size() > 1 ? points_along_two : points_along_one;
    if (index < options.points.size()) {
        const auto points = number_from<int>(options.points[index]);
        if (!points || *points < 2 || *points > most_points) {
            return refused(
                fmt::format("--points: '{}' is not a whole number from 2 to {}", options.points[index], most_points));
        }
        input.points = *points;
    }
    input.whole = input.key == "buildings" || input.key == "links" || input.key == "spare-strands";
    return input;
}

std::optional<std::vector<SweptInput>> inputs_from(const SweepCommandOptions& options) {
    const std::size_t count = options.keys.size();
    if (count == 0 || count > most_inputs)
        return refused(fmt::format("--vary is given {} times; once or twice is right", count));
    if (options.from.size() != count || options.to.size() != count)
        return refused("each --vary wants a --from and a --to");
    if (options.points.size() > count) return refused("there are more --points than --vary");
    std::vector<SweptInput> inputs;
    for (std::size_t i = 0; i < count; ++i) {
        const auto input = input_from(options, i);
        if (!input) return std::nullopt;
        inputs.push_back(*input);
    }
    if (count > 1 && inputs[0].key == inputs[1].key) return refused("--vary names the same input twice");
    return inputs;
}

/// A key with all its parts behind points: "grounds[verge].methods[bore].plant" is "grounds.verge.methods.bore.plant".
std::string with_points(std::string key) {
    std::replace(key.begin(), key.end(), '[', '.');
    key.erase(std::remove(key.begin(), key.end(), ']'), key.end());
    return key;
}

/// Fills in what the site says of each key. False, and a complaint, where it has none of that name.
bool find_keys(const site_file::LoadedSite& site, std::vector<SweptInput>& inputs) {
    std::vector<std::string> known = sweep_words();
    for (const site_file::ValueInForce& value : site.values)
        known.push_back(value.key);
    std::map<std::string, std::string> units;  // Ranges of the map have keys, its numbers have none.
    for (const UncertainValue& value : site.varying->values()) {
        known.push_back(value.key);
        units.emplace(value.key, value.unit);
    }
    for (SweptInput& input : inputs) {
        const auto named = [&](const site_file::ValueInForce& value) {
            return with_points(value.key) == with_points(input.key);
        };
        const auto value = std::find_if(site.values.begin(), site.values.end(), named);
        if (value != site.values.end()) {
            input.key = value->key;
            input.unit = value->unit;
        }
        if (units.contains(input.key)) input.unit = units.at(input.key);
        if (std::find(known.begin(), known.end(), input.key) != known.end()) continue;
        const std::string near = nearest_name(input.key, known);
        refused(fmt::format(
            "--vary: no value '{}'; expected a key that 'spadework check --show-defaults' lists, a range of the map, "
            "or one of {}{}",
            input.key, fmt::join(sweep_words(), ", "), near.empty() ? "" : "; did you mean '" + near + "'?"));
        return false;
    }
    return true;
}

struct Swept {
    Scenario scenario;
    Sweep sweep;
};

Swept run(const site_file::LoadedSite& site, const std::vector<SweptInput>& inputs,
          const SweepCommandOptions& options) {
    const InterruptWatch watch;
    ProgressLine progress(!options.site.quiet);
    SweepOptions limits;
    limits.gap = options.gap_percent / 100;
    limits.study = study_options(options.search, progress);
    const Scenario scenario = straight_site(*site.scenario, limits.study);
    return {scenario, sweep(scenario, *site.varying, inputs, limits)};
}

ExitCode sweep_site(const SweepCommandOptions& options) {
    auto inputs = inputs_from(options);
    if (!inputs) return ExitCode::usage;
    const auto site = load_site(options.site, site_file::Varying::always);
    if (!site) return ExitCode::invalid_site;
    if (!find_keys(*site, *inputs)) return ExitCode::usage;
    const auto folder = open_folder(options.result.folder);
    const auto [scenario, swept] = run(*site, *inputs, options);
    if (!swept.violations.empty()) return report_bug(swept.violations);
    if (!swept.diagnostics.empty()) {
        complain_of(swept.diagnostics, {}, true);
        return ExitCode::usage;
    }
    const std::string text = report::sweep_text(scenario, swept);
    const std::string json = report::sweep_json(scenario, swept);
    if (folder) {
        folder->write(
            {{"sweep.txt", text},
             {"sweep.json", json},
             {"sweep.csv", report::sweep_csv(scenario, swept)},
             {"sweep.html", report::sweep_html(scenario, swept)},
             {"sweep.svg", drawing::sweep_svg(scenario, swept, {.width = 960, .id_prefix = "", .own_file = true})}});
    }
    print(options.result.format == OutputFormat::json ? json : text);
    return outcome(std::any_of(swept.points.begin(), swept.points.end(),
                               [](const SweptPoint& point) { return point.winner.has_value(); }));
}

}  // namespace

Command add_sweep_command(CLI::App& program) {
    CLI::App& syntax =
        add_command(program, "sweep", "Move one or two inputs: where the winner changes, and what is proven");
    const auto options = std::make_shared<SweepCommandOptions>();
    options->search.seconds = 600;
    add_site_options(syntax, options->site);
    add_texts_option(
        syntax, "--vary", "KEY", options->keys,
        "A key that 'check --show-defaults' lists, or distance, buildings, links, spare-strands; twice for "
        "a grid");
    add_texts_option(syntax, "--from", "A", options->from, "Its first value, one for each --vary");
    add_texts_option(syntax, "--to", "B", options->to, "Its last value, one for each --vary");
    add_texts_option(syntax, "--points", "N", options->points,
                     "How many values, one for each --vary (default: 40, or 12 by 12)");
    add_number_option(syntax, "--gap", "PERCENT", options->gap_percent, 0, 100,
                      "Searches stop at this gap to their bound (default: 5)");
    add_result_options(syntax, options->result);
    add_layouts_option(syntax, options->search.layouts);
    add_random_seed_option(syntax, options->search.seed);
    add_threads_option(syntax, options->search);
    add_number_option(syntax, "--time-limit", "SECONDS", options->search.seconds, 0.1, 1e6,
                      "Of each search for a plan; one that is cut short may change the answer (default: 600)");
    return {&syntax, [options] { return sweep_site(*options); }};
}

}  // namespace spadework
