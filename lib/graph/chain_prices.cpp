#include "graph/chain_prices.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "graph/chain_certificate.hpp"
#include "graph/chain_purse.hpp"
#include "graph/steiner_certificate.hpp"

namespace spadework::graph::chains {

namespace {

constexpr double kUnreached = std::numeric_limits<double>::infinity();
constexpr double kLeastScale = 0.02;
constexpr std::size_t kStopBatch = 2;
constexpr double kMostRouteSteps = 3e6;  ///< In one pass over all routes.
constexpr std::size_t kUsualNeighbours = 6;
constexpr std::size_t kFewStops = 80;
constexpr double kMostPasses = 170;
constexpr double kFewestPasses = 150;
constexpr double kLargestFactor = 2.0;  ///< Polyak steps any longer do not converge.
constexpr double kPassWork = 2.5e7;     ///< Passes times stops times edges.

VertexId across(const JoinedEdge& edge, VertexId from) {
    return edge.tail == from ? edge.head : edge.tail;
}

/// The joining of source and stops at opening costs.
SharedCostProblem joining_on(const ForkNetwork& network) {
    SharedCostProblem joining;
    joining.vertex_count = network.vertex_count;
    for (const JoinedEdge& edge : network.edges)
        joining.edges.push_back({edge.tail, edge.head, static_cast<Cost>(edge.opening), 0, 0});
    for (const VertexId stop : network.stops)
        joining.demands.push_back({stop, 0, 0});
    joining.roots = {{network.source, 0}};
    return joining;
}

}  // namespace

/// With many stops short steps pay that grow again.
ChainStepRule step_rule_for(std::size_t stops) {
    ChainStepRule rule;
    if (stops <= kFewStops) return rule;
    rule.start_factor = 0.2;
    rule.growth = 1.03;
    return rule;
}

int passes_worth(const ForkNetwork& network) {
    const double work = static_cast<double>(network.stops.size()) * static_cast<double>(network.edges.size()) + 1.0;
    return static_cast<int>(std::clamp(kPassWork / work, kFewestPasses, kMostPasses));
}

ChainPrices::ChainPrices(const ChainProblem& problem, const ForkNetwork& network, WorkerTeam& team, ChainStepRule rule,
                         const TwoWaysMaker& two_ways)
    : network_(network),
      team_(team),
      rule_(rule),
      a_chain_(static_cast<double>(problem.chain_cost - problem.end_saving)),
      longest_(problem.longest_chain),
      closed_(static_cast<bool>(two_ways)),
      groups_(network.stops.size(), problem.longest_chain),
      hop_flow_(network.stops.size() * (network.stops.size() + 1), 0.0),
      distance_(network.stops.size(), 0.0),
      way_(network.stops.size()),
      source_via_(closed_ ? 0 : network.stops.size(),
                  std::vector<ArcId>(static_cast<std::size_t>(network.vertex_count), -1)),
      via_((closed_ ? 2 : 1) * network.stops.size(),
           std::vector<ArcId>(static_cast<std::size_t>(network.vertex_count), -1)),
      hop_costs_(network.stops.size() * (network.stops.size() + 1), 0.0),
      visit_costs_(hop_costs_.size(), 0.0),
      hop_use_(hop_costs_.size(), 0.0),
      a_pass_(closed_ ? network.edges.size() : 0, 0.0),
      ways_flow_(a_pass_.size(), 0.0),
      closing_costs_(closed_ ? network.stops.size() : 0, 0.0),
      closing_use_(closing_costs_.size(), 0.0),
      moved_(network.edges.size(), 0.0),
      factor_(rule.start_factor) {
    const auto vertices = static_cast<std::size_t>(network.vertex_count);
    for (const JoinedEdge& edge : network.edges)
        ends_.push_back({edge.tail, edge.head});
    for (std::size_t worker = 0; worker < team.size(); ++worker) {
        Scratch& s = scratch_.emplace_back(Scratch{{}, {}, {}, KeptWays(network.steps, ends_, vertices), nullptr});
        s.price.assign(3 * network.edges.size(), 0.0);
        s.entry.assign(3 * network.edges.size(), -1);
        s.toll.assign(network.edges.size(), 0.0);
        if (closed_) s.two_ways = two_ways();
    }
    for (const JoinedEdge& edge : network.edges)
        point_.hop_charge.push_back(edge.charge);
    point_.paid.resize(via_.size());
    point_.visit.assign(network.stops.size(), 0.0);
    point_.ways_charge.assign(a_pass_.size(), 0.0);
    visit_flow_.assign(network.stops.size(), 0.0);
    double all_means = 0.0;
    for (const JoinedEdge& edge : network.edges)
        all_means += edge.opening + edge.charge;
    for (const JoinedEdge& edge : network.edges) {
        const double mean = all_means / static_cast<double>(network.edges.size());
        scale_.push_back(mean > 0.0 ? std::sqrt(std::max((edge.opening + edge.charge) / mean, kLeastScale)) : 1.0);
    }
    start_prices();
    choose_neighbours(problem.longest_chain);
    routes_.emplace_back(neighbours_, problem.longest_chain);
}

/// What an ascent proves of joining source and stops at opening costs alone is where prices start from: a few percent
/// short, but the passes make up for that in less time than closer prices take.
void ChainPrices::start_prices() {
    const SharedCostProblem joining = joining_on(network_);
    const steiner::StopSign stop(rule_.start_seconds, rule_.progress);
    const SharedCostCertificate joined = steiner::prices_by_ascent(joining, stop, 1.0).certificate;
    const auto parts = static_cast<double>(joined.parts);
    for (std::size_t t = 0; t < joined.prices.size(); ++t) {
        for (const EdgePrice& p : joined.prices[t]) {
            const std::int32_t use = p.backwards ? SlotPrice::kBackwards : SlotPrice::kForwards;
            point_.paid[t].push_back({3 * p.edge + use, static_cast<double>(p.price) / parts, 0.0});
        }
    }
    if (!closed_) return;
    for (std::vector<SlotPrice>& paid : point_.paid) {  // Direction does not matter.
        for (SlotPrice& p : paid)
            p.slot -= p.slot % 3;
    }
    list_by_edge();
    for (std::size_t e = 0; e < network_.edges.size(); ++e)
        project(e, 0.0);
}

/// The nearest stops by plain hop cost.
void ChainPrices::choose_neighbours(std::int32_t longest_chain) {
    const std::size_t stops = network_.stops.size();
    const double layers = std::min<double>(longest_chain, static_cast<double>(stops));
    std::size_t many = std::min(kUsualNeighbours, stops > 0 ? stops - 1 : 0);
    while (many > 0 && layers * static_cast<double>(stops * stops << many) / 4 > kMostRouteSteps)
        --many;
    neighbours_.resize(stops);
    team_.run(stops, kStopBatch, [&](std::size_t t, std::size_t worker) {
        find_hops(t, scratch_[worker]);
        std::vector<std::int32_t>& near = neighbours_[t];
        for (std::size_t s = 0; s < stops; ++s) {
            if (s != t) near.push_back(static_cast<std::int32_t>(s));
        }
        const double* cost = &hop_costs_[t * (stops + 1)];
        std::stable_sort(near.begin(), near.end(), [&](std::int32_t a, std::int32_t b) {
            return cost[static_cast<std::size_t>(a)] < cost[static_cast<std::size_t>(b)];
        });
        near.resize(std::min(many, near.size()));
    });
}

/// Finds the cheapest route set, averages its hops in and counts the visits and entries it misses.
double ChainPrices::find_routes(double weight) {
    const std::size_t stops = network_.stops.size();
    for (std::size_t t = 0; t < stops; ++t) {
        for (std::size_t i = t * (stops + 1); i < (t + 1) * (stops + 1); ++i) {
            visit_costs_[i] = hop_costs_[i] - point_.visit[t];
            hop_use_[i] *= 1.0 - weight;
        }
    }
    groups_.take_off(point_.entry, visit_costs_);
    const double cost = routes_.front().least(visit_costs_, a_chain_, closing_costs_);
    visits_missing_.assign(stops, 1.0);
    for (const RouteHop& hop : routes_.front().hops()) {
        const auto to = static_cast<std::size_t>(hop.to);
        hop_use_[to * (stops + 1) + (hop.from < 0 ? stops : static_cast<std::size_t>(hop.from))] += weight;
        visits_missing_[to] -= 1.0;
    }
    entries_missing_ = groups_.missing(routes_.front().hops());
    for (double& use : closing_use_)
        use *= 1.0 - weight;
    if (closed_) {
        for (const std::int32_t end : routes_.front().ends())
            closing_use_[static_cast<std::size_t>(end)] += weight;
    }
    return std::accumulate(point_.visit.begin(), point_.visit.end(), cost) + groups_.worth(point_.entry);
}

/// Steps on what visits and entries earn while hop costs stay, which are quick. The bound of the best, which the point
/// keeps.
double ChainPrices::price_visits(double target) {
    const double ways = std::accumulate(distance_.begin(), distance_.end(), 0.0);
    double best = -kUnreached;
    std::vector<double> best_visit;
    std::vector<double> best_entry;
    for (int round = 1;; ++round) {
        const double bound = ways + find_routes(1.0 / round);
        if (bound > best) {
            best = bound;
            best_visit = point_.visit;
            best_entry = point_.entry;
        }
        double squares = EntryGroups::squared_step(entries_missing_, point_.entry);
        for (const double missing : visits_missing_)
            squares += missing * missing;
        if (round == rule_.visit_rounds || squares <= 0.0) break;
        const double length = rule_.visit_share * factor_ * std::max(target - bound, 0.0) / squares;
        for (std::size_t t = 0; t < visits_missing_.size(); ++t)
            point_.visit[t] += length * visits_missing_[t];
        EntryGroups::step(entries_missing_, length, point_.entry);
    }
    point_.visit = std::move(best_visit);
    point_.entry = std::move(best_entry);
    return best;
}

double ChainPrices::evaluate(double target) {
    for (std::size_t e = 0; e < a_pass_.size(); ++e)
        a_pass_[e] = point_.ways_charge[e] / longest_;
    for (Scratch& s : scratch_) {
        if (s.two_ways) s.two_ways->charge_passes(a_pass_);
    }
    team_.run(via_.size(), kStopBatch, [&](std::size_t t, std::size_t worker) { find_ways(t, scratch_[worker]); });
    bound_ = price_visits(target);
    if (bound_ > best_bound_) {
        best_bound_ = bound_;
        best_ = point_;
    }
    adapt_factor();
    return bound_;
}

/// Averaged flows carry steps beyond what raises the bound: it falls then, and shorter steps are due.
void ChainPrices::adapt_factor() {
    recent_bounds_.push_back(bound_);
    if (recent_bounds_.size() <= rule_.patience) return;
    if (bound_ > recent_bounds_[recent_bounds_.size() - 1 - rule_.patience]) {
        factor_ = std::min(factor_ * rule_.growth, kLargestFactor);
    } else {
        factor_ *= rule_.decay;
        recent_bounds_.assign(1, bound_);
    }
}

void ChainPrices::find_ways(std::size_t way, Scratch& scratch) {
    for (const SlotPrice& p : point_.paid[way])
        scratch.price[static_cast<std::size_t>(p.slot)] += p.price;
    if (way >= network_.stops.size()) {
        find_closing(way - network_.stops.size(), scratch);
    } else {
        closed_ ? find_two_ways(way, scratch) : find_way_from_source(way, scratch);
        find_hops(way, scratch);
    }
    for (const SlotPrice& p : point_.paid[way])
        scratch.price[static_cast<std::size_t>(p.slot)] = 0.0;
}

void ChainPrices::find_two_ways(std::size_t stop, Scratch& s) {
    way_[stop].clear();
    distance_[stop] = s.two_ways->find(stop, s.price, a_pass_, way_[stop]);
    for (std::int32_t& edge : way_[stop])
        edge = 3 * edge + SlotPrice::kForwards;
}

void ChainPrices::find_way_from_source(std::size_t stop, Scratch& s) {
    const VertexId target = network_.stops[stop];
    std::vector<ArcId>& via = source_via_[stop];
    s.ways.mend(network_.source, target, via,
                [&](ArcId arc) { return s.price[static_cast<std::size_t>(3 * edge_of(arc) + arc % 2)]; });
    distance_[stop] = s.ways.label()[static_cast<std::size_t>(target)];
    way_[stop].clear();
    for (VertexId at = target; at != network_.source;) {
        const ArcId arc = via[at];
        way_[stop].push_back(3 * edge_of(arc) + arc % 2);
        at = across(network_.edges[edge_of(arc)], at);
    }
}

/// What hops to one vertex cost from everywhere, or from all that is no farther than `enough` (-1 for everywhere).
void ChainPrices::spread_from(VertexId target, VertexId enough, std::size_t way, Scratch& s) {
    for (std::size_t e = 0; e < s.toll.size(); ++e)
        s.toll[e] = point_.hop_charge[e] + s.price[3 * e + SlotPrice::kArrival];
    s.ways.mend(target, enough, via_[way], [&](ArcId arc) { return s.toll[static_cast<std::size_t>(edge_of(arc))]; });
}

void ChainPrices::find_hops(std::size_t stop, Scratch& s) {
    spread_from(network_.stops[stop], -1, stop, s);
    const std::size_t stops = network_.stops.size();
    double* cost = &hop_costs_[stop * (stops + 1)];
    for (std::size_t p = 0; p < stops; ++p)
        cost[p] = s.ways.label()[network_.stops[p]];
    cost[stops] = s.ways.label()[network_.source];
}

void ChainPrices::find_closing(std::size_t stop, Scratch& s) {
    const VertexId from = network_.stops[stop];
    spread_from(network_.source, from, network_.stops.size() + stop, s);
    closing_costs_[stop] = s.ways.label()[from];
}

}  // namespace spadework::graph::chains
