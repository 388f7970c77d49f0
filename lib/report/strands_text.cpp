#include <fmt/format.h>

#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"
#include "report/strand_cost_tables.hpp"
#include "report/strand_tables.hpp"
#include "report/strands_report.hpp"

namespace spadework::report {

namespace {

/// Paragraphs under a table's heading, the table, and what there is to say of it.
std::string part(const std::string& title, const TextTable& table) {
    return heading(title) + table.text();
}

std::string growth_part(const Scenario& scenario, const StrandStudy& study) {
    if (!study.any_growth()) return "";
    return part(growth_heading(scenario), growth_table(scenario)) + "\n" + growth_chance_table(study).text();
}

std::string cost_part(const Scenario& scenario, const StrandStudy& study) {
    std::string text = heading("What each size costs, now and later");
    for (const std::string& sentence : strand_cost_opening(scenario, study))
        text += paragraph(sentence);
    text += "\n" + strand_cost_table(scenario, study).text();
    const TextTable years = run_out_table(scenario, study);
    if (!years.empty()) text += part("The recommended size, year by year", years);
    const TextTable larger = larger_now_table(scenario, study);
    if (!larger.empty()) text += part("A larger cable now, or another trunk later", larger);
    const TextTable ducts = dig_once_table(scenario, study);
    if (!ducts.empty()) text += part("A spare duct now, or opened again later", ducts);
    return text;
}

std::string rates_part(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates) {
    return part("If growth is faster or slower", growth_rate_table(scenario, study, rates)) +
           bullets(rate_switches(scenario, study, rates));
}

}  // namespace

std::string growth_heading(const Scenario& scenario) {
    return fmt::format("Growth expected in the next {} years", scenario.growth.horizon_years);
}

std::string strands_text(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates) {
    std::string text = paragraph(shown(scenario.name));
    text += paragraph("A trunk that serves every building on this site.");
    text += part("Strands needed", strand_need_table(scenario, study));
    text += growth_part(scenario, study);
    text += part("Cable sizes on offer", cable_offer_table(scenario, study));
    text += cost_part(scenario, study);
    text += part("Policies from practice", spare_policy_table(scenario, study));
    text += bullets(spare_policy_sources(scenario, study));
    text += rates_part(scenario, study, rates);
    return text + heading("Recommendation") + paragraph(recommendation_sentence(scenario, study));
}

}  // namespace spadework::report
