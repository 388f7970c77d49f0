#include <algorithm>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "report/figures.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/link_tables.hpp"
#include "report/lookup.hpp"

namespace spadework::report {

namespace {

std::string counted(std::int64_t count, const char* one, const char* many) {
    return fmt::format("{} {}", figure(count), count == 1 ? one : many);
}

/// "1 trunk, 4 drops".
std::string cables_in_words(const Plan& plan) {
    struct Name {
        CableRole role;
        const char* one;
        const char* many;
    };
    constexpr Name names[] = {{CableRole::trunk, "trunk", "trunks"},
                              {CableRole::drop, "drop", "drops"},
                              {CableRole::home_run, "home run", "home runs"},
                              {CableRole::hop, "cable from building to building", "cables from building to building"},
                              {CableRole::closing, "closing cable", "closing cables"}};
    std::string text;
    for (const Name& name : names) {
        const auto count = std::count_if(plan.cables.begin(), plan.cables.end(),
                                         [&](const PlannedCable& cable) { return cable.role == name.role; });
        if (count > 0) text += (text.empty() ? "" : ", ") + counted(count, name.one, name.many);
    }
    return text;
}

std::string enclosures_in_words(const Scenario& scenario, const Plan& plan) {
    if (plan.enclosures.empty()) return "no enclosure";
    std::string text = plan.enclosures.size() == 1 ? "an enclosure at " : "enclosures at ";
    for (std::size_t i = 0; i < plan.enclosures.size(); ++i)
        text += (i == 0 ? "" : ", ") + place_at(scenario, plan.enclosures[i].place).id;
    return text;
}

std::string what_to_build(const Scenario& scenario, const LayoutResult& result) {
    const char* unit = length_unit(scenario);
    std::string text = fmt::format("{}; {}. {} {} of trench", cables_in_words(*result.plan),
                                   enclosures_in_words(scenario, *result.plan), figure(result.trench, scenario), unit);
    if (result.reused != Length())
        text += fmt::format(" and {} {} of existing ducts and pole lines", figure(result.reused, scenario), unit);
    return text + fmt::format(", {} {} of cable.", figure(cable_ordered(result), scenario), unit);
}

std::string what_is_in_it(const Scenario& scenario, const LayoutResult& result) {
    const Currency& currency = scenario.currency;
    const auto part = [&](Category category) {
        const Money amount = result.bill.total(category);
        return amount == Money() ? std::string("no") : figure(amount, currency);
    };
    return fmt::format("In all, with {} contingency and {} tax. {} hours of labour.", part(Category::contingency),
                       part(Category::tax), figure(result.bill.labour()));
}

std::string how_sure(const Scenario& scenario, const LayoutResult& result) {
    std::string text = fmt::format(
        "Proved: no plan of this layout, on this map and at these prices, costs less than {}, which is {} % below.",
        money_in_words(result.bound, scenario.currency), figure(100.0 * result.gap, 2));
    if (result.worst_margin_db) {
        text += fmt::format(" Every link works by calculation, the weakest with {} dB to spare.",
                            figure(*result.worst_margin_db, 2));
    }
    return text;
}

/// What else the reader has to know before building.
std::string what_to_mind(const LayoutResult& result) {
    const auto warnings = std::count_if(result.findings.begin(), result.findings.end(), [](const Finding& finding) {
        return finding.severity == FindingSeverity::warning;
    });
    std::string text = warnings == 0 ? "No check raised a warning."
                                     : counted(warnings, "warning", "warnings") + " among the findings below.";
    return text + " Prices, grounds and lengths are as the site file states them; nothing was checked on the ground.";
}

void write_fact(HtmlWriter& html, const char* term, const std::string& answer, const std::string& more) {
    html.open("div");
    html.element("dt", term);
    html.open("dd");
    if (!answer.empty()) html.element("strong", answer);
    html.text((answer.empty() ? "" : " ") + more);
    html.close();
    html.close();
}

void write_facts(HtmlWriter& html, const Scenario& scenario, const Comparison& comparison) {
    const LayoutResult& best = *cheapest_of(comparison);
    html.open("dl", {{"class", "answer"}});
    write_fact(html, "What to build", name_of(best.layout), what_to_build(scenario, best));
    write_fact(html, "What it costs", money_in_words(best.total, scenario.currency), what_is_in_it(scenario, best));
    write_fact(html, "Why", "", comparison.verdict);
    write_fact(html, "How sure", "", how_sure(scenario, best) + " " + what_to_mind(best));
    html.close();
}

bool any_interrupted(const Comparison& comparison) {
    return std::any_of(comparison.layouts.begin(), comparison.layouts.end(),
                       [](const LayoutResult& layout) { return layout.interrupted; });
}

/// Below the answer, which has to fit on a screen.
void write_ruled_out(HtmlWriter& html, const Comparison& comparison) {
    if (!any_ruled_out(comparison)) return;
    open_section(html, "ruled-out", "What rules layouts out");
    write_table(html, "What the nearest plan of each layout breaks", ruled_out_table(comparison));
    html.close();
}

}  // namespace

void write_answer(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    const Comparison& comparison = parts.comparison;
    open_section(html, "answer", "Result");
    if (any_interrupted(comparison)) {
        html.element("p",
                     "The search was stopped early. This is the best found by then; each gap is what was proved by "
                     "then.",
                     {{"class", "notice"}});
    }
    if (comparison.cheapest) {
        write_facts(html, scenario, comparison);
    } else {
        html.open("dl", {{"class", "answer"}});
        write_fact(html, "What to build", "Nothing", "that can be built meets the site's rules.");
        write_fact(html, "Why", "", comparison.verdict);
        html.close();
    }
    html.close();
    if (!comparison.cheapest) write_ruled_out(html, comparison);
}

}  // namespace spadework::report
