// What the page's figures stand on.

#include <fmt/format.h>

#include "checks/cautions.hpp"
#include "report/assumptions.hpp"
#include "report/html_sections.hpp"
#include "report/plan_kml.hpp"

namespace spadework::report {

namespace {

void write_cautions(HtmlWriter& html, const Scenario& scenario, const Comparison& comparison) {
    const LayoutResult* best = cheapest_of(comparison);
    if (best == nullptr) return;
    open_section(html, "cautions", "Cautions");
    html.open("ul");
    for (const Caution& caution : cautions(scenario, *best->plan)) {
        html.open("li");
        html.text(caution.text + " ");
        html.element("span", fmt::format("Source: {}.", caution.source), {{"class", "quiet"}});
        html.close();
    }
    html.close();
    html.close();
}

void write_assumptions(HtmlWriter& html, const Scenario& scenario) {
    open_section(html, "assumptions", "Assumptions");
    write_list(html, assumptions(scenario));
    html.close();
}

void write_method(HtmlWriter& html) {
    open_section(html, "method", "How plans and bounds come about");
    for (const char* paragraph :
         {"Each layout is planned by itself over the whole map: which segments to open and how, which existing ducts "
          "and poles to use, where enclosures stand, which cable, optic and gear each building gets. A segment is paid "
          "for once however many cables lie in it, so routes are chosen together and not one building at a time.",
          "The total of a plan is the sum of its cost lines, to the last minor unit. Losses, power, ports and room in "
          "ducts are checked; a plan that fails a check is not shown. Each result is then gone through again by "
          "separate code that shares none of the planning.",
          "The lower bound answers how good a plan is. It is an amount that no plan of that layout can undercut on "
          "this map with these prices and rules, proved in whole numbers. The gap is the total less the bound, in "
          "percent of the total: at 1.00 %, nobody can find a plan of that layout that is more than 1.00 % cheaper. A "
          "gap above 0 does not mean that a cheaper plan exists.",
          "The bound speaks of the map as it is given: a route that is not on the map was not looked at."}) {
        html.element("p", paragraph);
    }
    html.close();
}

/// What stands in the folder beside the page.
void write_companions(HtmlWriter& html, const Scenario& scenario, const Comparison& comparison) {
    if (!comparison.cheapest) return;
    const char* kml = has_kml(scenario)
                          ? "and plan.kml (for telephones and earth viewers)"
                          : "(its positions are metres on the local plan, so that there is no plan.kml, which knows "
                            "only longitude and latitude)";
    html.element("p", fmt::format("Beside this page: plan.svg (the drawing), plan.geojson (for map programs) {}, the "
                                  "same for each layout, and every table as CSV and JSON.",
                                  kml));
}

void write_provenance(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    open_section(html, "provenance", "Where this page comes from");
    write_companions(html, scenario, parts.comparison);
    std::string layouts;
    for (const LayoutResult& layout : parts.comparison.layouts)
        layouts += (layouts.empty() ? "" : ", ") + std::string(id_of(layout.layout));
    html.element("p", fmt::format("Spadework {}. Digest of the site's files: {}. Layouts compared: {}. Random seed: "
                                  "{}. The same site and options give the same page, byte for byte; only a time limit "
                                  "that cuts a search short can make a difference.",
                                  parts.version, scenario.digest, layouts, parts.seed));
    html.close();
}

}  // namespace

void write_grounds(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    write_cautions(html, scenario, parts.comparison);
    write_assumptions(html, scenario);
    write_method(html);
    write_provenance(html, scenario, parts);
}

}  // namespace spadework::report
