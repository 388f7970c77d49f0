#include "graph/splitting.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "graph/saturating.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph {

namespace {

constexpr double kUsed = 1e-3;  ///< Weight of an edge's use beside how far it is off from all or nothing.

/// Plans that keep to some choices, and what is known of them.
struct Part {
    PartProof proof;
    Cost opened = 0;  ///< What the edges cost that all of them use.
    Cost bound = 0;
    std::vector<double> edge_use;
    std::vector<EdgeId> given_up;  ///< Splits by these edges prove less than is proved without.
};

class Splitting {
public:
    Splitting(const SharedCostProblem& problem, const SolveLimits& limits, const SolveClock& clock,
              PricedSolution priced)
        : problem_(problem),
          limits_(limits),
          clock_(clock),
          progress_(limits.progress),
          team_(std::min(limits.threads, 2)),
          best_(std::move(priced.solution)) {
        parts_.push_back({{{}, best_.certificate.prices, best_.certificate.parts}, 0, best_.bound, {}, {}});
        parts_.front().edge_use = std::move(priced.edge_use);
    }

    SharedCostSolution take() {
        for (int split = 0; split < limits_.most_splits && !closed() && !out_of_time(); ++split) {
            if (!split_lowest()) break;
        }
        if (parts_.size() > 1) {
            for (Part& part : parts_)
                best_.certificate.splits.push_back(std::move(part.proof));
        }
        best_.root_bounds.front() = std::max(best_.root_bounds.front(), best_.bound);
        best_.optimal = best_.bound == best_.plan->value;
        best_.roots_left.assign(1, 0);
        return std::move(best_);
    }

private:
    [[nodiscard]] bool closed() const { return best_.bound >= wanted(); }

    /// The bound at which the work ends.
    [[nodiscard]] Cost wanted() const {
        const double gap = std::max(limits_.target_gap, limits_.gap_unsplit);
        const auto left = static_cast<Cost>(gap * static_cast<double>(best_.plan->value));
        return std::min(best_.plan->value - left, limits_.bound_wanted);
    }

    bool out_of_time() {
        best_.interrupted = clock_.left() <= 0.0 || progress_.should_stop();
        return best_.interrupted;
    }

    /// Whether there was an edge to split by. A split that proves less than the whole is not kept, so that the bound is
    /// always what the parts prove.
    bool split_lowest() {
        const auto lowest = std::min_element(parts_.begin(), parts_.end(),
                                             [](const Part& a, const Part& b) { return a.bound < b.bound; });
        const EdgeId edge = half_used(*lowest);
        if (edge < 0) return false;
        std::array<Part, 2> halves{half(*lowest, edge, true), half(*lowest, edge, false)};
        const Cost enough = wanted();
        std::array<SharedCostSolution, 2> solutions;
        team_.run(2, 1, [&](std::size_t i, std::size_t) { solutions[i] = bounded(halves[i], *lowest, enough); });
        for (SharedCostSolution& solution : solutions)
            offer(std::move(solution.plan));
        if (std::min(halves[0].bound, halves[1].bound) < lowest->bound) {
            lowest->given_up.push_back(edge);
        } else {
            *lowest = std::move(halves[0]);
            parts_.insert(lowest + 1, std::move(halves[1]));
        }
        const auto least = std::min_element(parts_.begin(), parts_.end(),
                                            [](const Part& a, const Part& b) { return a.bound < b.bound; });
        best_.bound = std::max(best_.bound, std::min(least->bound, best_.plan->value));
        if (limits_.progress != nullptr) limits_.progress->improved(best_.plan->value, best_.bound);
        return true;
    }

    /// The edge with the most opening cost times what the flows are off from using all or nothing. Where they are off
    /// nowhere one that they use; -1 where those are all chosen.
    [[nodiscard]] EdgeId half_used(const Part& part) const {
        EdgeId best = -1;
        double most = 0.0;
        for (std::size_t e = 0; e < part.edge_use.size(); ++e) {
            const double off = std::min(part.edge_use[e], 1.0 - part.edge_use[e]) + kUsed * part.edge_use[e];
            const double counts = off * static_cast<double>(problem_.edges[e].opening);
            if (counts <= most || done_with(part, static_cast<EdgeId>(e))) continue;
            most = counts;
            best = static_cast<EdgeId>(e);
        }
        return best;
    }

