#include "graph/chain_prices.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "graph/chain_certificate.hpp"
#include "graph/chain_purse.hpp"
#include "graph/dual_ascent.hpp"

namespace spadework::graph::chains {

namespace {

constexpr double kUnreached = std::numeric_limits<double>::infinity();
constexpr double kLeastScale = 0.02;
constexpr double kFlowKept = 0.02;  ///< Smaller averaged flows are dropped.
constexpr std::size_t kStopBatch = 2;
constexpr std::size_t kEdgeBatch = 512;
constexpr double kMostRouteSteps = 3e6;  ///< In one pass over all routes.
constexpr double kJoiningGap = 0.01;     ///< Closer prices to start from take longer than they save.
constexpr std::size_t kUsualNeighbours = 6;

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

ChainPrices::ChainPrices(const ChainProblem& problem, const ForkNetwork& network, WorkerTeam& team, ChainStepRule rule)
    : network_(network),
      team_(team),
      rule_(rule),
      a_chain_(static_cast<double>(problem.chain_cost - problem.end_saving)),
      scratch_(team.size()),
      distance_(network.stops.size(), 0.0),
      way_(network.stops.size()),
      via_(network.stops.size()),
      hop_costs_(network.stops.size() * (network.stops.size() + 1), 0.0),
      visit_costs_(hop_costs_.size(), 0.0),
      hop_use_(hop_costs_.size(), 0.0),
      moved_(network.edges.size(), 0.0),
      factor_(rule.start_factor) {
    const auto vertices = static_cast<std::size_t>(network.vertex_count);
    for (Scratch& s : scratch_) {
        s.price.assign(3 * network.edges.size(), 0.0);
        s.entry.assign(3 * network.edges.size(), -1);
        s.label.assign(vertices, kUnreached);
        s.via.assign(vertices, -1);
        s.settled.assign(vertices, 0);
        s.queue = LabelHeap<double>(vertices);
    }
    for (const JoinedEdge& edge : network.edges)
        point_.hop_charge.push_back(edge.charge);
    point_.paid.resize(network.stops.size());
    point_.visit.assign(network.stops.size(), 0.0);
    visit_flow_.assign(network.stops.size(), 0.0);
    double all_means = 0.0;
    for (const JoinedEdge& edge : network.edges)
        all_means += edge.opening + edge.charge;
    for (const JoinedEdge& edge : network.edges) {
        const double mean = all_means / static_cast<double>(network.edges.size());
        scale_.push_back(mean > 0.0 ? std::sqrt(std::max((edge.opening + edge.charge) / mean, kLeastScale)) : 1.0);
    }
    start_prices(rule.start_seconds);
    choose_neighbours(problem.longest_chain);
    routes_.emplace_back(neighbours_, problem.longest_chain);
}

/// What joins source and stops at opening costs alone, nearly proved, is where prices start from.
void ChainPrices::start_prices(double seconds) {
    const SharedCostProblem joining = joining_on(network_);
    SolveLimits limits;
    limits.target_gap = kJoiningGap;
    limits.seconds = seconds;
    const SharedCostSolution joined = solve(joining, limits);
    const auto parts = static_cast<double>(joined.certificate.parts);
    for (std::size_t t = 0; t < joined.certificate.prices.size(); ++t) {
        for (const EdgePrice& p : joined.certificate.prices[t]) {
            const std::int32_t use = p.backwards ? SlotPrice::kBackwards : SlotPrice::kForwards;
            point_.paid[t].push_back({3 * p.edge + use, static_cast<double>(p.price) / parts, 0.0});
        }
    }
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

/// Finds the cheapest route set, averages its hops in and counts the visits it misses.
double ChainPrices::find_routes(double weight) {
    const std::size_t stops = network_.stops.size();
    for (std::size_t t = 0; t < stops; ++t) {
        for (std::size_t i = t * (stops + 1); i < (t + 1) * (stops + 1); ++i) {
            visit_costs_[i] = hop_costs_[i] - point_.visit[t];
            hop_use_[i] *= 1.0 - weight;
        }
    }
    const double cost = routes_.front().least(visit_costs_, a_chain_);
    visits_missing_.assign(stops, 1.0);
    for (const RouteHop& hop : routes_.front().hops()) {
        const auto to = static_cast<std::size_t>(hop.to);
        hop_use_[to * (stops + 1) + (hop.from < 0 ? stops : static_cast<std::size_t>(hop.from))] += weight;
        visits_missing_[to] -= 1.0;
    }
    return std::accumulate(point_.visit.begin(), point_.visit.end(), cost);
}

/// Steps on what visits earn while hop costs stay, which are quick. The bound of the best, which the point keeps.
double ChainPrices::price_visits(double target) {
    const double ways = std::accumulate(distance_.begin(), distance_.end(), 0.0);
    double best = -kUnreached;
    std::vector<double> best_visit;
    for (int round = 1;; ++round) {
        const double bound = ways + find_routes(1.0 / round);
        if (bound > best) {
            best = bound;
            best_visit = point_.visit;
        }
        double squares = 0.0;
        for (const double missing : visits_missing_)
            squares += missing * missing;
        if (round == rule_.visit_rounds || squares <= 0.0) break;
        const double length = rule_.visit_share * factor_ * std::max(target - bound, 0.0) / squares;
        for (std::size_t t = 0; t < visits_missing_.size(); ++t)
            point_.visit[t] += length * visits_missing_[t];
    }
    point_.visit = std::move(best_visit);
    return best;
}

double ChainPrices::evaluate(double target) {
    const std::size_t stops = network_.stops.size();
    team_.run(stops, kStopBatch, [&](std::size_t t, std::size_t worker) { find_ways(t, scratch_[worker]); });
    bound_ = price_visits(target);
    if (bound_ > best_bound_) {
        best_bound_ = bound_;
        best_ = point_;
        passes_without_gain_ = 0;
    } else if (++passes_without_gain_ >= rule_.patience) {
        factor_ *= rule_.decay;
        passes_without_gain_ = 0;
    }
    return bound_;
}

void ChainPrices::find_ways(std::size_t stop, Scratch& scratch) {
    for (const SlotPrice& p : point_.paid[stop])
        scratch.price[static_cast<std::size_t>(p.slot)] += p.price;
    find_way_from_source(stop, scratch);
    find_hops(stop, scratch);
    for (const SlotPrice& p : point_.paid[stop])
        scratch.price[static_cast<std::size_t>(p.slot)] = 0.0;
}

void ChainPrices::find_way_from_source(std::size_t stop, Scratch& s) {
    std::fill(s.label.begin(), s.label.end(), kUnreached);
    std::fill(s.settled.begin(), s.settled.end(), 0);
    const VertexId target = network_.stops[stop];
    s.label[network_.source] = 0.0;
    s.settled[network_.source] = 1;
    s.free_ways.assign(1, network_.source);
    while (!s.settled[target] || !s.free_ways.empty()) {
        if (s.settled[target]) break;
        if (s.free_ways.empty()) {
            const VertexId next = s.queue.pop();
            if (s.settled[next]) continue;
            s.settled[next] = 1;
            s.free_ways.push_back(next);
        }
        const VertexId here = s.free_ways.back();
        s.free_ways.pop_back();
        for (const Step& step : network_.steps.from(here)) {
            if (s.settled[step.to]) continue;
            const std::int32_t slot =
                3 * step.edge + (network_.edges[step.edge].tail == here ? SlotPrice::kForwards : SlotPrice::kBackwards);
            const double along = s.label[here] + s.price[slot];
            if (along >= s.label[step.to]) continue;
            s.label[step.to] = along;
            s.via[step.to] = slot;
            if (s.price[slot] > 0.0) {
                s.queue.push_or_lower(step.to, along);
            } else {
                s.settled[step.to] = 1;
                s.free_ways.push_back(step.to);
            }
        }
    }
    s.queue.clear();
    distance_[stop] = s.label[target];
    way_[stop].clear();
    for (VertexId at = target; at != network_.source;) {
        way_[stop].push_back(s.via[at]);
        at = across(network_.edges[s.via[at] / 3], at);
    }
}

void ChainPrices::find_hops(std::size_t stop, Scratch& s) {
    std::fill(s.label.begin(), s.label.end(), kUnreached);
    std::vector<std::int32_t>& via = via_[stop];
    via.resize(static_cast<std::size_t>(network_.vertex_count));
    const VertexId target = network_.stops[stop];
    s.label[target] = 0.0;
    s.queue.push_or_lower(target, 0.0);
    while (!s.queue.empty()) {
        const VertexId here = s.queue.pop();
        for (const Step& step : network_.steps.from(here)) {
            const double along =
                s.label[here] + point_.hop_charge[step.edge] + s.price[3 * step.edge + SlotPrice::kArrival];
            if (along >= s.label[step.to]) continue;
            s.label[step.to] = along;
            via[step.to] = step.edge;
            s.queue.push_or_lower(step.to, along);
        }
    }
    const std::size_t stops = network_.stops.size();
    double* cost = &hop_costs_[stop * (stops + 1)];
    for (std::size_t p = 0; p < stops; ++p)
        cost[p] = s.label[network_.stops[p]];
    cost[stops] = s.label[network_.source];
}

/// Averages the stop's way and the hops that arrive at it into its flows.
void ChainPrices::count_flows(std::size_t stop, Scratch& s) {
    std::vector<SlotPrice>& paid = point_.paid[stop];
    const double weight = first_pass_ ? 1.0 : rule_.flow_weight;
    for (std::size_t i = 0; i < paid.size(); ++i) {
        paid[i].flow *= 1.0 - weight;
        s.entry[paid[i].slot] = static_cast<std::int32_t>(i);
    }
    const auto count = [&](std::int32_t slot, double times) {
        if (s.entry[slot] < 0) {
            s.entry[slot] = static_cast<std::int32_t>(paid.size());
            paid.push_back({slot, 0.0, 0.0});
        }
        paid[s.entry[slot]].flow += weight * times;
    };
    for (const std::int32_t slot : way_[stop])
        count(slot, 1.0);
    double missing = 1.0;
    const std::size_t stops = network_.stops.size();
    for (std::size_t from = 0; from <= stops; ++from) {
        const double use = hop_use_[stop * (stops + 1) + from];
        if (use <= 0.0) continue;
        missing -= use;
        VertexId at = from == stops ? network_.source : network_.stops[from];
        while (at != network_.stops[stop]) {
            const EdgeId edge = via_[stop][at];
            count(3 * edge + SlotPrice::kArrival, use);
            at = across(network_.edges[edge], at);
        }
    }
    for (const SlotPrice& p : paid)
        s.entry[p.slot] = -1;
    visit_flow_[stop] += weight * (missing - visit_flow_[stop]);
}

void ChainPrices::list_by_edge() {
    const std::size_t edges = network_.edges.size();
    first_of_edge_.assign(edges + 1, 0);
    for (const auto& paid : point_.paid) {
        for (const SlotPrice& p : paid)
            ++first_of_edge_[static_cast<std::size_t>(p.slot / 3) + 1];
    }
    for (std::size_t e = 0; e < edges; ++e)
        first_of_edge_[e + 1] += first_of_edge_[e];
    by_edge_.resize(first_of_edge_[edges]);
    std::vector<std::size_t> next(first_of_edge_.begin(), first_of_edge_.end() - 1);
    for (auto& paid : point_.paid) {
        for (SlotPrice& p : paid)
            by_edge_[next[static_cast<std::size_t>(p.slot / 3)]++] = &p;
    }
}

/// Squared length of the direction: all flows, what hops earn by their charge on each edge, and visits missing.
double ChainPrices::squares() const {
    double sum = 0.0;
    for (std::size_t e = 0; e + 1 < first_of_edge_.size(); ++e) {
        double hops = 0.0;
        for (std::size_t i = first_of_edge_[e]; i < first_of_edge_[e + 1]; ++i) {
            const SlotPrice& p = *by_edge_[i];
            sum += scale_[e] * p.flow * p.flow;
            if (p.slot % 3 == SlotPrice::kArrival) hops += p.flow;
        }
        sum += scale_[e] * hops * hops;
    }
    return sum;
}

double ChainPrices::project(std::size_t edge, double length) {
    const std::span<SlotPrice* const> wishes(by_edge_.data() + first_of_edge_[edge],
                                             first_of_edge_[edge + 1] - first_of_edge_[edge]);
    const JoinedEdge& e = network_.edges[edge];
    return settle_purse({e.opening, e.charge}, wishes, scale_[edge] * length, point_.hop_charge[edge]) / scale_[edge];
}

void ChainPrices::step(double target) {
    const std::size_t stops = network_.stops.size();
    team_.run(stops, kStopBatch, [&](std::size_t t, std::size_t worker) { count_flows(t, scratch_[worker]); });
    first_pass_ = false;
    list_by_edge();
    double visits = 0.0;
    for (const double missing : visit_flow_)
        visits += missing * missing;
    visits *= rule_.visit_scale;
    const double all = squares() + visits;
    const double gap = std::max(target - bound_, 0.0);
    if (all <= 0.0 || gap <= 0.0) return;
    const double length = factor_ * gap / (all * move_share_);
    team_.run(network_.edges.size(), kEdgeBatch,
              [&](std::size_t edge, std::size_t) { moved_[edge] = project(edge, length); });
    double moved = visits * length * length;
    for (const double m : moved_)
        moved += m;
    for (std::size_t t = 0; t < stops; ++t) {
        point_.visit[t] += rule_.visit_scale * length * visit_flow_[t];
        std::erase_if(point_.paid[t], [](const SlotPrice& p) { return p.price <= 0.0 && p.flow < kFlowKept; });
    }
    const double share = std::clamp(moved / (length * length * all), 1e-2, 1.0);
    move_share_ += rule_.memory * (share - move_share_);
}

std::vector<double> ChainPrices::edge_use() const {
    std::vector<double> use(network_.edges.size(), 0.0);
    for (const auto& paid : point_.paid) {
        for (const SlotPrice& p : paid) {
            if (p.slot % 3 != SlotPrice::kArrival) use[p.slot / 3] = std::max(use[p.slot / 3], p.flow);
        }
    }
    return use;
}

}  // namespace spadework::graph::chains
