#include "layout/bound_certificate.hpp"

#include <algorithm>

namespace spadework {

namespace {

RoutesEvidence evidence(Money constant, const Network& plain, const Network& on, const ProvedProblem& proof) {
    RoutesEvidence evidence;
    evidence.constant = constant;
    evidence.units_a_minor = on.scale.per_minor;
    for (std::size_t e = 0; e < proof.problem.edges.size(); ++e) {
        const graph::SharedCostEdge& edge = proof.problem.edges[e];
        const graph::Cost room_price = on.edges[e].passage - plain.edges[e].passage;
        const NetworkEdge& origin = on.origin[e];
        evidence.edges.push_back(
            {origin.segment, origin.way, edge.opening, edge.length, edge.passage, origin.room, room_price});
    }
    evidence.demands = proof.problem.demands;
    evidence.roots = proof.problem.roots;
    evidence.parts = proof.certificate.parts;
    evidence.prices.push_back(proof.certificate.prices);
    const auto& more = proof.certificate.more_prices;
    evidence.prices.insert(evidence.prices.end(), more.begin(), more.end());
    return evidence;
}

}  // namespace

void BoundCertificate::add(const BoundCertificate& other) {
    for (const auto& evidence : other.routes) {
        if (std::find(routes.begin(), routes.end(), evidence) == routes.end()) routes.push_back(evidence);
    }
}

BoundCertificate certified(Money constant, const Network& plain, const Network& on,
                           const std::vector<ProvedProblem>& proofs) {
    BoundCertificate certificate;
    for (const ProvedProblem& proof : proofs)
        certificate.routes.push_back(std::make_shared<const RoutesEvidence>(evidence(constant, plain, on, proof)));
    return certificate;
}

}  // namespace spadework
