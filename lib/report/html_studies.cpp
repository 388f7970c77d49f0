// Where the enclosure stands and how many strands the trunk holds: studies of their own beside the comparison.

#include <fmt/format.h>

#include "report/enclosure_tables.hpp"
#include "report/explanation_tables.hpp"
#include "report/html_figure.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/lookup.hpp"
#include "report/strand_tables.hpp"

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

std::string with_full_stop(std::string text) {
    if (!text.empty() && text.back() != '.') text += '.';
    return text;
}

void write_growth(HtmlWriter& html, const Scenario& scenario, const StrandStudy& study) {
    if (scenario.growth.buildings.empty()) return;
    write_table(html, fmt::format("Growth named for the next {} years", scenario.growth.horizon_years),
                growth_table(scenario));
    write_table(html, "How many strands the growth named may need", growth_chance_table(study));
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
    html.element("p", "For one trunk that serves every building on this site. " + with_full_stop(study.reason));
    write_chart(html, "strand-curve", "What each cable size costs, and what it is enough for.",
                [&](const drawing::Frame& frame) { return drawing::strand_curve_svg(scenario, study, frame); });
    write_table(html, "Cable sizes on offer", cable_offer_table(scenario, study));
    write_growth(html, scenario, study);
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
