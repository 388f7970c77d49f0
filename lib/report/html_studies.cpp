// Where the enclosure stands and how many strands the trunk holds: studies of their own beside the comparison.

#include <fmt/format.h>

#include "report/enclosure_tables.hpp"
#include "report/explanation_tables.hpp"
#include "report/html_figure.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/lookup.hpp"
#include "report/strand_cost_tables.hpp"
#include "report/strand_tables.hpp"
#include "report/strands_report.hpp"

namespace spadework::report {

namespace {

/// Places that a page tells of one by one.
constexpr std::size_t most_places = 20;

void write_lines(HtmlWriter& html, const char* heading, const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    html.element("h3", heading);
    write_list(html, texts);
}

/// What is said of a ranking that was cut short, or that stands beside plans with more enclosures.
std::string ranking_remark(const EnclosureStudy& study) {
    if (study.interrupted) return "The search was stopped early; the gaps are what was proven by then.";
    return "Each place is worked out as a whole plan with one enclosure there, contingency and tax included.";
}

void write_growth(HtmlWriter& html, const Scenario& scenario, const StrandStudy& study) {
    if (!study.any_growth()) return;
    write_table(html, growth_heading(scenario), growth_table(scenario));
    write_table(html, "How many strands growth may need", growth_chance_table(study));
}

void write_strand_costs(HtmlWriter& html, const Scenario& scenario, const StrandStudy& study) {
    for (const std::string& sentence : strand_cost_opening(scenario, study))
        html.element("p", sentence);
    write_table(html, "What each size costs, now and later", strand_cost_table(scenario, study));
    const TextTable years = run_out_table(scenario, study);
    if (!years.empty()) write_table(html, "The recommended size, year by year", years);
    const TextTable larger = larger_now_table(scenario, study);
    if (!larger.empty()) write_table(html, "A larger cable now, or another trunk later", larger);
    const TextTable ducts = dig_once_table(scenario, study);
    if (!ducts.empty()) write_table(html, "A spare duct now, or opened again later", ducts);
    write_table(html, "Policies from practice", spare_policy_table(scenario, study));
    write_list(html, spare_policy_sources(scenario, study));
}

void write_growth_rates(HtmlWriter& html, const Scenario& scenario, const StrandStudy& study) {
    const GrowthRates rates = recommendations_by_rate(scenario, study.run);
    write_table(html, "If growth is faster or slower", growth_rate_table(scenario, study, rates));
    write_list(html, rate_switches(scenario, study, rates));
}

void write_ranking(HtmlWriter& html, const Scenario& scenario, const EnclosureStudy& study) {
    html.element("p", best_sentence(scenario, study));
    if (!study.ranking.empty()) {
        html.element("p", ranking_remark(study));
        write_drawing(html, "enclosure-map", "Map of the places for one enclosure",
                      "What one enclosure costs more at each other place that may take it.",
                      [&](const drawing::Frame& frame) { return drawing::enclosure_map_svg(scenario, study, frame); });
        write_table(html, "Places ranked", ranking_table(scenario, study, most_places));
        const std::string more = further_places_sentence(scenario, study, most_places);
        if (!more.empty()) html.element("p", more + " All of them are in places.csv.");
    }
    write_lines(html, "What makes a place dear", why_dear(scenario, study, most_places / 2));
    write_lines(html, "Places barred", why_barred(scenario, study));
    if (!study.by_count.empty()) write_table(html, "Best plan by number of enclosures", count_table(scenario, study));
}

}  // namespace

void write_enclosures(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const bool ranked = parts.enclosures != nullptr;
    if (!ranked && !any_enclosure(parts.comparison)) return;
    open_section(html, "enclosures", "Places for one enclosure");
    if (ranked) {
        write_ranking(html, scenario, *parts.enclosures);
    } else {
        html.element("p", "The places were not ranked: the search was stopped or its time was used up before.");
    }
    html.close();
}

void write_strands(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const StrandStudy& study = parts.strands;
    if (study.sizes.empty()) return;
    open_section(html, "strands", "Strands of a trunk");
    html.element("p",
                 "For one trunk that serves every building on this site. " + recommendation_sentence(scenario, study));
    write_chart(html, "strand-curve", "What each cable size costs now and later, and what it is enough for.",
                [&](const drawing::Frame& frame) { return drawing::strand_curve_svg(scenario, study, frame); });
    write_table(html, "Cable sizes on offer", cable_offer_table(scenario, study));
    write_growth(html, scenario, study);
    write_strand_costs(html, scenario, study);
    write_growth_rates(html, scenario, study);
    write_table(html, "Strands needed", strand_sum_table(study));
    html.close();
}

void write_explanation(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    if (parts.explanation == nullptr) return;
    open_section(html, "explanation", "Why this plan");
    for (const std::string& sentence : explanation_opening(*parts.explanation))
        html.element("p", sentence);
    if (*parts.explanation) {
        const Explanation& explanation = **parts.explanation;
        html.element("p", enclosure_reasons_opening(explanation));
        if (!explanation.enclosures.empty()) {
            write_table(html, "Each enclosure and the next best", enclosure_reasons_table(scenario, explanation));
            write_list(html, enclosure_remarks(scenario, explanation));
        }
        html.element("p", building_reasons_opening(explanation));
        write_table(html, "Each building and the next best", building_reasons_table(scenario, explanation));
        write_list(html, building_remarks(scenario, explanation));
    }
    html.close();
}

}  // namespace spadework::report
