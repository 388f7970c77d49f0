// spadework strands FILE: how many strands a trunk should hold.

#include <memory>

#include "growth/planned_trunk.hpp"
#include "report/strands_report.hpp"
#include "spadework/command.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"
#include "strands/growth_rates.hpp"

namespace spadework {

namespace {

struct StrandsOptions {
    SiteOptions site;
    ResultOptions result;
};

ExitCode count_strands(const StrandsOptions& options) {
    const auto site = load_site(options.site);
    if (!site) return ExitCode::invalid_site;
    const Scenario& scenario = *site->scenario;
    const auto folder = open_folder(options.result.folder);
    const TrunkRun run = trunk_to_study(scenario);
    StrandStudy study = study_strands(scenario, run);
    const GrowthRates rates = recommendations_by_rate(scenario, run);
    if (scenario.rules.either_strand_use) {
        study.reason +=
            "; the rules leave the strand use to the price, and here each link counts with two strands, the larger "
            "need";
    }

    const std::string json = report::strands_json(scenario, study, rates);
    const std::string text = report::strands_text(scenario, study, rates);
    if (folder) folder->write({{"strands.json", json}, {"strands.txt", text}});
    print(options.result.format == OutputFormat::json ? json : text);
    return study.recommended < 0 ? ExitCode::infeasible : ExitCode::ok;
}

}  // namespace

Command add_strands_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "strands", "Count the strands a trunk needs, and weigh each cable size");
    const auto options = std::make_shared<StrandsOptions>();
    add_site_options(syntax, options->site);
    add_result_options(syntax, options->result);
    return {&syntax, [options] { return count_strands(*options); }};
}

}  // namespace spadework
