#include "graph/ring_bound.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <memory>

#include "graph/chain_prices.hpp"
#include "graph/chain_rounding.hpp"
#include "graph/pair_routes.hpp"
#include "graph/ring_bridges.hpp"
#include "graph/ring_certificate.hpp"
#include "graph/ring_two_ways.hpp"

namespace spadework::graph::rings {

namespace {

constexpr double kSettled = 0.004;  ///< Step factor below which the prices hardly move.
constexpr int kFirstPlans = 15;     ///< Passes before the averaged flows are worth planning by.
constexpr int kPassesBetweenPlans = 30;
constexpr std::size_t kSmall = 1000;  ///< Stops times edges.
constexpr std::size_t kFewStops = 80;
constexpr int kPassesIfSmall = 800;
constexpr double kLargestInParts = 1e17;  ///< Prices of two ways are whole numbers for the search.

/// A fork network by its cuts, for searches for two ways.
struct CutNetwork {
    LinkNetwork links;
    std::vector<std::vector<std::int32_t>> edges_of;  ///< By link: edges of the fork network.
};

CutNetwork cuts_of(const RingProblem& problem, const chains::ForkNetwork& forks) {
    const std::vector<char> bridges = bridges_of(problem);
    CutNetwork cuts;
    cuts.links.vertex_count = forks.vertex_count;
    cuts.links.source = forks.source;
    cuts.links.stops = forks.stops;
    std::map<std::int32_t, std::size_t> place;
    for (std::size_t j = 0; j < forks.edges.size(); ++j) {
        const chains::JoinedEdge& edge = forks.edges[j];
        const EdgeId first = edge_of(edge.arcs.front());  // Edges of one cut are never joined with others.
        const auto [entry, fresh] = place.try_emplace(problem.cut_of[first], cuts.edges_of.size());
        if (fresh) {
            cuts.links.links.push_back({edge.tail, edge.head, {}, bridges[first] != 0});
            cuts.edges_of.emplace_back();
        }
        cuts.edges_of[entry->second].push_back(static_cast<std::int32_t>(j));
    }
    list_steps(cuts.links);
    return cuts;
}

/// Two ways by whole prices; each pass of a bridge pays half its price.
class PricedTwoWays : public chains::TwoWaysFinder {
public:
    PricedTwoWays(const CutNetwork& cuts, double parts)
        : cuts_(cuts), parts_(parts), search_(cuts.links), price_(cuts.edges_of.size(), 0), edge_(price_.size(), 0) {}

    void charge_passes(const std::vector<double>& a_pass) override {
        for (std::size_t l = 0; l < price_.size(); ++l) {
            double least = std::numeric_limits<double>::infinity();
            for (const std::int32_t e : cuts_.edges_of[l])
                least = std::min(least, a_pass[e]);
            price_[l] = static_cast<Cost>(least * parts_);
        }
        search_.aim_at(cuts_.links.source, price_);
    }

    double find(std::size_t stop, const std::vector<double>& price, const std::vector<double>& a_pass,
                std::vector<std::int32_t>& edges) override {
        for (std::size_t l = 0; l < price_.size(); ++l) {
            const double share = cuts_.links.links[l].bridge ? 0.5 : 1.0;
            double least = std::numeric_limits<double>::infinity();
            for (const std::int32_t e : cuts_.edges_of[l]) {
                const double of_edge = price[3 * e] * share + a_pass[e];
                if (of_edge >= least) continue;
                least = of_edge;
                edge_[l] = e;
            }
            price_[l] = static_cast<Cost>(least * parts_);
        }
        const auto flow = search_.two_flows(cuts_.links.stops[stop], cuts_.links.source, price_);
        if (!flow) return 0.0;
        for (const std::int32_t l : flow->links)
            edges.insert(edges.end(), cuts_.links.links[l].bridge ? 2 : 1, edge_[l]);
        return static_cast<double>(flow->cost) / parts_;
    }

private:
    const CutNetwork& cuts_;
    double parts_;
    WaySearch search_;
    std::vector<Cost> price_;         ///< By link.
    std::vector<std::int32_t> edge_;  ///< By link the cheapest of its edges.
};

bool is_small(const chains::ForkNetwork& forks) {
    return forks.stops.size() * forks.edges.size() <= kSmall;
}

/// Found by trial on site maps, as that of chains. On small networks patience costs nothing.
chains::ChainStepRule step_rule(const chains::ForkNetwork& forks, double seconds, const Progress* progress) {
    chains::ChainStepRule rule;
    if (is_small(forks)) rule.patience = 10;
    rule.start_factor = forks.stops.size() <= kFewStops ? 0.2 : 0.04;
    rule.start_seconds = seconds / 3;
    rule.progress = progress;
    return rule;
}

/// For each edge of the problem how much of it the averaged ways use.
std::vector<double> use_of_edges(const chains::ChainPrices& prices, const chains::ForkNetwork& forks,
                                 std::size_t edge_count) {
    std::vector<double> use(edge_count, 0.0);
    const std::vector<double> of_joined = prices.edge_use();
    for (std::size_t j = 0; j < of_joined.size(); ++j) {
        for (const ArcId arc : forks.edges[j].arcs)
            use[static_cast<std::size_t>(edge_of(arc))] = std::min(of_joined[j], 1.0);
    }
    return use;
}

}  // namespace

Cost least_for_rings(const RingProblem& problem) {
    const auto stops = static_cast<Cost>(problem.stops.size());
    return (stops + problem.longest_ring - 1) / problem.longest_ring * problem.ring_cost;
}

ChainCertificate prices_for(const RingProblem& problem, Cost target, const SolveLimits& limits,
                            const FlowFollower& follow) {
    const pair_routes::StopRule time(limits.seconds, limits.progress);
    const ChainProblem open = open_rings(problem);
    const chains::ForkNetwork forks = chains::forks_of(open);
    const CutNetwork cuts = cuts_of(problem, forks);
    double all = static_cast<double>(std::max<Cost>(target, 1));
    for (const chains::JoinedEdge& edge : forks.edges)
        all += edge.opening + edge.charge;
    const double parts = kLargestInParts / (4 * all);
    WorkerTeam team(threads_worth_waking(limits.threads, forks.stops.size(), forks.edges.size()));
    chains::ChainPrices prices(open, forks, team, step_rule(forks, time.seconds_left(), limits.progress),
                               [&] { return std::make_unique<PricedTwoWays>(cuts, parts); });
    auto aim = static_cast<double>(target);
    const int passes = is_small(forks) ? kPassesIfSmall : chains::passes_worth(forks);
    for (int pass = 1; pass <= passes; ++pass) {
        prices.evaluate(aim);
        const double gap = aim - prices.best_bound();
        if (gap < 1.0 || gap <= limits.target_gap * aim || prices.factor() < kSettled || time.reached()) break;
        prices.step(aim);
        if (pass % kPassesBetweenPlans != kFirstPlans) continue;
        aim = static_cast<double>(follow(use_of_edges(prices, forks, problem.edges.size())));
    }
    return chains::certificate_of(open, forks, prices, target);
}

}  // namespace spadework::graph::rings
