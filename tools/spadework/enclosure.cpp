// spadework enclosure FILE: every allowed place for the enclosure, ranked, and why the dear ones are dear.

#include <memory>

#include <fmt/format.h>

#include "report/enclosure_report.hpp"
#include "report/shown_text.hpp"
#include "spadework/command.hpp"
#include "spadework/interrupt.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/progress_line.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/straight_site.hpp"
#include "spadework/study_run.hpp"

namespace spadework {

namespace {

struct EnclosureOptions {
    SiteOptions site;
    ResultOptions result;
    SearchOptions search;
};

/// A ranking, and the site it speaks of: with straight lines over its open ground.
struct Ranked {
    Scenario scenario;
    EnclosureStudy study;
};

Ranked run_study(const Scenario& site, const EnclosureOptions& options) {
    const InterruptWatch watch;
    ProgressLine progress(!options.site.quiet);
    StudyOptions study = study_options(options.search, progress);
    study.layouts = {LayoutKind::trunk_one, LayoutKind::trunk};
    const Scenario scenario = straight_site(site, study);
    return {scenario, rank_enclosure_places(scenario, study)};
}

ExitCode rank_places(const EnclosureOptions& options) {
    const auto site = load_site(options.site);
    if (!site) return ExitCode::invalid_site;
    const auto folder = open_folder(options.result.folder);
    const auto [scenario, study] = run_study(*site->scenario, options);
    if (!study.violations.empty()) return report_bug(study.violations);

    const std::string json = report::enclosure_json(scenario, study, options.search.seed);
    const std::string text = report::enclosure_text(scenario, study);
    if (folder) folder->write({{"enclosure.json", json}, {"enclosure.txt", text}});
    print(options.result.format == OutputFormat::json ? json : text);
    return outcome(!study.ranking.empty());
}

}  // namespace

Command add_enclosure_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "enclosure", "Rank every place where the outdoor enclosure may stand");
    const auto options = std::make_shared<EnclosureOptions>();
    add_site_options(syntax, options->site);
    add_result_options(syntax, options->result);
    add_search_options(syntax, options->search);
    return {&syntax, [options] { return rank_places(*options); }};
}

}  // namespace spadework
