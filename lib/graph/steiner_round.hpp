#pragma once

// One round of bounds and trees on one network: ascents from several roots, each with trees grown from what it left.

#include <cstdint>
#include <functional>
#include <vector>

#include "graph/steiner_ascent.hpp"
#include "graph/steiner_tree.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph::steiner {

/// How much to do in a round.
struct RoundSize {
    std::size_t roots = 6;
    std::size_t varied_trees = 2;  ///< Trees grown by randomly varied costs, for each root.
};

struct Round {
    std::vector<Ascent> ascents;
    std::vector<Tree> trees;  ///< Each after local search; the first for each ascent, where there is one, uses only
                              ///< edges that the ascent left nothing of.
    std::vector<std::int32_t> first_tree_of;  ///< For each ascent the number of that tree, or -1.
};

/// Where the guide is not empty every other ascent follows it. The result depends on the number of the round and not
/// on the number of threads. `stop(worker)` may end it early: bounds and trees are valid, there may be fewer.
Round work_round(const Network& network, const Tree& guide, int number, const RoundSize& size, WorkerTeam& team,
                 const std::function<bool(std::size_t worker)>& stop);

}  // namespace spadework::graph::steiner
