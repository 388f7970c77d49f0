// Re-checks a certificate with code of its own: nothing here is shared with what finds the prices.

#include <algorithm>
#include <unordered_map>

#include "graph/adjacency.hpp"
#include "graph/connected_parts.hpp"
#include "graph/cost_lattice.hpp"
#include "graph/label_heap.hpp"
#include "graph/path_measures.hpp"
#include "graph/saturating.hpp"
#include "graph/shared_cost_solver.hpp"
#include "graph/well_formed.hpp"

namespace spadework::graph {

namespace {

struct DirectionSums {
    WideCost forwards = 0;
    WideCost backwards = 0;
};

/// One list a demand, known edges, no negative price, and edge by edge the sum over proportions of the larger
/// direction's sum within the opening cost.
bool prices_keep_the_rules(const SharedCostProblem& problem, const EdgePriceSet& prices, Cost parts) {
    if (parts < 1 || prices.size() != problem.demands.size()) return false;
    const std::vector<std::int32_t> measures = path_measures(problem);
    const std::int32_t measure_count = measures.empty() ? 0 : *std::max_element(measures.begin(), measures.end()) + 1;
    std::vector<std::vector<std::size_t>> demands_of(measure_count);
    for (std::size_t d = 0; d < measures.size(); ++d)
        demands_of[measures[d]].push_back(d);

    std::vector<WideCost> claimed(problem.edges.size(), 0);
    for (const auto& members : demands_of) {
        std::unordered_map<EdgeId, DirectionSums> sums;
        for (const std::size_t d : members) {
            for (const EdgePrice& price : prices[d]) {
                if (price.edge < 0 || static_cast<std::size_t>(price.edge) >= problem.edges.size()) return false;
                if (price.price < 0) return false;
                DirectionSums& sum = sums[price.edge];
                (price.backwards ? sum.backwards : sum.forwards) += price.price;
            }
        }
        for (const auto& [edge, sum] : sums)
            claimed[edge] += std::max(sum.forwards, sum.backwards);
    }
    for (std::size_t e = 0; e < claimed.size(); ++e) {
        if (claimed[e] > static_cast<WideCost>(parts) * problem.edges[e].opening) return false;
    }
    return true;
}

/// Shortest distances to every vertex from the nearest of the roots, by `cost_of_edge`.
template <class EdgeCost>
std::vector<Cost> distances_from_roots(const SharedCostProblem& problem, const Adjacency& steps,
                                       EdgeCost cost_of_edge) {
    std::vector<Cost> distance(problem.vertex_count, kLargestCost);
    LabelHeap<Cost> queue(problem.vertex_count);
    for (const RootOption& root : problem.roots) {
        distance[root.at] = 0;
        queue.push_or_lower(root.at, 0);
    }
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Step& step : steps.from(here)) {
            const Cost along = add(distance[here], cost_of_edge(problem.edges[step.edge]));
            if (along >= distance[step.to]) continue;
            distance[step.to] = along;
            queue.push_or_lower(step.to, along);
        }
    }
    return distance;
}

/// Finds one demand's priced distance from every root, searching from the demand. What is left to the nearest root is
/// never less than weight * its length distance + multiplicity * its passage distance, which steers the search.
class PricedSearch {
public:
    PricedSearch(const SharedCostProblem& problem, Cost parts)
        : problem_(problem),
          parts_(parts),
          steps_(problem.vertex_count, problem.edges),
          length_left_(distances_from_roots(problem, steps_, [](const SharedCostEdge& e) { return e.length; })),
          passage_left_(distances_from_roots(problem, steps_, [](const SharedCostEdge& e) { return e.passage; })),
          is_root_(problem.vertex_count, 0),
          label_(problem.vertex_count, kLargestCost),
          forwards_(problem.edges.size(), 0),
          backwards_(problem.edges.size(), 0),
          queue_(problem.vertex_count) {
        for (const RootOption& root : problem.roots) {
            root_vertices_ += is_root_[root.at] ? 0 : 1;
            is_root_[root.at] = 1;
        }
        for (VertexId v = 0; v < problem.vertex_count; ++v) {
            if (length_left_[v] == kLargestCost) continue;  // Cut off from every root.
            farthest_length_ = std::max(farthest_length_, length_left_[v]);
            farthest_passage_ = std::max(farthest_passage_, passage_left_[v]);
        }
    }

