#pragma once

// What proves a lower bound on a RingProblem, so that anyone can check it from the problem alone.
//
// A ChainCertificate for the problem's rings without their closings (open_rings), where v^t_e belongs to an edge in
// either direction, with more prices:
//
//   x^t_e  what the hop that closes a ring whose last stop is t pays on e besides w_e, x^t_e >= 0,
//   s_e    what each stop pays whenever a way of it passes e, s_e >= 0, w_e + longest_ring * s_e <= c_e,
//
// such that on every edge  sum over t of (v^t_e + u^t_e + x^t_e) <= F_e + c_e - w_e - longest_ring * s_e.
//
// Claim. Every plan that keeps the rule on cuts costs at least what that certificate's claim adds up, where now D_t is
// the least that two ways from the source to stop t cost that have no cut in common but bridges of the network: v^t on
// every edge of either, counted once, and s for every pass. R is the least cost of a set of routes as in
// chain_certificate.hpp, except that a route which ends at stop t pays the distance from t to the source under w + x^t
// besides.
//
// Proof. As there, with these differences. Let n_e count the hops that close rings too; (2) then holds, for these hops,
// w along their paths, and what is left of (1) is longest_ring * s_e less on every edge and n_e * longest_ring * s_e
// more. By the rule, the ring of stop t reaches t from either side by hops that have no cut in common but bridges, so
// the edges in use hold two such ways. What these two pay by v on an edge, for all stops, is within (1) together with
// what hops pay beyond w, each on an edge once. What they pay by s is as well: a pass of a ring over e is a pass of at
// most longest_ring stops' ways. (Two ways for each stop with openings shared: the flow model of two-connected
// networks; Magnanti and Raghavan, "Strong formulations for network design problems with connectivity requirements",
// Networks 45, 2005.)

#include <optional>
#include <vector>

#include "graph/chain_certificate.hpp"
#include "graph/ring_problem.hpp"

namespace spadework::graph {

/// The problem without the hops that close rings.
ChainProblem open_rings(const RingProblem& problem);

/// The bound that the certificate proves, found anew; as chain_bound_proved.
std::optional<Cost> ring_bound_proved(const RingProblem& problem, const ChainCertificate& certificate);

}  // namespace spadework::graph
