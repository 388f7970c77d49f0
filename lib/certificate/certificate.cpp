#include "certificate/certificate.hpp"

#include "certificate/pruning.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

BoundCertificate pruned_for(const Scenario& scenario, StrandUse use, const BoundCertificate& proof, Money direct) {
    if (!scenario.rules.either_strand_use) return pruned(scenario, proof, direct);
    return pruned(settled_on(scenario, use), proof, direct);
}

std::optional<OtherUseProof> other_use_of(const Scenario& scenario, const LayoutResult& result) {
    if (!result.other) return std::nullopt;
    const OtherStrandUse& other = *result.other;
    OtherUseProof proof{other.use, other.impossible, {}};
    if (!other.impossible) proof.proof = pruned_for(scenario, other.use, other.certificate, result.direct_bound);
    return proof;
}

}  // namespace

std::string file_name(LayoutKind layout) {
    return std::string(id_of(layout)) + ".certificate.json";
}

std::vector<Certificate> certificates_of(const Scenario& scenario, const Comparison& comparison) {
    std::vector<LayoutKind> all;
    for (const LayoutResult& result : comparison.layouts) {
        if (result.feasible()) all.push_back(result.layout);
    }
    std::vector<Certificate> certificates;
    for (const LayoutResult& result : comparison.layouts) {
        if (!result.feasible()) continue;
        const StrandUse use = result.plan->strand_use;
        certificates.push_back({scenario.name, scenario.digest, all, result.layout, result.total, result.bound,
                                result.direct_bound, *result.plan,
                                pruned_for(scenario, use, result.certificate, result.direct_bound),
                                other_use_of(scenario, result)});
    }
    return certificates;
}

}  // namespace spadework::certificate
