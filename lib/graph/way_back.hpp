#pragma once

// How a plan or prices for a reduced problem are written for the problem it came from.

#include <cstdint>
#include <vector>

#include "graph/saturating.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

/// An edge of the original problem, or a chain of two pieces, with the pieces that it made useless.
struct Piece {
    VertexId tail = 0;
    VertexId head = 0;
    Cost opening = 0;
    Length length = 0;
    Cost passage = 0;
    EdgeId original = -1;        ///< The edge this is, or -1 for a chain.
    std::int32_t first = -1;     ///< Chain: the piece at the tail.
    std::int32_t second = -1;    ///< Chain: the piece at the head.
    bool first_turned = false;   ///< Chain: whether the first piece runs head to tail.
    bool second_turned = false;  ///< Chain: whether the second piece runs head to tail.
    std::int32_t beaten = -1;    ///< A parallel piece that this one makes useless; more of them by `next_beaten`.
    std::int32_t next_beaten = -1;
    bool beaten_turned = false;  ///< Of a beaten piece: whether it runs against the one that beats it.
};

/// A piece with the direction of travel.
struct PieceUse {
    std::int32_t piece = -1;
    bool turned = false;  ///< From the piece's head to its tail.
};

/// What became of a demand of the original problem.
struct DemandFate {
    std::int32_t reduced = -1;      ///< Demand of the reduced problem it is part of, or -1: it starts at the root.
    std::vector<PieceUse> lead_in;  ///< The only way from there to the demand, demand's end first.
    std::int64_t share = 0;         ///< Its part of the reduced demand is share / share_sum.
    std::int64_t share_sum = 1;
};

/// A piece that every plan opens, and the demand that pays for it.
struct ForcedPiece {
    PieceUse use;
    std::int32_t payer = 0;  ///< Demand of the original problem.
};

struct WayBack {
    std::vector<Piece> pieces;
    std::vector<std::int32_t> piece_of_edge;  ///< For each reduced edge.
    std::vector<std::int32_t> root_of;        ///< For each reduced root option the original one.
    std::vector<DemandFate> fates;            ///< For each original demand.
    std::vector<ForcedPiece> forced;
};

/// The edges of the original problem that a reduced edge stands for, those that they made useless left out.
std::vector<EdgeId> edges_of(const WayBack& way_back, EdgeId reduced);

/// The plan for the original problem. Its value is left 0.
SharedCostPlan expanded(const WayBack& way_back, const SharedCostPlan& reduced,
                        const std::vector<SharedCostEdge>& reduced_edges, const std::vector<RootOption>& reduced_roots);

/// The prices for the original problem: each piece's price is spread over its edges by their opening costs, the
/// pieces it beat get the same, and each demand's by its share. Rounding is downwards.
EdgePriceSet expanded(const WayBack& way_back, const EdgePriceSet& reduced, std::int64_t parts);

/// Prices of the original problem as prices of the reduced one, of the same parts: what is paid along a reduced edge's
/// pieces, by all that became part of a demand. They pay no more than the edge's opening cost where the prices given
/// pay no more than the pieces'.
EdgePriceSet contracted(const WayBack& way_back, const EdgePriceSet& original, std::size_t reduced_demands);

}  // namespace spadework::graph
