#pragma once

// What no plan of a TwoLevelProblem can undercut.

#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/two_level_prices.hpp"
#include "graph/two_level_problem.hpp"
#include "graph/two_level_relaxation.hpp"
#include "graph/two_level_sets.hpp"

namespace spadework::graph::two_level {

struct BoundEffort {
    double seconds = 0.0;  ///< For all passes together, wall clock.
    int threads = 1;
};

/// Raises prices pass by pass; what they are worth is proved at the end.
class BoundRun {
public:
    /// The problem is well formed and `plan` one of its plans, the better the nearer the bound comes. `toll` is what
    /// one more site than allowed is thought to save; any value from 0 gives a valid bound.
    BoundRun(const TwoLevelProblem& problem, const pair_routes::Network& network, const TwoLevelPlan& plan, Cost toll,
             const BoundEffort& effort);

    /// One pass, aiming at a bound of `target`; false when more passes would gain nothing.
    bool pass(Cost target);

    /// What the prices seem to be worth, chords left out. Not proved.
    [[nodiscard]] double guess() const;

    /// For each edge how much of it the averaged ways use, 0 to 1.
    [[nodiscard]] std::vector<double> edge_use() const { return descent_->edge_use(network_.edges.size()); }

    /// The sites that the averaged ways use most, so many, ascending indices into the problem's sites.
    [[nodiscard]] std::vector<std::int32_t> sites_most_used(const TwoLevelProblem& problem, std::size_t count) const;

    /// A lower bound proved in exact arithmetic.
    [[nodiscard]] Cost prove();

    /// The same problem looked at set by set, beginning from the best prices; nothing where that is not possible.
    [[nodiscard]] std::optional<SiteSets> site_sets(const TwoLevelProblem& problem);
    [[nodiscard]] const PriceDescent& descent() const { return *descent_; }
    [[nodiscard]] const Relaxation& lines() const { return plain_; }

private:
    double search_all();

    const pair_routes::Network& network_;
    WorkerTeam team_;
    Relaxation plain_;
    Relaxation relaxation_;  ///< Even where that can be had, else plain.
    SearchField field_;
    std::vector<DemandSearch> searches_;
    std::vector<double> beside_prices_;  ///< By demand: what its last way costs beside prices; infinite before.
    Cost toll_;                          ///< In parts.
    std::unique_ptr<PriceDescent> descent_;
};

}  // namespace spadework::graph::two_level
