#include "comparison/comparison.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "comparison/metres.hpp"
#include "comparison/verdict.hpp"
#include "rates/quote_rates.hpp"

namespace spadework {

namespace {

/// The first error, and how many more there are.
std::string reason_from(const Findings& findings) {
    const auto is_error = [](const Finding& finding) { return finding.severity == FindingSeverity::error; };
    const auto first = std::find_if(findings.begin(), findings.end(), is_error);
    const auto count = std::count_if(findings.begin(), findings.end(), is_error);
    const std::string reason = first->where + ": " + first->what;
    return count == 1 ? reason : fmt::format("{} (and {} more errors among the findings)", reason, count - 1);
}

double gap_between(Money total, Money bound) {
    if (total == Money()) return 0;
    return static_cast<double>((total - bound).minor()) / static_cast<double>(total.minor());
}

std::optional<double> worst_margin(const std::vector<LinkBudget>& budgets) {
    std::optional<double> worst;
    for (const LinkBudget& budget : budgets)
        worst = std::min(worst.value_or(budget.worse().margin_db), budget.worse().margin_db);
    return worst;
}

void price_and_measure(const Scenario& scenario, LayoutResult& result) {
    const Plan& plan = *result.plan;
    result.bill = price(scenario, plan);
    result.total = result.bill.total();
    result.gap = gap_between(result.total, result.bound);
    TrenchMetres metres = trench_metres(scenario, plan);
    result.trench = metres.trench;
    result.reused = metres.reused;
    result.trench_by_ground = std::move(metres.by_ground);
    result.trench_by_method = std::move(metres.by_method);
    result.cable_by_strands = cable_metres(scenario, plan);
}

void map_strands_of(const Scenario& scenario, const KeptMap& earlier, LayoutResult& result) {
    const Plan& plan = *result.plan;
    result.strand_map =
        map_strands(scenario, plan, scenario.rules.colours, strands_still_there(scenario, plan, earlier));
    result.kept = notes_on_kept(scenario, plan, result.strand_map, earlier);
}

}  // namespace

LayoutResult assess(const Scenario& scenario, Design design, const KeptMap& earlier) {
    LayoutResult result;
    result.layout = design.layout;
    result.plan = std::move(design.plan);
    result.reason = std::move(design.reason);
    result.interrupted = design.interrupted;
    result.notes = std::move(design.notes);
    result.certificate = std::move(design.certificate);
    result.impossible = design.impossible;
    result.direct_bound = design.direct_bound;
    if (!result.plan) {
        if (design.nearest) result.findings = check(scenario, *design.nearest);
        return result;
    }
    result.findings = check(scenario, *result.plan);
    if (has_errors(result.findings)) {
        result.reason = reason_from(result.findings);
        result.plan.reset();
        return result;
    }
    result.bound = quote_for(design.direct_bound, scenario.rules).total();
    result.link_budgets = link_budgets(scenario, *result.plan);
    result.next_rates = next_rates(scenario, *result.plan);
    result.worst_margin_db = worst_margin(result.link_budgets);
    result.worst_cut = worst_cut(scenario, *result.plan);
    result.failures = study_failures(scenario, *result.plan);
    map_strands_of(scenario, earlier, result);
    price_and_measure(scenario, result);
    return result;
}

Comparison compare(const Scenario& scenario, std::vector<LayoutResult> layouts) {
    Comparison comparison;
    comparison.layouts = std::move(layouts);
    std::stable_sort(comparison.layouts.begin(), comparison.layouts.end(),
                     [](const LayoutResult& a, const LayoutResult& b) { return a.layout < b.layout; });
    for (int i = 0; i < static_cast<int>(comparison.layouts.size()); ++i) {
        const LayoutResult& layout = comparison.layouts[static_cast<std::size_t>(i)];
        if (!layout.feasible()) continue;
        if (!comparison.cheapest ||
            layout.total < comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)].total) {
            comparison.cheapest = i;
        }
    }
    comparison.verdict = verdict(scenario, comparison.layouts, comparison.cheapest);
    return comparison;
}

}  // namespace spadework

template class std::vector<spadework::LayoutResult>;
