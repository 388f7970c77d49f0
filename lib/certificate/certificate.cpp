#include "certificate/certificate.hpp"

#include "certificate/pruning.hpp"

namespace spadework::certificate {

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
        certificates.push_back({scenario.name, scenario.digest, all, result.layout, result.total, result.bound,
                                result.direct_bound, *result.plan,
                                pruned(scenario, result.certificate, result.direct_bound)});
    }
    return certificates;
}

}  // namespace spadework::certificate