    static bool done_with(const Part& part, EdgeId edge) {
        const auto& choices = part.proof.choices;
        return std::find(part.given_up.begin(), part.given_up.end(), edge) != part.given_up.end() ||
               std::any_of(choices.begin(), choices.end(), [edge](EdgeChoice choice) { return choice.edge == edge; });
    }

    [[nodiscard]] Part half(const Part& part, EdgeId edge, bool used) const {
        Part half;
        half.proof.choices = part.proof.choices;
        half.proof.choices.push_back({edge, used});
        half.opened = part.opened + (used ? problem_.edges[edge].opening : 0);
        return half;
    }

    /// Finds prices for half of a part. Its plan is in terms of what is left of the problem.
    SharedCostSolution bounded(Part& half, const Part& whole, Cost wanted) {
        const SharedCostProblem rest = rest_of(problem_, half.proof.choices);
        SolveLimits limits = limits_;
        limits.threads = 1;
        limits.seconds = clock_.left();
        limits.progress = &progress_;
        limits.target_gap = 0.0;  // What is wanted leaves the gap already.
        limits.bound_wanted = wanted - half.opened;
        const KnownPrices known{prices_but(whole, half.proof.choices.back().edge), whole.proof.parts};
        PricedSolution priced = solve_by_prices(rest, limits, PlansBuilt::along_flows, &known);
        half.proof.prices = std::move(priced.solution.certificate.prices);
        half.proof.parts = priced.solution.certificate.parts;
        half.edge_use = std::move(priced.edge_use);
        half.bound = priced.solution.plan ? add(priced.solution.bound, half.opened) : kLargestCost;
        if (half.bound < whole.bound) take_prices(known, rest, half);
        return std::move(priced.solution);
    }

    /// A part's prices on all edges but one.
    static EdgePriceSet prices_but(const Part& part, EdgeId edge) {
        EdgePriceSet prices = part.proof.prices;
        for (std::vector<EdgePrice>& of_demand : prices)
            std::erase_if(of_demand, [edge](const EdgePrice& price) { return price.edge == edge; });
        return prices;
    }

    /// Takes over what known prices prove where that is more.
    static void take_prices(const KnownPrices& known, const SharedCostProblem& rest, Part& half) {
        const auto bounds = bound_proved(rest, {known.prices, {}, known.parts, {}});
        if (!bounds || add(bounds->front(), half.opened) <= half.bound) return;
        half.bound = add(bounds->front(), half.opened);
        half.proof.prices = known.prices;
        half.proof.parts = known.parts;
    }

    void offer(std::optional<SharedCostPlan> plan) {
        if (!plan) return;
        const auto value = cost_of(problem_, *plan);
        if (!value || *value >= best_.plan->value) return;
        best_.plan = std::move(plan);
        best_.plan->value = *value;
    }

    const SharedCostProblem& problem_;
    const SolveLimits& limits_;
    const SolveClock& clock_;
    PartProgress progress_;
    WorkerTeam team_;
    SharedCostSolution best_;
    std::vector<Part> parts_;  ///< In the order of the splits.
};

}  // namespace

SharedCostProblem rest_of(const SharedCostProblem& problem, const std::vector<EdgeChoice>& choices) {
    SharedCostProblem rest = problem;
    for (const EdgeChoice choice : choices) {
        SharedCostEdge& edge = rest.edges[choice.edge];
        choice.used ? edge.opening = 0 : edge.head = edge.tail;
    }
    return rest;
}

SharedCostSolution closed_by_splitting(const SharedCostProblem& problem, const SolveLimits& limits,
                                       const SolveClock& clock, PricedSolution priced) {
    const bool is_open = priced.solution.plan && !priced.solution.interrupted;
    if (problem.roots.size() != 1 || !is_open) return std::move(priced.solution);
    return Splitting(problem, limits, clock, std::move(priced)).take();
}

}  // namespace spadework::graph
