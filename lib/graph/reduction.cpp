#include "graph/reduction.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "graph/connected_parts.hpp"
#include "graph/network_shrinking.hpp"
#include "graph/path_measures.hpp"

namespace spadework::graph {

namespace {

/// Root options that reach every demand.
std::vector<std::int32_t> possible_roots(const SharedCostProblem& problem) {
    const std::vector<std::int32_t> part = connected_parts(problem);
    std::vector<std::int32_t> possible;
    for (std::size_t r = 0; r < problem.roots.size(); ++r) {
        const std::int32_t home = part[problem.roots[r].at];
        const bool reaches_all = std::all_of(problem.demands.begin(), problem.demands.end(),
                                             [&](const Demand& demand) { return part[demand.at] == home; });
        if (reaches_all) possible.push_back(static_cast<std::int32_t>(r));
    }
    return possible;
}

/// Of several options at one vertex only the cheapest, first by id, can be best.
std::vector<std::int32_t> cheapest_at_each_vertex(const SharedCostProblem& problem,
                                                  const std::vector<std::int32_t>& options) {
    std::map<VertexId, std::int32_t> best;
    for (const std::int32_t r : options) {
        const auto [known, is_new] = best.try_emplace(problem.roots[r].at, r);
        if (!is_new && problem.roots[r].cost < problem.roots[known->second].cost) known->second = r;
    }
    std::vector<std::int32_t> kept;
    for (const std::int32_t r : options) {
        if (best.at(problem.roots[r].at) == r) kept.push_back(r);
    }
    return kept;
}

/// Writes the shrunk network down as a problem with vertices numbered anew.
class Writer {
public:
    Writer(const SharedCostProblem& original, const ShrinkingNetwork& network)
        : original_(original),
          network_(network),
          new_id_(original.vertex_count, -1),
          any_length_(std::any_of(original.edges.begin(), original.edges.end(),
                                  [](const SharedCostEdge& e) { return e.length > 0; })) {}

    ReducedProblem write(const std::vector<std::int32_t>& roots) && {
        result_.way_back.pieces = network_.pieces();
        result_.way_back.fates = network_.fates();
        result_.way_back.forced = network_.forced();
        write_roots(roots);
        write_edges(connected_parts(original_));
        write_demands();
        result_.problem.vertex_count = vertex_count_;
        return std::move(result_);
    }

private:
    VertexId renumbered(VertexId old) {
        if (new_id_[old] < 0) new_id_[old] = vertex_count_++;
        return new_id_[old];
    }

    void write_roots(const std::vector<std::int32_t>& roots) {
        home_ = original_.roots[roots.front()].at;
        fixed_root_ = roots.size() == 1 ? home_ : -1;
        for (const std::int32_t r : roots) {
            result_.problem.roots.push_back({renumbered(original_.roots[r].at), original_.roots[r].cost});
            result_.way_back.root_of.push_back(r);
        }
    }

    void write_edges(const std::vector<std::int32_t>& part) {
        const std::vector<Piece>& pieces = network_.pieces();
        for (std::size_t p = 0; p < pieces.size(); ++p) {
            if (!network_.alive(static_cast<std::int32_t>(p)) || part[pieces[p].tail] != part[home_]) continue;
            const VertexId tail = renumbered(pieces[p].tail);
            const VertexId head = renumbered(pieces[p].head);
            result_.problem.edges.push_back({tail, head, pieces[p].opening, pieces[p].length, pieces[p].passage});
            result_.way_back.piece_of_edge.push_back(static_cast<std::int32_t>(p));
        }
    }

    void write_demands() {
        const std::vector<std::int32_t> measures = path_measures(original_);
        result_.one_measure = std::all_of(measures.begin(), measures.end(), [](std::int32_t m) { return m == 0; });
        for (VertexId v = 0; v < original_.vertex_count; ++v) {
            if (v == fixed_root_) continue;
            std::map<std::int32_t, std::vector<std::int32_t>> by_measure;
            for (const std::int32_t d : network_.demands_at()[v])
                by_measure[measures[d]].push_back(d);
            for (const auto& [measure, members] : by_measure)
                write_joined(v, members);
        }
    }

    /// One reduced demand for members that share a vertex and a measure.
    void write_joined(VertexId at, const std::vector<std::int32_t>& members) {
        Demand joined{renumbered(at), 0, 0};
        for (const std::int32_t d : members) {
            joined.weight = add(joined.weight, original_.demands[d].weight);
            joined.multiplicity = add(joined.multiplicity, original_.demands[d].multiplicity);
        }
        const bool by_weight = joined.weight > 0 && any_length_;
        const Cost sum = by_weight ? joined.weight : joined.multiplicity;
        for (const std::int32_t d : members) {
            DemandFate& fate = result_.way_back.fates[d];
            fate.reduced = static_cast<std::int32_t>(result_.problem.demands.size());
            fate.share_sum = std::max<Cost>(sum, 1);
            fate.share = by_weight ? original_.demands[d].weight : original_.demands[d].multiplicity;
            if (sum == 0) fate.share = d == members.front() ? 1 : 0;
        }
        result_.problem.demands.push_back(joined);
    }

    const SharedCostProblem& original_;
    const ShrinkingNetwork& network_;
    std::vector<VertexId> new_id_;
    bool any_length_;
    VertexId vertex_count_ = 0;
    VertexId home_ = 0;
    VertexId fixed_root_ = -1;
    ReducedProblem result_;
};

}  // namespace

std::optional<ReducedProblem> reduced(const SharedCostProblem& problem) {
    const std::vector<std::int32_t> roots = cheapest_at_each_vertex(problem, possible_roots(problem));
    if (roots.empty()) return std::nullopt;
    std::vector<char> kept(problem.vertex_count, 0);
    for (const std::int32_t r : roots)
        kept[problem.roots[r].at] = 1;

    ShrinkingNetwork network(problem, std::move(kept));
    network.drop_beaten_parallels();
    network.shrink_to_forks();
    return Writer(problem, network).write(roots);
}

}  // namespace spadework::graph
