#include "doubt/reused_plans.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "comparison/comparison.hpp"
#include "comparison/verification.hpp"
#include "costing/bill.hpp"
#include "layout/assembly.hpp"
#include "layout/rerouting.hpp"
#include "rates/opening_rates.hpp"
#include "study/strand_choice.hpp"

namespace spadework {

namespace {

bool same(const Route& a, const Route& b) {
    return a.from == b.from && a.to == b.to && a.steps == b.steps;
}

}  // namespace

bool same_routes(const RoutedLayout& a, const RoutedLayout& b) {
    const auto same_route = [](const Route& r, const Route& s) { return same(r, s); };
    const auto same_enclosure = [](const RoutedEnclosure& e, const RoutedEnclosure& f) {
        return e.place == f.place && same(e.trunk, f.trunk);
    };
    const auto same_building = [](const RoutedBuilding& c, const RoutedBuilding& d) {
        return c.building == d.building && c.served_by == d.served_by && same(c.route, d.route);
    };
    return a.kind == b.kind && a.chains == b.chains && std::ranges::equal(a.enclosures, b.enclosures, same_enclosure) &&
           std::ranges::equal(a.buildings, b.buildings, same_building) &&
           std::ranges::equal(a.closings, b.closings, same_route);
}

namespace {

/// Whether every step has the way that it names: a duct or a pole line may be there at some values only.
bool has_all_ways(const Scenario& scenario, const RoutedLayout& routes) {
    const auto has_ways = [&](const Route& route) {
        return std::ranges::all_of(route.steps, [&](const Step& step) {
            return static_cast<std::size_t>(step.way) < ways_of(scenario, step.segment).size();
        });
    };
    return std::ranges::all_of(routes.enclosures, has_ways, &RoutedEnclosure::trunk) &&
           std::ranges::all_of(routes.buildings, has_ways, &RoutedBuilding::route) &&
           std::ranges::all_of(routes.closings, has_ways);
}

/// A plan made of routes, and what it costs.
struct Laid {
    std::int64_t total = no_plan;
    Design design;
};

std::optional<Laid> laid(const Scenario& site, const RoutedLayout& routes) {
    if (!has_all_ways(site, routes)) return std::nullopt;
    Assembly assembly = assemble(site, routes);
    if (!assembly.plan) return std::nullopt;
    Laid made;
    made.total = price(site, *assembly.plan).total().minor();
    made.design.layout = routes.kind;
    made.design.plan = std::move(assembly.plan);
    return made;
}

/// At other values a plan may break a rule: then it is none.
bool holds(const Scenario& site, const Design& design) {
    const LayoutResult result = assess(site, design);
    return result.feasible() && violations(site, result).empty();
}

}  // namespace

void ReusedPlans::add(const Plan& plan) {
    RoutedLayout routes = routes_of(plan);
    const bool is_known = std::ranges::any_of(known_, [&](const Known& known) {
        return known.strand_use == plan.strand_use && same_routes(known.routes, routes);
    });
    if (!is_known) known_.push_back({std::move(routes), plan.strand_use});
}

std::int64_t ReusedPlans::cheapest(const Scenario& scenario, std::size_t first, std::int64_t limit) const {
    const StrandUseSites sites(scenario);
    std::vector<Laid> all;
    for (std::size_t at = first; at < known_.size(); ++at) {
        const Known& known = known_[at];
        auto made = laid(sites.of(known.strand_use), known.routes);
        if (made && (limit == no_plan || made->total < limit)) all.push_back(std::move(*made));
    }
    std::ranges::stable_sort(all, {}, &Laid::total);
    const auto best = std::ranges::find_if(
        all, [&](const Laid& made) { return holds(sites.of(made.design.plan->strand_use), made.design); });
    return best == all.end() ? no_plan : best->total;
}

}  // namespace spadework
