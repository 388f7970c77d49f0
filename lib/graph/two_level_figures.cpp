#include "graph/two_level_figures.hpp"

#include <algorithm>
#include <cmath>

#include "graph/saturating.hpp"
#include "graph/two_level_solver.hpp"

namespace spadework::graph {

std::int64_t units_needed(const TwoLevelProblem& problem, std::int64_t served) {
    // The tolerance keeps a share such as 0.07 of 100 from being rounded up to 8 by its binary form.
    const double share = std::ceil(problem.spare_share * static_cast<double>(served) - 1e-9);
    const double largest = 4e18;
    if (!(share < largest)) return std::numeric_limits<std::int64_t>::max();
    return saturated(static_cast<WideCost>(served) + problem.spare_units +
                     std::max<std::int64_t>(0, static_cast<std::int64_t>(share)));
}

namespace two_level {

WideCost most_possible(const TwoLevelProblem& problem) {
    WideCost opening = 0;
    WideCost length = 0;
    WideCost passage = 0;
    for (const SharedCostEdge& e : problem.edges) {
        opening += e.opening;
        length += e.length;
        passage += e.passage;
    }
    WideCost weight = 0;
    WideCost multiplicity = 0;
    WideCost fixed = 0;
    for (const TwoLevelDemand& d : problem.demands) {
        weight += d.weight;
        multiplicity += d.multiplicity;
        if (!d.direct) continue;
        weight += d.direct->weight;
        multiplicity += d.direct->multiplicity;
        fixed += d.direct->fixed < 0 ? -static_cast<WideCost>(d.direct->fixed) : d.direct->fixed;
    }
    const auto most = static_cast<WideCost>(
        std::min<std::size_t>(problem.sites.size(), static_cast<std::size_t>(std::max(problem.most_sites, 0))));
    WideCost dearest_weight = 0;
    WideCost dearest_multiplicity = 0;
    WideCost dearest_fixed = 0;
    for (const FeederSize& s : problem.sizes) {
        dearest_weight = std::max<WideCost>(dearest_weight, s.weight);
        dearest_multiplicity = std::max<WideCost>(dearest_multiplicity, s.multiplicity);
        dearest_fixed = std::max<WideCost>(dearest_fixed, s.fixed);
    }
    for (const Site& s : problem.sites) {
        fixed += s.cost;
        for (const Cost extra : s.feeder_extra)
            fixed += extra;
    }
    const WideCost limit = WideCost{1} << 62;  // Factors above it would overflow the products below.
    for (const WideCost v : {opening, length, passage, weight, multiplicity, dearest_weight, dearest_multiplicity}) {
        if (v >= limit) return limit;
    }
    weight += most * dearest_weight;
    multiplicity += most * dearest_multiplicity;
    if (weight >= limit || multiplicity >= limit) return limit;
    return opening + fixed + most * dearest_fixed + weight * length + multiplicity * passage;
}

bool well_formed(const TwoLevelProblem& problem) {
    const auto exists = [&](VertexId v) { return v >= 0 && v < problem.vertex_count; };
    const auto good_edge = [&](const SharedCostEdge& e) {
        return exists(e.tail) && exists(e.head) && e.opening >= 0 && e.length >= 0 && e.passage >= 0;
    };
    const auto good_demand = [&](const TwoLevelDemand& d) {
        return exists(d.at) && d.weight >= 0 && d.multiplicity >= 0 && d.units >= 0 &&
               (!d.direct || (d.direct->weight >= 0 && d.direct->multiplicity >= 0));
    };
    const auto good_site = [&](const Site& s) {
        return exists(s.at) && s.cost >= 0 &&
               (s.feeder_extra.empty() || s.feeder_extra.size() == problem.sizes.size()) &&
               std::all_of(s.feeder_extra.begin(), s.feeder_extra.end(), [](Cost extra) { return extra >= 0; });
    };
    const auto good_size = [](const FeederSize& s) {
        return s.units >= 0 && s.weight >= 0 && s.multiplicity >= 0 && s.fixed >= 0;
    };
    const auto ascending = [](const FeederSize& a, const FeederSize& b) { return a.units < b.units; };
    const auto& sizes = problem.sizes;
    return exists(problem.source) && problem.spare_units >= 0 && problem.spare_share >= 0 &&
           std::isfinite(problem.spare_share) && std::all_of(problem.edges.begin(), problem.edges.end(), good_edge) &&
           std::all_of(problem.demands.begin(), problem.demands.end(), good_demand) &&
           std::all_of(problem.sites.begin(), problem.sites.end(), good_site) &&
           std::all_of(sizes.begin(), sizes.end(), good_size) &&
           std::is_sorted(sizes.begin(), sizes.end(), ascending) && most_possible(problem) < (WideCost{1} << 58);
}

std::vector<Feeder> usable_feeders(const TwoLevelProblem& problem) {
    WideCost all = 0;
    for (const TwoLevelDemand& d : problem.demands)
        all += d.units;
    std::vector<Feeder> feeders;
    for (std::size_t s = 0; s < problem.sizes.size(); ++s) {
        const FeederSize& size = problem.sizes[s];
        if (units_needed(problem, 0) > size.units) continue;
        std::int64_t low = 0;  // Serves this many for certain; bisection up to what all demands together ask for.
        std::int64_t high = saturated(all);
        while (low < high) {
            const std::int64_t middle = high - (high - low) / 2;
            if (units_needed(problem, middle) <= size.units) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        feeders.push_back({static_cast<std::int32_t>(s), low, {size.weight, size.multiplicity}, size.fixed});
    }
    return feeders;
}

const Feeder* cheapest_feeder(const std::vector<Feeder>& feeders, const Site& site, std::int64_t units, Length length,
                              Cost passage) {
    const Feeder* best = nullptr;
    for (const Feeder& f : feeders) {
        if (f.serves < units) continue;
        if (best == nullptr || feeder_cost(f, site, length, passage) < feeder_cost(*best, site, length, passage))
            best = &f;
    }
    return best;
}

}  // namespace two_level

}  // namespace spadework::graph
