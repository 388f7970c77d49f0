#pragma once

// Plans for a TwoLevelProblem: choosing sites on a tree of routes and improving the tree under that choice, in turns.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/two_level_figures.hpp"
#include "graph/two_level_problem.hpp"
#include "graph/two_level_siting.hpp"

namespace spadework::graph::two_level {

/// A tree of routes with the sites on it.
struct Layout {
    std::vector<EdgeId> tree;
    Siting siting;
    Cost cost = 0;  ///< All in.
};

/// Starts from a few joining trees and keeps what was found for one number of sites as a start for the next.
class Search {
public:
    Search(const TwoLevelProblem& problem, const pair_routes::StopRule& stop);

    /// Takes what joins all demands to the source as the only starts for as many sites.
    void begin_from(const std::vector<TwoLevelStart>& starts);

    /// False when some demand or every site is cut off, so that nothing can be planned.
    [[nodiscard]] bool possible() const { return !starts_.empty(); }

    /// The best layout found with exactly `count` open sites, given what was found for other counts.
    std::optional<Layout> with_sites(std::int32_t count);

    /// Takes turns of siting and route improvement from a given tree.
    std::optional<Layout> descend(std::vector<EdgeId> tree, std::int32_t count, std::vector<std::int32_t> open) const;

    /// A cheaper layout with one open site exchanged for another, the routes laid for it before sites are chosen again;
    /// nothing where none of those tried is.
    [[nodiscard]] std::optional<Layout> with_another_site(const Layout& from) const;

    /// Joins everything anew where edges cost these openings, then takes turns at the true ones from that tree.
    [[nodiscard]] std::optional<Layout> from_openings(const std::vector<Cost>& opening, std::int32_t count,
                                                      const std::vector<std::int32_t>& open) const;

    /// The same for each of these sets of sites, with exactly its sites; without those that nothing was found for.
    [[nodiscard]] std::vector<Layout> from_openings_at(const std::vector<Cost>& opening,
                                                       const std::vector<std::vector<std::int32_t>>& sets) const;

    [[nodiscard]] const std::vector<Feeder>& feeders() const { return feeders_; }
    [[nodiscard]] const pair_routes::Network& network() const { return network_; }

private:
    [[nodiscard]] std::optional<std::vector<EdgeId>> joined_at(const std::vector<Cost>& opening) const;
    [[nodiscard]] Layout settled(Layout best, std::vector<std::int32_t> routed_by) const;
    [[nodiscard]] std::optional<Layout> routed_anew(const std::vector<EdgeId>& tree, const SitingTable& table,
                                                    const Siting& siting) const;
    [[nodiscard]] std::optional<Layout> routed_on(std::vector<EdgeId> tree, const Siting& siting) const;

    const TwoLevelProblem& problem_;
    const pair_routes::StopRule& stop_;
    pair_routes::Network network_;
    pair_routes::Charge typical_;  ///< Mean service charge.
    std::vector<Feeder> feeders_;
    std::vector<std::vector<EdgeId>> starts_;
    std::vector<TwoLevelStart> given_;
    std::vector<Layout> found_;
};

/// The layout in the terms of the problem, priced anew; nothing should it turn out not to be a plan.
std::optional<TwoLevelPlan> plan_from(const TwoLevelProblem& problem, const pair_routes::Network& network,
                                      const std::vector<Feeder>& feeders, const Layout& layout);

}  // namespace spadework::graph::two_level