    /// Adds the demand's priced distance, in parts, to each root's sum.
    void add_distances(const Demand& demand, const std::vector<EdgePrice>& prices, std::vector<WideCost>& sums) {
        for (const EdgePrice& p : prices) {
            Cost& sum = (p.backwards ? backwards_ : forwards_)[p.edge];
            sum = add(sum, p.price);
        }
        search(demand);
        for (std::size_t r = 0; r < sums.size(); ++r)
            sums[r] += label_[problem_.roots[r].at];
        for (const VertexId v : met_)
            label_[v] = kLargestCost;
        met_.clear();
        queue_.clear();
        for (const EdgePrice& p : prices)
            (p.backwards ? backwards_ : forwards_)[p.edge] = 0;
    }

private:
    void search(const Demand& demand) {
        const bool steer = add(times(demand.weight, farthest_length_), times(demand.multiplicity, farthest_passage_)) <
                           kLargestCost / 8 / parts_;
        meet(demand.at, 0, demand, steer);
        for (std::int32_t roots_left = root_vertices_; !queue_.empty() && roots_left > 0;) {
            const VertexId here = queue_.pop();
            roots_left -= is_root_[here];
            for (const Step& step : steps_.from(here)) {
                const SharedCostEdge& edge = problem_.edges[step.edge];
                const Cost price = edge.head == here ? forwards_[step.edge] : backwards_[step.edge];
                const Cost along = add(times(path_charge(demand, edge), parts_), price);
                meet(step.to, add(label_[here], along), demand, steer);
            }
        }
    }

    void meet(VertexId v, Cost label, const Demand& demand, bool steer) {
        if (label >= label_[v]) return;
        if (label_[v] == kLargestCost) met_.push_back(v);
        label_[v] = label;
        const bool known = steer && length_left_[v] <= farthest_length_;
        const Cost left = known ? demand.weight * length_left_[v] + demand.multiplicity * passage_left_[v] : 0;
        queue_.push_or_lower(v, add(label, left * parts_));
    }

    const SharedCostProblem& problem_;
    Cost parts_;
    Adjacency steps_;
    std::vector<Cost> length_left_;
    std::vector<Cost> passage_left_;
    std::vector<std::int32_t> is_root_;
    std::vector<Cost> label_;
    std::vector<Cost> forwards_;
    std::vector<Cost> backwards_;
    std::vector<VertexId> met_;
    LabelHeap<Cost> queue_;
    std::int32_t root_vertices_ = 0;
    Cost farthest_length_ = 0;
    Cost farthest_passage_ = 0;
};

/// For each root whether some demand cannot be reached from it.
std::vector<char> roots_cut_off(const SharedCostProblem& problem) {
    const std::vector<std::int32_t> part = connected_parts(problem);
    std::vector<char> cut_off;
    for (const RootOption& root : problem.roots) {
        cut_off.push_back(std::any_of(problem.demands.begin(), problem.demands.end(),
                                      [&](const Demand& demand) { return part[demand.at] != part[root.at]; }));
    }
    return cut_off;
}

/// The least possible cost of a plan with this root, given the sum of distances in parts.
Cost raised_to_lattice(WideCost sum_in_parts, Cost parts, Cost step, Cost root_cost) {
    const WideCost unit = static_cast<WideCost>(parts) * std::max<Cost>(step, 1);
    const WideCost raised = (sum_in_parts + unit - 1) / unit * std::max<Cost>(step, 1);
    return saturated(raised + root_cost);
}

