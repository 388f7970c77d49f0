#include "fuzz/support/inputs.hpp"
#include "fuzz/support/promises.hpp"
#include "plan_file/plan_on_site.hpp"
#include "plan_file/reader.hpp"
#include "report/plan_file_json.hpp"
#include "site_file/site_texts.hpp"

namespace spadework::fuzz {

namespace {

using namespace site_file;

Scenario lakeside() {
    const LoadedSite site = testing::read_text(testing::text_of_file(testing::scenarios_folder() / "lakeside.yaml"));
    require(site.scenario.has_value(), "the shipped scenario is valid");
    return *site.scenario;
}

}  // namespace

void try_plan_file(std::string_view bytes) {
    static const Scenario scenario = lakeside();
    const plan_file::ReadPlanFile read = plan_file::read_plan_file("plan", bytes);
    require_clean(read.plan.has_value(), read.diagnostics);
    if (!read.plan) return;
    const std::string text = report::plan_file_json(*read.plan);
    const plan_file::ReadPlanFile again = plan_file::read_plan_file("plan", text);
    require(again.plan.has_value(), "what is written can be read");
    require(report::plan_file_json(*again.plan) == text, "what is read is written with the same bytes");
    const plan_file::PlanOnSite found = plan_file::plan_of(scenario, *read.plan);
    require(found.plan.has_value() == found.missing.empty(), "there is a plan, or what is missing is named");
}

}  // namespace spadework::fuzz
