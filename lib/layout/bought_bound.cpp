#include "layout/bought_bound.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

#include "graph/saturating.hpp"
#include "graph/splitting.hpp"
#include "graph/stepped_ways.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

using graph::Cost;
using graph::kLargestCost;
using graph::times;
using graph::WideCost;

constexpr std::size_t most_labels = 20'000;  ///< Of one search for a way.
constexpr double most_work = 4e6;            ///< Demands times edges; sites beyond keep their bounds.
constexpr graph::Length most_length = graph::Length{1} << 40U;  ///< In millimetres: longer than any site.

/// One set of prices, proved for one root.
struct PriceSet {
    const ProvedProblem* proof = nullptr;
    const graph::EdgePriceSet* prices = nullptr;
    std::size_t root = 0;  ///< Of the proof's problem.
    Cost bound = 0;
};

bool in_one_measure(const graph::SharedCostProblem& problem) {
    return std::ranges::all_of(problem.edges, [](const graph::SharedCostEdge& edge) { return edge.passage == 0; });
}

/// For each of some roots the set of the proof's prices that proves most for it; none for roots that the proof does not
/// have.
std::vector<PriceSet> best_sets(const ProvedProblem& proof, const std::vector<graph::VertexId>& roots) {
    std::vector<PriceSet> best(roots.size());
    graph::SharedCostProblem some = proof.problem;
    some.roots.clear();
    std::vector<std::size_t> asked;
    for (std::size_t i = 0; i < roots.size() && in_one_measure(proof.problem); ++i) {
        const auto root = std::ranges::find(proof.problem.roots, roots[i], &graph::RootOption::at);
        if (root == proof.problem.roots.end()) continue;
        some.roots.push_back(*root);
        asked.push_back(i);
        best[i].root = static_cast<std::size_t>(root - proof.problem.roots.begin());
    }
    if (asked.empty()) return best;
    std::vector<const graph::EdgePriceSet*> sets = {&proof.certificate.prices};
    for (const graph::EdgePriceSet& more : proof.certificate.more_prices)
        sets.push_back(&more);
    for (const graph::EdgePriceSet* set : sets) {
        const auto bounds = graph::bound_proved(some, {*set, {}, proof.certificate.parts, {}});
        for (std::size_t i = 0; bounds && i < asked.size(); ++i) {
            PriceSet& known = best[asked[i]];
            if (known.proof != nullptr && (*bounds)[i] <= known.bound) continue;
            known = {&proof, set, known.root, (*bounds)[i]};
        }
    }
    return best;
}

/// For each demand a length by whose weight may be counted beyond its charges: of demands whose prices run against each
/// other on an edge, together no more than twice the edge.
class Allowances {
public:
    /// `wanted` is what each demand could use.
    Allowances(const graph::SharedCostProblem& problem, const graph::EdgePriceSet& prices,
               std::vector<graph::Length> wanted)
        : allowed_(std::move(wanted)), payers_(problem.edges.size()) {
        for (std::size_t d = 0; d < prices.size(); ++d) {
            for (const graph::EdgePrice& price : prices[d]) {
                if (price.price > 0)
                    payers_[static_cast<std::size_t>(price.edge)][price.backwards ? 1 : 0].push_back(d);
            }
        }
        std::vector<std::size_t> order(problem.edges.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::ranges::stable_sort(order, {}, [&](std::size_t e) { return problem.edges[e].length; });
        for (const std::size_t e : order)
            keep_within(problem.edges[e].length, payers_[e]);
    }

    [[nodiscard]] graph::Length operator[](std::size_t demand) const { return allowed_[demand]; }

private:
    using Payers = std::array<std::vector<std::size_t>, 2>;  ///< Demands, by direction.

    [[nodiscard]] graph::Length most_of(const std::vector<std::size_t>& demands) const {
        graph::Length most = 0;
        for (const std::size_t d : demands)
            most = std::max(most, allowed_[d]);
        return most;
    }

    void cap(const std::vector<std::size_t>& demands, graph::Length most) {
        for (const std::size_t d : demands)
            allowed_[d] = std::min(allowed_[d], most);
    }

    void keep_within(graph::Length edge, const Payers& payers) {
        if (payers[0].empty() || payers[1].empty()) return;
        const graph::Length forwards = most_of(payers[0]);
        const graph::Length backwards = most_of(payers[1]);
        if (forwards <= 2 * edge - backwards) return;
        if (backwards < edge) {
            cap(payers[0], 2 * edge - backwards);
        } else if (forwards < edge) {
            cap(payers[1], 2 * edge - forwards);
        } else {
            cap(payers[0], edge);
            cap(payers[1], edge);
        }
    }

    std::vector<graph::Length> allowed_;
    std::vector<Payers> payers_;  ///< By edge.
};

/// One root and one set of prices.
class BoughtBound {
public:
    BoughtBound(const graph::SharedCostProblem& problem, const BoughtCables& cables, const BoughtRoot& root,
                const PriceSet& set)
        : problem_(problem),
          measured_(set.proof->problem),
          cables_(cables),
          root_(root),
          set_(set),
          parts_(set.proof->certificate.parts),
          charged_ways_(problem.vertex_count, measured_.edges),
          bought_ways_(problem.vertex_count, problem.edges) {}

