#include "study/explanation_jobs.hpp"

#include <algorithm>
#include <deque>
#include <utility>

#include "layout/reconcile.hpp"
#include "layout/rerouting.hpp"
#include "layout/ring_rule.hpp"
#include "rates/opening_rates.hpp"
#include "rates/quote_rates.hpp"
#include "routing/distances.hpp"
#include "study/cheapest_candidate.hpp"
#include "study/served.hpp"

namespace spadework {

namespace {

constexpr double plan_only = 1.0;  ///< A gap that the first plan meets.
constexpr std::size_t most_barred_stretches = 4;
constexpr std::size_t most_chain_moves = 4;
constexpr int not_barred = -1;
/// Where more places than these may hold an enclosure, sketches for one building leave the enclosures where they are.
constexpr std::ptrdiff_t most_places_to_sketch = 16;
/// With more enclosures than these in the plan, plans with one alone are too dear to be worth designing.
constexpr std::size_t most_enclosures_near_one = 2;

DesignLimits sketching(const DesignLimits& limits) {
    DesignLimits sketch = limits;
    sketch.target_gap = plan_only;
    return sketch;
}

Money total_of(Money direct, const Scenario& scenario) {
    return quote_for(direct, scenario.rules).total();
}

std::vector<PlaceIndex> enclosure_places_of(const LayoutResult& result) {
    std::vector<PlaceIndex> places;
    for (const PlannedEnclosure& enclosure : result.plan->enclosures)
        places.push_back(enclosure.place);
    return places;
}

/// Turns what was found into an alternative to the plan at hand.
std::optional<CheapestCandidate::Found> settle(const Explained& what, const CheapestCandidate& candidates,
                                               JobOutcome& outcome, Alternative& alternative) {
    alternative.looked_at = true;
    auto found = candidates.find(outcome.violations);
    alternative.found = found.has_value();
    if (found) {
        alternative.extra = found->result.total - what.best.total;
    } else {
        alternative.reason = candidates.reason();
    }
    return found;
}

/// The layout designed on a site, with plans of narrower layouts where they come out cheaper.
Design designed(const Explained& what, LayoutKind layout, const Scenario& site, const DesignLimits& limits) {
    std::vector<LayoutKind> kinds = {layout};
    const bool is_mixed = layout == LayoutKind::mixed;
    if (is_mixed) kinds.push_back(LayoutKind::home_runs);
    const bool near_one = what.best.plan->enclosures.size() <= most_enclosures_near_one;
    if (near_one && (is_mixed || layout == LayoutKind::trunk)) kinds.push_back(LayoutKind::trunk_one);
    std::vector<Design> designs;
    DesignLimits share = limits;
    share.seconds /= static_cast<double>(kinds.size());
    for (const LayoutKind kind : kinds)
        designs.push_back(design(kind, site, share));
    reconcile(site, designs);
    return std::move(designs.front());
}

/// Designs in full on a site that forbids something of enclosures.
void design_enclosures(const Explained& what, LayoutKind layout, const Scenario& site, const DesignLimits& limits,
                       JobOutcome& outcome, Alternative& alternative, std::vector<PlaceIndex>& places) {
    Design design = designed(what, layout, site, limits);
    outcome.interrupted = design.interrupted;
    Money bound = total_of(design.direct_bound, site);
    if (layout == what.best.layout) bound = std::max(bound, what.best.bound);
    CheapestCandidate candidates;
    candidates.add(site, std::move(design));
    const auto found = settle(what, candidates, outcome, alternative);
    if (!found) return;
    alternative.least_extra = bound - what.best.total;
    places = enclosure_places_of(found->result);
}

Scenario without_place(const Scenario& scenario, PlaceIndex place) {
    Scenario fewer = scenario;
    fewer.places[static_cast<std::size_t>(place)].enclosure_allowed = false;
    return fewer;
}

/// The only enclosure left out: every building on a home run.
void take_home_runs(const Explained& what, const DesignLimits& limits, JobOutcome& outcome, Alternative& alternative) {
    for (const LayoutResult& layout : what.comparison.layouts) {
        if (layout.layout != LayoutKind::home_runs || !layout.feasible()) continue;
        alternative.looked_at = alternative.found = true;
        alternative.extra = layout.total - what.best.total;
        alternative.least_extra = layout.bound - what.best.total;
        return;
    }
    std::vector<PlaceIndex> none;
    design_enclosures(what, LayoutKind::home_runs, what.scenario, limits, outcome, alternative, none);
}

/// Points that might serve the building instead: enclosures of the plan, and the hub (-1) in a mix.
std::vector<int> other_points(const RoutedLayout& routes, BuildingIndex building) {
    std::vector<int> points;
    const int now = routes.buildings[static_cast<std::size_t>(building)].served_by;
    if (routes.kind == LayoutKind::mixed && now != -1) points.push_back(-1);
    for (int e = 0; e < static_cast<int>(routes.enclosures.size()); ++e) {
        if (e != now) points.push_back(e);
    }
    return points;
}

/// The building's own cable on a map without a segment, from where it is served now.
std::optional<RoutedLayout> rerouted(const Explained& what, const Network& network, BuildingIndex building) {
    if (!what.routes) return std::nullopt;
    if (what.best.layout == LayoutKind::daisy_chain) {
        return routes_with_other_hop(what.scenario, network, *what.routes, building);
    }
    const int now = what.routes->buildings[static_cast<std::size_t>(building)].served_by;
    return routes_served_from(what.scenario, network, *what.routes, building, now);
}

void add_other_points(const Explained& what, BuildingIndex building, CheapestCandidate& candidates) {
    if (!what.routes) return;
    if (what.best.layout == LayoutKind::daisy_chain) {
        for (const RoutedLayout& routes :
             routes_elsewhere_in_chain(what.scenario, what.network, *what.routes, building, most_chain_moves))
            candidates.add(what.scenario, routes, not_barred);
        return;
    }
    for (const int point : other_points(*what.routes, building)) {
        candidates.add(what.scenario, routes_served_from(what.scenario, what.network, *what.routes, building, point),
                       not_barred);
    }
}

/// The building's own cable off the last segment of its way, which others use too.
void add_own_detour(const Explained& what, BuildingIndex building, CheapestCandidate& candidates) {
    if (!what.routes) return;
    const std::vector<Step>& steps = what.routes->buildings[static_cast<std::size_t>(building)].route.steps;
    if (steps.empty()) return;
    WithheldWays withheld;
    const SegmentIndex last = steps.back().segment;
    for (int way = 0; way < static_cast<int>(ways_of(what.scenario, last).size()); ++way)
        withheld.insert({last, way});
    candidates.add(what.scenario, rerouted(what, network_of(what.scenario, withheld), building), last);
}

/// Whether sketches leave the enclosures where they are.
bool keeps_enclosures(const Explained& what) {
    if (what.best.plan->enclosures.empty()) return false;
    const auto& places = what.scenario.places;
    return std::count_if(places.begin(), places.end(), [](const Place& place) { return place.enclosure_allowed; }) >
           most_places_to_sketch;
}

/// Whether sketches come with a bound on all plans of the layout: those of several enclosures or a mix have none.
bool sketches_bound(const Explained& what) {
    const LayoutKind layout = what.best.layout;
    return layout != LayoutKind::trunk && layout != LayoutKind::mixed && !keeps_enclosures(what);
}

/// The layout found quickly on a site with the same places.
Design sketched(const Explained& what, const Scenario& site, const DesignLimits& limits) {
    if (!keeps_enclosures(what)) return design(what.best.layout, site, sketching(limits));
    Scenario kept = site;
    for (Place& place : kept.places)
        place.enclosure_allowed = false;
    for (const PlannedEnclosure& enclosure : what.best.plan->enclosures)
        kept.places[static_cast<std::size_t>(enclosure.place)].enclosure_allowed = true;
    return design(what.best.layout, kept, sketching(limits));
}

/// A ring on a map without a segment, by the rule of the whole map: it may not do without a second way that is there
/// only because the segment was barred.
void hold_to_ring_rule(const Explained& what, Design& design) {
    if (!design.plan || design.layout != LayoutKind::ring) return;
    if (rings_keep_apart(what.scenario, routes_of(*design.plan))) return;
    design.plan.reset();
    design.reason = "no ring was found that comes back by a second way without them";
}

/// What barring segments one by one shows.
struct Barred {
    bool any_way = false;        ///< Some of them can be done without.
    std::optional<Money> least;  ///< Of all plans without one of them, on direct cost; empty: not known.
};

/// The site without each of the segments in turn.
Barred add_barred(const Explained& what, const std::vector<SegmentIndex>& segments, BuildingIndex building,
                  const DesignLimits& limits, std::deque<Scenario>& sites, CheapestCandidate& candidates) {
    Barred barred;
    std::optional<Money> least;
    const PlaceIndex at = what.scenario.buildings[static_cast<std::size_t>(building)].place;
    bool bounded = sketches_bound(what);
    for (const SegmentIndex segment : segments) {
        const Scenario& site = sites.emplace_back(without_segment(what.scenario, segment));
        const Network network = network_of(site);
        if (!shortest_ways(network, what.scenario.hub.place).length[static_cast<std::size_t>(at)]) continue;
        barred.any_way = true;
        candidates.add(site, rerouted(what, network, building), segment);
        Design sketch = sketched(what, site, limits);
        hold_to_ring_rule(what, sketch);
        bounded = bounded && sketch.plan.has_value();
        least = least ? std::min(*least, sketch.direct_bound) : sketch.direct_bound;
        candidates.add(site, std::move(sketch), segment);
    }
    barred.least = bounded ? least : std::nullopt;
    return barred;
}

std::string no_other_way(const std::vector<SegmentIndex>& alone, const Barred& barred, const std::string& reason) {
    if (alone.empty()) return "its cable runs along others all the way, and no other way was found";
    if (!barred.any_way) return "its own segments are the only way to it";
    return reason.empty() ? "no other plan was found" : reason;
}

}  // namespace

Explained::Explained(const Scenario& on, const Comparison& of, const LayoutResult& cheapest)
    : scenario(on), comparison(of), best(cheapest), network(network_of(on)) {
    if (best.layout != LayoutKind::ring) routes = routes_of(*best.plan);
}

JobOutcome move_enclosure(const Explained& what, const DesignLimits& limits, EnclosureReason& reason) {
    JobOutcome outcome;
    const Scenario site = without_place(what.scenario, reason.place);
    design_enclosures(what, what.best.layout, site, limits, outcome, reason.elsewhere, reason.places_elsewhere);
    return outcome;
}

JobOutcome leave_out_enclosure(const Explained& what, const DesignLimits& limits, EnclosureReason& reason) {
    JobOutcome outcome;
    const int fewer = static_cast<int>(what.best.plan->enclosures.size()) - 1;
    if (fewer == 0) {
        take_home_runs(what, limits, outcome, reason.left_out);
        return outcome;
    }
    Scenario site = without_place(what.scenario, reason.place);
    site.rules.most_enclosures = fewer;
    design_enclosures(what, what.best.layout, site, limits, outcome, reason.left_out, reason.places_left_out);
    return outcome;
}

JobOutcome serve_otherwise(const Explained& what, const DesignLimits& limits, BuildingReason& reason) {
    JobOutcome outcome;
    CheapestCandidate candidates;
    std::deque<Scenario> sites;
    const std::vector<SegmentIndex> alone = segments_alone(*what.best.plan, reason.building);
    std::vector<SegmentIndex> stretches = one_of_each_stretch(what.scenario, alone);
    std::reverse(stretches.begin(), stretches.end());
    const bool all = stretches.size() <= most_barred_stretches;
    if (!all) stretches.resize(most_barred_stretches);
    add_other_points(what, reason.building, candidates);
    if (alone.empty()) add_own_detour(what, reason.building, candidates);
    const Barred barred = add_barred(what, stretches, reason.building, limits, sites, candidates);
    const auto found = settle(what, candidates, outcome, reason.otherwise);
    if (!found) {
        reason.otherwise.reason = no_other_way(alone, barred, candidates.reason());
        return outcome;
    }
    reason.service_otherwise = service_of(*found->result.plan, reason.building);
    if (found->tag != not_barred) reason.segment_avoided = found->tag;
    if (all && barred.least && what.best.layout == LayoutKind::home_runs) {
        reason.otherwise.least_extra = total_of(*barred.least, what.scenario) - what.best.total;
    }
    return outcome;
}

JobOutcome leave_out_building(const Explained& what, const DesignLimits& limits, BuildingReason& reason) {
    JobOutcome outcome;
    if (what.scenario.buildings.size() < 2) {
        reason.left_out.looked_at = true;
        reason.left_out.reason = "it is the only building";
        return outcome;
    }
    const Scenario site = without_building(what.scenario, reason.building);
    CheapestCandidate candidates;
    if (what.routes) {
        candidates.add(site, routes_without(what.scenario, what.network, *what.routes, reason.building));
    }
    Design sketch = sketched(what, site, limits);
    const Money bound = total_of(sketch.direct_bound, site);
    const bool bounded = sketch.plan && sketches_bound(what);
    candidates.add(site, std::move(sketch));
    if (settle(what, candidates, outcome, reason.left_out) && bounded) {
        reason.left_out.least_extra = bound - what.best.total;
    }
    return outcome;
}

}  // namespace spadework
