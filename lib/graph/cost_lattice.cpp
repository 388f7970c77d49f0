#include "graph/cost_lattice.hpp"

#include <numeric>

#include "graph/saturating.hpp"

namespace spadework::graph {

Cost lattice_step(const SharedCostProblem& problem) {
    Cost opening = 0;
    Cost length = 0;
    Cost passage = 0;
    for (const SharedCostEdge& edge : problem.edges) {
        opening = std::gcd(opening, edge.opening);
        length = std::gcd(length, edge.length);
        passage = std::gcd(passage, edge.passage);
    }
    Cost weight = 0;
    Cost multiplicity = 0;
    for (const Demand& demand : problem.demands) {
        weight = std::gcd(weight, demand.weight);
        multiplicity = std::gcd(multiplicity, demand.multiplicity);
    }
    // The divisor of all products of two lists is the product of the lists' divisors.
    const Cost by_length = times(weight, length);
    const Cost by_passage = times(multiplicity, passage);
    if (by_length == kLargestCost || by_passage == kLargestCost) return 1;
    return std::gcd(opening, std::gcd(by_length, by_passage));
}

}  // namespace spadework::graph
