#include "graph/two_level_search.hpp"

#include <algorithm>

#include "graph/pair_routes_tree.hpp"
#include "graph/two_level_solver.hpp"

namespace spadework::graph::two_level {

using pair_routes::Charge;
using pair_routes::Network;
using pair_routes::Pair;
using pair_routes::RootedTree;

namespace {

constexpr std::size_t kExchangesTried = 4;      ///< For each open site.
constexpr std::int32_t kCountsBegunAfresh = 3;  ///< More sites are looked for from where fewer were found.
constexpr Cost kNearEnough = 200;               ///< An exchange dearer by more than this part is not followed.

std::vector<VertexId> vertices_to_join(const TwoLevelProblem& problem) {
    std::vector<VertexId> vertices{problem.source};
    for (const TwoLevelDemand& d : problem.demands)
        vertices.push_back(d.at);
    return vertices;
}

/// Length and passage of a path.
struct Way {
    Length length = 0;
    Cost passage = 0;
};

Way way_of(const Network& network, const std::vector<EdgeId>& path) {
    Way way;
    for (const EdgeId e : path) {
        way.length += network.edges[e].length;
        way.passage += network.edges[e].passage;
    }
    return way;
}

std::vector<std::int64_t> units_served(const TwoLevelProblem& problem, const Siting& siting) {
    std::vector<std::int64_t> units(siting.open.size(), 0);
    for (std::size_t d = 0; d < siting.served_by.size(); ++d) {
        if (siting.served_by[d] >= 0) units[siting.served_by[d]] += problem.demands[d].units;
    }
    return units;
}

/// For each open site its feeder when the routes follow the tree.
std::vector<const Feeder*> feeders_on(const TwoLevelProblem& problem, const Network& network, const RootedTree& tree,
                                      const std::vector<Feeder>& feeders, const Siting& siting) {
    const std::vector<std::int64_t> units = units_served(problem, siting);
    std::vector<const Feeder*> chosen;
    for (std::size_t k = 0; k < siting.open.size(); ++k) {
        const Site& site = problem.sites[siting.open[k]];
        const Way way = way_of(network, path_between(tree, problem.source, site.at));
        chosen.push_back(cheapest_feeder(feeders, site, units[k], way.length, way.passage));
    }
    return chosen;
}

std::vector<Pair> pairs_on(const TwoLevelProblem& problem, const Siting& siting,
                           const std::vector<const Feeder*>& feeders) {
    std::vector<Pair> pairs{{problem.source, problem.source, {}}};
    for (std::size_t k = 0; k < siting.open.size(); ++k) {
        pairs.push_back({problem.source, problem.sites[siting.open[k]].at, feeders[k]->charge});
    }
    for (std::size_t d = 0; d < problem.demands.size(); ++d) {
        const TwoLevelDemand& demand = problem.demands[d];
        const std::int32_t by = siting.served_by[d];
        if (by < 0) {
            pairs.push_back({problem.source, demand.at, direct_charge(*demand.direct)});
        } else {
            pairs.push_back({problem.sites[siting.open[by]].at, demand.at, service_charge(demand)});
        }
    }
    return pairs;
}

Cost opening_of(const Network& network, const std::vector<EdgeId>& tree) {
    Cost total = 0;
    for (const EdgeId e : tree)
        total += network.edges[e].opening;
    return total;
}

/// The tree with the paths that hang sites on it; a path that would close a cycle leaves its last edges out.
std::vector<EdgeId> with_attachments(const Network& network, std::vector<EdgeId> tree, VertexId root,
                                     const SitingTable& table, const std::vector<std::int32_t>& open) {
    for (const std::int32_t s : open) {
        const std::vector<EdgeId> more = table.attachment(s);
        tree.insert(tree.end(), more.begin(), more.end());
    }
    const RootedTree laid = rooted(network, tree, root);
    std::vector<EdgeId> edges(laid.edge.begin() + 1, laid.edge.end());
    std::sort(edges.begin(), edges.end());
    return edges;
}

}  // namespace

Search::Search(const TwoLevelProblem& problem, const pair_routes::StopRule& stop)
    : problem_(problem), stop_(stop), network_(problem.vertex_count, problem.edges), feeders_(usable_feeders(problem)) {
    for (const TwoLevelDemand& d : problem.demands)
        typical_ += service_charge(d);
    const auto demands = static_cast<Cost>(std::max<std::size_t>(1, problem.demands.size()));
    typical_ = {typical_.weight / demands, typical_.multiplicity / demands};
    const std::vector<VertexId> wanted = vertices_to_join(problem);
    for (const Cost share : {8, 1}) {
        const Charge charge{typical_.weight / share, typical_.multiplicity / share};
        auto tree = joining_tree(network_, wanted, charge);
        if (!tree) return;
        if (starts_.empty() || starts_.front() != *tree) starts_.push_back(std::move(*tree));
    }
}

void Search::begin_from(const std::vector<TwoLevelStart>& starts) {
    for (const TwoLevelStart& start : starts) {
        const RootedTree tree = rooted(network_, start.edges, problem_.source);
        const auto off = [&tree](VertexId v) { return tree.place[v] < 0; };
        if (std::ranges::any_of(vertices_to_join(problem_), off)) continue;
        std::vector<EdgeId> edges(tree.edge.begin() + 1, tree.edge.end());
        std::sort(edges.begin(), edges.end());
        given_.push_back({std::move(edges), start.open});
    }
}

std::optional<Layout> Search::routed_anew(const std::vector<EdgeId>& tree, const SitingTable& table,
                                          const Siting& siting) const {
    return routed_on(with_attachments(network_, tree, problem_.source, table, siting.open), siting);
}

std::optional<Layout> Search::routed_on(std::vector<EdgeId> tree, const Siting& siting) const {
    const RootedTree laid = rooted(network_, tree, problem_.source);
    const auto chosen = feeders_on(problem_, network_, laid, feeders_, siting);
    tree = improved_tree(network_, pairs_on(problem_, siting, chosen), std::move(tree), stop_);
    auto resited = SitingTable(problem_, network_, feeders_, tree, siting.open).assign(siting.open);
    if (!resited) return std::nullopt;
    const Cost cost = resited->cost + opening_of(network_, tree);
    return Layout{std::move(tree), std::move(*resited), cost};
}

std::optional<Layout> Search::descend(std::vector<EdgeId> tree, std::int32_t count,
                                      std::vector<std::int32_t> open) const {
    std::optional<Layout> best;
    std::vector<std::int32_t> routed_by;
    while (true) {
        const SitingTable table(problem_, network_, feeders_, tree);
        const auto siting = best_siting(table, count, open, stop_);
        if (!siting || (best && siting->open == open && siting->served_by == routed_by)) return best;
        routed_by = siting->served_by;
        auto layout = routed_anew(tree, table, *siting);
        if (!layout || (best && layout->cost >= best->cost)) return best;
        tree = layout->tree;
        open = layout->siting.open;
        best = std::move(layout);
        if (stop_.reached()) return best;
    }
}

std::optional<Layout> Search::with_another_site(const Layout& from) const {
    const SitingTable table(problem_, network_, feeders_, from.tree);
    for (std::size_t k = 0; k < from.siting.open.size(); ++k) {
        for (const Siting& siting : best_exchanges(table, from.siting.open, k, kExchangesTried)) {
            if (stop_.reached()) return std::nullopt;
            const auto layout = routed_anew(from.tree, table, siting);
            if (!layout || layout->cost >= add(from.cost, from.cost / kNearEnough)) continue;
            auto settled =
                descend(layout->tree, static_cast<std::int32_t>(layout->siting.open.size()), layout->siting.open);
            if (!settled || layout->cost < settled->cost) settled = layout;
            if (settled->cost < from.cost) return settled;
        }
    }
    return std::nullopt;
}

std::optional<std::vector<EdgeId>> Search::joined_at(const std::vector<Cost>& opening) const {
    std::vector<SharedCostEdge> edges = problem_.edges;
    for (std::size_t e = 0; e < edges.size(); ++e)
        edges[e].opening = opening[e];
    const Network network(problem_.vertex_count, edges);
    return joining_tree(network, vertices_to_join(problem_), {typical_.weight / 8, typical_.multiplicity / 8});
}

std::optional<Layout> Search::from_openings(const std::vector<Cost>& opening, std::int32_t count,
                                            const std::vector<std::int32_t>& open) const {
    auto tree = joined_at(opening);
    if (!tree) return std::nullopt;
    return descend(std::move(*tree), count, open);
}

std::vector<Layout> Search::from_openings_at(const std::vector<Cost>& opening,
                                             const std::vector<std::vector<std::int32_t>>& sets) const {
    std::vector<Layout> found;
    if (sets.empty()) return found;
    const auto tree = joined_at(opening);
    if (!tree) return found;
    const SitingTable table(problem_, network_, feeders_, *tree);
    for (const std::vector<std::int32_t>& open : sets) {
        if (stop_.reached()) break;
        const auto siting = table.assign(open);
        if (!siting) continue;
        if (auto layout = routed_anew(*tree, table, *siting))
            found.push_back(settled(std::move(*layout), siting->served_by));
    }
    return found;
}

/// Takes turns of assigning demands to the same sites and laying routes while that pays.
Layout Search::settled(Layout best, std::vector<std::int32_t> routed_by) const {
    while (best.siting.served_by != routed_by && !stop_.reached()) {
        routed_by = best.siting.served_by;
        auto layout = routed_on(best.tree, best.siting);
        if (!layout || layout->cost >= best.cost) break;
        best = std::move(*layout);
    }
    return best;
}

std::optional<Layout> Search::with_sites(std::int32_t count) {
    std::optional<Layout> best;
    const auto try_from = [&](const std::vector<EdgeId>& tree, const std::vector<std::int32_t>& open) {
        if (best && stop_.reached()) return;
        auto layout = descend(tree, count, open);
        if (layout && (!best || layout->cost < best->cost)) best = std::move(layout);
    };
    bool given = false;
    for (const TwoLevelStart& start : given_) {
        if (start.open.size() != static_cast<std::size_t>(count)) continue;
        try_from(start.edges, start.open);
        given = true;
    }
    for (const auto& tree : starts_) {
        if (!given && (found_.empty() || count <= kCountsBegunAfresh)) try_from(tree, {});
    }
    if (!found_.empty()) try_from(found_.back().tree, found_.back().siting.open);
    if (best) found_.push_back(*best);
    return best;
}

std::optional<TwoLevelPlan> plan_from(const TwoLevelProblem& problem, const Network& network,
                                      const std::vector<Feeder>& feeders, const Layout& layout) {
    const RootedTree tree = rooted(network, layout.tree, problem.source);
    const auto chosen = feeders_on(problem, network, tree, feeders, layout.siting);
    TwoLevelPlan plan;
    for (std::size_t k = 0; k < chosen.size(); ++k) {
        if (chosen[k] == nullptr) return std::nullopt;
        const std::int32_t site = layout.siting.open[k];
        plan.open.push_back({site, chosen[k]->size, path_between(tree, problem.source, problem.sites[site].at)});
    }
    plan.served_by = layout.siting.served_by;
    for (std::size_t d = 0; d < problem.demands.size(); ++d) {
        const std::int32_t by = plan.served_by[d];
        const VertexId from = by < 0 ? problem.source : problem.sites[layout.siting.open[by]].at;
        plan.paths.push_back(path_between(tree, from, problem.demands[d].at));
    }
    const auto value = cost_of(problem, plan);
    if (!value) return std::nullopt;
    plan.value = *value;
    return plan;
}

}  // namespace spadework::graph::two_level
