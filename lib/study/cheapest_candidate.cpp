#include "study/cheapest_candidate.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "comparison/verification.hpp"
#include "layout/assembly.hpp"

namespace spadework {

void CheapestCandidate::add(const Scenario& site, Design design, int tag) {
    if (!design.plan) {
        if (reason_.empty()) reason_ = design.reason;
        return;
    }
    const Money cost = cost_to_build(site, *design.plan);
    entries_.push_back({&site, std::move(design), cost, tag});
}

void CheapestCandidate::add(const Scenario& site, const std::optional<RoutedLayout>& routed, int tag) {
    if (!routed) return;
    Assembly assembly = assemble(site, *routed);
    Design design;
    design.layout = routed->kind;
    design.plan = std::move(assembly.plan);
    design.reason = assembly.reason;
    design.notes = std::move(assembly.notes);
    add(site, std::move(design), tag);
}

std::optional<CheapestCandidate::Found> CheapestCandidate::find(std::vector<std::string>& violations) const {
    std::vector<std::size_t> order(entries_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return entries_[a].cost < entries_[b].cost; });
    for (const std::size_t at : order) {
        const Entry& entry = entries_[at];
        LayoutResult result = assess(*entry.site, entry.design);
        if (!result.feasible()) continue;
        const std::vector<std::string> found = spadework::violations(*entry.site, result);
        violations.insert(violations.end(), found.begin(), found.end());
        return Found{std::move(result), entry.tag};
    }
    return std::nullopt;
}

}  // namespace spadework
