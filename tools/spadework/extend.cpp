// spadework extend PLAN FILE: buildings more or fewer on a site that was built.

#include <memory>

#include <fmt/format.h>

#include "drawing/drawing.hpp"
#include "extension/extension.hpp"
#include "growth/built_from_file.hpp"
#include "plan_file/plan_on_site.hpp"
#include "report/extension_report.hpp"
#include "report/plan_file_json.hpp"
#include "report/sheets_csv.hpp"
#include "report/shown_text.hpp"
#include "spadework/command.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/plan_loading.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/study_run.hpp"

namespace spadework {

namespace {

struct ExtendOptions {
    std::string plan;
    SiteOptions site;
    ResultOptions result;
    bool allow_interruption = false;
};

/// Says why the plan cannot be extended on this site, everything at once.
void complain_of_problems(const ExtendOptions& options, const std::vector<std::string>& problems) {
    const std::string plan = report::shown(name_of_input(options.plan));
    for (const std::string& problem : problems)
        complain(fmt::format("{}: error: {}\n", plan, report::shown(problem)));
    complain(fmt::format("{} between {} and {}\n",
                         problems.size() == 1 ? "1 contradiction" : fmt::format("{} contradictions", problems.size()),
                         plan, report::shown(name_of_input(options.site.file))));
}

/// The whole plan as drawings and sheets look at it, with the bill of what is new.
LayoutResult result_of(const Scenario& scenario, const Extension& extension) {
    Design design;
    design.layout = extension.extended.plan.layout;
    design.plan = extension.extended.plan;
    LayoutResult result = assess(scenario, std::move(design));
    result.strand_map = extension.strand_map;
    return result;
}

/// What a crew works from: every strand, label and limit of the whole plan, and what to buy and do for what is new.
std::vector<OutputFile> sheets_of(const Scenario& scenario, const LayoutResult& whole, const Extension& extension) {
    Comparison comparison;
    comparison.layouts = {whole};
    std::vector<OutputFile> files = {{"strand-map.csv", report::strand_map_csv(scenario, comparison)},
                                     {"labels.csv", report::labels_csv(scenario, comparison)},
                                     {"test-sheet.csv", report::test_sheet_csv(scenario, comparison)},
                                     {"trace-events.csv", report::trace_events_csv(scenario, comparison)}};
    comparison.layouts.front().bill = extension.bill;
    files.push_back({"materials.csv", report::materials_csv(scenario, comparison)});
    files.push_back({"crew-hours.csv", report::crew_hours_csv(scenario, comparison)});
    return files;
}

void write_files(const OutputFolder& folder, const Scenario& scenario, const plan_file::PlanFile& after,
                 const Extension& extension, const std::string& text, const std::string& json) {
    std::vector<OutputFile> files = {{"extension.txt", text}, {"extension.json", json}};
    if (extension.feasible) {
        files.push_back({"extended.plan.json", report::plan_file_json(after)});
        const LayoutResult whole = result_of(scenario, extension);
        for (OutputFile& file : sheets_of(scenario, whole, extension))
            files.push_back(std::move(file));
        if (whole.feasible())
            files.push_back({"extended.svg", drawing::plan_svg(scenario, whole, {.id_prefix = "", .own_file = true})});
    }
    folder.write(files);
    if (!extension.feasible) {
        folder.remove({"extended.plan.json", "extended.svg", "strand-map.csv", "labels.csv", "test-sheet.csv",
                       "trace-events.csv", "materials.csv", "crew-hours.csv"});
    }
}

ExitCode extend_site(const ExtendOptions& options) {
    const auto file = load_plan_file(options.plan, options.site.quiet);
    const auto site = load_site(options.site);
    if (!file || !site) return ExitCode::invalid_site;
    const auto folder = open_folder(options.result.folder);
    const auto given = std::make_shared<const Scenario>(*site->scenario);
    const Scenario scenario = site_to_extend(*plan_file::site_with_lines(given, *file), *file);
    const BuiltFromFile built = built_from_file(scenario, *file);
    if (!built.built) {
        complain_of_problems(options, built.problems);
        return ExitCode::invalid_site;
    }
    const Extension extension = extend(scenario, *built.built, {.may_interrupt = options.allow_interruption});
    if (!extension.violations.empty()) return report_bug(extension.violations);
    plan_file::PlanFile after;
    if (extension.feasible) after = extended_file(scenario, *file, extension);
    report::ExtensionStory story{built.built->plan, built.gone, built.notes};
    if (extension.interruption) {
        const Interruption& down = *extension.interruption;
        if (!down.cut_far.empty()) story.labels = changed_labels(*file, after, down.cut_far, down.cut_near);
    }
    const std::string text = report::extension_text(scenario, extension, story);
    const std::string json = report::extension_json(scenario, extension, story);
    if (folder) write_files(*folder, scenario, after, extension, text, json);
    print(options.result.format == OutputFormat::json ? json : text);
    return extension.feasible ? ExitCode::ok : ExitCode::infeasible;
}

}  // namespace

Command add_extend_command(CLI::App& program) {
    CLI::App& syntax =
        add_command(program, "extend", "Serve buildings that have come, on what a plan file says was built");
    const auto options = std::make_shared<ExtendOptions>();
    add_needed_word(syntax, "PLAN", options->plan, "The plan file of 'compare --out', or of an earlier extension");
    add_site_options(syntax, options->site);
    add_flag(syntax, "--allow-interruption", options->allow_interruption,
             "Take links down for a while where that is cheaper; the answer lists which, and how long");
    add_result_options(syntax, options->result);
    return {&syntax, [options] { return extend_site(*options); }};
}

}  // namespace spadework
