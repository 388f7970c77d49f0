#pragma once

// A point of the dual in floating point as a certificate in whole numbers that keeps the rules exactly.

#include "graph/chain_certificate.hpp"
#include "graph/chain_prices.hpp"

namespace spadework::graph::chains {

/// The best prices so far. Prices on joined edges are shared out among the problem's edges in proportion to what each
/// may pay, and rounded down; what rounding still leaves above an edge's means is taken off. `largest_plan` is what
/// plans cost about.
ChainCertificate certificate_of(const ChainProblem& problem, const ForkNetwork& network, const ChainPrices& prices,
                                Cost largest_plan);

}  // namespace spadework::graph::chains
