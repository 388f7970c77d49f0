// The sheets a crew works from, for the cheapest layout. Long ones are folded: what is open is printed.

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/sheet_tables.hpp"
#include "sheets/cable_order.hpp"

namespace spadework::report {

namespace {

/// How a colour of cables looks; nothing for a name that is not known.
const char* look_of(std::string_view colour) {
    struct Look {
        std::string_view name;
        const char* style;
    };
    static constexpr Look looks[] = {
        {"blue", "background:#1f5fbf"},   {"orange", "background:#f08020"}, {"green", "background:#2a9a3a"},
        {"brown", "background:#7a4a20"},  {"slate", "background:#7a8490"},  {"grey", "background:#9a9a9a"},
        {"white", "background:#ffffff"},  {"red", "background:#d02020"},    {"black", "background:#101010"},
        {"yellow", "background:#f5d800"}, {"violet", "background:#7a3fb0"}, {"rose", "background:#f4a0b8"},
        {"pink", "background:#f4a0b8"},   {"aqua", "background:#60d8e0"},   {"turquoise", "background:#30b8b0"}};
    for (const Look& look : looks) {
        if (look.name == colour) return look.style;
    }
    return nullptr;
}

void write_colour_key(HtmlWriter& html, const ColourOrder& order) {
    html.element("p",
                 fmt::format("Colours of strands and tubes by {}, in this order; from {} on they begin again, with "
                             "a tracer.",
                             order.name, order.colours.size() + 1));
    html.open("ol", {{"class", "colours"}});
    for (const std::string& colour : order.colours) {
        html.open("li");
        if (const char* look = look_of(colour)) html.element("span", "", {{"class", "swatch"}, {"style", look}});
        html.text(colour);
        html.close();
    }
    html.close();
}

/// A sheet behind a line that opens it.
void write_folded(HtmlWriter& html, const std::string& summary, const char* caption, const TextTable& table) {
    if (table.empty()) return;
    html.open("details");
    html.element("summary", summary);
    write_table(html, caption, table);
    html.close();
}

std::string counted(const char* name, const TextTable& table, const char* what) {
    return fmt::format("{}: {} {}", name, figure(static_cast<std::int64_t>(table.rows().size())), what);
}

void write_order(HtmlWriter& html, const Scenario& scenario, const LayoutResult& best) {
    write_table(html, "Bill of materials", materials_table(scenario, best));
    write_table(html, "Cable order by product and length", cable_order_table(scenario, *best.plan));
    const TextTable reels = reel_table(scenario, *best.plan);
    if (reels.empty()) return;
    html.element("p",
                 fmt::format("Cut on site from whole reels, the same cables cost {} {} less.", scenario.currency.code,
                             figure(cable_order(scenario, *best.plan).saved_by_reels, scenario.currency)));
    write_table(html, "The same cables from reels", reels);
}

}  // namespace

void write_sheets(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const LayoutResult* best = cheapest_of(parts.comparison);
    if (best == nullptr) return;
    open_section(html, "sheets", fmt::format("Sheets to order and work from: {}", name_of(best->layout)));
    html.element("p",
                 "Folded sheets are printed where they are open. Every layout's sheets are also tables beside this "
                 "page, from materials.csv to trace-events.csv.");
    write_order(html, scenario, *best);
    write_table(html, "Crew hours by trade and task", crew_hours_table(scenario, *best));
    html.element("p", termination_sentence(scenario, *best->plan));
    const TextTable terminations = termination_table(scenario, *best->plan);
    write_folded(html, "Factory-made ends against splices, cable by cable", "Both ways to end the cables",
                 terminations);
    const TextTable pulls = pull_table(scenario, *best->plan);
    write_folded(html, counted("Pull schedule", pulls, "stretches"), "Stretches to pull", pulls);
    write_colour_key(html, scenario.rules.colours);
    write_list(html, best->kept);
    const TextTable strands = strand_map_table(scenario, *best);
    write_folded(html, counted("Strand map", strands, "strands"), "Every strand of every cable", strands);
    const TextTable all_labels = label_table(scenario, *best);
    write_folded(html, counted("Labels", all_labels, "to print"), "Labels, place by place", all_labels);
    const TextTable tests = test_sheet_table(scenario, *best);
    write_folded(html, counted("Test sheet", tests, "rows, each to be read from both ends"),
                 "Limits, and room for readings", tests);
    html.close();
}

}  // namespace spadework::report
