#include <fmt/format.h>

#include "report/cost_tables.hpp"
#include "report/failure_tables.hpp"
#include "report/figures.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/link_tables.hpp"
#include "report/lookup.hpp"
#include "report/metre_tables.hpp"
#include "report/plan_sentences.hpp"
#include "report/plan_tables.hpp"

namespace spadework::report {

namespace {

void write_findings(HtmlWriter& html, const LayoutResult& result) {
    if (result.findings.empty()) {
        html.element("p", "Findings: every check passed without remark.");
        return;
    }
    write_table(html, "Findings", findings_table(result));
}

}  // namespace

void write_details(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const LayoutResult* best = cheapest_of(parts.comparison);
    if (best == nullptr) return;
    const Plan& plan = *best->plan;
    open_section(html, "details", fmt::format("{} in full", name_of(best->layout)));
    write_table(html, "Every cost", cost_table(scenario, best->bill));
    write_table(html, "Every metre of route", trench_table(scenario, plan));
    html.element("p", metres_sentence(scenario, *best));
    write_table(html, "Cable by size", cable_size_table(scenario, *best));
    if (!plan.enclosures.empty()) write_table(html, "Enclosures", enclosure_table(scenario, plan));
    write_findings(html, *best);
    html.element("p", cut_sentence(scenario, *best));
    write_table(html, "What a failure takes down", failures_table(scenario, *best));
    for (const std::string& sentence : failure_sentences(scenario, *best))
        html.element("p", sentence);
    write_table(html, "Cables to order", cable_table(scenario, plan));
    write_table(html, "Links, their loss and what is left of their limit", link_table(scenario, *best));
    const std::string strands = strand_use_sentence(scenario, *best);
    if (!strands.empty()) html.element("p", strands);
    write_table(html, "What the glass carries", next_rate_table(scenario, *best));
    html.element("p", next_rate_sentence());
    html.close();
}

}  // namespace spadework::report
