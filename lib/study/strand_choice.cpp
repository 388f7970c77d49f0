#include "study/strand_choice.hpp"

#include <algorithm>
#include <utility>

#include "rates/quote_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

bool is_cheaper(const LayoutResult& a, const LayoutResult& than) {
    if (a.feasible() != than.feasible()) return a.feasible();
    return a.feasible() && a.total < than.total;
}

OtherStrandUse other_of(StrandUse use, LayoutResult result) {
    OtherStrandUse other;
    other.use = use;
    if (result.feasible()) other.total = result.total;
    other.reason = std::move(result.reason);
    other.impossible = result.impossible;
    other.direct_bound = result.direct_bound;
    other.certificate = std::move(result.certificate);
    return other;
}

void lower_bound_to(const Scenario& scenario, Money direct, LayoutResult& result) {
    if (direct >= result.direct_bound) return;
    result.direct_bound = direct;
    result.bound = quote_for(direct, scenario.rules).total();
    result.gap = result.total == Money() ? 0
                                         : static_cast<double>((result.total - result.bound).minor()) /
                                               static_cast<double>(result.total.minor());
}

}  // namespace

StrandUseSites::StrandUseSites(const Scenario& scenario) : scenario_(scenario), uses_(strand_uses(scenario.rules)) {
    if (!scenario.rules.either_strand_use) return;
    for (const StrandUse use : uses_)
        settled_.emplace(use, settled_on(scenario, use));
}

const Scenario& StrandUseSites::of(StrandUse use) const {
    const auto found = settled_.find(use);
    return found == settled_.end() ? scenario_ : found->second;
}

const Scenario& StrandUseSites::of(const LayoutResult& result) const {
    return of(result.plan ? result.plan->strand_use : uses_.front());
}

LayoutResult cheaper_of(const Scenario& scenario, LayoutResult first, LayoutResult second) {
    const std::vector<StrandUse> uses = strand_uses(scenario.rules);
    const bool second_wins = is_cheaper(second, first);
    LayoutResult chosen = std::move(second_wins ? second : first);
    OtherStrandUse other = other_of(second_wins ? uses.front() : uses.back(), std::move(second_wins ? first : second));
    chosen.interrupted = first.interrupted || second.interrupted;
    chosen.impossible = chosen.impossible && other.impossible;
    if (!chosen.feasible()) {
        chosen.reason = std::string(name_of(uses.front())) + ": " + chosen.reason + "; " + name_of(uses.back()) + ": " +
                        other.reason;
    } else if (!other.impossible) {
        lower_bound_to(scenario, other.direct_bound, chosen);
    }
    chosen.other = std::move(other);
    return chosen;
}

}  // namespace spadework
