// spadework compare FILE: the layouts side by side, and the cheapest in full.

#include <algorithm>
#include <memory>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "certificate/certificate.hpp"
#include "certificate/writer.hpp"
#include "report/compare_json.hpp"
#include "report/compare_text.hpp"
#include "report/csv_tables.hpp"
#include "report/explanation_report.hpp"
#include "report/plan_geojson.hpp"
#include "report/shown_text.hpp"
#include "spadework/command.hpp"
#include "spadework/interrupt.hpp"
#include "spadework/output_folder.hpp"
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
    bool explain = false;
};

/// A comparison, and why its cheapest plan is as it is where that was asked for.
struct Compared {
    Scenario scenario;  ///< The site, with straight lines over its open ground.
    Study study;
    std::optional<Explanation> explanation;
};

Compared run_study(const Scenario& site, const CompareOptions& options) {
    const InterruptWatch watch;
    ProgressLine progress(!options.site.quiet);
    StudyOptions study = study_options(options.search, progress);
    const Scenario scenario = straight_site(site, study);
    Compared compared{scenario, compare_layouts(scenario, study), std::nullopt};
    if (!options.explain || !compared.study.violations.empty()) return compared;
    compared.explanation = explain(scenario, compared.study.comparison, study_options(options.search, progress));
    if (compared.explanation) compared.study.violations = compared.explanation->violations;
    return compared;
}

std::string text_of(const Scenario& scenario, const CompareOptions& options, const Compared& compared) {
    const std::string text = report::compare_text(scenario, compared.study.comparison);
    return options.explain ? text + report::explanation_text(scenario, compared.explanation) : text;
}

std::string json_of(const Scenario& scenario, const CompareOptions& options, const Compared& compared) {
    const Comparison& comparison = compared.study.comparison;
    const std::uint64_t seed = options.search.seed;
    return options.explain ? report::compare_json(scenario, comparison, seed, compared.explanation)
                           : report::compare_json(scenario, comparison, seed);
}

const char* const explanation_file = "explanation.csv";

std::string plan_file_name(LayoutKind layout) {
    return fmt::format("plan-{}.geojson", id_of(layout));
}

/// Everything --out writes of a comparison.
std::vector<OutputFile> files_of(const Scenario& scenario, const CompareOptions& options, const Compared& compared) {
    const Comparison& comparison = compared.study.comparison;
    std::vector<OutputFile> files = {{"comparison.json", json_of(scenario, options, compared)},
                                     {"comparison.txt", text_of(scenario, options, compared)}};
    if (options.explain) files.push_back({explanation_file, report::explanation_csv(scenario, compared.explanation)});
    for (report::NamedTable& table : report::csv_tables(scenario, comparison)) {
        files.push_back({std::move(table.name), std::move(table.content)});
    }
    for (const LayoutResult& result : comparison.layouts) {
        if (!result.feasible()) continue;
        files.push_back({plan_file_name(result.layout), report::plan_geojson(scenario, result)});
    }
    return files;
}

/// A certificate for each layout with a plan, in place of all that an earlier run may have left.
void write_certificates(const OutputFolder& folder, const Scenario& scenario, const CompareOptions& options,
                        const Comparison& comparison) {
    std::vector<OutputFile> files;
    for (const certificate::Certificate& one : certificate::certificates_of(scenario, comparison))
        files.push_back({certificate::file_name(one.layout), certificate::to_json(scenario, one)});
    folder.write(files);
    std::vector<std::string> outdated;
    for (const LayoutKind layout : all_layouts()) {
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

/// Files that an earlier run may have left, and this one does not write.
std::vector<std::string> outdated_files(const std::vector<OutputFile>& files) {
    std::vector<std::string> outdated = {explanation_file};
    for (const LayoutKind layout : all_layouts())
        outdated.push_back(plan_file_name(layout));
    std::erase_if(outdated, [&](const std::string& name) {
        return std::any_of(files.begin(), files.end(), [&](const OutputFile& file) { return file.name == name; });
    });
    return outdated;
}

void write_files(const OutputFolder& folder, const std::vector<OutputFile>& files) {
    folder.write(files);
    folder.remove(outdated_files(files));
}

ExitCode compare_site(const CompareOptions& options) {
    const auto site = load_site(options.site);
    if (!site) return ExitCode::invalid_site;
    const auto folder = open_folder(options.result.folder);
    const auto certificate_folder = open_folder(options.certificate_folder);
    const Compared compared = run_study(*site->scenario, options);
    const Scenario& scenario = compared.scenario;
    if (!compared.study.violations.empty()) return report_bug(compared.study.violations);

    const Comparison& comparison = compared.study.comparison;
    if (folder) write_files(*folder, files_of(scenario, options, compared));
    if (certificate_folder) write_certificates(*certificate_folder, scenario, options, comparison);
    print(options.result.format == OutputFormat::json ? json_of(scenario, options, compared)
                                                      : text_of(scenario, options, compared));
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
    add_flag(syntax, "--explain", options->explain,
             "Also what the next best way would cost, for each building and enclosure of the cheapest layout");
    add_layouts_option(syntax, options->search.layouts);
    add_search_options(syntax, options->search);
    return {&syntax, [options] { return compare_site(*options); }};
}

}  // namespace spadework
