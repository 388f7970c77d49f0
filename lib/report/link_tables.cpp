#include "report/link_tables.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"
#include "strands/strand_need.hpp"

namespace spadework::report {

namespace {

std::string in_words(StrandUse use) {
    return use == StrandUse::duplex ? "two strands (duplex)" : "one strand (bidirectional)";
}

/// How a limit is missed: "0.45 dB too much", "2,000.0 m too long".
std::string miss_in_words(const NextRate& next) {
    const char* how = next.limit == "reach" ? "too long" : next.limit == "least-length" ? "too short" : "too much";
    return fmt::format("{} {} {} {}", next.limit, figure(next.short_by, next.unit == "m" ? 1 : 2), next.unit, how);
}

}  // namespace

std::string lighting_in_words(const Scenario& scenario, const PlannedLink& link) {
    std::string text = optic_of(scenario, link).id;
    const auto add = [&](std::optional<int> attenuator, const std::string& at) {
        if (!attenuator) return;
        text += fmt::format(", {} at {}", scenario.catalogue.attenuators[static_cast<std::size_t>(*attenuator)].id, at);
    };
    add(link.attenuator_at_start, link_origin(scenario, link));
    add(link.attenuator_at_end, building_at(scenario, link.building).id);
    return text;
}

std::string next_rate_in_words(const NextRate& next) {
    if (!next.rate) return "no faster optic known";
    if (!next.passes) return "no, " + miss_in_words(next);
    return fmt::format("yes, {} dB left{}", figure(next.margin_db, 2), next.attenuated ? ", with attenuators" : "");
}

TextTable next_rate_table(const Scenario& scenario, const LayoutResult& result) {
    TextTable table({{"Building", Align::left, true},
                     {"From", Align::left, true},
                     {"Link", Align::right},
                     {fmt::format("Fibre\n({})", length_unit(scenario)), Align::right},
                     {fmt::format("Longest at\nits rate ({})", length_unit(scenario)), Align::right},
                     {"Next\nrate", Align::right},
                     {"Optic", Align::left, true},
                     {"Same glass carries it", Align::left, true}});
    for (const NextRate& next : result.next_rates) {
        const PlannedLink& link = result.plan->links[static_cast<std::size_t>(next.link)];
        const LinkBudget& budget = result.link_budgets[static_cast<std::size_t>(next.link)];
        table.add({shown(building_at(scenario, link.building).id), shown(link_origin(scenario, link)),
                   figure(std::int64_t{link.number}), figure(link.glass, scenario),
                   figure(budget.longest_glass, scenario), next.rate ? to_text(*next.rate) : "-",
                   next.rate ? shown(next.optic) : "-", next_rate_in_words(next)});
    }
    return table;
}

std::string next_rate_sentence() {
    return "The next rate is looked at with the catalogue's optics, or with those of IEEE 802.3 where the catalogue "
           "has "
           "none of that rate; gear is not looked at, for it is changed with them.";
}

std::string strand_use_sentence(const Scenario& scenario, const LayoutResult& result) {
    if (!result.other || !result.plan) return "";
    const OtherStrandUse& other = *result.other;
    const std::string chosen = "Every link uses " + in_words(result.plan->strand_use) +
                               ", which is cheaper here: with " + in_words(other.use) + " a link this layout ";
    if (!other.total) return chosen + "cannot be built (" + other.reason + ").";
    if (*other.total == result.total) {
        return fmt::format("Every link uses {}; with {} a link this layout costs the same.",
                           in_words(result.plan->strand_use), in_words(other.use));
    }
    return chosen + fmt::format("costs {}, {} more.", money_in_words(*other.total, scenario.currency),
                                money_in_words(*other.total - result.total, scenario.currency));
}

bool any_ruled_out(const Comparison& comparison) {
    return std::any_of(comparison.layouts.begin(), comparison.layouts.end(),
                       [](const LayoutResult& layout) { return !layout.feasible() && has_errors(layout.findings); });
}

TextTable ruled_out_table(const Comparison& comparison) {
    TextTable table({{"Layout", Align::left, true},
                     {"Where", Align::left, true},
                     {"What", Align::left, true},
                     {"Measured", Align::right},
                     {"Limit", Align::right},
                     {"Unit", Align::left}});
    for (const LayoutResult& layout : comparison.layouts) {
        if (layout.feasible()) continue;
        for (const Finding& finding : layout.findings) {
            if (finding.severity != FindingSeverity::error) continue;
            table.add({name_of(layout.layout), shown(finding.where), shown(finding.what), figure(finding.measured, 2),
                       figure(finding.limit, 2), shown(finding.unit)});
        }
    }
    return table;
}

}  // namespace spadework::report
