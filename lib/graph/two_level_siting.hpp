#pragma once

// Which sites to open and who hangs from which, when the routes are taken from one given tree.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/pair_routes_tree.hpp"
#include "graph/two_level_figures.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph::two_level {

/// Open sites and what each demand hangs from.
struct Siting {
    std::vector<std::int32_t> open;       ///< Indices into the problem's sites, ascending.
    std::vector<std::int32_t> served_by;  ///< For each demand an index into `open`, or -1 for the source.
    Cost cost = 0;                        ///< All but the opening of the tree's own edges.
};

/// Distances along one tree. A site off the tree is taken to hang on it by its own cheapest path, opened for it alone.
class SitingTable {
public:
    SitingTable(const TwoLevelProblem& problem, const pair_routes::Network& network, const std::vector<Feeder>& feeders,
                const std::vector<EdgeId>& tree);

    /// Of these sites alone, which must be on the tree.
    SitingTable(const TwoLevelProblem& problem, const pair_routes::Network& network, const std::vector<Feeder>& feeders,
                const std::vector<EdgeId>& tree, const std::vector<std::int32_t>& sites);

    /// Sites that can be reached, ascending.
    [[nodiscard]] const std::vector<std::int32_t>& candidates() const { return candidates_; }

    /// The best assignment found with exactly these sites open (ascending indices into the problem's sites); nothing
    /// when none was found that the sizes can carry.
    [[nodiscard]] std::optional<Siting> assign(const std::vector<std::int32_t>& open) const;

    /// No assignment with one of the candidates added to these open sites costs less; by candidate, in their order.
    [[nodiscard]] std::vector<Cost> least_with_one_more(const std::vector<std::int32_t>& open) const;

    /// Edges that hang the site on the tree; none for a site on it.
    [[nodiscard]] std::vector<EdgeId> attachment(std::int32_t site) const;

private:
    struct Reach {
        Cost opening = 0;
        Length length = 0;
        Cost passage = 0;
        VertexId hangs_at = -1;
    };

    void measure_attachments(const pair_routes::RootedTree& laid);
    void measure_service(const pair_routes::RootedTree& laid);
    void price_feeders(std::int32_t site, Length length, Cost passage);
    void rank_feeders();

    /// What the cheapest feeder that serves so many units costs to the site; nothing when none does.
    [[nodiscard]] std::optional<Cost> feeder_cost_to(std::int32_t site, std::int64_t units) const {
        if (units < static_cast<std::int64_t>(smallest_.size())) return feeder_[site][smallest_[units]];
        return cost_of_unlisted(site, units);
    }
    [[nodiscard]] std::optional<Cost> cost_of_unlisted(std::int32_t site, std::int64_t units) const;

    [[nodiscard]] std::vector<Cost> least_with_one_more(const std::vector<std::int32_t>& open, bool on_lines) const;

    /// What every unit beyond what the smallest feeder serves adds at least, rounded down: the slope of a line below
    /// the costs of all sizes.
    [[nodiscard]] Cost least_per_unit(std::int32_t site) const;

    /// What the site costs at least when it is open and serves nothing, its feeder included.
    [[nodiscard]] WideCost least_when_open(std::int32_t site) const;

    const TwoLevelProblem& problem_;
    const pair_routes::Network& network_;
    const std::vector<Feeder>& feeders_;
    std::vector<std::int32_t> candidates_;
    std::vector<Reach> reach_;                ///< By vertex: how it hangs on the tree.
    std::vector<EdgeId> came_by_;             ///< By vertex: last edge from the tree.
    std::vector<std::vector<Cost>> feeder_;   ///< By site, by feeder: the cheapest of it and all larger ones.
    std::vector<std::uint32_t> smallest_;     ///< By units, as far as is worth a list: the smallest feeder for them.
    std::vector<std::vector<Cost>> service_;  ///< By site, by demand.
    std::vector<Cost> direct_;                ///< By demand; the largest Cost where it may not be served so.

    friend class Assignment;
};

/// Starting from `start`, adds, drops and swaps sites until exactly `count` are open and no swap lowers the cost.
std::optional<Siting> best_siting(const SitingTable& table, std::int32_t count, std::vector<std::int32_t> start,
                                  const pair_routes::StopRule& stop);

/// The cheapest assignments found with another candidate in the place of the open site at position `k`, cheapest first,
/// `most` at most.
std::vector<Siting> best_exchanges(const SitingTable& table, const std::vector<std::int32_t>& open, std::size_t k,
                                   std::size_t most);

}  // namespace spadework::graph::two_level