    /// The bound that the prices alone prove, once time is up.
    Cost run(const graph::pair_routes::StopRule& time) {
        WideCost sum = 0;
        std::vector<Cost> beyond;
        std::vector<graph::Length> wanted;
        for (std::size_t d = 0; d < problem_.demands.size(); ++d) {
            if (time.reached()) return set_.bound;
            const Cost charged = charged_way(d);
            if (charged == kLargestCost) return set_.bound;
            sum += charged;
            beyond.push_back(beyond_charges(d, charged));
            const Cost weight = times(measured_.demands[d].weight, parts_);
            const bool counts = beyond.back() > 0 && weight > 0;
            wanted.push_back(counts ? std::min(most_length, beyond.back() / weight + 1) : 0);
        }
        const Allowances allowed(measured_, *set_.prices, wanted);
        for (std::size_t d = 0; d < beyond.size(); ++d) {
            const WideCost most =
                static_cast<WideCost>(measured_.demands[d].weight) * allowed[d] - (allowed[d] > 0 ? 1 : 0);
            sum += std::min<WideCost>(beyond[d], most * parts_);
        }
        return std::max(set_.bound, graph::saturated(sum / parts_ + measured_.roots[set_.root].cost));
    }

private:
    [[nodiscard]] graph::VertexId from() const { return measured_.roots[set_.root].at; }

    /// What passing each edge costs in parts: something of the edge's own, and the demand's prices.
    template <class OfEdge>
    void set_costs(std::size_t d, OfEdge of_edge) {
        costs_[0].clear();
        for (std::size_t e = 0; e < problem_.edges.size(); ++e)
            costs_[0].push_back(of_edge(e));
        costs_[1] = costs_[0];
        for (const graph::EdgePrice& price : (*set_.prices)[d]) {
            Cost& cost = costs_[price.backwards ? 1 : 0][static_cast<std::size_t>(price.edge)];
            cost = graph::add(cost, price.price);
        }
    }

    /// The demand's priced distance by its charges, in parts.
    Cost charged_way(std::size_t d) {
        const Cost weight = times(measured_.demands[d].weight, parts_);
        set_costs(d, [&](std::size_t e) { return times(weight, measured_.edges[e].length); });
        charged_ways_.aim_at(measured_.demands[d].at, costs_, 0, from());
        return charged_ways_.straight_from(from());
    }

    /// What the cheapest way costs beyond that and all that is counted beside, in parts.
    Cost beyond_charges(std::size_t d, Cost charged) {
        const auto& left_out = set_.proof->left_out;
        const Cost kept_out = d < left_out.size() && !left_out[d].empty() ? left_out[d][set_.root] : 0;
        const WideCost counted = static_cast<WideCost>(cables_.scale.units(root_.counted[d])) + kept_out;
        const WideCost beyond = bought_way(d) - charged - counted * parts_;
        return graph::saturated(std::max<WideCost>(0, beyond));
    }

    /// The least that any way costs with the cable as it is bought, in parts.
    WideCost bought_way(std::size_t d) {
        const graph::Demand& demand = problem_.demands[d];
        const Cost slope = times(demand.weight, parts_);
        set_costs(d,
                  [&](std::size_t e) { return times(times(demand.multiplicity, problem_.edges[e].passage), parts_); });
        bought_ways_.aim_at(demand.at, costs_, slope, from());
        const Cost a_minor = cables_.scale.units(Money::from_minor(1));
        const std::int64_t coil = root_.coil_too_much;
        graph::LengthPrice price;
        price.price = [&, coil](graph::Length length) {
            const std::int64_t minor = cables_.demands[d].cable.price(std::max<std::int64_t>(0, length - coil));
            return times(times(minor, a_minor), parts_);
        };
        const Cost ends =
            times(cables_.scale.units(cables_.demands[d].ends - Money::from_minor(cables_.demands[d].cable.rounding())),
                  parts_);
        price.base = ends - times(slope, coil);
        price.slope = slope;
        return bought_ways_.least_from(from(), price, most_labels);
    }

