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
#include "report/plan_geojson.hpp"
#include "report/shown_text.hpp"
#include "spadework/command.hpp"
#include "spadework/interrupt.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/progress_line.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/study_run.hpp"

namespace spadework {

namespace {

struct CompareOptions {
    SiteOptions site;
    ResultOptions result;
    SearchOptions search;
    std::string certificate_folder;
};

Study run_study(const Scenario& scenario, const CompareOptions& options) {
    const InterruptWatch watch;
    ProgressLine progress(!options.site.quiet);
    return compare_layouts(scenario, study_options(options.search, progress));
}

std::string plan_file_name(LayoutKind layout) {
    return fmt::format("plan-{}.geojson", id_of(layout));
}

/// Everything --out writes of a comparison.
std::vector<OutputFile> files_of(const Scenario& scenario, const Comparison& comparison, std::uint64_t seed) {
    std::vector<OutputFile> files = {{"comparison.json", report::compare_json(scenario, comparison, seed)},
                                     {"comparison.txt", report::compare_text(scenario, comparison)}};
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

/// Plans of layouts that an earlier run may have left, and this one has none of.
std::vector<std::string> outdated_files(const std::vector<OutputFile>& files) {
    std::vector<std::string> outdated;
    for (const LayoutKind layout : all_layouts()) {
        const std::string name = plan_file_name(layout);
        const auto is_written = [&](const OutputFile& file) { return file.name == name; };
        if (std::none_of(files.begin(), files.end(), is_written)) outdated.push_back(name);
    }
    return outdated;
}

void write_files(const OutputFolder& folder, const std::vector<OutputFile>& files) {
    folder.write(files);
    folder.remove(outdated_files(files));
}

ExitCode compare_site(const CompareOptions& options) {
    const auto site = load_site(options.site);
    if (!site) return ExitCode::invalid_site;
    const Scenario& scenario = *site->scenario;
    const auto folder = open_folder(options.result.folder);
    const auto certificate_folder = open_folder(options.certificate_folder);
    const Study study = run_study(scenario, options);
    if (!study.violations.empty()) return report_bug(study.violations);

    const Comparison& comparison = study.comparison;
    if (folder) write_files(*folder, files_of(scenario, comparison, options.search.seed));
    if (certificate_folder) write_certificates(*certificate_folder, scenario, options, comparison);
    print(options.result.format == OutputFormat::json ? report::compare_json(scenario, comparison, options.search.seed)
                                                      : report::compare_text(scenario, comparison));
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
    add_layouts_option(syntax, options->search.layouts);
    add_search_options(syntax, options->search);
    return {&syntax, [options] { return compare_site(*options); }};
}

}  // namespace spadework
