#include "layout/bound_certificate.hpp"

#include <algorithm>

namespace spadework {

namespace {

/// The edges of a problem, which may count less than the network they stand for.
std::vector<CertifiedEdge> certified_edges(const Network& plain, const Network& on,
                                           const std::vector<graph::SharedCostEdge>& edges) {
    std::vector<CertifiedEdge> certified;
    for (std::size_t e = 0; e < edges.size(); ++e) {
        const NetworkEdge& origin = on.origin[e];
        const graph::Cost room_price = on.edges[e].passage - plain.edges[e].passage;
        certified.push_back(
            {origin.segment, origin.way, edges[e].opening, edges[e].length, edges[e].passage, origin.room, room_price});
    }
    return certified;
}

RoutesEvidence evidence(Money constant, const Network& plain, const Network& on, const ProvedProblem& proof) {
    RoutesEvidence evidence;
    evidence.constant = constant;
    evidence.units_a_minor = on.scale.per_minor;
    evidence.edges = certified_edges(plain, on, proof.problem.edges);
    evidence.demands = proof.problem.demands;
    evidence.roots = proof.problem.roots;
    evidence.parts = proof.certificate.parts;
    evidence.prices.push_back(proof.certificate.prices);
    const auto& more = proof.certificate.more_prices;
    evidence.prices.insert(evidence.prices.end(), more.begin(), more.end());
    evidence.splits = proof.certificate.splits;
    return evidence;
}

}  // namespace

void BoundCertificate::add(const BoundCertificate& other) {
    for (const auto& evidence : other.routes) {
        if (std::find(routes.begin(), routes.end(), evidence) == routes.end()) routes.push_back(evidence);
    }
}

BoundCertificate certified(Money constant, const Network& plain, const Network& on, const SolverProof& proof) {
    BoundCertificate certificate;
    for (const ProvedProblem& routes : proof.routes)
        certificate.routes.push_back(std::make_shared<const RoutesEvidence>(evidence(constant, plain, on, routes)));
    if (proof.trunks) {
        const graph::TwoLevelProblem& problem = proof.trunks->problem;
        certificate.trunks = std::make_shared<const TrunkEvidence>(
            TrunkEvidence{constant, on.scale.per_minor, certified_edges(plain, on, problem.edges), problem.demands,
                          problem.sites, problem.sizes, proof.trunks->certificate});
    }
    if (proof.chains) {
        const graph::ChainProblem& problem = proof.chains->problem;
        certificate.chains = std::make_shared<const ChainEvidence>(
            ChainEvidence{constant, on.scale.per_minor, certified_edges(plain, on, problem.edges), problem.weight,
                          problem.multiplicity, problem.chain_cost, problem.end_saving, proof.chains->certificate});
    }
    return certificate;
}

}  // namespace spadework
