#include "layout/bought_rerouting.hpp"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

#include "graph/saturating.hpp"
#include "graph/stepped_ways.hpp"

namespace spadework {

namespace {

using graph::Cost;
using graph::times;

constexpr std::size_t most_labels = 5'000;  ///< Of one search for a way.
constexpr int most_rounds = 4;

class Rerouting {
public:
    Rerouting(const graph::SharedCostProblem& problem, const BoughtCables& cables, graph::SharedCostPlan plan)
        : problem_(problem),
          cables_(cables),
          root_(cables.roots[static_cast<std::size_t>(plan.root)]),
          from_(problem.roots[static_cast<std::size_t>(plan.root)].at),
          plan_(std::move(plan)),
          users_(problem.edges.size(), 0),
          ways_(problem.vertex_count, problem.edges) {
        for (const std::vector<graph::EdgeId>& path : plan_.paths)
            count(path, 1);
    }

    graph::SharedCostPlan run(const graph::pair_routes::StopRule& time) {
        const std::vector<std::size_t> order = heaviest_first();
        bool better = true;
        for (int round = 0; round < most_rounds && better; ++round) {
            better = false;
            for (const std::size_t d : order) {
                if (time.reached()) break;
                better = lay_anew(d) || better;
            }
        }
        plan_.value = graph::cost_of(problem_, plan_).value_or(plan_.value);
        return std::move(plan_);
    }

private:
    void count(const std::vector<graph::EdgeId>& path, int by) {
        for (const graph::EdgeId e : path)
            users_[static_cast<std::size_t>(e)] += by;
    }

    [[nodiscard]] std::vector<std::size_t> heaviest_first() const {
        std::vector<std::size_t> order(problem_.demands.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::ranges::stable_sort(order, std::greater<>(), [&](std::size_t d) { return problem_.demands[d].weight; });
        return order;
    }

    /// What an edge costs the demand beside cable, where others use it as they do now.
    [[nodiscard]] Cost beside(std::size_t d, std::size_t e) const {
        const graph::SharedCostEdge& edge = problem_.edges[e];
        return graph::add(users_[e] > 0 ? 0 : edge.opening, times(problem_.demands[d].multiplicity, edge.passage));
    }

    [[nodiscard]] Cost price(std::size_t d, graph::Length length) const {
        const std::int64_t route = std::max<std::int64_t>(0, length - root_.coil_too_much);
        const std::int64_t minor = cables_.demands[d].cable.price(route);
        return times(minor, cables_.scale.units(Money::from_minor(1)));
    }

    [[nodiscard]] Cost cost_along(std::size_t d, const std::vector<graph::EdgeId>& path) const {
        graph::Length length = 0;
        Cost cost = 0;
        for (const graph::EdgeId e : path) {
            length += problem_.edges[static_cast<std::size_t>(e)].length;
            cost = graph::add(cost, beside(d, static_cast<std::size_t>(e)));
        }
        return graph::add(cost, price(d, length));
    }

    bool lay_anew(std::size_t d) {
        count(plan_.paths[d], -1);
        for (std::size_t e = 0; e < problem_.edges.size(); ++e)
            costs_[0].push_back(beside(d, e));
        costs_[1] = costs_[0];
        const Cost slope = problem_.demands[d].weight;
        ways_.aim_at(problem_.demands[d].at, costs_, slope, from_);
        const BoughtDemand& demand = cables_.demands[d];
        const Cost ends = cables_.scale.units(demand.ends - Money::from_minor(demand.cable.rounding()));
        const graph::LengthPrice as_bought{[&](graph::Length length) { return price(d, length); },
                                           ends - times(slope, root_.coil_too_much), slope};
        graph::SteppedWays::Cheapest found = ways_.cheapest_from(from_, as_bought, most_labels);
        const bool better = found.cost < cost_along(d, plan_.paths[d]);
        if (better) plan_.paths[d] = std::move(found.path);
        count(plan_.paths[d], 1);
        costs_[0].clear();
        return better;
    }

    const graph::SharedCostProblem& problem_;
    const BoughtCables& cables_;
    const BoughtRoot& root_;
    graph::VertexId from_;
    graph::SharedCostPlan plan_;
    std::vector<int> users_;  ///< By edge, how many cables run there.
    graph::SteppedWays ways_;
    graph::ArcCosts costs_;
};

}  // namespace

graph::SharedCostPlan rerouted_as_bought(const graph::SharedCostProblem& problem, const BoughtCables& cables,
                                         graph::SharedCostPlan plan, const graph::pair_routes::StopRule& time) {
    return Rerouting(problem, cables, std::move(plan)).run(time);
}

}  // namespace spadework