/// What some sets of prices prove for each root; nothing when one breaks a rule.
std::optional<std::vector<Cost>> bound_by_prices(const SharedCostProblem& problem,
                                                 const std::vector<const EdgePriceSet*>& sets, std::int64_t parts) {
    for (const EdgePriceSet* prices : sets) {
        if (!prices_keep_the_rules(problem, *prices, parts)) return std::nullopt;
    }
    PricedSearch search(problem, parts);
    std::vector<WideCost> best_sums(problem.roots.size(), 0);
    for (const EdgePriceSet* prices : sets) {
        std::vector<WideCost> sums(problem.roots.size(), 0);
        for (std::size_t d = 0; d < problem.demands.size(); ++d) {
            search.add_distances(problem.demands[d], (*prices)[d], sums);
        }
        for (std::size_t r = 0; r < sums.size(); ++r)
            best_sums[r] = std::max(best_sums[r], sums[r]);
    }
    const Cost step = lattice_step(problem);
    const std::vector<char> cut_off = roots_cut_off(problem);
    std::vector<Cost> bounds;
    for (std::size_t r = 0; r < best_sums.size(); ++r) {
        const Cost bound = raised_to_lattice(best_sums[r], parts, step, problem.roots[r].cost);
        bounds.push_back(cut_off[r] ? kLargestCost : bound);
    }
    return bounds;
}

/// Whether the choices cover all plans: each split has both of its sides, one after the other, down to single parts.
bool cover_all_plans(const std::vector<PartProof>& parts) {
    struct Range {
        std::size_t begin;
        std::size_t end;
        std::size_t depth;  ///< Choices made.
    };
    std::vector<Range> rest{{0, parts.size(), 0}};
    while (!rest.empty()) {
        const Range range = rest.back();
        rest.pop_back();
        if (range.end - range.begin == 1 && parts[range.begin].choices.size() == range.depth) continue;
        std::size_t unused = range.end;
        for (std::size_t i = range.begin; i < range.end; ++i) {
            if (parts[i].choices.size() <= range.depth) return false;
            const EdgeChoice choice = parts[i].choices[range.depth];
            if (choice.edge != parts[range.begin].choices[range.depth].edge) return false;
            if (!choice.used) unused = std::min(unused, i);
            if (choice.used && unused < i) return false;
        }
        if (unused == range.begin || unused == range.end) return false;
        rest.push_back({range.begin, unused, range.depth + 1});
        rest.push_back({unused, range.end, range.depth + 1});
    }
    return true;
}

/// What is proved of the plans that keep to the choices.
std::optional<std::vector<Cost>> bound_of_part(SharedCostProblem problem, const PartProof& part) {
    WideCost opened = 0;
    for (const EdgeChoice choice : part.choices) {
        if (choice.edge < 0 || static_cast<std::size_t>(choice.edge) >= problem.edges.size()) return std::nullopt;
        SharedCostEdge& edge = problem.edges[choice.edge];
        if (choice.used) {
            opened += edge.opening;
            edge.opening = 0;
        } else {
            edge.head = edge.tail;  // Nothing passes a loop.
        }
    }
    auto bounds = bound_by_prices(problem, {&part.prices}, part.parts);
    if (!bounds) return std::nullopt;
    for (Cost& bound : *bounds)
        bound = saturated(bound + opened);
    return bounds;
}

}  // namespace

std::optional<std::vector<Cost>> bound_proved(const SharedCostProblem& problem,
                                              const SharedCostCertificate& certificate) {
    if (!well_formed(problem)) return std::nullopt;
    std::vector<const EdgePriceSet*> sets{&certificate.prices};
    for (const EdgePriceSet& more : certificate.more_prices)
        sets.push_back(&more);
    auto bounds = bound_by_prices(problem, sets, certificate.parts);
    if (!bounds || certificate.splits.empty()) return bounds;
    if (!cover_all_plans(certificate.splits)) return std::nullopt;
    std::vector<Cost> of_all_parts(problem.roots.size(), kLargestCost);
    for (const PartProof& part : certificate.splits) {
        const auto of_part = bound_of_part(problem, part);
        if (!of_part) return std::nullopt;
        for (std::size_t r = 0; r < of_all_parts.size(); ++r)
            of_all_parts[r] = std::min(of_all_parts[r], (*of_part)[r]);
    }
    for (std::size_t r = 0; r < bounds->size(); ++r)
        (*bounds)[r] = std::max((*bounds)[r], of_all_parts[r]);
    return bounds;
}

}  // namespace spadework::graph
