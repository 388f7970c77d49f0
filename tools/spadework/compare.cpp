// spadework compare FILE: the layouts side by side, and the cheapest in full.

#include <algorithm>
#include <chrono>
#include <memory>
#include <optional>

#include <fmt/format.h>

#include "certificate/certificate.hpp"
#include "certificate/writer.hpp"
#include "plan_file/plan_words.hpp"
#include "report/compare_text.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"
#include "sheets/sheet_check.hpp"
#include "spadework/command.hpp"
#include "spadework/compare_files.hpp"
#include "spadework/interrupt.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/plan_loading.hpp"
#include "spadework/progress_line.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/straight_site.hpp"
#include "spadework/study_run.hpp"
#include "study/explanation.hpp"

namespace spadework {

namespace {

struct CompareOptions {
    SiteOptions site;
    ResultOptions result;
    SearchOptions search;
    std::string certificate_folder;
    std::string kept_plan;  ///< Path of a plan file whose strands stay; empty when not given.
    bool explain = false;
    bool plan_for_growth = false;
};

/// The places for the enclosure ranked for the report, within what is left of the time limit; nothing where no plan has
/// an enclosure, or where the search was stopped before a place was worked out.
std::optional<EnclosureStudy> rank_places(const Scenario& scenario, const Comparison& comparison, StudyOptions options,
                                          double seconds_used) {
    options.seconds -= seconds_used;
    if (options.seconds <= 0 || options.observer->should_stop() || !report::any_enclosure(comparison))
        return std::nullopt;
    EnclosureStudy places = rank_places_for_one(scenario, options);
    if (places.ranking.empty() && places.reason.empty()) return std::nullopt;
    return places;
}

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// What the sheets of the layouts promise and do not hold.
void append_sheet_violations(const Scenario& scenario, const Comparison& comparison,
                             std::vector<std::string>& violations) {
    for (const LayoutResult& result : comparison.layouts) {
        if (!result.feasible()) continue;
        for (std::string& sentence : sheet_violations(scenario, result))
            violations.push_back(fmt::format("{}: {}", name_of(result.layout), sentence));
    }
}

Compared run_study(const Scenario& site, const CompareOptions& options, KeptMap kept) {
    const InterruptWatch watch;
    const auto start = std::chrono::steady_clock::now();
    ProgressLine progress(!options.site.quiet);
    StudyOptions limits = study_options(options.search, progress);
    Compared compared;
    compared.scenario = straight_site(site, limits);
    limits.kept = std::move(kept);
    const Scenario& scenario = compared.scenario;
    compared.seed = options.search.seed;
    compared.explain = options.explain;
    compared.study = compare_layouts(scenario, limits);
    std::vector<std::string>& violations = compared.study.violations;
    append_sheet_violations(scenario, compared.study.comparison, violations);
    if ((!options.result.folder.empty() || options.plan_for_growth) && violations.empty()) {
        compared.enclosures = rank_places(scenario, compared.study.comparison, study_options(options.search, progress),
                                          seconds_since(start));
        if (compared.enclosures) violations = compared.enclosures->violations;
    }
    if (options.plan_for_growth && violations.empty()) {
        compared.growth = plan_for_growth(scenario, compared.enclosures.value_or(EnclosureStudy{}),
                                          compared.study.comparison.layouts);
        violations = compared.growth->violations;
    }
    if (!options.explain || !violations.empty()) return compared;
    compared.explanation = explain(scenario, compared.study.comparison, study_options(options.search, progress));
    if (compared.explanation) violations = compared.explanation->violations;
    return compared;
}

/// A certificate for each layout with a plan, in place of all that an earlier run may have left.
void write_certificates(const OutputFolder& folder, const Scenario& scenario, const CompareOptions& options,
                        const Comparison& comparison) {
    std::vector<OutputFile> files;
    for (const certificate::Certificate& one : certificate::certificates_of(scenario, comparison))
        files.push_back({certificate::file_name(one.layout), certificate::to_json(scenario, one)});
    folder.write(files);
    std::vector<std::string> outdated;
    for (const LayoutKind layout : plan_file::all_layouts()) {
        const std::string name = certificate::file_name(layout);
        const auto is_written = [&](const OutputFile& file) { return file.name == name; };
        if (std::none_of(files.begin(), files.end(), is_written)) outdated.push_back(name);
    }
    folder.remove(outdated);
    if (options.site.quiet) return;
    complain(fmt::format("spadework: wrote {} to {}\n",
                         files.size() == 1 ? "1 certificate" : fmt::format("{} certificates", files.size()),
                         report::shown(options.certificate_folder)));
}

void tell_what_is_missing(const Scenario& scenario, const CompareOptions& options, const Compared& compared) {
    const std::string note = missing_files_note(scenario, compared);
    if (!note.empty() && !options.site.quiet) complain(fmt::format("spadework: {}\n", note));
}

/// The strands to keep: none where no plan file is named, nothing where it cannot be used.
std::optional<KeptMap> load_kept(const CompareOptions& options) {
    if (options.kept_plan.empty()) return KeptMap{};
    const auto plan = load_plan_file(options.kept_plan, options.site.quiet);
    if (!plan) return std::nullopt;
    return plan_file::kept_map(*plan);
}

ExitCode compare_site(const CompareOptions& options) {
    if (options.site.file == "-" && options.kept_plan == "-") {
        complain("spadework compare: only one of FILE and --keep can be standard input\n");
        return ExitCode::usage;
    }
    const auto site = load_site(options.site);
    const auto kept = load_kept(options);
    if (!site || !kept) return ExitCode::invalid_site;
    const auto folder = open_folder(options.result.folder);
    const auto certificate_folder = open_folder(options.certificate_folder);
    const Compared compared = run_study(*site->scenario, options, *kept);
    const Scenario& scenario = compared.scenario;
    if (!compared.study.violations.empty()) return report_bug(compared.study.violations);

    const Comparison& comparison = compared.study.comparison;
    if (folder) {
        write_files(*folder, scenario, compared);
        tell_what_is_missing(scenario, options, compared);
    }
    if (certificate_folder) write_certificates(*certificate_folder, scenario, options, comparison);
    print(options.result.format == OutputFormat::json ? json_of(scenario, compared) : text_of(scenario, compared));
    if (options.site.verbose) complain(report::reasons_text(comparison));
    return outcome(comparison.cheapest.has_value());
}

}  // namespace

Command add_compare_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "compare", "Compare layouts at full cost, and show the cheapest in full");
    const auto options = std::make_shared<CompareOptions>();
    add_site_options(syntax, options->site);
    add_result_options(syntax, options->result);
    add_text_option(syntax, "--certificate", "DIR", options->certificate_folder,
                    "Also write to this folder what 'spadework verify' needs to check plans and bounds");
    add_text_option(syntax, "--keep", "PLAN", options->kept_plan,
                    "Keep strands, adapters and ports of this plan file where the new plans still have their cables");
    add_flag(syntax, "--explain", options->explain,
             "Also what the next best way would cost, for each building and enclosure of the cheapest layout");
    add_flag(syntax, "--plan-for-growth", options->plan_for_growth,
             "Also the enclosure's place and the trunk by what they are expected to cost as the site grows");
    add_layouts_option(syntax, options->search.layouts);
    add_search_options(syntax, options->search);
    return {&syntax, [options] { return compare_site(*options); }};
}

}  // namespace spadework
