#include "spadework/compare_files.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "drawing/drawing.hpp"
#include "growth/planned_trunk.hpp"
#include "plan_file/making.hpp"
#include "plan_file/plan_words.hpp"
#include "report/compare_json.hpp"
#include "report/compare_text.hpp"
#include "report/csv_tables.hpp"
#include "report/enclosure_tables.hpp"
#include "report/explanation_report.hpp"
#include "report/growth_report.hpp"
#include "report/html_report.hpp"
#include "report/plan_file_json.hpp"
#include "report/plan_geojson.hpp"
#include "report/plan_kml.hpp"
#include "spadework/options.hpp"

namespace spadework {

namespace {

const char* const explanation_file = "explanation.csv";
const char* const places_file = "places.csv";
const char* const cheapest_plan_file = "plan.json";
const char* const growth_plan_file = "growth.plan.json";
constexpr std::array plan_endings = {"svg", "geojson", "kml"};

/// "plan-trunk.svg" of a layout; "plan.svg" of the cheapest.
std::string plan_file_name(const std::optional<LayoutKind>& layout, const char* ending) {
    return layout ? fmt::format("plan-{}.{}", id_of(*layout), ending) : fmt::format("plan.{}", ending);
}

/// Counted with the strand use that the cheapest plan has.
StrandStudy strands_of(const Scenario& scenario, const Comparison& comparison) {
    const TrunkRun run = trunk_to_study(scenario, comparison);
    if (!scenario.rules.either_strand_use || !comparison.cheapest) return study_strands(scenario, run);
    const LayoutResult& best = comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)];
    return study_strands(settled_on(scenario, best.plan->strand_use), run);
}

std::string report_of(const Scenario& scenario, const Compared& compared) {
    const StrandStudy strands = strands_of(scenario, compared.study.comparison);
    return report::report_html(scenario, {.comparison = compared.study.comparison,
                                          .strands = strands,
                                          .enclosures = compared.enclosures ? &*compared.enclosures : nullptr,
                                          .explanation = compared.explain ? &compared.explanation : nullptr,
                                          .growth = compared.growth ? &*compared.growth : nullptr,
                                          .seed = compared.seed,
                                          .version = SPADEWORK_VERSION});
}

/// One plan in every format that can hold it.
std::vector<OutputFile> plan_files(const Scenario& scenario, const LayoutResult& result,
                                   const std::optional<LayoutKind>& layout) {
    std::vector<OutputFile> files = {
        {plan_file_name(layout, "svg"), drawing::plan_svg(scenario, result, {.id_prefix = "", .own_file = true})},
        {plan_file_name(layout, "geojson"), report::plan_geojson(scenario, result)}};
    if (report::has_kml(scenario)) files.push_back({plan_file_name(layout, "kml"), report::plan_kml(scenario, result)});
    files.push_back({layout ? plan_file::file_name(*layout) : cheapest_plan_file,
                     report::plan_file_json(plan_file::plan_file_of(scenario, result))});
    return files;
}

void append(std::vector<OutputFile> more, std::vector<OutputFile>& files) {
    for (OutputFile& file : more)
        files.push_back(std::move(file));
}

std::vector<OutputFile> files_of(const Scenario& scenario, const Compared& compared) {
    const Comparison& comparison = compared.study.comparison;
    std::vector<OutputFile> files = {{"comparison.json", json_of(scenario, compared)},
                                     {"comparison.txt", text_of(scenario, compared)},
                                     {"report.html", report_of(scenario, compared)}};
    if (compared.explain) files.push_back({explanation_file, report::explanation_csv(scenario, compared.explanation)});
    if (compared.enclosures) files.push_back({places_file, report::places_csv(scenario, *compared.enclosures)});
    for (report::NamedTable& table : report::csv_tables(scenario, comparison))
        files.push_back({std::move(table.name), std::move(table.content)});
    for (const LayoutResult& result : comparison.layouts) {
        if (result.feasible()) append(plan_files(scenario, result, result.layout), files);
    }
    if (comparison.cheapest) {
        const LayoutResult& best = comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)];
        append(plan_files(scenario, best, std::nullopt), files);
    }
    if (compared.growth && compared.growth->plan && compared.growth->plan->feasible()) {
        const auto plan = plan_file::plan_file_of(scenario, *compared.growth->plan);
        files.push_back({growth_plan_file, report::plan_file_json(plan)});
    }
    return files;
}

/// Files that an earlier run may have left, and this one does not write.
std::vector<std::string> outdated_files(const std::vector<OutputFile>& files) {
    std::vector<std::string> outdated = {explanation_file, places_file, cheapest_plan_file, growth_plan_file};
    for (const LayoutKind layout : plan_file::all_layouts())
        outdated.push_back(plan_file::file_name(layout));
    for (const char* ending : plan_endings) {
        outdated.push_back(plan_file_name(std::nullopt, ending));
        for (const LayoutKind layout : plan_file::all_layouts())
            outdated.push_back(plan_file_name(layout, ending));
    }
    std::erase_if(outdated, [&](const std::string& name) {
        return std::any_of(files.begin(), files.end(), [&](const OutputFile& file) { return file.name == name; });
    });
    return outdated;
}

}  // namespace

std::string text_of(const Scenario& scenario, const Compared& compared) {
    std::string text = report::compare_text(scenario, compared.study.comparison);
    if (compared.growth) text += report::growth_text(scenario, *compared.growth);
    if (compared.explain) text += report::explanation_text(scenario, compared.explanation);
    return text;
}

std::string json_of(const Scenario& scenario, const Compared& compared) {
    const report::BesideComparison beside{compared.explain ? &compared.explanation : nullptr,
                                          compared.growth ? &*compared.growth : nullptr};
    return report::compare_json(scenario, compared.study.comparison, compared.seed, beside);
}

void write_files(const OutputFolder& folder, const Scenario& scenario, const Compared& compared) {
    const std::vector<OutputFile> files = files_of(scenario, compared);
    folder.write(files);
    folder.remove(outdated_files(files));
}

std::string missing_files_note(const Scenario& scenario, const Compared& compared) {
    if (report::has_kml(scenario) || !compared.study.comparison.cheapest) return "";
    return "no plan.kml: the site's positions are metres on a local plan, not longitude and latitude";
}

}  // namespace spadework
