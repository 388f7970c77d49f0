#include "growth/two_stage.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "comparison/verification.hpp"
#include "extension/extension.hpp"
#include "growth/planned_trunk.hpp"
#include "rates/cable_rates.hpp"
#include "rates/quote_rates.hpp"

namespace spadework {

namespace {

/// Expected amounts are real numbers; far below what would overflow.
Money nearest(double minor) {
    constexpr double largest = 4e17;
    return Money::from_minor(std::llround(std::clamp(minor, -largest, largest)));
}

/// The rate that most links of the site have, the slower of equals.
BitRate commonest_rate(const Scenario& scenario) {
    std::map<BitRate, int> links;
    for (const Building& building : scenario.buildings) {
        for (const LinkDemand& demand : building.links)
            links[demand.rate] += demand.count;
    }
    const auto most =
        std::max_element(links.begin(), links.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == links.end() ? BitRate::from_megabits(1000) : most->first;
}

double discount(const Scenario& scenario, int year) {
    return std::pow(1 + scenario.growth.discount_rate.fraction(), -year);
}

/// Why a building that may come is not counted; "" where it is.
std::string why_left_out(const Scenario& scenario, const FutureBuilding& future) {
    if (future.year > scenario.growth.horizon_years) return "due beyond the horizon";
    if (future.chance <= 0) return "it has no chance";
    if (!future.place) return "its place is not known";
    return "";
}

/// Works out one plan after the other.
class Judge {
public:
    explicit Judge(const Scenario& scenario) : scenario_(scenario), rate_(commonest_rate(scenario)) {}

    std::vector<FutureDrop> drops_of(const Plan& plan) const {
        std::vector<FutureDrop> drops;
        for (std::size_t f = 0; f < scenario_.growth.buildings.size(); ++f)
            drops.push_back(drop_of(plan, static_cast<int>(f)));
        return drops;
    }

    /// The plan as it is, or with the trunk size that makes its expected total least.
    GrowthPlan judged(const PlaceRank& ranked, bool as_it_is) const {
        GrowthPlan plan;
        plan.place = ranked.place;
        plan.future = drops_of(*ranked.result.plan);
        for (const FutureDrop& drop : plan.future)
            plan.drops += drop.expected;
        choose_trunk(*ranked.result.plan, as_it_is, direct_cost(ranked.result.bill), plan);
        plan.later = quote_for(plan.drops + plan.trunks, scenario_.rules).total();
        return plan;
    }

private:
    FutureDrop drop_of(const Plan& plan, int index) const {
        const FutureBuilding& future = scenario_.growth.buildings[static_cast<std::size_t>(index)];
        FutureDrop drop;
        drop.future = index;
        drop.left_out = why_left_out(scenario_, future);
        if (!drop.left_out.empty()) return drop;
        Scenario grown = scenario_;
        Building building;
        building.id = future.id;
        building.name = future.name;
        building.place = *future.place;
        building.links = {{rate_, future.links}};
        grown.buildings.push_back(building);
        const auto cost = cost_of_adding(grown, plan);
        if (!cost) {
            drop.left_out = "it cannot be connected";
            return drop;
        }
        drop.cost = cost->direct;
        drop.expected =
            nearest(future.chance * discount(scenario_, future.year) * static_cast<double>(cost->direct.minor()));
        drop.through_trunk = cost->through_trunk;
        drop.opened = cost->opened;
        return drop;
    }

    /// The site with the growth that the trunk will see: without buildings that get a cable of their own from the hub.
    Scenario seen_by_trunk(const GrowthPlan& plan) const {
        Scenario seen = scenario_;
        seen.growth.buildings.clear();
        for (const FutureDrop& drop : plan.future) {
            if (drop.through_trunk)
                seen.growth.buildings.push_back(scenario_.growth.buildings[static_cast<std::size_t>(drop.future)]);
        }
        return seen;
    }

    void choose_trunk(const Plan& built, bool as_it_is, Money direct, GrowthPlan& plan) const {
        const auto& trunks = built.enclosures.front().trunks;
        plan.product = built.cables[static_cast<std::size_t>(trunks.front())].product;
        const StrandStudy study = study_strands(seen_by_trunk(plan), *run_of_trunk(scenario_, built));
        const auto now = std::find_if(study.sizes.begin(), study.sizes.end(),
                                      [&](const CableSizeOption& size) { return size.product == plan.product; });
        const CableSizeOption* best = &*now;
        for (const CableSizeOption& size : study.sizes) {
            const bool may_be = !as_it_is && trunks.size() == 1 && size.meets_policy;
            if (may_be && size.best_sum() < best->best_sum()) best = &size;
        }
        plan.product = best->product;
        plan.chance_enough = best->chance_enough;
        plan.spare_duct = !as_it_is && best->duct_pays();
        plan.trunks = nearest(plan.spare_duct ? best->later_with_duct.expected : best->later.expected);
        const double more = best->price_now - now->price_now + (plan.spare_duct ? best->duct_now : 0);
        plan.now = quote_for(direct + nearest(more), scenario_.rules).total();
    }

    const Scenario& scenario_;
    BitRate rate_;
};

/// The plan with another product for its one trunk; all else as it was.
Plan with_trunk_product(const Scenario& scenario, Plan plan, int product) {
    const int c = plan.enclosures.front().trunks.front();
    PlannedCable& trunk = plan.cables[static_cast<std::size_t>(c)];
    if (trunk.product == product) return plan;
    const CableLengths before = trunk.lengths;
    const TrunkRun run = *run_of_trunk(scenario, plan);
    trunk.product = product;
    trunk.lengths = cable_lengths(scenario.catalogue.cables[static_cast<std::size_t>(product)], run.length,
                                  run.handholes, scenario.rules);
    for (PlannedLink& link : plan.links) {
        if (std::find(link.cables.begin(), link.cables.end(), c) == link.cables.end()) continue;
        link.splices += trunk.lengths.joints - before.joints;
        link.glass += glass_of(trunk.lengths, scenario.rules) - glass_of(before, scenario.rules);
    }
    return plan;
}

std::string why_no_study(const Scenario& scenario, const EnclosureStudy& places) {
    if (places.ranking.empty()) return "no place can take an enclosure for all buildings: " + places.reason;
    const Growth& growth = scenario.growth;
    if (growth.buildings.empty() && growth.unnamed_links_per_year <= 0) return "the site file describes no growth";
    return "";
}

}  // namespace

GrowthStudy plan_for_growth(const Scenario& scenario, const EnclosureStudy& places) {
    GrowthStudy study;
    study.reason = why_no_study(scenario, places);
    study.interrupted = places.interrupted;
    if (!study.reason.empty()) return study;
    if (scenario.rules.either_strand_use)
        return plan_for_growth(settled_on(scenario, places.ranking.front().result.plan->strand_use), places);
    const Judge judge(scenario);
    for (const PlaceRank& ranked : places.ranking)
        study.places.push_back(judge.judged(ranked, false));
    study.blind = judge.judged(places.ranking.front(), true);
    std::stable_sort(study.places.begin(), study.places.end(), [](const GrowthPlan& a, const GrowthPlan& b) {
        return std::pair(a.total(), a.place) < std::pair(b.total(), b.place);
    });
    const GrowthPlan& best = study.knowing();
    const auto ranked = std::find_if(places.ranking.begin(), places.ranking.end(),
                                     [&](const PlaceRank& rank) { return rank.place == best.place; });
    Design design;
    design.layout = LayoutKind::trunk_one;
    design.plan = with_trunk_product(scenario, *ranked->result.plan, best.product);
    study.plan = assess(scenario, std::move(design));
    if (study.plan->feasible()) study.violations = violations(scenario, *study.plan);
    return study;
}

}  // namespace spadework
