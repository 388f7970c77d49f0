#pragma once

// What proves a lower bound on a ChainProblem, so that anyone can check it from the problem alone.
//
// Let c_e = weight * length + multiplicity * passage be what a cable pays on edge e and F_e the edge's opening cost. A
// certificate names, in parts of a cost unit,
//
//   w_e    what every hop pays on e, 0 <= w_e <= c_e,
//   v^t_a  what stop t pays for arc a (an edge in one direction) on its way from the source, v^t_a >= 0,
//   u^t_e  what the hop that arrives at stop t pays on e besides w_e, u^t_e >= 0,
//   p_t    what visiting stop t earns, of either sign,
//   g_S    what a hop earns that enters S, a set of stops, from outside, g_S >= 0, for some sets,
//   N_t    stops that a route to stop t remembers,
//
// such that on every edge  max over its two directions of (sum over t of v^t_a) + sum over t of u^t_e <= F_e + c_e -
// w_e.
//
// Claim. Every plan costs at least  sum over t of D_t + sum over t of p_t + sum over S of g_S * m_S + R. D_t is the
// distance from the source to stop t under v^t, and m_S is |S| / longest_chain, rounded up. R is the least cost of a
// set of routes as follows. A route is a sequence of at most longest_chain stops that starts at the source; step p -> t
// costs H(p, t) - p_t less g_S of every set S that holds t and not p, with H(p, t) the distance from p to t under
// w + u^t; a route pays chain_cost less end_saving. No two routes of the set end at the same stop, and the routes'
// steps are as many as there are stops. A stop may be visited again only when it has been forgotten: after step p -> t
// a route remembers t and what it remembered before as far as N_t holds it (ng-routes: Baldacci, Mingozzi, Roberti,
// "New route relaxation and pricing strategies for the vehicle routing problem", Operations Research 59, 2011).
//
// Proof. Take a plan and let E' be the edges its hops use, n_e >= 1 how many hops pass e. The plan pays
// sum over E' of (F_e + n_e * c_e) + what its chains pay, and n_e * c_e >= n_e * w_e + (c_e - w_e), so it pays at least
//   (1) sum over E' of (F_e + c_e - w_e)  +  (2) sum over hops of w along the hop's path  +  (3) what its chains pay.
// E' joins source and stops, so it holds a tree that does, in which every edge is passed away from the source in one
// direction only. By the rule, (1) is at least the sum over t of v^t along the tree's way to t, which is D_t or more,
// plus the sum over t of u^t along the path of the hop that arrives at t (each edge once, since hops pass no vertex
// twice). The latter with (2) is at least the sum over the plan's hops p -> t of H(p, t). The plan's chains are routes
// that visit every stop once, so they end at different stops, have as many steps as there are stops, and forget nothing
// they would visit again; what their visits earn sums to the sum of p_t, which is added back. Each chain visits at most
// longest_chain stops of a set S, so m_S chains or more visit S, and each has a hop that enters it; of what these hops
// earn, m_S times g_S is added back, which is no more. So R and what is added back are together no more than the sum of
// H over the hops and (3). Distances and least costs are found in integers; every plan costs a whole number of units,
// so the sum is rounded up to one.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/chain_problem.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

/// How many stops a route to a stop may remember, itself left out.
constexpr std::size_t kMostNeighbours = 10;

/// What each hop earns that enters a set of stops.
struct EntryPrice {
    std::vector<std::int32_t> stops;  ///< S: at least one, none twice.
    Cost price = 0;                   ///< g, in parts.
};

struct ChainCertificate {
    std::vector<Cost> hop_charges;                      ///< By edge: w, in parts.
    EdgePriceSet joining_prices;                        ///< By stop: v, in parts, with the direction of the way there.
    EdgePriceSet arrival_prices;                        ///< By stop: u, in parts; the direction does not matter.
    EdgePriceSet closing_prices;                        ///< Of rings only: x, in parts; see ring_certificate.hpp.
    std::vector<Cost> pass_charges;                     ///< Of rings only: s, in parts, by edge, likewise.
    std::vector<Cost> visit_prices;                     ///< By stop: p, in parts.
    std::vector<EntryPrice> entry_prices;               ///< Of some sets of stops.
    std::vector<std::vector<std::int32_t>> neighbours;  ///< By stop: N, other stops, none twice.
    std::int64_t parts = 1;                             ///< How many parts make one cost unit. At least 1.
};

/// The bound that the certificate proves, found anew from the problem with simple code that nothing else uses. May be
/// negative, as ends of chains save; the largest Cost when some stop cannot be reached, since there is no plan then.
/// Nothing when the certificate breaks a rule (a figure out of its range, an unknown edge or stop, not one entry an
/// edge or a stop, prices above what an edge may pay) or the problem is not well formed.
std::optional<Cost> chain_bound_proved(const ChainProblem& problem, const ChainCertificate& certificate);

}  // namespace spadework::graph
