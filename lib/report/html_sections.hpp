#pragma once

// The page's parts, in the order in which report_html() puts them together. Each writes whole <section> elements, and
// nothing at all where it has nothing to say.

#include "report/html_report.hpp"
#include "report/html_writer.hpp"

namespace spadework::report {

/// The rules of how the page looks, on a screen and on paper.
extern const char* const page_style;

/// The cheapest layout; nothing where none is feasible.
const LayoutResult* cheapest_of(const Comparison& comparison);

/// Begins a section under a heading that can be linked to.
void open_section(HtmlWriter& html, const char* id, const std::string& heading);

/// A list of texts; nothing where there are none.
void write_list(HtmlWriter& html, const std::vector<std::string>& texts);

/// What to build, what it costs, why, and how sure that is; or that nothing can be built, and why.
void write_answer(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// The plan of the cheapest layout, drawn.
void write_plan(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// The layouts side by side: cost bars, the table, metres by ground.
void write_layouts(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// Every other plan that differs from those before it, drawn.
void write_other_plans(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// Where one enclosure may stand and what each place would cost more.
void write_enclosures(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// How many strands one trunk should hold.
void write_strands(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// The trunk that is right for what may come, beside the one that is cheapest today.
void write_growth_study(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// The cheapest layout in full: every cost, metre, cable, link and finding.
void write_details(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// What to order and the sheets to work from, for the cheapest layout; long ones folded.
void write_sheets(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// What would have been otherwise, for each enclosure and building.
void write_explanation(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

/// Cautions, assumptions, how plans and bounds come about, and what the page was made from.
void write_grounds(HtmlWriter& html, const Scenario& scenario, const PageParts& parts);

}  // namespace spadework::report