    const graph::SharedCostProblem& problem_;
    const graph::SharedCostProblem& measured_;
    const BoughtCables& cables_;
    const BoughtRoot& root_;
    PriceSet set_;
    std::int64_t parts_;
    graph::SteppedWays charged_ways_;
    graph::SteppedWays bought_ways_;
    graph::ArcCosts costs_;
};

/// What a part's prices prove of the problem that it leaves: what all its plans open is in the root's cost.
ProvedProblem proved_of(const ProvedProblem& proof, const graph::PartProof& part) {
    ProvedProblem of_part{
        graph::rest_of(proof.problem, part.choices), {part.prices, {}, part.parts, {}}, proof.left_out};
    for (const graph::EdgeChoice choice : part.choices) {
        if (!choice.used) continue;
        for (graph::RootOption& root : of_part.problem.roots)
            root.cost = graph::add(root.cost, proof.problem.edges[static_cast<std::size_t>(choice.edge)].opening);
    }
    return of_part;
}

/// The least over the parts that plans are split into of what is proved of each; 0 where they are not split. A part
/// that is proved to be dearer than `enough` is not looked at further.
Cost bound_by_splits(const graph::SharedCostProblem& problem, const BoughtCables& cables, std::size_t root,
                     const ProvedProblem& proof, Cost enough, const graph::pair_routes::StopRule& time) {
    Cost least = proof.certificate.splits.empty() ? 0 : kLargestCost;
    for (const graph::PartProof& part : proof.certificate.splits) {
        const ProvedProblem of_part = proved_of(proof, part);
        const PriceSet set = best_sets(of_part, {problem.roots[root].at}).front();
        if (set.proof == nullptr) return 0;
        Cost bound = set.bound;
        if (bound <= enough) {
            const graph::SharedCostProblem rest = graph::rest_of(problem, part.choices);
            bound = BoughtBound(rest, cables, cables.roots[root], set).run(time);
        }
        least = std::min(least, bound);
    }
    return least;
}

/// What plans may cost that are of interest yet: cables as they are bought cost a little more than by the metre.
Cost a_little_beyond(Cost value) {
    return value + value / 1000;
}

/// The roots with the lowest bounds, lowest first: those that the plan's value leaves a chance, some at most.
std::vector<std::size_t> roots_in_question(const MeasuredSolution& solution) {
    constexpr std::size_t most_roots = 40;
    std::vector<std::size_t> order(solution.root_bounds.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t r) { return solution.root_bounds[r]; });
    const auto beyond = std::ranges::find_if(
        order, [&](std::size_t r) { return solution.root_bounds[r] > a_little_beyond(solution.plan->value); });
    order.resize(std::min({order.size(), most_roots, static_cast<std::size_t>(beyond - order.begin())}));
    return order;
}

}  // namespace

std::vector<BoughtDemand> bought_demands(const Scenario& scenario, const ServiceFigures& figures) {
    std::vector<BoughtDemand> demands;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const int in_use = strands_in_use(scenario.buildings[b], scenario.rules);
        const BoughtCable cable(scenario, drop_need(in_use, scenario.rules).total());
        demands.push_back({cable, figures.cables[b].of_product});
    }
    return demands;
}

void raise_by_bought_cables(const graph::SharedCostProblem& problem, const BoughtCables& cables,
                            const graph::pair_routes::StopRule& time, MeasuredSolution& solution) {
    const double work = static_cast<double>(problem.demands.size()) * static_cast<double>(problem.edges.size());
    if (!solution.plan || work > most_work || time.reached()) return;
    const std::vector<std::size_t> order = roots_in_question(solution);
    std::vector<graph::VertexId> at;
    for (const std::size_t root : order)
        at.push_back(problem.roots[root].at);
    std::vector<std::vector<PriceSet>> sets;
    for (const ProvedProblem& proof : solution.proofs) {
        if (time.reached()) return;
        sets.push_back(best_sets(proof, at));
    }
    const Cost beyond_plan = a_little_beyond(solution.plan->value);
    Cost least = kLargestCost;
    for (std::size_t i = 0; i < order.size(); ++i) {
        Cost& bound = solution.root_bounds[order[i]];
        if (bound >= least || time.reached()) break;
        for (const std::vector<PriceSet>& of_proof : sets) {
            if (of_proof[i].proof == nullptr || of_proof[i].bound == kLargestCost) continue;
            bound = std::max(bound, BoughtBound(problem, cables, cables.roots[order[i]], of_proof[i]).run(time));
            const Cost by_splits = bound_by_splits(problem, cables, order[i], *of_proof[i].proof, beyond_plan, time);
            bound = std::max(bound, by_splits);
        }
        least = std::min(least, bound);
    }
    solution.bound = std::max(solution.bound, *std::ranges::min_element(solution.root_bounds));
}

}  // namespace spadework
