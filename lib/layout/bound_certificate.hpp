#pragma once

// What a layout's bound rests on, as plain values: enough for code that knows no solver to prove the bound again.
// lib/certificate writes them to files, reads them back and checks them; its header says by what rules.

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "graph/chain_certificate.hpp"
#include "graph/shared_cost_solver.hpp"
#include "graph/two_level_solver.hpp"
#include "layout/plan.hpp"
#include "routing/network.hpp"
#include "routing/one_measure.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// One way of one segment as a routing problem charges it, in solver units. It runs from the segment's `from` (tail) to
/// its `to` (head).
struct CertifiedEdge {
    SegmentIndex segment = 0;
    int way = 0;  ///< Index into ways_of(scenario, segment).
    graph::Cost opening = 0;
    graph::Length length = 0;
    graph::Cost passage = 0;
    int room = -1;               ///< Most cables; -1 for no limit.
    graph::Cost room_price = 0;  ///< Counted for each cable on a duct of limited room; see RoomPrices.
};

/// A routing problem with one fan-out point in which no plan of the layout costs more than it really does, and prices
/// that bound it (SharedCostCertificate). Vertices are places.
struct RoutesEvidence {
    Money constant;                           ///< What every plan costs beside its routes, at least.
    std::int64_t units_a_minor = 1;           ///< Solver units in a minor unit of money.
    std::vector<CertifiedEdge> edges;         ///< Prices name them by position.
    std::vector<graph::Demand> demands;       ///< A building each, in order; then the hub where a trunk comes from it.
    std::vector<graph::RootOption> roots;     ///< Where cables fan out: the hub, or places for the enclosure.
    std::int64_t parts = 1;                   ///< Parts of price in a solver unit.
    std::vector<graph::EdgePriceSet> prices;  ///< Each set alone proves a bound for every root; the largest counts.
    /// Parts that are all plans together, each with prices of its own; the least over them counts where it is more.
    std::vector<graph::PartProof> splits = {};
};

/// A chain problem in which no daisy chain costs more than it really does, and prices that bound it by the rules of
/// graph/chain_certificate.hpp; or such a problem of rings, without the hops that close them, and the rules of
/// graph/ring_certificate.hpp. Stops are the buildings in order, the source is the hub.
struct ChainEvidence {
    Money constant;                    ///< What every plan costs beside its routes and its chains, at least.
    std::int64_t units_a_minor = 1;    ///< Solver units in a minor unit of money.
    std::vector<CertifiedEdge> edges;  ///< Prices name them by position.
    graph::Cost weight = 0;            ///< Of every hop's cable, a length unit.
    graph::Cost multiplicity = 1;      ///< How many times a hop pays an edge's passage.
    graph::Cost chain_cost = 0;        ///< Paid by every chain.
    graph::Cost end_saving = 0;        ///< Saved by every chain.
    graph::ChainCertificate proof;
};

/// A two-level problem in which no plan with trunks costs more than it really does, and what bounds it set by set of
/// enclosure places (graph/two_level_solver.hpp). The source is the hub; demands are the buildings in order.
struct TrunkEvidence {
    Money constant;                              ///< What every plan costs beside its routes, at least.
    std::int64_t units_a_minor = 1;              ///< Solver units in a minor unit of money.
    std::vector<CertifiedEdge> edges;            ///< Prices name them by position.
    std::vector<graph::TwoLevelDemand> demands;  ///< A building each, in order; vertices are places.
    std::vector<graph::Site> sites;              ///< Where enclosures may stand.
    std::vector<graph::FeederSize> sizes;        ///< Of trunks, in strands in use.
    graph::TwoLevelCertificate proof;
};

/// Every bound a layout's bound is the best of. Where cables may fan out from several places, each place's plans are
/// bounded by the best evidence that names it, and the layout by the least of these.
struct BoundCertificate {
    std::vector<std::shared_ptr<const RoutesEvidence>> routes;
    std::shared_ptr<const ChainEvidence> chains;
    std::shared_ptr<const TrunkEvidence> trunks;
    /// A layout whose plans include all of this one's, and whose bound is taken over.
    std::optional<LayoutKind> contained_in;

    /// Adds what the other rests on; what both rest on stays once.
    void add(const BoundCertificate& other);
};

/// What a solver proved: the problem as it was solved, and what bounds it.
struct ProvedTrunks {
    graph::TwoLevelProblem problem;
    graph::TwoLevelCertificate certificate;
};
struct ProvedChains {
    graph::ChainProblem problem;
    graph::ChainCertificate certificate;
};
struct SolverProof {
    std::vector<ProvedProblem> routes;
    std::optional<ProvedTrunks> trunks;
    std::optional<ProvedChains> chains;
};

/// What was proved on a network, which is `plain` with prices on room added to its passage costs.
BoundCertificate certified(Money constant, const Network& plain, const Network& on, const SolverProof& proof);

}  // namespace spadework
