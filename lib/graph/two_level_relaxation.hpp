#pragma once

// The figures of the two-level bound, exact.
//
// Feeder sizes are replaced by straight lines below them: whatever size serves u units costs at least
// (a + b*u) * length + (a' + b'*u) * passage + a'' + b''*u. So an open site costs at least its own cost, a'' and `a`
// along the shortest way from the source, whatever it serves, and each unit it serves at least b'' and `b` along the
// shortest way. What is left to choose is which sites to open, which serves whom, and where the trenches run.
//
// All costs here are in parts of a cost unit, so that lines and prices may be finer than one unit.

#include <cstdint>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/saturating.hpp"
#include "graph/two_level_figures.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph::two_level {

/// A site that can be reached from the source.
struct RelaxedSite {
    VertexId at = 0;
    Cost opening = 0;   ///< What it costs at least, in parts.
    Cost per_unit = 0;  ///< What every unit it serves costs at least, in parts.
};

struct RelaxedDemand {
    VertexId at = 0;
    std::int64_t units = 0;
    pair_routes::Charge service;  ///< In parts.
    bool may_be_direct = false;
    pair_routes::Charge direct;  ///< In parts.
    Cost direct_fixed = 0;       ///< In parts; may be negative.
};

/// `base + per_unit * units`, in parts.
struct Line {
    Cost base = 0;
    Cost per_unit = 0;
};

struct Relaxation {
    Cost parts = 1;
    VertexId source = 0;
    std::vector<RelaxedSite> sites;
    std::vector<RelaxedDemand> demands;
    std::vector<Cost> opening;          ///< By edge, in parts.
    std::vector<Length> source_length;  ///< By vertex: shortest length from the source; the largest Cost if cut off.
    std::vector<Cost> source_passage;   ///< By vertex: smallest passage from the source, by itself.
    Line weight;
    Line multiplicity;
    Line fixed;
    std::int32_t most_sites = 0;
    WideCost constant = 0;  ///< Added to every bound, in parts.
    bool in_trees = false;  ///< Demands may be taken to be served in a tree; see two_level_even.hpp.
};

/// One open site of the plan that the lines should fit well.
struct FeederUse {
    std::int64_t units = 0;
    Length length = 0;
    Cost passage = 0;
};

/// Lines that touch the price list where the given feeders lie. The problem is well formed.
Relaxation relaxed(const TwoLevelProblem& problem, const pair_routes::Network& network,
                   const std::vector<FeederUse>& uses);

/// Distances from the source when every edge costs the charge; the largest Cost where cut off.
std::vector<Cost> distances_from(const pair_routes::Network& network, VertexId from, pair_routes::Charge charge);

}  // namespace spadework::graph::two_level
