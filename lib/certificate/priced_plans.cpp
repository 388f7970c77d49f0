#include "certificate/priced_plans.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

namespace spadework::certificate {

namespace {

using Parts = std::vector<const graph::PartProof*>;

/// Whether parts whose first choices, so many, are alike are all plans of these choices: one part with no choice more,
/// or two lots by the same edge, of the plans that use it and of those that do not, each of which is all of its kind.
bool are_all(const Parts& parts, std::size_t alike) {
    if (parts.size() == 1 && parts.front()->choices.size() == alike) return true;
    std::map<bool, Parts> lots;
    std::set<graph::EdgeId> edges;
    for (const graph::PartProof* part : parts) {
        if (part->choices.size() <= alike) return false;
        edges.insert(part->choices[alike].edge);
        lots[part->choices[alike].used].push_back(part);
    }
    return edges.size() == 1 && lots.size() == 2 && are_all(lots[true], alike + 1) && are_all(lots[false], alike + 1);
}

}  // namespace

PricedPlans all_plans(const RoutesEvidence& evidence, std::size_t set) {
    PricedPlans plans{&evidence.prices[set], evidence.parts, {}, std::vector<char>(evidence.edges.size(), 0), 0};
    for (const CertifiedEdge& edge : evidence.edges)
        plans.openings.push_back(edge.opening);
    return plans;
}

PricedPlans plans_of(const RoutesEvidence& evidence, const graph::PartProof& part) {
    PricedPlans plans{&part.prices, part.parts, {}, std::vector<char>(evidence.edges.size(), 0), 0};
    for (const CertifiedEdge& edge : evidence.edges)
        plans.openings.push_back(edge.opening);
    for (const graph::EdgeChoice choice : part.choices) {
        const auto e = static_cast<std::size_t>(choice.edge);
        if (choice.used) {
            plans.opened += std::exchange(plans.openings[e], 0);
        } else {
            plans.closed[e] = 1;
        }
    }
    return plans;
}

std::string split_fault(const RoutesEvidence& evidence) {
    Parts parts;
    for (const graph::PartProof& part : evidence.splits) {
        std::set<graph::EdgeId> chosen;
        for (const graph::EdgeChoice choice : part.choices) {
            const bool known = choice.edge >= 0 && static_cast<std::size_t>(choice.edge) < evidence.edges.size();
            if (!known || !chosen.insert(choice.edge).second) {
                return fmt::format("a split is by edge {}, which is not there or was chosen before", choice.edge);
            }
        }
        parts.push_back(&part);
    }
    if (parts.empty() || are_all(parts, 0)) return "";
    return "the splits are not all plans: of each edge that they choose both sides have to be there";
}

}  // namespace spadework::certificate
