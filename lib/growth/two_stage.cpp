#include "growth/two_stage.hpp"

#include <algorithm>
#include <utility>

#include "checks/checks.hpp"
#include "comparison/verification.hpp"
#include "growth/judging.hpp"
#include "growth/replanning.hpp"
#include "growth/spare_ducts.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// Places where routes are laid out anew, the best by expected total.
constexpr std::size_t most_replanned = 5;

std::string why_no_study(const Scenario& scenario, const EnclosureStudy& places) {
    if (places.ranking.empty()) return "no place can take an enclosure for all buildings: " + places.reason;
    const Growth& growth = scenario.growth;
    if (growth.buildings.empty() && growth.unnamed_links_per_year <= 0) return "the site file describes no growth";
    return "";
}

bool before(const JudgedPlan& a, const JudgedPlan& b) {
    return std::pair(a.figures.total(), a.figures.place()) < std::pair(b.figures.total(), b.figures.place());
}

/// Lays the routes anew at the best places; the better plan of each stays.
int replan(const Scenario& scenario, std::vector<JudgedPlan>& plans) {
    int replanned = 0;
    for (std::size_t p = 0; p < std::min(most_replanned, plans.size()); ++p) {
        const auto plan = routed_for_growth(scenario, plans[p].figures.place());
        if (!plan || has_errors(check(scenario, *plan))) continue;
        ++replanned;
        JudgedPlan other = judged(scenario, *plan, Trunks::best);
        other.figures.routes_for_growth = true;
        if (other.figures.total() < plans[p].figures.total()) plans[p] = std::move(other);
    }
    return replanned;
}

/// Adds plans with several enclosures, and keeps the cheapest of today.
void judge_several(const Scenario& scenario, const std::vector<LayoutResult>& found, std::vector<JudgedPlan>& plans,
                   GrowthPlan& blind) {
    for (const LayoutResult& result : found) {
        if (!result.feasible() || result.plan->enclosures.size() < 2) continue;
        if (result.plan->strand_use != scenario.rules.strand_use) continue;
        plans.push_back(judged(scenario, *result.plan, Trunks::best));
        GrowthPlan as_it_is = judged(scenario, *result.plan, Trunks::as_they_are).figures;
        if (as_it_is.now < blind.now) blind = std::move(as_it_is);
    }
}

/// The plan in full, checked as any; then its bill gets the lines of spare ducts.
void show_in_full(const Scenario& scenario, const JudgedPlan& best, GrowthStudy& study) {
    Design design;
    design.layout = best.plan.layout;
    design.plan = best.plan;
    study.plan = assess(scenario, std::move(design));
    if (!study.plan->feasible()) return;
    study.violations = violations(scenario, *study.plan);
    study.plan->bill = price_with_spare_ducts(scenario, best.plan, best.figures.choices);
    study.plan->total = study.plan->bill.total();
    if (study.plan->total != best.figures.now)
        study.violations.emplace_back("The bill of the plan for growth is not what it is judged by.");
}

}  // namespace

double GrowthPlan::chance_enough() const {
    double chance = 1;
    for (const TrunkChoice& choice : choices)
        chance *= choice.chance_enough;
    return chance;
}

GrowthStudy plan_for_growth(const Scenario& scenario, const EnclosureStudy& places,
                            const std::vector<LayoutResult>& found) {
    GrowthStudy study;
    study.reason = why_no_study(scenario, places);
    study.interrupted = places.interrupted;
    if (!study.reason.empty()) return study;
    if (scenario.rules.either_strand_use)
        return plan_for_growth(settled_on(scenario, places.ranking.front().result.plan->strand_use), places, found);
    std::vector<JudgedPlan> plans;
    for (const PlaceRank& ranked : places.ranking)
        plans.push_back(judged(scenario, *ranked.result.plan, Trunks::best));
    study.blind = judged(scenario, *places.ranking.front().result.plan, Trunks::as_they_are).figures;
    std::stable_sort(plans.begin(), plans.end(), before);
    study.replanned = replan(scenario, plans);
    judge_several(scenario, found, plans, study.blind);
    std::stable_sort(plans.begin(), plans.end(), before);
    show_in_full(scenario, plans.front(), study);
    for (JudgedPlan& plan : plans)
        study.places.push_back(std::move(plan.figures));
    return study;
}

}  // namespace spadework
